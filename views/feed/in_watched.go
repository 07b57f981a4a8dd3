package feed

import (
	"errors"

	"spotward/optics"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/reading"
)

// wireWent is which way a spot set off as a screw was touched: right and up, or
// a clock position.
type wireWent struct {
	Mirror optics.Mirror `json:"mirror"`
	Screw  string        `json:"screw"`
	Right  *float64      `json:"right"`
	Up     *float64      `json:"up"`
	Clock  *float64      `json:"clock"`
}

func (w wireWent) event() (event.Event, error) {
	ev := event.Event{Kind: event.KindWent, Mirror: w.Mirror, Screw: w.Screw}
	switch {
	case w.Screw == "":
		return ev, errors.New(`"went" names its screw, as in {"went":{"screw":"C","clock":7}}`)
	case w.Clock != nil && w.Right == nil && w.Up == nil:
		if !(*w.Clock >= 0 && *w.Clock <= 12.99) {
			return ev, errClock
		}
		way := optics.AtHour(*w.Clock, 1) // 12 toward the focuser here, not straight up
		ev.Right, ev.Up = way.Right, way.Up
	case w.Clock == nil && w.Right != nil && w.Up != nil:
		ev.Right, ev.Up = *w.Right, *w.Up
	default:
		return ev, errors.New(`a way is {"clock":hours} or {"right":mm,"up":mm}`)
	}
	return ev, nil
}

var errNotWatched = errors.New(`"watched" goes with an advice that has "watch": leave it out, the amount was turned as told`)

var errNoCue = errors.New(`"cued" goes with a move that has a "stop": say where the spot is`)

var errClock = errors.New(`"clock" is in hours, 0 to 12.99`)

// cued is a reading that stands where the last cue said: at its place, or, of a
// bearing, in its direction.
func cued(given bool, s session.State) (event.Event, error) {
	if !given {
		return event.Event{}, errors.New(`"cued" takes true; leave it out otherwise`)
	}
	ev := event.Event{Kind: event.KindReading, Face: s.Ask().Face, Saw: event.SawPlace, Cued: true}
	said, err := reading.AsCued(answer.Context(s))
	if err != nil {
		return ev, errNoCue
	}
	seen := s.Tel.ToSeen(said.Face, said.Belief.At)
	c := s.Tel.CovToSeen(said.Face, said.Belief.Cov)
	ev.Right, ev.Up, ev.Cov = seen.Right, seen.Up, &[3]float64{c.XX, c.XY, c.YY}
	return ev, nil
}

// manner is how the people at the scope know when to stop.
func manner(m event.Manner) (event.Event, error) {
	ev := event.Event{Kind: event.KindManner}
	watching := m == event.ByWatching
	if !watching && m != event.ByAmount {
		return ev, errors.New(`"manner" takes "watching" or "amount"`)
	}
	ev.Watching = &watching
	return ev, nil
}
