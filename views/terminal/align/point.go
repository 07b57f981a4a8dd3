package align

import (
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

// Nudge moves the typed place by half a mm on the screen, as the drawing lies.
func (s *Screen) Nudge(typed string, right, up int) (string, bool) {
	if text, ok := s.turnFocuser(typed, right); ok {
		return text, true
	}
	at, ok := s.TypedPlace(typed)
	if !ok {
		return "", false
	}
	return Nudged(at, right, up, turns[s.Turn].hours), true
}

// Nudged is what is typed for a place moved by half a mm on the screen, in a
// drawing turned by hours.
func Nudged(at optics.Dial, right, up int, hours float64) string {
	const step = 0.5
	by := turned(optics.Dial{Right: step * float64(right), Up: step * float64(up)}, -hours)
	return words.ReadingText(optics.Dial{Right: at.Right + by.Right, Up: at.Up + by.Up})
}

// Point types the place on the drawing that the mouse points at.
func (s *Screen) Point(sz frame.Sizes, aspect float64, col, row int) (string, bool) {
	if s.State().Ask().Want != session.WantReading {
		return "", false
	}
	at := sz.Face
	if s.Looking() {
		at = sz.Ring
	}
	return Pointed(at, s.FaceSpec(sz, "").RimMM, aspect, col, row, turns[s.Turn].hours)
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
	{6, "drawn for a screen that lies the other way: 12 is down", []string{"12 is", "down"}},
	{3, "drawn for a screen that lies on its side: 12 is right", []string{"12 is", "right"}},
	{9, "drawn for a screen that lies on its side: 12 is left", []string{"12 is", "left"}},
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
