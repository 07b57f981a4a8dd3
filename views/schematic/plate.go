package schematic

import (
	"math"

	"spotward/views/theme"
)

// PlateSpec is a mirror's screws and locks as seen by somebody who faces their
// heads: the primary's cell, or the secondary's hub in its vanes.
type PlateSpec struct {
	Hub         bool // the secondary's, four vanes as most have them
	Screws      []Screw
	BoltWord    string // beside the centre bolt, which is never touched; "" = there is none
	LockWord    string // says below the plate what the small squares are; "" = nothing
	Standing    []string
	FocuserHour float64
	FocuserWord string // "" is a small plate beside a move: without words and hours
	GroundWord  string
	Within      Rect // where words may stand; zero = the whole canvas
}

// Screw is an adjusting screw or a lock on a plate.
type Screw struct {
	Label string // "" for a lock that is not to be named
	Hour  float64
	Lock  bool
	// Turns is how far the key's handle goes from 12 where this one is to be
	// turned, clockwise positive; 0 = not this one.
	Turns float64
}

// Where screws and locks stand, in radii of the plate, and their size, columns.
const (
	screwsAt   = 0.52
	locksAt    = 0.8
	screwR     = 1.75
	handleIn   = 1.1 // of a key's handle on a small plate
	handleR    = 2.75
	handleLong = 3.75 // on a large one
	plateSmall = 6.0  // below this radius letters stand alone, farther out
	smallAt    = 0.6
	hubPart    = 0.72 // of the radius is the hub, the rest its vanes
)

// Plate draws the screws at p. Locks are small squares.
func (c *Canvas) Plate(p Place, s PlateSpec) {
	d, ok := c.dialAt(p, FaceSpec{RimMM: 1, FocuserHour: s.FocuserHour, Within: s.Within})
	if !ok {
		return
	}
	small := d.r < plateSmall
	hub := d
	if s.Hub {
		hub.r *= hubPart
		d.vanes(hub.r)
		if small { // the letters need all of it
			hub.r = d.r
		}
	}
	d.dots(d.circle(hub.r, 1, nil), pen{onRim, theme.Label})
	if s.BoltWord != "" {
		d.dots(d.fill(1, func(x, y float64) bool { return math.Hypot(x, y) <= 0.8 }), pen{onRim, theme.Label})
	}
	for _, screw := range s.Screws {
		hub.screw(screw)
	}
	if small {
		d.stub(s.FocuserHour)
		d.footing()
		return
	}
	d.stub(s.FocuserHour)
	if s.FocuserWord == "" { // beside a move
		d.footing()
	} else {
		d.hours()
	}
	d.standing(s.Standing)
	d.ground(s.GroundWord)
	if s.FocuserWord != "" {
		d.focuserWord(s.FocuserHour, s.FocuserWord)
	}
	if s.BoltWord != "" && s.BoltWord != " " {
		d.nearestFree(0, 0, 0, theme.Label, s.BoltWord)
	}
	if s.LockWord != "" {
		d.legend(s.LockWord)
	}
}

// vanes draws the four vanes that hold a hub of radius r.
func (d dial) vanes(r float64) {
	for _, hour := range []float64{1.5, 4.5, 7.5, 10.5} {
		x, y := d.ray(hour)
		in, out := r, d.r
		if d.r < plateSmall {
			in, out = d.r+0.5, d.r+2
		}
		d.dots(d.line(x*in, y*in, x*out, y*out), pen{onRings, theme.Line})
	}
}

// footing draws the ground right below a small plate.
func (d dial) footing() {
	if d.c.ASCII() {
		return
	}
	y := -(d.r + 1)
	d.dots(d.line(-d.r*0.7, y, d.r*0.7, y), pen{onRings, theme.Line})
}

// screw draws one screw round the middle of the cell nearest to it, where its
// letter stands.
func (d dial) screw(s Screw) {
	col, row := d.screwCell(s)
	f := d.c.frameAt(col, row)
	letter := theme.Ink
	if s.Turns != 0 {
		letter = theme.Act
	}
	small := d.r < plateSmall
	switch {
	case s.Turns != 0 && !d.c.ASCII():
		if small {
			f.handle(s.Turns, handleIn, handleR)
			break
		}
		f.dots(f.circle(screwR, 1, nil), pen{onHole, theme.Act})
		f.handle(s.Turns, screwR+0.4, handleLong)
	case d.c.ASCII():
		d.plainScrew(col, row, s, letter)
		return
	case s.Lock && small:
		x, y := d.ray(s.Hour)
		d.dots([]dot{d.nearest(x*locksAt*d.r, y*locksAt*d.r)}, pen{onHole, theme.Label})
	case s.Lock:
		f.dots(f.square(), pen{onHole, theme.Label})
	case !small:
		f.dots(f.circle(screwR, 1, nil), pen{onHole, theme.Label})
	}
	if !s.Lock || s.Turns != 0 {
		d.c.Text(col, row, letter, s.Label)
	}
}

// screwCell returns the cell in which a screw's letter stands.
func (d dial) screwCell(s Screw) (col, row int) {
	at := screwsAt
	switch {
	case s.Lock:
		at = locksAt
	case d.r < plateSmall:
		at = smallAt
	}
	x, y := d.ray(s.Hour)
	return d.cell(x*at*d.r, y*at*d.r)
}

// plainScrew draws a screw in letters: its label, brackets round the one to
// turn, and a small "x" for a lock.
func (d dial) plainScrew(col, row int, s Screw, role theme.Role) {
	label := s.Label
	if s.Lock && s.Turns == 0 {
		if d.r < plateSmall {
			return
		}
		label = "x"
	}
	if s.Turns != 0 {
		d.c.Text(col-1, row, role, "("+label+")")
		return
	}
	d.c.Text(col, row, role, label)
}

// handle draws the key's handle over a screw, from in to out columns: thin where
// it starts, at 12, and thick where the turn ends, with the way between them.
func (f frame) handle(turns, in, out float64) {
	end := math.Mod(turns*2*math.Pi, 2*math.Pi)
	for _, h := range []struct {
		at, wide float64
		role     theme.Role
	}{{0, 0.3, theme.Act2}, {end, 0.55, theme.Act}} {
		s, c := math.Sincos(h.at)
		f.dots(f.fill(out+1, func(x, y float64) bool {
			along, across := x*s+y*c, math.Abs(x*c-y*s)
			return across <= h.wide && along >= in && along <= out
		}), pen{onCue, h.role})
	}
	k := newKey(out, KeySpec{Turns: turns})
	f.dots(f.circle(out, 1, func(theta float64) bool { return !k.gap(theta) }), pen{onCue, theme.Act})
}

// square returns the dots of a lock.
func (f frame) square() []dot {
	return f.fill(1, func(x, y float64) bool { return math.Max(math.Abs(x), math.Abs(y)) <= 0.5 })
}

// legend says below the plate, on the right, what a lock looks like.
func (d dial) legend(word string) {
	col, row := round(d.col()+d.r*0.9), d.rowOut(-1)
	if at, ok := d.corner([]int{2 + Width(word)}); ok { // clear of the ground's word
		col, row = at[0].X, at[0].Y
	}
	if d.c.ASCII() {
		d.c.Text(col, row, theme.Label, "x "+word)
		return
	}
	f := d.c.frameAt(col, row)
	f.dots(f.square(), pen{onHole, theme.Label})
	d.c.Text(col+2, row, theme.Label, word)
}
