package session

import (
	"fmt"
	"strings"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
)

// FoundOutKind names what a session finds out of a scope or its laser.
type FoundOutKind string

// What is found out, and told once.
const (
	FoundLetters FoundOutKind = "letters" // they run the other way
	FoundEnd     FoundOutKind = "end"     // a screw moves nothing that way any more
	FoundLock    FoundOutKind = "lock"    // one drags the return spot as it bites
	FoundCircle  FoundOutKind = "circle"  // of the laser
	FoundSwing   FoundOutKind = "swing"   // something gave way
	FoundDead    FoundOutKind = "dead"    // the laser
)

// FoundOut is one thing that a session found out. A record keeps it.
type FoundOut struct {
	Kind   FoundOutKind  `json:"kind"`
	Mirror optics.Mirror `json:"mirror,omitempty"`
	Screw  string        `json:"screw,omitempty"` // or the lock beside it
	Words  string        `json:"words"`
}

// is reports whether two say the same, in whatever figures.
func (f FoundOut) is(g FoundOut) bool {
	return f.Kind == g.Kind && f.Mirror == g.Mirror && f.Screw == g.Screw
}

// FoundOut returns what was found out so far.
func (s State) FoundOut() []FoundOut {
	var out []FoundOut
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		if s.LettersReversed(m) {
			out = append(out, FoundOut{FoundLetters, m, "", fmt.Sprintf("The %s's letters run the other way round. That is allowed for. Carry on.", m)})
		}
		for i, label := range s.Tel.Cell(m).Labels {
			if s.Tracker(m).Said(i) == adviser.End {
				out = append(out, FoundOut{FoundEnd, m, label, fmt.Sprintf("The %s's screw %s moves nothing that way any more: it is at its end, or slack. The others will do its share.", m, label)})
			}
		}
	}
	out = append(out, s.locksFound()...)
	if r := s.Laser.CircleMM; r > s.Tel.CircleIgnoredMM() {
		said := fmt.Sprintf("Turned in its holder, the laser's spot makes a circle of %.1f mm in radius.", r)
		switch {
		case s.Laser.Fault == optics.LaserOff:
			said += " The goals are moved for it."
		case s.Laser.Fitted || r > s.Tel.CircleFittedMM():
			said += " That is too much, or too unsteady, to be allowed for."
		default:
			said += " It is measured before the secondary is centred."
		}
		out = append(out, FoundOut{Kind: FoundCircle, Words: said})
	}
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		switch {
		case !s.Of(m).Redone:
		case s.HoldBack != "":
			out = append(out, FoundOut{FoundSwing, m, "", fmt.Sprintf("The %s gave way in the swing. It was set again, and the second swing was no better.", m)})
		case s.Over && s.Outcome == OutcomeAligned:
			out = append(out, FoundOut{FoundSwing, m, "", fmt.Sprintf("The %s was not in its place after the swing. It was set again, and held the second time.", m)})
		default:
			out = append(out, FoundOut{FoundSwing, m, "", fmt.Sprintf("The %s was not in its place after the swing. It is set again, once.", m)})
		}
	}
	if s.Laser.Dead {
		out = append(out, FoundOut{Kind: FoundDead, Words: "The laser died." + s.Unseen()})
	}
	return out
}

// locksFound returns the locks that drag the return spot.
func (s State) locksFound() []FoundOut {
	var out []FoundOut
	for label, said := range s.Dragging() {
		out = append(out, FoundOut{FoundLock, optics.Primary, label, said})
	}
	return out
}

// foundNow says what the last answer has found out, so that it is told once, on
// the spot.
func (s State) foundNow() string {
	n := s.history
	for n != nil && (n.event.Kind == event.KindAdvised || n.event.Kind == event.KindHand) {
		n = n.prev
	}
	if n == nil || n.before.Load() == nil { // hundreds of turns ago
		return ""
	}
	var said []string
	before := n.before.Load().FoundOut()
next:
	for _, f := range s.FoundOut() {
		for _, was := range before {
			if was.is(f) {
				continue next
			}
		}
		said = append(said, f.Words)
	}
	return strings.Join(said, " ")
}
