package align

import (
	"fmt"
	"math"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// arrived reports whether somebody has just walked to an end of the tube: until
// something is answered there the question has a picture of that end with it,
// to be agreed to by going on, or to be turned.
func (s *Screen) arrived() bool {
	stand := s.State().Ask().Header.Stand
	return stand != s.stood && (stand == header.StandSky || stand == header.StandBehind)
}

// turnsFocuser returns the event of a typed line that says where the focuser is
// seen.
func (s *Screen) turnsFocuser(typed string) (event.Event, bool) {
	if !strings.HasPrefix(strings.ToLower(strings.TrimSpace(typed)), "focuser") {
		return event.Event{}, false
	}
	got, err := answer.Line(s.State(), typed)
	if err != nil || len(got.Events) != 1 || got.Events[0].Kind != event.KindFocuser {
		return event.Event{}, false
	}
	return got.Events[0], true
}

// drawn is the state that is drawn: as it would be were a typed "focuser 3:30"
// taken.
func (s *Screen) drawn(typed string) session.State {
	st := s.State()
	if ev, ok := s.turnsFocuser(typed); ok {
		if next, err := session.Apply(st, ev); err == nil {
			return next
		}
	}
	return st
}

// turnFocuser types where the focuser is seen, half an hour further on: at
// once after a walk, later only where it is typed already.
func (s *Screen) turnFocuser(typed string, halves int) (string, bool) {
	_, turning := s.turnsFocuser(typed)
	_, pictured := s.pictured()
	if !turning && (typed != "" || !s.arrived() && !pictured) || halves == 0 {
		return "", false
	}
	return "focuser " + words.ClockText(optics.AtHour(focuserHour(s.drawn(typed))+0.5*float64(halves), 1)), true
}

// focuserHour is where the focuser is seen from where the question has one
// stand.
func focuserHour(st session.State) float64 {
	return st.Tel.FocuserDial(stationOf(st)).Hour()
}

func stationOf(st session.State) optics.Station {
	if st.Ask().Header.Stand == header.StandBehind {
		return optics.Behind
	}
	return optics.SkyEnd
}

// agreeWords say where the focuser should be seen, and how to say that it is
// elsewhere.
func (s *Screen) agreeWords(st session.State, typed string) string {
	at := words.ClockText(optics.AtHour(focuserHour(st), 1))
	if _, ok := s.turnsFocuser(typed); ok {
		return "Focuser at " + at + "? Enter turns the drawing."
	}
	return "Focuser at " + at + "? If not, arrow keys turn the drawing."
}

// agreeBriefly says the same in one row.
func (s *Screen) agreeBriefly(st session.State, width int) string {
	at := "Focuser " + words.ClockText(optics.AtHour(focuserHour(st), 1)) + "? "
	return fitting1(width, at+"Arrows turn it.", at+"arrows")
}

// agree draws the end of the tube that one has come to, ground and focuser as
// they should be seen, and beside it how to turn it. Where there is no room for
// it the face itself has both.
func (s *Screen) agree(p *frame.Page, r schematic.Rect, typed string) {
	st := s.drawn(typed)
	const least = 4 // rows in which a tube's end can be told from a dot
	words := r
	if r.H >= least {
		radius := math.Min(float64(r.H-r.H%2)-1.25, 4.75)
		rows := int(radius+1.25) - 1
		s.tubeEnd(p, schematic.Place{Col: r.X + int(radius) + 3, Row: r.Y + rows/2, R: radius}, r, typed)
		in := 2*int(radius) + 8
		words = schematic.Rect{X: r.X + in, Y: r.Y, W: r.W - in, H: r.H}
	}
	p.Paragraph(words, theme.Ink, fitsOr(words, s.agreeWords(st, typed), s.agreeBriefly(st, words.W)))
}

// tubeEnd draws the end of the tube that one stands at.
func (s *Screen) tubeEnd(p *frame.Page, at schematic.Place, within schematic.Rect, typed string) {
	st := s.drawn(typed)
	spec := schematic.FaceSpec{
		RimMM: 1, Bare: true, Unmeasured: true,
		FocuserHour: focuserHour(st), FocuserWord: "focuser", GroundWord: " ", Within: within,
	}
	const least = 6 // columns of radius that hold the word
	if at.R < least {
		spec.FocuserWord = " "
	}
	p.Face(at, spec)
}

// agreeing reports whether nothing is typed yet but where the focuser is.
func (s *Screen) agreeing(typed string) bool {
	_, turning := s.turnsFocuser(typed)
	return typed == "" || turning
}

// agreeAt is where a move leaves room for it: in the place of the figures.
func agreeAt(p *frame.Page) schematic.Rect {
	if p.Roomy() {
		return p.Looks
	}
	r := p.Spot
	if p.SpotWord.W > 0 {
		r.X = p.SpotWord.X
	}
	r.W = p.Spot.X + p.Spot.W - r.X
	end := max(p.Axis.Y+max(p.Axis.H, 1), p.Why.Y+p.Why.H)
	r.H = end - r.Y
	return r
}

// ScrewHour is where a screw stands as one faces it, if that is known.
func ScrewHour(st session.State, m event.ToldMove) (float64, bool) {
	i, err := st.Index(m.Turn)
	if err != nil || st.Tel.Cell(m.Mirror).PlacesKnown == optics.Unknown {
		return 0, false
	}
	return st.Tel.ScrewDial(m.Mirror, i).Hour(), true
}

// placeOf says where a screw stands as one faces it.
func placeOf(st session.State, m event.ToldMove) string {
	name := m.Screw + m.Lock
	hour, ok := ScrewHour(st, m)
	if !ok {
		return fmt.Sprintf("%s on the %s", name, m.Mirror)
	}
	at := words.ClockText(optics.AtHour(hour, 1))
	if m.Lock != "" {
		return "beside " + name + " at " + at
	}
	return name + " is at " + at
}
