package talk

import (
	"fmt"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/mirrors"
	"spotward/session/words"
)

// standing says how things stand.
func (v *voice) standing(s session.State) {
	plan, at := s.Plan()
	v.sayf("Stage %d of %d: %s.", at+1, len(plan), s.Stage().Title)
	v.spot(s, "Spot on the primary", optics.FacePrimary, s.OnPrimary())
	v.spot(s, "Return spot", optics.FaceTarget, s.OnTarget())
	if e, most, ok := s.AxisError(); ok {
		v.axisError(e, most, s.AllowedMM())
	} else {
		v.sayf("Too early to give an axis error. Allowed: %s.", mm(s.AllowedMM()))
	}
	v.counts(s)
	for _, trouble := range s.Trouble() {
		v.say("Noted: " + full(trouble))
	}
}

func (v *voice) axisError(is, most, allowed float64) {
	v.sayWhole(fmt.Sprintf("The axis error is about %s, at most %s; %s is allowed.", mm(is), mm(most), mm(allowed)))
}

func (v *voice) counts(s session.State) {
	v.sayWhole(fmt.Sprintf("Looks: %d. Moves: %d. Nips of locks: %d.", s.Looks, s.Moves, s.Nips))
	for _, f := range s.Checks.Found {
		v.sayWhole(f.Words)
	}
}

func (v *voice) spot(s session.State, name string, f optics.Face, sp mirrors.Spot) {
	at := "not read since it last moved"
	switch {
	case sp.Gone:
		at = "not in sight there"
	case sp.Known && sp.Saw == event.SawHome:
		at = "home"
	case sp.Known:
		d := s.Tel.TubeToDial(f, sp.At.At)
		at = words.PlaceWords(f, d, d.Len())
	}
	v.say(name + ": " + at + ".")
}

// cameTo says what the session came to, and its tag.
func (v *voice) cameTo(s session.State) {
	v.say(s.Upshot().Words())
	v.say(words.Sentence(words.Outcome(s.Outcome)))
	v.say("The tag: " + words.Tag(s.Tag) + ".")
}
