package mirrors

import (
	"fmt"

	"spotward/optics"
	"spotward/optics/adviser"
)

// Headway is how the work on one mirror gets on.
type Headway struct {
	nearestMM float64 // to its goal, of all looks so far; 0: none yet
	moves     int     // since then
	anew      bool    // its screws were learnt anew
	justNow   bool    // since the last look
	Unlikely  int     // looks since then that nothing believed of the screws explains
}

// A look counts as nearer from a seventh on. After so many moves that brought
// nothing nearer the screws are not what they were thought to be; after as many
// again it is more than a volunteer's work. Trainers' judgement; the last is this
// program's own: of 900 sessions in each row of the feed's table none that had so many
// came to an end.
const (
	nearerPart    = 0.85
	movesInVain   = 8
	movesToStop   = 14
	movesHopeless = 22
	movesOnTwo    = 3 // with a screw that does not turn
	anewMM        = 5 // how far the spot may then be off where it was thought to be
)

// A look that comes so seldom, by all that is believed of the screws, says that
// they are something else, if it comes so often. This program's own.
const (
	unlikelyChance = 0.05
	unlikelyLooks  = 3
)

// lacksScrew reports whether a screw of mirror m is stuck or stripped: what the
// others can reach is a line, and no longer everywhere.
func (s Work) lacksScrew(m optics.Mirror) bool { return s.lackingScrew(m) != "" }

// lackingScrew is the letter of the first such screw, or "".
func (s Work) lackingScrew(m optics.Mirror) string {
	k := s.Tracker(m)
	for i := range s.Tel.Cell(m).Screws {
		if said := k.Said(i); said == adviser.Stuck || said == adviser.Stripped {
			return s.Tel.Cell(m).Labels[i]
		}
	}
	return ""
}

// FreshHeadway begins to count anew, as at a new stage: what was learnt again is
// not learnt anew twice.
func (s *Work) FreshHeadway() {
	for _, m := range []*Screws{&s.Secondary, &s.Primary} {
		m.Headway = Headway{anew: m.Headway.anew}
	}
}

// noteHeadway takes a look after a move of mirror m, of these chances by what was
// believed. When nothing comes of the moves, and nothing that is believed of the
// screws explains it, that is dropped and learnt anew, from the geometry.
func (s *Work) noteHeadway(m optics.Mirror, chances float64) {
	if s.Since.looked.mirror != m {
		return
	}
	goal := s.GoalOnPrimary()
	if m == optics.Primary {
		goal = s.HomeGoal()
	}
	h, k := &s.Of(m).Headway, s.Tracker(m)
	h.justNow = false
	if d := k.Spot().At.Sub(goal.At).Len(); h.nearestMM == 0 || d < nearerPart*h.nearestMM {
		h.nearestMM, h.moves, h.Unlikely = d, 0, 0
		return
	}
	if chances < unlikelyChance {
		h.Unlikely++
	}
	if h.moves++; h.moves < movesInVain || h.anew || h.Unlikely < unlikelyLooks || s.lacksScrew(m) {
		return
	}
	h.moves, h.anew, h.justNow = 0, true, true
	cell := s.Tel.Cell(m)
	if cell.PlacesKnown == optics.Given {
		cell.PlacesKnown = optics.Guessed // and not where the file says so surely
	}
	s.setCell(m, cell)
	s.SetTracker(m, k.Anew(s.Tel, optics.Round(anewMM)))
	s.Troubles = append(s.Troubles[:len(s.Troubles):len(s.Troubles)], fmt.Sprintf("the %s's screws did not do what was expected: what they do was learnt again", m))
}

// Hopeless reports whether so many moves of mirror m, or as many again, brought nothing
// nearer that the session stops by itself.
func (s Work) Hopeless(m optics.Mirror) bool {
	n := s.Of(m).Headway.moves
	return n > 0 && n%movesHopeless == 0
}

// inVain returns the question that moves which bring nothing call for, or "".
func (s *Work) inVain(m optics.Mirror) string {
	h := &s.Of(m).Headway
	if s.lacksScrew(m) && h.moves >= movesOnTwo {
		return fmt.Sprintf("%s moves nothing, and the others reach no farther. Better stop safely and hold it back for trained hands.", s.lackingScrew(m))
	}
	if h.moves < movesToStop {
		return ""
	}
	return fmt.Sprintf("%d moves and no nearer. Better stop safely and hold it back for trained hands.", h.moves)
}
