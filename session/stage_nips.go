package session

import (
	"fmt"
	"math"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
)

func retightenStage() *Stage {
	st := &Stage{
		ID: StageRetighten, Title: "locks nipped", Where: StandBehind,
		Header: Header{Stand: StandBehind, Tool: ToolLocksShort, Tube: TubeNoseUp, Beam: BeamOn, Card: CardWhole},
		Do:     []string{"A little at each lock, round and round, key out and a look each round. Snug, never forced."},
		Beware: []string{
			"Two fingers only: a lock bites long before it is hard. Forced, it bends the cell or cracks the glass.",
			"Nose up, held, until the last lock is snug.",
		},
		Skip: "the locks stay eased: the mirror will not hold",
		Steps: []Step{
			{
				ID: StepNip, Want: WantReading, Face: optics.FaceTarget, Goal: State.homeGoal,
				Due:      func(s State) bool { return s.Slack() > SlackTurns && s.canNip() },
				Say:      sayNip,
				Question: askNip,
				Tell:     tellNip,
				Take:     noteNip,
			},
			{
				ID: StepNipAgain, Want: WantReading, Face: optics.FaceTarget, Goal: State.homeGoal,
				Due: func(s State) bool {
					return s.Tel.Primary.Locks > 0 && s.locks.nipped < maxNips && !s.parked() && (s.t.Known || s.search.rung == optics.FaceTarget)
				},
				Question: "The locks have pulled it off. Where is the return spot now?",
				Tell:     tellFound(State.homeGoal),
				Take:     func(s *State, _ event.Event) { s.locks.nipped++ },
			},
		},
	}
	for _, step := range searchSteps(State.homeGoal) {
		due := step.Due
		step.Due = func(s State) bool { return s.locks.nipped < maxNips && due(s) }
		step.Take = func(s *State, _ event.Event) { s.locks.nipped++ }
		st.Steps = append(st.Steps, step)
	}
	return st
}

// noteNip counts a round. After one that has pulled the spot off its place each
// lock gets a look of its own.
func noteNip(s *State, _ event.Event) {
	s.locks.nipped++
	s.locks.wrong = s.locks.wrong || !s.parked()
}

const askNip = "Where is the return spot now, from the hole's middle?"

// sayNip asks for the return spot between the rounds, and says before the first
// why it need not stand in the very hole.
func sayNip(s State) string {
	say := sayLoop(s, askNip)
	if g := s.homeGoal(); s.locks.nipped == 0 && s.t.Saw != event.SawHome && s.parked() {
		return fmt.Sprintf("Near enough: within %.1f mm of where it is wanted. The locks are next. %s", g.InsideMM, say)
	}
	return say
}

// maxNips is how many rounds are tried before what is left is accepted and
// said: by then it is the lock, not the hand.
const maxNips = 9

// Slack returns how far the locks still stand eased, in turns, the widest.
func (s State) Slack() float64 {
	w := 0.0
	for i := range s.Tel.Primary.Locks {
		w = math.Max(w, s.locks.eased[i])
	}
	return w
}

// SlackTurns is what counts as tight: less than any hand can tell.
const SlackTurns = 1. / 64

// parked reports whether the return spot stands where the locks may bite.
func (s State) parked() bool { return s.there(optics.Primary, s.t, s.homeGoal()) }

// canNip reports whether the locks may be nipped: the spot stands right, or
// enough was tried.
func (s State) canNip() bool { return s.parked() || s.locks.nipped >= maxNips }

func tellNip(s State) (event.Told, bool) {
	if !s.canNip() {
		return event.Told{}, false
	}
	t := event.Told{Group: adviser.GroupSet, Trust: 1, Why: "round and round, at most an eighth each: so no lock drags the mirror far"}
	t.Snug = s.hangs() && s.locks.nipped == 0
	last := true
	for i := range s.Tel.Primary.Locks {
		n := s.nipOf(i)
		if n <= 0 {
			continue
		}
		move := event.ToldMove{Turn: s.lockTurn(i, n)}
		if n > 2*touchTurns+SlackTurns {
			move.Goes = int(math.Round(n / touchTurns)) // a touch each, round and round
		}
		if s.lockByLock() {
			t.Moves, t.Group = []event.ToldMove{move}, adviser.GroupOne
			t.Why = "the last round has pulled it off: one lock now, and a look"
			return t, true
		}
		t.Moves = append(t.Moves, move)
		last = last && s.LastNip(move.Turn)
	}
	if last {
		t.Why = "the last round: until two fingers on the key's short arm hold it, sooner or later than told; no farther"
	}
	return t, len(t.Moves) > 0
}

// hangs reports whether one of the primary's screws may hang free: a plate on four
// stands on three of them, and rocks until the fourth is taken up.
func (s State) hangs() bool { return s.Tel.Primary.Screws > 3 }

// touchesMM is how far the return spot may go as such a screw is taken up until
// it touches, 1σ. This program's own.
const touchesMM = 1

// touchTurns is what is left for the last round, and what the first takes where
// it is not known what the locks pull.
const touchTurns = 1. / 16

// nipOf returns by how much lock i is tightened before the next look. Where it
// is known what the locks pull: all but a touch, then the touch. Where it is not:
// a touch before that. With a look for each lock: at most an eighth.
func (s State) nipOf(i int) float64 {
	left := s.locks.eased[i]
	most := left - touchTurns
	if s.lockByLock() {
		most = math.Min(most, 2*touchTurns)
	}
	switch {
	case left <= SlackTurns:
		return 0
	case left < 2*touchTurns:
		return left
	case s.locks.nipped == 0 && !s.locksKnown():
		return touchTurns
	}
	return most
}

// NipsLeft returns after how many more looks the locks are tight, if no round
// goes wrong.
func (s State) NipsLeft() int {
	n := 0
	for s.Slack() > SlackTurns {
		looks := 1
		if s.lockByLock() {
			looks = 0
		}
		for i := range s.Tel.Primary.Locks {
			step := s.nipOf(i)
			s.locks.eased[i] -= step
			if s.lockByLock() && step > 0 {
				looks++
			}
		}
		n += looks
		s.locks.nipped++
	}
	return n
}

// lockByLock reports whether each lock gets a look of its own: a round went
// wrong, and not enough was tried yet.
func (s State) lockByLock() bool { return s.locks.wrong && s.locks.nipped < maxNips }
