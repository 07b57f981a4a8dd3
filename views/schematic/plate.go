package schematic

import (
	"math"

	"spotward/views/theme"
)

// PlateSpec is a mirror's screws and locks as seen by somebody who faces their
// heads.
type PlateSpec struct {
	Screws      []Screw
	BoltWord    string // beside the centre bolt, which is never touched; "" = there is none
	LockWord    string // says below the plate what the small squares are; "" = nothing
	Standing    []string
	FocuserHour float64
	FocuserWord string // "" draws no focuser
	GroundWord  string
	Within      Rect // where words may stand; zero = the whole canvas
}

// Screw is an adjusting screw or a lock on a plate.
type Screw struct {
	Label string // "" for a lock that is not to be named
	Hour  float64
	Lock  bool
	// Turn marks the one to turn: 1 clockwise, -1 anticlockwise, 0 not this.
	Turn int
}

// Where screws and locks stand, in radii of the plate, and their size, columns.
const (
	screwsAt   = 0.52
	locksAt    = 0.8
	screwR     = 1.75
	turnR      = 2.75
	lockTurnR  = 1.75
	plateSmall = 6.0 // below this radius letters stand alone
)

// Plate draws the screws at p. Locks are small squares.
func (c *Canvas) Plate(p Place, s PlateSpec) {
	d, ok := c.dialAt(p, FaceSpec{RimMM: 1, FocuserHour: s.FocuserHour, Within: s.Within})
	if !ok {
		return
	}
	d.dots(d.circle(d.r, 1, nil), pen{onRim, theme.Label})
	if s.BoltWord != "" {
		d.dots(d.fill(1, func(x, y float64) bool { return math.Hypot(x, y) <= 0.8 }), pen{onRim, theme.Label})
	}
	for _, screw := range s.Screws {
		d.screw(screw)
	}
	d.hours()
	d.standing(s.Standing)
	d.ground(s.GroundWord)
	if s.FocuserWord != "" {
		d.stub(s.FocuserHour)
		d.focuserWord(s.FocuserHour, s.FocuserWord)
	}
	if s.BoltWord != "" {
		d.nearestFree(0, 0, 0, theme.Label, s.BoltWord)
	}
	if s.LockWord != "" {
		d.legend(s.LockWord)
	}
}

// screw draws one screw round the middle of the cell nearest to it, where its
// letter stands.
func (d dial) screw(s Screw) {
	at := screwsAt
	if s.Lock {
		at = locksAt
	}
	x, y := d.ray(s.Hour)
	col, row := d.cell(x*at*d.r, y*at*d.r)
	f := d.c.frameAt(col, row)
	ring, letter := theme.Label, theme.Ink
	if s.Turn != 0 {
		ring, letter = theme.Act, theme.Act
	}
	switch {
	case d.c.ASCII() || d.r < plateSmall:
		d.plainScrew(col, row, s, letter)
		return
	case s.Turn != 0:
		r := turnR
		if s.Lock {
			r = lockTurnR
		}
		f.turnMark(r, s.Turn)
	case s.Lock:
		f.dots(f.square(), pen{onHole, ring})
	default:
		f.dots(f.circle(screwR, 1, nil), pen{onHole, ring})
	}
	if !s.Lock || s.Turn != 0 {
		d.c.Text(col, row, letter, s.Label)
	}
}

// plainScrew draws a screw in letters: its label, brackets round the one to
// turn, and a small "x" for a lock.
func (d dial) plainScrew(col, row int, s Screw, role theme.Role) {
	label := s.Label
	if s.Lock && s.Turn == 0 {
		label = "x"
	}
	if s.Turn != 0 {
		d.c.Text(col-1, row, role, "("+label+")")
		return
	}
	d.c.Text(col, row, role, label)
}

// turnMark draws an arc with a head: the sense of a turn, not its amount.
func (f frame) turnMark(r float64, sense int) {
	const part = 2.0 / 3
	from := -6 * part * float64(sense)
	k := newKey(r, KeySpec{FromHour: from, Turns: part * float64(sense)})
	k.wide *= 0.8
	for _, in := range []func(x, y float64) bool{k.arc, k.head} {
		f.dots(f.fill(r+2*k.wide, in), pen{onCue, theme.Act})
	}
}

// square returns the dots of a lock.
func (f frame) square() []dot {
	return f.fill(1, func(x, y float64) bool { return math.Max(math.Abs(x), math.Abs(y)) <= 0.5 })
}

// legend says below the plate, on the right, what a lock looks like.
func (d dial) legend(word string) {
	col, row := round(d.col()+d.r*0.9), d.rowOut(-1)
	if d.c.ASCII() {
		d.c.Text(col, row, theme.Label, "x "+word)
		return
	}
	f := d.c.frameAt(col, row)
	f.dots(f.square(), pen{onHole, theme.Label})
	d.c.Text(col+2, row, theme.Label, word)
}
