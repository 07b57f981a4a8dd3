package session

import (
	"spotward/optics"
	"spotward/session/event"
	"spotward/session/mirrors"
	"spotward/session/words"
	"strings"
)

// Advise returns what is to be told now, if anything is due: the moves for the
// step that waits for an answer. It is computed when it is to be told, and
// journalled as an event; the fold never computes it again.
func (s State) Advise() (event.Told, bool) {
	if s.Over || s.way.askMoved || s.Due != nil || s.Since.WantLook || s.Doubt.Of != nil {
		return event.Told{}, false
	}
	step := s.step()
	if step == nil || step.Tell == nil {
		return event.Told{}, false
	}
	return step.Tell(s)
}

func optionIDs(opts []words.Option) string {
	ids := make([]string, len(opts))
	for i, o := range opts {
		ids[i] = o.ID
	}
	return strings.Join(ids, ", ")
}

// turned takes what a hand has turned. It replaces what was told.
func turned(s *State, ev event.Event) error {
	if err := s.Turnable(ev.Turned); err != nil {
		return err
	}
	// The same question still waits for its answer. A yes says itself that the
	// moves were made; any other turn wants a look.
	ask := s.answering()
	saidSo := ev.Implied && ask.Want == WantConfirm
	cued := mirrors.CuesOf(s.Due, ev.Turned, ev.Watched)
	s.Due, s.Since.WantLook = nil, !saidSo
	if saidSo || ask.Want == WantReading {
		s.way.held = ask.Step
	}
	s.Turn(ev.Turned, cued)
	s.Snugged(ev.Snug, ev.Turned)
	return nil
}

// screwSays takes what a screw said: of the mirror in hand where none is named.
func screwSays(s *State, ev event.Event) error {
	if ev.Mirror == "" {
		ev.Mirror = s.Working()
	}
	return s.ScrewSaid(ev)
}

// working returns the mirror whose screws are in hand.
func (s State) Working() optics.Mirror {
	if s.Due != nil && len(s.Due.Moves) > 0 {
		return s.Due.Moves[0].Mirror
	}
	switch s.Stage().ID {
	case StageLocks, StageRough, StageHome, StageRetighten, StageShadow, StageStar:
		return optics.Primary
	}
	return optics.Secondary
}

// face returns the face that the question asks to look at, "" for none.
func (s State) face() optics.Face {
	if step := s.step(); step != nil {
		return step.Face
	}
	return ""
}

// phased tells the work on the mirrors where the session stands by now.
func (s *State) phased() {
	at := s.way.plan[s.way.at]
	s.Phase = mirrors.Phase{Homing: at == StageHome, Bitten: at == StageRetighten, LocksLeft: s.skipped(StageLocks), Measures: s.inPlan(StageLaserFit)}
}
