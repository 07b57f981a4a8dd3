// Package practice stands where the telescope stands: it holds a virtual one
// beside a session, turns its screws when the session's person says so, and
// shows what one would see.
package practice

import (
	"errors"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
)

// Bench is a practice telescope beside a session. What its hands truly did is
// journalled (session.KindHand), so that a session taken up again stands
// before the same telescope.
type Bench struct {
	world    *virtual.World
	step     session.StepID // that was reached last
	waves    float64        // out of focus, of a star that is looked at
	focus    optics.Focus   // on which side
	laserDeg float64        // how far the laser stands turned in its holder
	real     optics.Telescope
	felt     []string // by the hand, since the last answer
	readings []Compared
	lit      int           // times the laser was switched on unasked
	carded   int           // of them, with the card up
	before   virtual.Sight // of the spot that the last turn moved
	turned   optics.Face   // where that is seen
}

// ErrLevel says that a level is not known.
var ErrLevel = errors.New("a practice level is easy, usual or hard")

// New returns the practice telescope made after t, of a level and a seed.
func New(t optics.Telescope, w event.World) (*Bench, error) {
	setup, err := setupOf(t, w)
	if err != nil {
		return nil, err
	}
	world := virtual.NewWith(t, setup, w.Seed)
	world.LaserOn(false)
	world.Card(false)
	return &Bench{world: world, real: world.Truth().Telescope}, nil
}

// Happened makes an event of the session true on the telescope: what the hands
// turned, and what a step has the person do. It is called once for each event,
// as it happens or as it is read back from the journal, with the state after
// it.
func (b *Bench) Happened(before, after session.State, ev event.Event) {
	switch ev.Kind {
	case event.KindHand:
		b.hand(after, ev)
	case event.KindConfirm:
		b.done(before.Ask().Step)
	case event.KindChoice:
		if before.Ask().Step == session.StepStar && ev.Choice == session.FinerYes {
			b.world.LaserOn(false)
		}
	case event.KindReading:
		b.compare(before, ev)
	case KindAct:
		b.acted(ev.Text)
	case event.KindResume:
		b.felt = nil
	}
	b.waves, b.focus = after.StarWaves()
	if step := after.Ask().Step; step != b.step {
		b.step = step
		if step == session.StepSnug {
			b.felt = append(b.felt, snugWords(after.Tel.Secondary.Labels, b.world.Snug(optics.Secondary))...)
		}
	}
	if deg := after.LaserTurnedDeg(); deg != b.laserDeg {
		b.world.TurnLaser(deg - b.laserDeg)
		b.laserDeg = deg
	}
}

// hand turns what the hands turned, no more and no less.
func (b *Bench) hand(s session.State, ev event.Event) {
	for _, t := range ev.Turned {
		i, err := s.Index(t)
		if err != nil {
			continue // an old journal may name what is gone
		}
		b.turned = t.Mirror.SpotFace()
		b.before = b.world.Sight(b.turned)
		did := virtual.Turned{}
		if t.Lock != "" {
			did = b.world.TurnLockExactly(i, t.Turns)
		} else {
			did = b.world.TurnExactly(t.Mirror, i, t.Turns)
		}
		if ev.Is == event.SaysSlipped {
			did.Felt = virtual.Slipped
		}
		b.felt = append(b.felt, feltWords(t, did.Felt)...)
		if s.Knocks(t.Mirror) {
			b.world.Knock(t.Mirror)
		}
	}
}

// done makes true what a confirmed step had the person do.
func (b *Bench) done(step session.StepID) {
	switch step {
	case session.StepOn:
		b.world.Card(true)
		b.world.LaserOn(true)
	case session.StepSwing:
		b.world.Swing()
	case session.StepCount:
		b.world.LaserOn(false)
	case session.StepSafe:
		b.makeSafe()
	}
}

// makeSafe does what is asked when somebody stops: the card, all screws and
// locks snug, the laser out.
func (b *Bench) makeSafe() {
	b.world.Card(true)
	b.world.SnugLocks()
	b.world.Snug(optics.Secondary)
	b.world.LaserOn(false)
}

// View is what one would see, and nothing that one would not.
type View struct {
	virtual.Sight
	Words string // for those who cannot see a drawing
}

// Look returns what is to be seen on face f.
func (b *Bench) Look(f optics.Face) View {
	if v, ok := b.finerView(); ok {
		return v
	}
	v := b.world.Sight(f)
	return View{Sight: v, Words: seenWords(b.real, v)}
}

// World returns the world itself, for an instructor and for tests.
func (b *Bench) World() *virtual.World { return b.world }
