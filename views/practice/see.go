package practice

import (
	"fmt"
	"strings"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/words"
)

// See says what is to be seen for the question that is asked, in words; ""
// where it asks for nothing that one sees.
func (b *Bench) See(s session.State) string {
	ask := s.Ask()
	letters, labels := ask.Letters()
	switch {
	case len(ask.Faces) > 1:
		said := make([]string, len(ask.Faces))
		for i, f := range ask.Faces {
			said[i] = b.Look(f).Words
		}
		return strings.Join(said, " ")
	case ask.Face != "":
		return b.Look(ask.Face).Words
	case ask.Step == session.StepClass:
		return "The laser's label says class 2."
	case ask.Step == session.StepCircle:
		return b.circleWords()
	case labels:
		return b.letterWords(letters)
	}
	return b.seeFiner(ask.Step)
}

// circleWords says how the spot runs round on the primary when the laser is
// turned once round in its holder.
func (b *Bench) circleWords() string {
	if !b.world.Lit() {
		return UnseenWords(virtual.LaserDark)
	}
	const places = 12
	var at [places]optics.Tube
	trial := b.world.Clone()
	for i := range at {
		trial.TurnLaser(float64(i) * 360 / places)
		at[i] = trial.Sight(optics.FacePrimary).At
	}
	wide := 0.0
	for i := range at {
		wide = max(wide, at[i].Sub(at[(i+places/2)%places]).Len())
	}
	switch ring := 2 * b.real.RingOuterMM; {
	case ring == 0:
		return fmt.Sprintf("The spot runs round in a circle, %s as wide as the mirror.", part(wide/b.real.ApertureMM))
	case wide < ring/4:
		return "The spot hardly moves as the laser is turned."
	case wide < 2*ring:
		return fmt.Sprintf("The spot runs round in a circle %s.", timesWords(wide/ring, "across as the whole ring"))
	}
	return fmt.Sprintf("The spot runs round in a wide circle, %s as wide as the mirror.", part(wide/b.real.ApertureMM))
}

// letterWords says how the letters stand at a mirror's screws.
func (b *Bench) letterWords(m optics.Mirror) string {
	if b.world.Described().Cell(m).PlacesKnown == optics.Unknown {
		var at []string
		for i, label := range b.real.Cell(m).Labels {
			at = append(at, label+" at "+words.HourWords(b.real.ScrewDial(m, i)))
		}
		return "Letters are on the screws already: " + strings.Join(at, ", ") + "."
	}
	return "The screws carry no letters yet: you put them on as asked."
}

// LookFor returns what is seen of what is asked for: where it may be at several
// places, the first of them that shows it.
func (b *Bench) LookFor(ask session.Ask) View {
	v := b.Look(ask.Face)
	for _, f := range ask.Faces {
		if v.Visible || v.InHole {
			break
		}
		if other := b.Look(f); other.Visible {
			v = other
		}
	}
	return v
}
