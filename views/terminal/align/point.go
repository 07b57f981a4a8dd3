package align

import (
	"math"
	"strconv"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/reading"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
)

// TypedPlace returns where the typed text puts the spot on the face that is
// asked for.
func (s *Screen) TypedPlace(typed string) (optics.Dial, bool) {
	st := s.State()
	ask := st.Ask()
	if ask.Want != session.WantReading || strings.TrimSpace(typed) == "" {
		return optics.Dial{}, false
	}
	said, err := reading.Parse(typed, answer.Context(st))
	if err != nil || !said.HasPlace() || said.Face != ask.Face {
		return optics.Dial{}, false
	}
	return said.At, true
}

// Nudge moves the typed place by a step: right and left round the dial, up and
// down out and in.
func (s *Screen) Nudge(typed string, right, up int) (string, bool) {
	if text, ok := s.turnFocuser(typed, right); ok {
		return text, true
	}
	at, ok := s.TypedPlace(typed)
	if !ok {
		return "", false
	}
	st := s.State()
	return Nudged(st.Tel, st.Ask().Face, at, right, up), true
}

// Nudged is what is typed for a place moved by half hours clockwise and by steps
// outward, no finer than eyes can tell: fifths of a ring width near the ring,
// halves farther out, and where there is none half a mm or a whole one.
func Nudged(t optics.Telescope, f optics.Face, at optics.Dial, right, up int) string {
	unit, name, near, fine, coarse := 1.0, "", 5.0, 0.5, 1.0
	if f == optics.FacePrimary && t.RingOuterMM > 0 {
		unit, name, near, fine, coarse = reading.RingWidthMM(t), "r", 2.0, 0.2, 0.5
	}
	n, step := at.Len()/unit, coarse
	if n < near-1e-6 || n < near+1e-6 && up < 0 {
		step = fine
	}
	n = (math.Round(n/step) + float64(up)) * step
	if n < fine/2 {
		return "dead"
	}
	hour := math.Mod(math.Round(2*at.Hour())/2+0.5*float64(right)+12, 12)
	return words.ClockText(optics.AtHour(hour, 1)) + " " + strconv.FormatFloat(math.Round(10*n)/10, 'f', -1, 64) + name
}

// Point types the place on the drawing that the mouse points at.
func (s *Screen) Point(sz frame.Sizes, aspect float64, col, row int) (string, bool) {
	if s.State().Ask().Want != session.WantReading {
		return "", false
	}
	hours := turns[s.Turn].hours
	if view, ok := s.Work.Sees(); ok && s.Looking() { // what one would see, and one's own drawing beside it
		st := s.State()
		if text, hit := Pointed(sz.Face, SightOf(st.Tel, view.Face, view, sz).RimMM, aspect, col, row, hours); hit {
			if view.Face != st.Ask().Face {
				text = string(view.Face) + " " + text
			}
			return text, true
		}
		return Pointed(sz.Yours, s.FaceSpec(sz, "").RimMM, aspect, col, row, hours)
	}
	return Pointed(sz.Face, s.FaceSpec(sz, "").RimMM, aspect, col, row, hours)
}

// Pointed is what is typed for the place in a drawing that the mouse points at;
// false beside the drawing.
func Pointed(at schematic.Place, rimMM, aspect float64, col, row int, hours float64) (string, bool) {
	d := optics.Dial{Right: float64(col - at.Col), Up: float64(at.Row-row) * aspect}
	if d.Len() > at.R {
		return "", false
	}
	mm := rimMM / at.R
	return words.ReadingText(turned(optics.Dial{Right: mm * d.Right, Up: mm * d.Up}, -hours)), true
}

// Looking reports whether the practice telescope is to be looked at now: what
// one would see then stands where the drawing does.
func (s *Screen) Looking() bool {
	st := s.State()
	return s.practising() && st.Ask().Want == session.WantReading && st.Told() == nil
}

// turnView is a way the dial can lie on the screen.
type turnView struct {
	hours float64
	words string
	mark  []string // stays beside the drawing, so that no hour is misread
}

// turns are the ways the dial can lie: as one stands, or for a screen that
// lies the other way.
var turns = []turnView{
	{0, "drawn as you stand: 12 is straight up", nil},
	{6, "12 is down: drawn for a screen the other way up", []string{"12 is", "down"}},
	{3, "12 is right: drawn for a screen on its side", []string{"12 is", "right"}},
	{9, "12 is left: drawn for a screen on its side", []string{"12 is", "left"}},
}

// lie turns a drawing as it is to lie on the screen, and says so on it.
func (s *Screen) lie(spec *schematic.FaceSpec) {
	way := turns[s.Turn]
	spec.TurnHours = way.hours
	if way.mark != nil {
		spec.Lies = way.mark
	}
}

// turned turns a point of a dial clockwise by hours.
func turned(d optics.Dial, hours float64) optics.Dial {
	if hours == 0 || d.Len() == 0 {
		return d
	}
	return optics.AtHour(d.Hour()+hours, d.Len())
}
