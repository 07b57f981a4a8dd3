package desk

import (
	"maps"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/views/practice"
)

// Words says what happened in a frame.
func (f Frame) Words() string {
	ev, s := f.Event, f.State
	switch ev.Kind {
	case session.KindConfirm:
		return "Done, it was said"
	case session.KindChoice:
		if len(ev.Letters) > 0 {
			return "Answer: the letters are there, " + lettersWords(ev.Letters)
		}
		return "Answer: " + strings.ReplaceAll(ev.Choice, "_", " ")
	case session.KindReading:
		return "Read: " + readingWords(s, ev)
	case session.KindTurned:
		return "Said to be turned: " + session.MovesWords(ev.Turned)
	case session.KindHand:
		return "Truly turned: " + session.MovesWords(ev.Turned)
	case session.KindAdvised:
		return "Told: " + toldWords(*ev.Told)
	case session.KindScrew:
		is := strings.ReplaceAll(string(ev.Is), "_", " ")
		if ev.Screw == "" {
			return "Said: " + is
		}
		return "Said of screw " + ev.Screw + ": " + is
	case session.KindSkip:
		return "Left out: " + ev.Why
	case session.KindLaser:
		return laserWords(ev.Is)
	case practice.KindAct:
		return "Done besides: " + ev.Text
	case session.KindResume:
		return "Taken up again"
	}
	return "Said: " + string(ev.Kind)
}

func laserWords(is session.Says) string {
	switch is {
	case session.SaysWeak:
		return "The laser is weak"
	case session.SaysFresh:
		return "A fresh cell in the laser"
	}
	return "The laser died"
}

// lettersWords says where letters stand, in their order: "A at 2:00, B at 6:00".
func lettersWords(letters map[string]session.Clock) string {
	var words []string
	for _, label := range slices.Sorted(maps.Keys(letters)) {
		words = append(words, label+" at "+string(letters[label]))
	}
	return strings.Join(words, ", ")
}

func readingWords(s session.State, ev session.Event) string {
	switch ev.Saw {
	case session.SawPlace, session.SawOffGlass:
		d := s.Tel.ToDial(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up})
		return session.PlaceWords(ev.Face, d, d.Len())
	}
	return strings.ReplaceAll(string(ev.Saw), "_", " ") + ", on the " + string(ev.Face)
}

func toldWords(t session.Told) string {
	words := session.MovesWords(t.Turns())
	if len(t.Moves) == 0 {
		words = "nothing to turn"
	}
	if t.Why != "" {
		words += ". Because: " + t.Why
	}
	return words
}
