// Package practice stands where the telescope stands: it holds a virtual one
// beside a session, turns its screws when the session's person says so, and
// shows what one would see.
package practice

import (
	"errors"
	"slices"

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
	felt     []string       // by the hand, since the last answer
	unasked  string         // by it, since then, without being told a turn
	unnamed  bool           // what is felt is not called by its name
	snugged  bool           // somebody has been round the secondary's screws
	deeds    []virtual.Deed // that nobody had told, since Forget
	readings []Compared
	lit      int           // times the laser was switched on unasked
	carded   int           // of them, with the card up
	before   virtual.Sight // of the spot that the last turn moved
	turned   optics.Face   // where that is seen
	photos   int           // taken so far
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
	defer b.blame(before, ev, len(b.world.Deeds()))
	if after.Looks < before.Looks { // taken back: it was no reading
		b.readings = b.readings[:max(0, len(b.readings)-(before.Looks-after.Looks))]
	}
	switch ev.Kind {
	case event.KindHand:
		b.hand(after, ev)
	case event.KindConfirm:
		b.done(before.Ask())
	case event.KindChoice:
		b.done(before.Ask())
		if before.Ask().Step == session.StepStar && ev.Choice == session.FinerYes {
			b.world.LaserOn(false)
		}
	case event.KindReading:
		if told := before.Told(); told != nil && told.Snug { // the turn that it says was made
			b.snug(after, told.Moves[0].Mirror)
		}
		b.compare(before, ev)
	case KindAct:
		b.acted(ev.Text)
	case event.KindTurned:
		if ev.Snug && len(ev.Turned) > 0 {
			b.snug(after, ev.Turned[0].Mirror)
		}
	case event.KindResume:
		b.felt, b.unasked = nil, ""
	}
	b.waves, b.focus = after.StarWaves()
	if ask := after.Ask(); ask.Step != b.step {
		b.step = ask.Step
		if ask.Step == session.StepOn { // the dot is looked for with it on
			b.world.Card(true)
			b.world.LaserOn(true)
		}
		if ask.Want == session.WantReading && slices.Contains(ask.Deeds, session.DeedSwingBack) {
			b.world.Swing() // before it is looked for
		}
		if ask.Step == session.StepSnug {
			b.unasked = "Here your hand has snugged all three."
			b.snug(after, optics.Secondary)
		}
	}
	if deg := after.LaserTurnedDeg(); deg != b.laserDeg {
		b.world.TurnLaser(deg - b.laserDeg)
		b.laserDeg = deg
	}
}

// snug goes round mirror m's screws and takes up what is loose.
func (b *Bench) snug(s session.State, m optics.Mirror) {
	b.felt = append(b.felt, snugWords(s.Tel.Cell(m).Labels, b.world.Snug(m))...)
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
		b.felt = append(b.felt, b.feltWords(t, did.Felt)...)
		if s.Knocks(t.Mirror) {
			b.world.Knock(t.Mirror)
		}
	}
}

// done makes true what answering a question says was done. What hands turn is
// made true by itself.
func (b *Bench) done(ask session.Ask) {
	switch ask.Step {
	case session.StepSafe:
		b.makeSafe()
	case session.StepTag:
		b.world.LaserOn(false)
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
