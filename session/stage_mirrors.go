package session

import (
	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
)

func secondaryStage() *Stage {
	return &Stage{
		ID: StageSecondary, Title: "spot to the ring", Where: StandSky,
		Header: Header{Stand: StandSky, Tool: ToolSecondary, Tube: TubeLevel, Beam: BeamOn, Card: CardHalf},
		Do: []string{
			"Screws move in pairs: ease the first, then take up the second until the cue. All three snug at the end.",
			"Key out, hands off, then look. On the ring the spot flares; inside it dims again: bright is not home.",
		},
		Beware: []string{
			"Never touch the centre bolt: it holds the glass over the primary. Never ease all three at once.",
			"Card over the half where red shows, head outside the rim. Key on its tether: nothing may fall on the primary.",
			"Never ease a screw more than half a turn past the point where it goes free.",
		},
		Eyes: 1,
		Skip: "the spot on the primary stays where it is",
		Steps: []Step{
			{
				ID: StepSnug, Want: WantReading, Face: optics.FacePrimary, Goal: State.GoalOnPrimary,
				Due: func(s State) bool { return s.snug.loose && (s.snug.free || s.snug.moves >= unsnugMoves || s.Centred()) },
				Say: func(State) string {
					return "Go round: each of the secondary's screws snug, none forced. Key out, hands off. Where is the spot now?"
				},
				Take: func(s *State, _ event.Event) { s.snug = snug{} },
			},
			{
				ID: StepPrimary, Want: WantReading, Face: optics.FacePrimary, Goal: State.GoalOnPrimary,
				Due:      func(s State) bool { return !s.Centred() },
				Say:      saySpot,
				Question: askSpot,
				Tell:     func(s State) (event.Told, bool) { return s.tell(optics.Secondary, s.GoalOnPrimary()) },
			},
		},
	}
}

const askSpot = "Where is the spot on the primary now?"

// saySpot asks for the spot on the primary, and where else to look when it is
// not on it.
func saySpot(s State) string {
	if s.told == nil && s.p.Gone {
		return "Not on the mirror: look for red on the tube's wall, and at the secondary's edge. Where is it? As in: wall 4. Nowhere at all: stop safely, and hold it back."
	}
	return sayLoop(s, askSpot)
}

// unsnugMoves is after how many moves the secondary's screws are taken up even
// where the spot is not there yet: hands that turn two screws alike only nearly
// leave all three slack in the end. Trainers' judgement.
const unsnugMoves = 4

// snugMM is how far the spot may go as they are taken up, 1σ; with one of them
// free, farther. This program's own.
const (
	snugMM     = 2
	snugFreeMM = 12
)

// snugCov is what taking up the secondary's screws may do to the spot.
func (s State) snugCov() optics.Cov {
	if s.snug.free || s.snug.moves >= unsnugMoves {
		return optics.Round(snugFreeMM)
	}
	return optics.Round(snugMM)
}

// sayLoop asks a question, and says first to turn what is told.
func sayLoop(s State, question string) string {
	switch {
	case s.told != nil && s.Knocks(s.working()):
		return "Turn, key out, hands off, a knuckle on the cell, then look. " + question
	case s.told != nil:
		return "Turn, key out, hands off, then look. " + question
	}
	return question
}

func locksStage() *Stage {
	behind := Header{Stand: StandBehind, Tool: ToolNone, Tube: TubeNoseUp, Beam: BeamOn, Card: CardWhole}
	return &Stage{
		ID: StageLocks, Title: "locks eased", Where: StandBehind,
		Header: Header{Stand: StandBehind, Tool: ToolLocks, Tube: TubeNoseUp, Beam: BeamOn, Card: CardWhole},
		Do:     []string{"A quarter turn and no more, one lock after the other. A lock never comes out altogether."},
		Beware: []string{
			"Nose up, held, a heavy tube by two people: with eased locks and the sky end down the mirror tips on its clips.",
			"Never take a lock out. It only needs to let the screw beside it move.",
		},
		Skip: "the locks stay as they are: an adjusting screw may not move the mirror",
		Steps: []Step{
			{
				ID: StepBefore, Want: WantReading, Face: optics.FaceTarget, Header: &behind, Goal: State.GoalOnTarget,
				Due: func(s State) bool { return !s.done(0) && !s.t.Known && !s.t.Gone && s.Slack() <= SlackTurns },
				Say: func(State) string {
					return "Walk behind, card over the end; nose up. No lock yet: where is the return spot on the face?"
				},
			},
			{
				ID: StepEase, Want: WantReading, Face: optics.FaceTarget, Goal: State.GoalOnTarget,
				Due:  func(s State) bool { return s.lockToEase() >= 0 && s.locksByOne() && !s.Home() },
				Say:  sayEase,
				Tell: tellEase,
			},
			{
				ID: StepEaseAll, Want: WantConfirm,
				Due: func(s State) bool { return s.lockToEase() >= 0 && !s.Home() },
				Say: func(State) string {
					return "Ease the locks one by one, a quarter turn each. Say yes when all are eased."
				},
				Tell: tellEase,
			},
		},
	}
}

// sayEase asks for the return spot after a lock was eased: one that was is not
// eased once more.
func sayEase(s State) string {
	if s.told != nil {
		return "Ease that lock, key out, hands off. Where is the return spot now?"
	}
	return "Key out, hands off. Where is the return spot now?"
}

// easeTurns is how far a lock is eased: enough for the mirror to move, too
// little for it to tip. This program's own.
const easeTurns = 0.25

// easeMoreTurns is what a lock that blocks its screw is eased beyond that, and
// mostEasedTurns how far in all. This program's own.
const (
	easeMoreTurns  = 0.125
	mostEasedTurns = 0.5
)

// lockToEase returns the first lock that still stands tight, or −1.
func (s State) lockToEase() int {
	for i := range s.Tel.Primary.Locks {
		if s.locks.eased[i] < easeTurns/2 {
			return i
		}
	}
	return -1
}

// locksByOne reports whether each lock gets a look of its own: their pull is
// not known yet and the return spot is there to be read.
func (s State) locksByOne() bool {
	return s.t.Known && s.primary.learnt == nil && !s.primary.redone
}

func tellEase(s State) (event.Told, bool) {
	i := s.lockToEase()
	if i < 0 {
		return event.Told{}, false
	}
	last := s.Tel.Primary.Locks
	why := "all of them at once: this scope's locks are known, or there is no spot to read yet"
	if s.locksByOne() {
		last, why = i+1, "one at a time, with a look: so the lock's own pull is learnt"
	}
	t := event.Told{Group: adviser.GroupOne, Trust: 1, Why: why}
	if last-i > 1 {
		t.Group = adviser.GroupSet
	}
	for ; i < last; i++ {
		t.Moves = append(t.Moves, event.ToldMove{Turn: s.lockTurn(i, -easeTurns)})
	}
	return t, true
}

func (s State) lockTurn(i int, turns float64) optics.Turn {
	return optics.Turn{Mirror: optics.Primary, Lock: s.Tel.Primary.Labels[i], Turns: turns}
}

func roughStage() *Stage {
	return &Stage{
		ID: StageRough, Title: "return spot found", Where: StandBehind,
		Header: Header{Stand: StandBehind, Tool: ToolPrimary, Tube: TubeNoseUp, Beam: BeamOn, Card: CardWhole},
		Do: []string{
			"The return spot is looked for from near to far: on the face, at the drawtube's mouth, beside the outgoing spot on the secondary, on the card.",
			"The outgoing spot is the brighter one and stays on the glass when you move your head; a sixteenth of a turn moves the return.",
		},
		Beware: []string{
			"Nose up, held, while locks are eased. Drive straight, do not lean on the tube.",
			"At the open end: head outside the rim, card over the half where red shows.",
		},
		Skip: "the return spot was not found",
		Steps: append([]Step{{
			ID: StepOnTarget, Want: WantReading, Face: optics.FaceTarget, Goal: State.GoalOnTarget,
			Due:      func(s State) bool { return !s.t.Known && s.search.rung == optics.FaceTarget },
			Question: "Where is the return spot on the face? Not there: gone.",
			Tell:     tellFound(State.GoalOnTarget),
		}}, searchSteps(State.GoalOnTarget)...),
	}
}

// tellFound tells the primary's next move toward a goal, once the return spot
// is found: from wherever it was seen.
func tellFound(goal func(State) optics.Goal) func(State) (event.Told, bool) {
	return func(s State) (event.Told, bool) {
		if s.search.astray {
			return event.Told{}, false
		}
		return s.tell(optics.Primary, goal(s))
	}
}

// tellSearched tells the same from another place than the face. Where that says
// that the spot is where it is wanted, there is nothing to turn: it is told to
// look at the face, where alone that can be seen.
func tellSearched(goal func(State) optics.Goal) func(State) (event.Told, bool) {
	return func(s State) (event.Told, bool) {
		t, ok := tellFound(goal)(s)
		if ok || s.search.astray || !s.primary.tracker.Seen() {
			return t, ok
		}
		return event.Told{
			Group: adviser.GroupOne, Moves: []event.ToldMove{}, Trust: 1,
			Why: "by what was seen the return spot is where it is wanted: look for it on the face",
		}, true
	}
}

// searchSteps look for a return spot that is not on the target face, from near
// to far. They are due in every stage that works on the primary.
func searchSteps(goal func(State) optics.Goal) []Step {
	inside := Header{Stand: StandSky, Tool: ToolPrimaryNext, Tube: TubeNoseUp, Beam: BeamOn, Card: CardHalf}
	step := func(f optics.Face, question string) Step {
		return Step{
			ID: StepID(f), Want: WantReading, Face: f, Header: &inside,
			Beware:   []string{"Card over the half where red shows; head outside the rim.", "Nose up, held, while locks are eased."},
			Due:      func(s State) bool { return !s.t.Known && s.search.rung == f },
			Question: question,
			Tell:     tellSearched(goal),
		}
	}
	return []Step{
		step(optics.FaceMouth, "Is the return spot at the drawtube's mouth? Where, from its middle? Not there: gone."),
		step(optics.FaceSecondary, "Two spots on the secondary: where is the dimmer one, from the brighter one? Not there: gone."),
		step(optics.FaceCard, "Where does red fall on the card, from the tube's middle? Not there: gone."),
	}
}

func homeStage() *Stage {
	return &Stage{
		ID: StageHome, Title: "return spot home", Where: StandBehind,
		Header: Header{Stand: StandBehind, Tool: ToolPrimary, Tube: TubeNoseUp, Beam: BeamOn, Card: CardWhole},
		Do: []string{
			"Turn until the return spot is seen going down the hole: it dims, faint rays are left, one spot remains on the secondary. Wanted beside the hole? The locks pull it the rest.",
			"Key out, hands off, then look. A dim spot is not home; home is seen going in.",
		},
		Beware: []string{
			"Nose up, held. Drive straight, do not lean on the tube.",
			"A screw that goes hard or free: stop, and say stuck or free.",
		},
		Skip: "the return spot is left where it is",
		Steps: append([]Step{{
			ID: StepTarget, Want: WantReading, Face: optics.FaceTarget, Goal: State.homeGoal,
			Due:      func(s State) bool { return !s.parked() && (s.t.Known || s.search.rung == optics.FaceTarget) },
			Question: "Where is the return spot now, from the hole's middle?",
			Tell:     tellFound(State.homeGoal),
		}}, searchSteps(State.homeGoal)...),
	}
}

// homeGoal is where the return spot is wanted before the locks bite: opposite
// to where they are known to pull it.
func (s State) homeGoal() optics.Goal {
	g := s.GoalOnTarget()
	if s.Tel.Primary.Locks == 0 {
		return g
	}
	left := make([]float64, s.Tel.Primary.Locks)
	for i := range left {
		left[i] = pressing(s.locks.eased[i])
	}
	return adviser.ParkGoal(s.primary.tracker, g, left)
}
