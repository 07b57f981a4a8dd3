package desk

import (
	"maps"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/words"
	"spotward/views/practice"
)

// Words says what happened in a frame.
func (f Frame) Words() string {
	ev, s := f.Event, f.State
	switch ev.Kind {
	case event.KindConfirm:
		return "Said to be done"
	case event.KindChoice:
		if len(ev.Letters) > 0 {
			return "Answer: the letters are there, " + lettersWords(ev.Letters)
		}
		return "Answer: " + strings.ReplaceAll(ev.Choice, "_", " ")
	case event.KindReading:
		return "Read: " + readingWords(s, ev)
	case event.KindTurned:
		return "Said to be turned: " + words.MovesWords(ev.Turned)
	case event.KindHand:
		return "Truly turned: " + words.MovesWords(ev.Turned)
	case event.KindAdvised:
		return "Told: " + toldWords(*ev.Told)
	case event.KindScrew:
		is := strings.ReplaceAll(string(ev.Is), "_", " ")
		if ev.Screw == "" {
			return "Said: " + is
		}
		return "Said of screw " + ev.Screw + ": " + is
	case event.KindSkip:
		return "Left out: " + ev.Why
	case event.KindLaser:
		return laserWords(ev.Is)
	case practice.KindAct:
		return "Also done: " + ev.Text
	case event.KindResume:
		return "Taken up again"
	}
	return "Said: " + string(ev.Kind)
}

func laserWords(is event.Says) string {
	switch is {
	case event.SaysWeak:
		return "The laser is weak"
	case event.SaysFresh:
		return "A fresh cell in the laser"
	}
	return "The laser died"
}

// lettersWords says where letters stand, in their order: "A at 2:00, B at 6:00".
func lettersWords(letters map[string]scope.Clock) string {
	var words []string
	for _, label := range slices.Sorted(maps.Keys(letters)) {
		words = append(words, label+" at "+string(letters[label]))
	}
	return strings.Join(words, ", ")
}

func readingWords(s session.State, ev event.Event) string {
	switch ev.Saw {
	case event.SawPlace, event.SawOffGlass:
		d := s.Tel.ToDial(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up})
		if ev.Picture != nil {
			return words.PictureText(ev.Face, d)
		}
		return words.PlaceWords(ev.Face, d, d.Len())
	}
	return strings.ReplaceAll(string(ev.Saw), "_", " ") + ", on the " + string(ev.Face)
}

func toldWords(t event.Told) string {
	words := words.MovesWords(t.Turns())
	if len(t.Moves) == 0 {
		words = "nothing to turn"
	}
	if t.Why != "" {
		words += ". Because: " + t.Why
	}
	return words
}
