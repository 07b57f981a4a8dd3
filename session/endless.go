package session

import (
	"fmt"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/words"
)

// After so many answers without an end it is offered to stop safely, and again
// after every so many more. Where the offer is never taken the scope is made safe, and
// so again for those who undo that. Trainers' judgement of a night's patience.
const (
	endlessAnswers = 60
	endlessAgain   = 10
	endlessStops   = 100
)

// After so many rounds of all places, one after the other, on which the return spot was
// not, the same is offered; and after so many more the scope is made safe.
const (
	nowhereOffers = 2
	nowhereStops  = 4
)

// After so many looks in a row at which no light was seen it is asked whether the laser
// shines, and after so many the scope is made safe. Trainers' judgement.
const (
	darkAsks  = 3
	darkStops = 9
)

// inRow returns at how many looks in a row, to the last one, that was seen on a face;
// on any for "".
func (s State) inRow(saw event.Sight, f optics.Face) int {
	looks := 0
	for n := s.history; n != nil; n = n.prev {
		switch ev := n.event; {
		case ev.Kind == event.KindReading && ev.Saw == saw && (f == "" || ev.Face == f):
			looks++
		case ev.Kind == event.KindReading, ev.Kind == event.KindLaser:
			return looks
		}
	}
	return looks
}

// endless offers to stop safely where there is no end in sight, with what is
// thought to be wrong; "" while there may be one.
func (s State) endless() string {
	if s.ending() {
		return ""
	}
	if n := s.inRow(event.SawCantSee, ""); n > 0 && n%darkAsks == 0 {
		return fmt.Sprintf("Nothing was seen at %d looks in a row. Does the laser shine? If not, type: dead laser. With a new battery in it, type: fresh battery.", n)
	}
	if s.Search.Rounds >= nowhereOffers && len(s.Search.Missed) == 0 && s.Due == nil {
		return "The return spot was looked for everywhere, and again. Better stop safely and hold it back for trained hands, or go on."
	}
	if n := s.answers; n < endlessAnswers || (n-endlessAnswers)%endlessAgain != 0 {
		return ""
	}
	return fmt.Sprintf("%d answers and no end in sight: %s. Better stop safely and hold it back for trained hands, or go on.", s.answers, s.suspected())
}

// stopDue returns the event that makes the scope safe after these events, where so
// many answers came to no end or so many moves brought nothing nearer, with what is
// thought to be wrong.
func (s State) stopDue(after []event.Event) (event.Event, bool) {
	if len(after) == 0 || !after[len(after)-1].Kind.Answers() || s.ending() {
		return event.Event{}, false
	}
	if n := s.inRow(event.SawCantSee, ""); n >= darkStops {
		return event.Event{Kind: event.KindStop, Why: fmt.Sprintf("no light was seen at %d looks in a row: the laser may be dead", n)}, true
	}
	if n := s.inRow(event.SawGone, optics.FacePrimary); n > nowhereStops {
		return event.Event{Kind: event.KindStop, Why: fmt.Sprintf("the spot was not on the primary at %d looks in a row", n)}, true
	}
	if s.Search.Rounds >= nowhereStops {
		return event.Event{Kind: event.KindStop, Why: "the return spot was found nowhere"}, true
	}
	if s.answers == 0 || s.answers%endlessStops != 0 && !s.Hopeless(s.Working()) {
		return event.Event{}, false
	}
	return event.Event{Kind: event.KindStop, Why: fmt.Sprintf("no end in sight after %d answers: %s", s.answers, s.suspected())}, true
}

// stop goes to where the scope is made safe: with a reason where the session itself
// stops.
func stop(s *State, ev event.Event) error {
	if ev.Why != "" {
		s.HoldBack, s.stoppedItself = words.OneLine(ev.Why), true
	}
	s.goTo(StageStopping)
	return nil
}

// stoppedFor says why the session itself has stopped, "" where it has not.
func (s State) stoppedFor() string {
	if !s.stoppedItself {
		return ""
	}
	return words.Sentence(s.HoldBack) + " So it stops here: hold it back for trained hands. "
}

// ending reports whether the session is about to end as it is.
func (s State) ending() bool {
	switch s.Stage().ID {
	case StagePutAway, StageStopping, StageSwing:
		return true
	}
	return false
}

// suspected says what is thought to keep the session from its end.
func (s State) suspected() string {
	if noted := s.Noted(); len(noted) > 0 {
		return last(noted)
	}
	m := s.Working()
	inVain := s.Hopeless(m) // of whatever else went wrong, this mirror's screws keep it from its end
	switch {
	case !inVain && (s.Of(optics.Secondary).Redone || s.Of(optics.Primary).Redone):
		return "what is set does not stay set"
	case !inVain && s.T.Gone && m == optics.Primary:
		return "the return spot is not found"
	case s.Tel.Cell(m).Screws == 4:
		return fmt.Sprintf("the %s may rock on its four screws, one of which hangs free", m)
	case s.Of(m).Headway.Unlikely > 0:
		return fmt.Sprintf("the %s's screws do not do what is expected of them", m)
	}
	return fmt.Sprintf("the %s's spot does not come any nearer", m)
}
