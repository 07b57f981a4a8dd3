package session

import (
	"errors"
	"math"
	"spotward/optics"
	"spotward/session/event"
	"spotward/session/words"
)

// inHole refuses what is told of the hole where none is looked at, and a side
// without its hour.
func (s *State) inHole(ev event.Event) error {
	switch {
	case ev.Saw == event.SawHome && ev.Face != optics.FaceTarget:
		return errHoleHere
	case ev.Glow == "":
		return nil
	case ev.Saw != event.SawHome || s.step().Aside && s.step().ID != StepUp:
		return errHoleHere
	case ev.Glow == event.GlowSide && !(math.Hypot(ev.Right, ev.Up) > 0):
		return errHoleSide
	}
	return nil
}

// glowStep asks what the glow does, once a kit, where an even one was seen and
// would prove something.
func glowStep() Step {
	return Step{
		ID: StepGlow, Want: WantChoice,
		Due: func(s State) bool {
			return s.GlowOf() == "" && s.T.Known && s.T.Glow == event.GlowEven
		},
		Say: func(s State) string {
			asked := "Asked once for each kit: at the last touch, did the glow round the hole shift?"
			if s.Since.Turns == 0 { // at the first look nobody has touched anything
				asked = "Asked once for each kit: did its glow round the hole ever shift when a screw was turned?"
			}
			return asked + " Dust on the mirror glows evenly whatever is turned."
		},
		Opts: func(State) []words.Option {
			return []words.Option{
				{ID: event.GlowShifts, Words: "yes: it shifts at a touch"},
				{ID: event.GlowStays, Words: "no: it stays as it is"},
				{ID: event.GlowUnknown, Words: "cannot tell"},
			}
		},
		Take: func(s *State, ev event.Event) {
			s.Glow = ev.Choice
			if s.T.Known && s.T.Glow == event.GlowEven && s.Glow == event.GlowShifts {
				s.T.At = s.HoleBelief(optics.Tube{}, event.GlowEven)
				s.Primary.Tracker = s.Primary.Tracker.Confirm(s.T.At)
			}
		},
	}
}

var (
	errHoleHere = errors.New("no hole is looked at here: say where the spot is")
	errHoleSide = errors.New("brighter at which hour? As in: home 4")
)
