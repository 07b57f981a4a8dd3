package session

import (
	"cmp"
	"errors"
	"fmt"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/words"
)

func skip(s *State, ev event.Event) error {
	st := s.Stage()
	if s.way.askMoved {
		return errors.New("say first whether the scope was moved: no, yes or unknown")
	}
	if st.Skip == "" {
		return fmt.Errorf("%q cannot be left out: %s", st.Title, "answer, or stop safely")
	}
	if ev.Why == "" {
		return errors.New("say why it is left out, as in: skip no time")
	}
	s.Skips = append(s.Skips[:len(s.Skips):len(s.Skips)], Skipped{st.ID, words.OneLine(ev.Why)})
	if st.ID == StageSwing {
		s.Left = s.Sighting() // as far as it was seen since the last turn
	}
	if s.way.at == len(s.way.plan)-1 {
		return errors.New("this is the last stage: answer, or stop safely")
	}
	s.enter(s.way.at + 1)
	return nil
}

func back(s *State) error {
	if why := s.Stage().NoBack; why != "" {
		return errors.New(why)
	}
	for at := s.way.at - 1; at >= 0; at-- {
		try := *s
		try.enter(at)
		try.reopen()
		if try.step() != nil {
			*s = try
			return nil
		}
	}
	return errors.New("this is the first stage")
}

// reopen makes the readings of the stage due again.
func (s *State) reopen() {
	for _, step := range s.Stage().Steps {
		switch step.Face {
		case optics.FacePrimary:
			s.P.Known = false
		case optics.FaceTarget:
			s.T.Known = false
		}
	}
}

// undo takes back the last answer: the state before it, but what a hand did
// since stays done. A turn that was said in place of the told one is an answer;
// in practice hands have made it true.
func undo(s State) (State, error) {
	var kept []event.Event
	for n := s.history; n != nil; n = n.prev {
		switch n.event.Kind {
		case event.KindBegin:
			return s, ErrNoUndo
		case event.KindHand, event.KindResume, event.KindManner:
			kept = append(kept, n.event) // what a hand did stays done
			continue
		case event.KindTurned:
			if s.World != nil || n.event.Implied {
				kept = append(kept, n.event)
				continue
			}
			// What was only said of a turn is taken back.
		case event.KindAdvised:
			continue
		}
		t := n.was()
		for i := len(kept) - 1; i >= 0; i-- {
			next, err := Apply(t, kept[i])
			if err != nil {
				return s, err
			}
			t = next
		}
		t.redo = &s
		return t, nil
	}
	return s, ErrNoUndo
}

// redoable returns what can be redone after ev, and what could be when the session
// was left: once it is said that nothing was moved since, it can be again.
func (s State) redoable(ev event.Event) (redo, left *State) {
	switch {
	case ev.Kind == event.KindAdvised:
		return s.redo, s.redoLeft
	case ev.Kind == event.KindResume && s.Looks == 0: // nothing is asked then
		return s.redo, nil
	case ev.Kind == event.KindResume:
		return nil, cmp.Or(s.redo, s.redoLeft)
	case s.way.askMoved && ev.Kind == event.KindChoice && ev.Choice == MovedNo:
		return s.redoLeft, nil
	}
	return nil, nil
}
