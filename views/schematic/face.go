package schematic

import (
	"math"

	"spotward/optics"
	"spotward/views/terminal/theme"
)

// FaceSpec is a face as somebody sees it who stands where they should: the
// thing itself, the hours round it, and the spots on it.
type FaceSpec struct {
	// RimMM is what the rim of the drawing stands for, mm from the middle.
	RimMM float64
	// Object is what is seen there; nil is a bare dial.
	Object Object
	// Standing says where one stands, in a line or two.
	Standing []string
	// FocuserHour is where the focuser stands as seen from there. It is drawn
	// where FocuserWord is not empty.
	FocuserHour float64
	FocuserWord string
	// TurnHours turns the whole dial clockwise on the screen, for somebody
	// whose own up is not the screen's. Words stay upright.
	TurnHours float64
	// Ground draws the ground below six o'clock.
	Ground bool
	// MarkScale makes marks larger; 0 = 1.
	MarkScale float64

	Now   *Mark  // where the spot is
	Ghost *Mark  // where the typed text would put it
	Cue   *Mark  // where to stop
	Legs  []Leg  // the way there and on
	Trail []Mark // where it was before, oldest first; words are look numbers
}

// Mark is a point on a face and the word beside it.
type Mark struct {
	At   optics.Dial
	Word string
}

// Leg is a stretch of the way that the spot is going to take.
type Leg struct {
	From, To optics.Dial
	// Second is a leg that is foretold and not yet asked for: drawn fainter.
	Second bool
}

// Object is a thing that spots fall on, drawn inside the rim.
type Object interface {
	draw(d dial)
	// rim says how the rim of the drawing is drawn when it stands for rimMM:
	// as an edge of the thing, or as the mere end of the drawing.
	isEdge(rimMM float64) bool
}

// Face draws a face at p.
func (c *Canvas) Face(p Place, s FaceSpec) {
	d, ok := c.dialAt(p, s)
	if !ok {
		return
	}
	d.rim(s)
	if s.Object != nil {
		s.Object.draw(d)
	}
	d.marks(s)
	d.hours()
	d.focuser(s)
	if s.Ground && s.TurnHours == 0 {
		d.ground()
	}
	d.standing(s.Standing)
	d.words(s)
}

// dial is a frame with the scale and the turn of a face.
type dial struct {
	frame
	r    float64 // radius of the rim, columns
	mm   float64 // columns a mm
	turn float64 // clockwise, rad
	size float64 // of marks
}

// dialAt returns the dial of s at p, or false where nothing can be drawn.
func (c *Canvas) dialAt(p Place, s FaceSpec) (dial, bool) {
	if !(s.RimMM > 0 && p.R > 0 && p.R < maxSide) || math.IsInf(s.RimMM, 1) {
		return dial{}, false
	}
	d := dial{frame: c.frameAt(p.Col, p.Row), r: p.R, mm: p.R / s.RimMM,
		turn: s.TurnHours * math.Pi / 6, size: s.MarkScale}
	if d.size == 0 {
		d.size = 1
	}
	return d, true
}

// at returns where a point of the face is, in columns from the middle.
func (d dial) at(p optics.Dial) (x, y float64) {
	return d.turned(d.mm*p.Right, d.mm*p.Up)
}

// turned turns an offset as the dial is turned.
func (d dial) turned(x, y float64) (float64, float64) {
	if d.turn == 0 {
		return x, y
	}
	s, c := math.Sincos(d.turn)
	return x*c + y*s, y*c - x*s
}

// ray returns the direction of an hour on the screen.
func (d dial) ray(hour float64) (x, y float64) {
	s, c := math.Sincos(hour*math.Pi/6 + d.turn)
	return exact(s), exact(c)
}

// exact takes the rounding error off sines and cosines that are 0, so that
// what lies on an axis is drawn on it.
func exact(v float64) float64 {
	if math.Abs(v) < 1e-9 {
		return 0
	}
	return v
}

// near returns a dial that measures from a point of the face, moved to the
// nearest half dot.
func (d dial) near(p optics.Dial) frame {
	f := d.frame
	i, j := f.point(d.at(p))
	f.x0, f.y0 = halfStep(i), halfStep(j)
	return f
}

func halfStep(v float64) float64 { return math.Floor(2*v+0.5) / 2 }

// rim draws the edge of the drawing and the ticks of the hours inside it.
func (d dial) rim(s FaceSpec) {
	p := pen{onRim, theme.Label}
	d.dots(d.circle(d.r, nil), p)
	for hour := range 12 {
		d.tick(hour, p)
	}
}

// tick draws the tick of an hour inside the rim, a dot apart from it: one dot,
// or three at the quarters.
func (d dial) tick(hour int, p pen) {
	n := 1
	if hour%3 == 0 {
		n = 3
	}
	x, y := d.ray(float64(hour))
	for k := range n {
		// Half a column is a dot.
		r := d.r - 1 - 0.75*float64(k)
		for _, at := range d.straddle(x*r, y*r) {
			d.c.dot(at, p)
		}
	}
}

// straddle returns the dots at (x, y): one, or where it lies on an axis the two
// on both sides, since the middle of the dial lies between dots.
func (d dial) straddle(x, y float64) []dot {
	i, j := d.point(x, y)
	switch {
	case x == 0 && frac(i) != 0:
		return []dot{{int(i), round(j)}, {int(i) + 1, round(j)}}
	case y == 0 && frac(j) != 0:
		return []dot{{round(i), int(j)}, {round(i), int(j) + 1}}
	}
	return []dot{{round(i), round(j)}}
}

// hours writes 12, 3, 6 and 9 outside the rim.
func (d dial) hours() {
	for hour, word := range map[float64]string{0: "12", 3: "3", 6: "6", 9: "9"} {
		d.label(hour, 0, theme.Ink, word)
	}
}

// label writes a word outside the rim at an hour, out columns farther than it
// must be to clear the rim.
func (d dial) label(hour, out float64, role theme.Role, word string) {
	x, y := d.ray(hour)
	w := float64(Width(word))
	r := d.r + 0.6 + out + math.Abs(x)*w/2 + math.Abs(y)*d.c.aspect/2
	col := round(d.col() + x*r - (w-1)/2)
	row := round(d.row() - y*r/d.c.aspect)
	d.c.Text(col, row, role, word)
}

// focuser draws the stub of the focuser outside the rim and the word beside it.
func (d dial) focuser(s FaceSpec) {
	if s.FocuserWord == "" {
		return
	}
	x, y := d.ray(s.FocuserHour)
	stub := d.fill(d.r+2, func(u, v float64) bool {
		out, along := u*x+v*y, math.Abs(u*y-v*x)
		return out-d.r >= 0.6 && out-d.r <= 1.7 && along <= 1.5
	})
	d.dots(stub, pen{onRim, theme.Ink})
	d.label(s.FocuserHour, 1.8, theme.Label, s.FocuserWord)
}

// ground draws the ground on both sides of the six.
func (d dial) ground() {
	row := d.labelRow(-1)
	for k := 2; k < 8; k++ {
		for _, side := range []int{-1, 1} {
			d.c.put(round(d.col())+side*k, row, d.c.groundGlyph(), 1, theme.Line)
		}
	}
}

// labelRow returns the row of the labels at 12 (1) and at 6 (-1).
func (d dial) labelRow(up float64) int {
	r := d.r + 0.6 + d.c.aspect/2
	return round(d.row() - up*r/d.c.aspect)
}

func (c *Canvas) groundGlyph() string {
	if c.ASCII() {
		return "/"
	}
	return "⠝"
}

// standing writes where one stands, at the top left of the drawing.
func (d dial) standing(lines []string) {
	col := max(1, int(d.col()-d.r-3))
	for i, line := range lines {
		d.c.Text(col, d.labelRow(1)+i, theme.Ink, line)
	}
}
