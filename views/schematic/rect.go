package schematic

// Rect is a block of cells: its top left corner and its size.
type Rect struct{ X, Y, W, H int }

// Place is where a round drawing stands: its middle cell and its radius in
// columns (as many columns as the middle of the rim is away at 3 o'clock).
type Place struct {
	Col, Row int
	R        float64
}

// clip returns the part of r that lies on the canvas; all of the canvas for the
// zero Rect.
func (c *Canvas) clip(r Rect) Rect {
	if r == (Rect{}) {
		return Rect{0, 0, c.cols, c.rows}
	}
	x, y := clamp(r.X, 0, c.cols), clamp(r.Y, 0, c.rows)
	return Rect{x, y, clamp(r.X+r.W-x, 0, c.cols-x), clamp(r.Y+r.H-y, 0, c.rows-y)}
}

// run returns how many of width columns from col on can be on the canvas.
func (c *Canvas) run(col, width int) int { return min(width, c.cols-col) }
