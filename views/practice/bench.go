// Package practice stands where the telescope stands: it holds a virtual one
// beside a session, turns its screws when the session's person says so, and
// shows what one would see.
package practice

import (
	"errors"
	"strings"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
)

// Bench is a practice telescope beside a session. What its hands truly did is
// journalled (session.KindHand), so that a session taken up again stands
// before the same telescope.
type Bench struct {
	world    *virtual.World
	step     string  // that was reached last
	laserDeg float64 // how far the laser stands turned in its holder
}

// ErrLevel says that a level is not known.
var ErrLevel = errors.New("a practice level is easy, usual or hard")

// New returns the practice telescope made after t, of a level and a seed.
func New(t optics.Telescope, w session.World) (*Bench, error) {
	switch l := virtual.Level(w.Level); l {
	case virtual.Easy, virtual.Usual, virtual.Hard:
		return &Bench{world: virtual.New(t, l, w.Seed)}, nil
	}
	return nil, ErrLevel
}

// Happened makes an event of the session true on the telescope: what the hands
// turned, and what a step has the person do. It is called once for each event,
// as it happens or as it is read back from the journal, with the state after
// it.
func (b *Bench) Happened(before, after session.State, ev session.Event) {
	switch ev.Kind {
	case session.KindHand:
		for _, t := range ev.Turned {
			b.turnExactly(after, t)
		}
	case session.KindConfirm:
		b.done(before.Ask().Step)
	}
	if step := after.Ask().Step; step != b.step {
		b.step = step
		if step == "snug" {
			b.world.Snug(optics.Secondary)
		}
	}
	if deg := after.LaserTurnedDeg(); deg != b.laserDeg {
		b.world.TurnLaser(deg - b.laserDeg)
		b.laserDeg = deg
	}
}

func (b *Bench) turnExactly(s session.State, t session.Turn) {
	i, err := s.Index(t)
	switch {
	case err != nil:
	case t.Lock != "":
		b.world.TurnLockExactly(i, t.Turns)
	default:
		b.world.TurnExactly(t.Mirror, i, t.Turns)
	}
}

// done makes true what a confirmed step had the person do.
func (b *Bench) done(step string) {
	switch step {
	case "on":
		b.world.Card(true)
		b.world.LaserOn(true)
	case "swing":
		b.world.Swing()
	case "count", "safe":
		b.world.LaserOn(false)
	}
}

// AsTold understands Enter on an empty line after a move was told: it was
// turned as told.
func (b *Bench) AsTold(s session.State, text string) (session.Typed, bool) {
	told := s.Told()
	if strings.TrimSpace(text) != "" || told == nil || s.Ask().Want != session.WantReading {
		return session.Typed{}, false
	}
	ev := session.Event{Kind: session.KindTurned}
	var words []string
	for _, m := range told.Moves {
		ev.Turned = append(ev.Turned, m.Turn)
		words = append(words, session.MoveWords(m.Turn))
	}
	return session.Typed{Events: []session.Event{ev}, Echo: "turned: " + strings.Join(words, ", then ")}, true
}

// Make has the hands make true what an event says was turned. It returns what
// they really turned, as an event for the journal.
func (b *Bench) Make(s session.State, ev session.Event) (session.Event, bool) {
	turns := ev.Turned
	switch ev.Kind {
	case session.KindTurned:
	case session.KindReading, session.KindConfirm:
		if s.Told() == nil {
			return session.Event{}, false
		}
		turns = nil
		for _, m := range s.Told().Moves {
			turns = append(turns, m.Turn)
		}
	default:
		return session.Event{}, false
	}
	hand := session.Event{Kind: session.KindHand}
	trial := b.world.Clone()
	for _, t := range turns {
		i, err := s.Index(t)
		if err != nil {
			continue
		}
		var did virtual.Turned
		if t.Lock != "" {
			did = trial.TurnLock(i, t.Turns)
		} else {
			did = trial.Turn(t.Mirror, i, t.Turns)
		}
		really := session.Turn{Mirror: did.Mirror, Turns: did.Turns}
		label := s.Tel.Cell(did.Mirror).Labels[did.Screw]
		if did.Lock {
			really.Lock = label
		} else {
			really.Screw = label
		}
		hand.Turned = append(hand.Turned, really)
	}
	return hand, len(hand.Turned) > 0
}

// View is what one would see, and nothing that one would not.
type View struct {
	virtual.Sight
	Words string // for those who cannot see a drawing
}

// Look returns what is to be seen on face f.
func (b *Bench) Look(f optics.Face) View {
	sight := b.world.Sight(f)
	return View{Sight: sight, Words: sightWords(sight)}
}

// World returns the world itself, for an instructor and for tests.
func (b *Bench) World() *virtual.World { return b.world }
