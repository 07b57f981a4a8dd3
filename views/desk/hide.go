package desk

import (
	"errors"
	"strings"

	"spotward/session"
	"spotward/session/event"
)

// AdviceHidden reports whether the trainee goes without advice.
func (w *Work) AdviceHidden() bool { return w.shown != nil }

// Shown returns the state as it is to be shown: while the advice is hidden,
// without the moves that are told.
func (w *Work) Shown() session.State {
	if w.shown != nil {
		return *w.shown
	}
	return w.State()
}

func (w *Work) hideTold() {
	s := w.State().WithoutTold()
	w.shown = &s
}

// Advise says whether moves are told: where they are not, no word brings them
// back.
func (w *Work) Advise(yes bool) {
	if w.alone = !yes; w.alone {
		w.hideTold()
	} else {
		w.shown = nil
	}
}

// hide takes a line that hides the advice or shows it again.
func (w *Work) hide(text string) (echo string, ok bool) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "hide", "hide advice":
		w.hideTold()
		return "the advice is hidden: turn what you think right", true
	case "show", "show advice":
		if w.alone {
			return "here nobody tells what to turn: why shows what each screw does", true
		}
		w.shown = nil
		return "the advice is shown", true
	}
	return "", false
}

var (
	errHidden = errors.New("the advice is hidden: turn something, as in B 1/8. Then look and say where the spot is. Show brings the advice back")
	errAlone  = errors.New("no move is told here: turn something, as in B 1/8. Then look and say where the spot is")
)

// leansOnAdvice reports whether an answer would take as made what was told and
// not shown.
func leansOnAdvice(s session.State, events []event.Event) bool {
	if s.Told() == nil {
		return false
	}
	for _, ev := range events {
		if ev.Kind == event.KindReading || ev.Kind == event.KindScrew && ev.Is == event.SaysOtherWay {
			return true
		}
	}
	return false
}
