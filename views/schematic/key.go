package schematic

import (
	"math"

	"spotward/views/theme"
)

// KeySpec is a turn of a key, as its handle is seen to go.
type KeySpec struct {
	FromHour float64 // where the handle stands before
	Turns    float64 // clockwise positive
	// Bold draws it thicker, for a projector.
	Bold bool
	// EndWord is written outside the ring where the handle ends: "1:30".
	EndWord string
}

// Sizes of the key's arc, in half columns.
const (
	arcWide, arcWideBold = 2.0, 3.2
	headLong             = 2.3  // times the arc
	headWide             = 1.75 // times the arc, to each side
	headBlunt            = 0.9  // of that width: its corners are cut
	postOut, postIn      = 2.0, 3.2
)

// headStep is how far apart heads stand round the ring in ASCII, columns.
const headStep = 2.5

// Key draws the ring that a key's handle goes round: a post where it stands, an
// arc as far as it goes, and a head whose tip is where it ends. Over one turn
// the arc is the whole ring, and a number must say the rest.
func (c *Canvas) Key(p Place, s KeySpec) {
	if !(p.R > 0 && p.R < maxSide) || math.IsNaN(s.Turns) || math.IsInf(s.Turns, 0) {
		return
	}
	f := c.frameAt(p.Col, p.Row)
	k := newKey(p.R, s)
	f.dots(f.circle(p.R, 1, k.gap), pen{onRings, theme.Line})
	if c.ASCII() {
		k.heads(f)
	} else {
		for _, in := range []func(x, y float64) bool{k.arc, k.head, k.post} {
			f.mark(f.fill(p.R+k.wide*2, in), pen{onCue, theme.Act})
		}
	}
	if s.EndWord != "" {
		d := dial{frame: f, r: p.R, within: c.clip(Rect{})}
		end := k.from + k.sense*math.Mod(k.turn, 2*math.Pi)
		d.outside(math.Sin(end), math.Cos(end), theme.Act, s.EndWord)
	}
}

// heads draws the way of the handle with arrow heads, for want of dots, and a
// bar where it starts.
func (k key) heads(f frame) {
	put := func(a float64, glyph string) {
		sin, cos := math.Sincos(k.from + k.sense*a)
		col, row := f.cell(k.r*sin, k.r*cos)
		f.c.put(col, row, glyph, 1, theme.Act)
	}
	put(0, "+")
	turn := math.Min(k.turn, 2*math.Pi)
	n := max(1, round(turn*k.r/headStep))
	for i := 1; i <= n; i++ {
		a := turn * float64(i) / float64(n)
		sin, cos := math.Sincos(k.from + k.sense*a)
		put(a, headToward(k.sense*cos, -k.sense*sin))
	}
}

// headToward returns the arrow head that points along (x, y).
func headToward(x, y float64) string {
	switch {
	case math.Abs(x) >= math.Abs(y) && x > 0:
		return ">"
	case math.Abs(x) >= math.Abs(y):
		return "<"
	case y > 0:
		return "^"
	}
	return "v"
}

// key is a turn worked out. Angles are clockwise from straight up, rad, lengths
// columns.
type key struct {
	r, wide    float64 // radius of the ring; width of the arc
	from, turn float64
	sense      float64 // 1 clockwise, -1 anticlockwise
}

func newKey(r float64, s KeySpec) key {
	k := key{r: r, wide: arcWide / 2, from: s.FromHour * math.Pi / 6,
		turn: math.Abs(s.Turns) * 2 * math.Pi, sense: 1}
	if s.Bold {
		k.wide = arcWideBold / 2
	}
	if s.Turns < 0 {
		k.sense = -1
	}
	return k
}

// along returns how far round in the sense of the turn (x, y) is from where the
// handle stood, 0 ≤ a < 2π, and how far out of the ring it is.
func (k key) along(x, y float64) (a, out float64) {
	a = math.Mod(k.sense*(math.Atan2(x, y)-k.from), 2*math.Pi)
	if a < 0 {
		a += 2 * math.Pi
	}
	return a, math.Hypot(x, y) - k.r
}

// headAngle is how much of the ring the head covers.
func (k key) headAngle() float64 { return headLong * k.wide / k.r }

func (k key) arc(x, y float64) bool {
	a, out := k.along(x, y)
	end := k.turn - k.headAngle()
	if k.turn > 2*math.Pi {
		end = 2 * math.Pi
	}
	return math.Abs(out) <= k.wide/2 && a <= end
}

func (k key) head(x, y float64) bool {
	a, out := k.along(x, y)
	tip := math.Mod(k.turn, 2*math.Pi)
	back := math.Mod(tip-a+2*math.Pi, 2*math.Pi)
	return back <= math.Min(k.headAngle(), k.turn) && math.Abs(out) <= headWide*k.wide*math.Min(back/k.headAngle(), headBlunt)
}

func (k key) post(x, y float64) bool {
	s, c := math.Sincos(k.from)
	along, across := x*s+y*c, math.Abs(x*c-y*s)
	out := along - k.r
	return across <= k.wide/2 && out <= postOut/2 && out >= -postIn/2
}

// gap keeps the thin ring away from the arc.
func (k key) gap(theta float64) bool {
	s, c := math.Sincos(theta)
	a, _ := k.along(s, c)
	return a > k.turn
}
