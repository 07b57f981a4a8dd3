package schematic

// Rect is a block of cells: its top left corner and its size.
type Rect struct{ X, Y, W, H int }

// Place is where a round drawing stands: its middle cell and its radius in
// columns (as many columns as the middle of the rim is away at 3 o'clock).
type Place struct {
	Col, Row int
	R        float64
}
