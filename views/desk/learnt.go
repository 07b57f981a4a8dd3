package desk

import (
	"fmt"

	"spotward/optics"
	"spotward/session"
	"spotward/session/words"
)

// Learnt is what is known of the mirror in hand, with no move told.
type Learnt struct {
	Mirror optics.Mirror
	Where  string   // its spot is, by all that was read, and where it is wanted
	Screws []string // what a turn clockwise of each does; nil: nothing was read yet
}

// LearntOf says what is known of the mirror in hand.
func LearntOf(st session.State) Learnt {
	m := mirrorOf(st)
	l := Learnt{Mirror: m}
	if !st.Tracker(m).Seen() {
		return l
	}
	at := st.Tel.TubeToDial(m.SpotFace(), st.Tracker(m).Spot().At)
	l.Where = "By all that was read, about " + words.PlaceWords(m.SpotFace(), at, at.Len()) + "." + wantedWords(st, m)
	for i := range st.Tel.Cell(m).Labels {
		b := st.Tracker(m).PerTurn(i)
		at := st.Tel.TubeToDial(m.SpotFace(), b.At)
		l.Screws = append(l.Screws, fmt.Sprintf("toward %s, %.0f mm a turn, %s", words.HourWords(at), at.Len(), knownWords(b)))
	}
	return l
}

// wantedWords says where the spot is wanted, which need not be the middle: the
// return spot stands off the hole's where the one on the primary is left off its own.
func wantedWords(st session.State, m optics.Mirror) string {
	ask := st.Ask()
	if !ask.HasGoal || ask.Face != m.SpotFace() {
		return ""
	}
	at := st.Tel.TubeToDial(ask.Face, ask.Goal.At)
	if at.Len() < 0.25 { // less than a place is told to
		return fmt.Sprintf(" It is wanted within %s mm of the middle.", words.MmText(ask.Goal.InsideMM))
	}
	return fmt.Sprintf(" It is wanted within %s of this place: %s.", words.MmText(ask.Goal.InsideMM)+" mm", words.PlaceWords(ask.Face, at, at.Len()))
}

// mirrorOf is the mirror in hand.
func mirrorOf(st session.State) optics.Mirror {
	if told := st.Told(); told != nil && len(told.Moves) > 0 {
		return told.Moves[0].Mirror
	}
	if f := st.Ask().Face; f != "" && f != optics.FacePrimary {
		return optics.Primary
	}
	return optics.Secondary
}

// knownWords says how well a response is known.
func knownWords(b optics.Belief) string {
	switch part := b.Cov.Sigma() / max(b.At.Len(), 1); {
	case part < 0.15:
		return "well known"
	case part < 0.4:
		return "roughly known"
	}
	return "a guess still"
}
