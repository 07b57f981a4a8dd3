package schematic

import (
	"math"

	"spotward/optics"
	"spotward/views/theme"
)

// FaceSpec is a face as somebody sees it who stands where they should: the
// thing itself, the hours round it, and the spots on it.
type FaceSpec struct {
	// RimMM is what the rim of the drawing stands for, mm from the middle.
	RimMM float64
	// RimWord says so beside it, "" for nothing: "rim 12 mm".
	RimWord string
	// Object is what is seen there; nil is a bare dial.
	Object Object
	// Scale says in a line or two what the outline is and how wide: "mirror",
	// "250 mm". A scale bar stands in another corner.
	Scale []string
	// Lies says how the dial lies on the screen where it is turned: "12 is",
	// "down".
	Lies []string
	// Ruler is what places are typed in there beside mm; the bar is then as
	// long as one or more of it, if that is large enough to measure by.
	Ruler Ruler
	// Standing says where one stands, in a line or two.
	Standing []string
	// FocuserHour is where the focuser stands as seen from there, away from
	// the tube's axis.
	FocuserHour float64
	// FocuserWord is written beside the focuser's stub; "" draws neither.
	FocuserWord string
	// GroundWord is written on the ground below six o'clock; "" draws none.
	GroundWord string
	// TurnHours turns the whole dial clockwise on the screen, for somebody
	// whose own up is not the screen's. Words stay upright.
	TurnHours float64
	// Unmeasured is a drawing that nobody measures by: it has no scale bar.
	Unmeasured bool
	// Bare draws the thing alone, without the hours it is read by.
	Bare bool
	// MarkScale makes marks larger; 0 = 1. Up to 2.
	MarkScale float64
	// Within is where words may stand; the zero Rect is the whole canvas.
	Within Rect

	Now   *Mark  // where the spot is
	Ghost *Mark  // where the typed text would put it
	Cue   *Mark  // where to stop
	Legs  []Leg  // the way there and on
	Trail []Mark // where it was before, oldest first; words are look numbers
	// Onward is a trail that goes on from Now, where others lead to it.
	Onward bool
	Calls  []Mark // where several people say that it is
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

// RimFor returns the smallest of the given rims (mm, ascending) that holds
// every mark of s, or the last.
func RimFor(s FaceSpec, rimsMM ...float64) float64 {
	far := 0.0
	for _, m := range append(s.Trail[:len(s.Trail):len(s.Trail)], s.Calls...) {
		far = math.Max(far, m.At.Len())
	}
	for _, m := range []*Mark{s.Now, s.Ghost, s.Cue} {
		if m != nil {
			far = math.Max(far, m.At.Len())
		}
	}
	rim := 0.0
	for _, rim = range rimsMM {
		if far <= rim*rimHolds {
			break
		}
	}
	return rim
}

// rimHolds is how much of a rim's radius marks may use: they need room to be
// seen whole.
const rimHolds = 0.93

// Face draws a face at p.
func (c *Canvas) Face(p Place, s FaceSpec) {
	d, ok := c.dialAt(p, s)
	if !ok {
		return
	}
	d.rim(s.Object)
	if s.Object != nil {
		s.Object.draw(d)
	}
	d.marks(s)
	d.standing(s.Standing)
	if s.FocuserWord != "" {
		d.stub(s.FocuserHour)
	}
	d.corners(s)
	d.hours()
	d.markWords(s)
	if s.FocuserWord != "" {
		d.focuserWord(s.FocuserHour, s.FocuserWord)
	}
	if o, ok := s.Object.(worded); ok {
		o.words(d)
	}
	if s.RimWord != "" {
		x, y := d.ray(rimWordHour)
		d.outside(x, y, theme.Label, s.RimWord)
	}
}

// rimWordHour is where the rim's figure stands, out of the way of the hours.
const rimWordHour = 7.5

// dial is a frame with the scale and the turn of a face.
type dial struct {
	frame
	r       float64 // radius of the rim, columns
	mm      float64 // columns a mm
	turn    float64 // clockwise, rad
	size    float64 // of marks
	focuser float64 // hour
	bare    bool    // without hours
	within  Rect
}

// dialAt returns the dial of s at p, or false where nothing can be drawn.
func (c *Canvas) dialAt(p Place, s FaceSpec) (dial, bool) {
	if !(s.RimMM > 0 && p.R > 0 && p.R < maxSide) || math.IsInf(s.RimMM, 1) {
		return dial{}, false
	}
	d := dial{frame: c.frameAt(p.Col, p.Row), r: p.R, mm: p.R / s.RimMM,
		turn: s.TurnHours * math.Pi / 6, size: 1, focuser: s.FocuserHour, bare: s.Bare}
	if s.MarkScale > 0 {
		d.size = math.Min(s.MarkScale, 2)
	}
	d.within = c.clip(s.Within)
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

// upright reports whether 12 o'clock is up on the screen.
func (d dial) upright() bool { return d.turn == 0 }

// standing writes where one stands, at the top left of the drawing, a row above
// it where there is one.
func (d dial) standing(lines []string) {
	col, row := max(d.within.X, 1, int(d.col()-d.r-3)), d.rowOut(1)
	if row > d.within.Y && len(lines) > 1 {
		row--
	}
	row = max(row, d.within.Y)
	for i, line := range lines {
		d.c.Text(col, row+i, theme.Ink, line)
	}
}

// rowOut returns the row of the labels above the rim (1) or below it (-1).
func (d dial) rowOut(up float64) int {
	return round(d.row() - up*(d.r+0.6+d.c.aspect/2)/d.c.aspect)
}
