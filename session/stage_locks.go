package session

import (
	"math"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/words"
)

// What holds the primary: springs that push it against its screws, or screws
// and locks against each other.
const (
	CellSprung   = "sprung"
	CellPushPull = "push_pull"
)

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
				// Not where the spot was found from the sky end.
				ID: StepBefore, Want: WantReading, Face: optics.FaceTarget, Header: &behind, Goal: State.GoalOnTarget, Search: true,
				Due: func(s State) bool {
					return !s.done(0) && !s.t.Known && !s.t.Gone && !s.primary.tracker.Seen() && s.Slack() <= SlackTurns
				},
				Say: func(State) string {
					return "Walk behind, card over the end; nose up. No lock yet: where is the return spot on the face?"
				},
			},
			{
				// Once a scope, where its file does not say.
				ID: StepCell, Want: WantChoice,
				Due: func(s State) bool { return s.cell() == "" && s.allTight() && !s.Home() },
				Say: func(State) string {
					return "Look at the back: are there springs under the primary's adjusting screws?"
				},
				Opts: func(State) []words.Option {
					return []words.Option{
						{ID: CellSprung, Words: "yes: springs push the mirror"},
						{ID: CellPushPull, Words: "no: the locks push against the screws"},
						{ID: AnswerUnknown, Words: "cannot tell"},
					}
				},
				Take: func(s *State, ev event.Event) { s.locks.cell = ev.Choice },
			},
			{
				// What they pull together is learnt, where that is not known and the
				// spot is there to tell. Else they are eased with the first move.
				ID: StepEase, Want: WantReading, Face: optics.FaceTarget, Goal: State.GoalOnTarget,
				Due: func(s State) bool {
					return s.allTight() && s.locksToLearn() && s.cell() != CellPushPull && !s.Home()
				},
				Say:  sayEase,
				Tell: tellEase,
			},
		},
	}
}

// cell returns what holds the primary, as its file or somebody says; "" where
// nobody was asked.
func (s State) cell() string {
	switch optics.CellKind(s.Scope.Primary.Kind) {
	case optics.Sprung:
		return CellSprung
	case optics.PushPull:
		return CellPushPull
	}
	return s.locks.cell
}

// sayEase asks for the return spot after the locks were eased: one that was is
// not eased once more.
func sayEase(s State) string {
	if s.told != nil {
		return "Ease the locks, one by one, key out, hands off. Where is the return spot now?"
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

// allTight reports whether the primary has locks and none of them was eased.
func (s State) allTight() bool { return s.Tel.Primary.Locks > 0 && s.Slack() <= SlackTurns }

// locksToLearn reports whether it is not known what the locks pull, and the
// return spot is on the face to tell.
func (s State) locksToLearn() bool { return s.t.Known && !s.locksKnown() }

// locksKnown reports whether it is known what the locks pull: an earlier session
// learnt it, or this one has.
func (s State) locksKnown() bool { return s.primary.learnt != nil || s.primary.redone }

func tellEase(s State) (event.Told, bool) {
	moves := s.easing(nil)
	return event.Told{
		Group: adviser.GroupSet, Moves: moves, Trust: 1,
		Why: "all of them, and a look before the first turn: so what they pull is learnt",
	}, len(moves) > 0
}

// easing returns what the locks are to be eased by before the moves ms of an
// advice: all of them where springs hold the mirror, else only those whose
// screws draw it back, by what that takes. It is nothing where it was left out,
// or is done.
func (s State) easing(ms []adviser.Move) []event.ToldMove {
	if s.lockToEase() < 0 || s.skipped(StageLocks) {
		return nil
	}
	var moves []event.ToldMove
	if s.cell() == CellPushPull {
		for _, mv := range ms {
			if back := mv.Turns; !mv.Lock && back > 0 && mv.Screw < s.Tel.Primary.Locks {
				by := math.Ceil(back/easeMoreTurns)*easeMoreTurns - s.locks.eased[mv.Screw]
				if by = math.Min(by, mostEasedTurns-s.locks.eased[mv.Screw]); by >= SlackTurns {
					moves = append(moves, event.ToldMove{Turn: s.lockTurn(mv.Screw, -by)})
				}
			}
		}
		return moves
	}
	by := easeTurns
	if s.Stage().ID == StageRetighten { // they had bitten already
		by = easeMoreTurns
	}
	for i := range s.Tel.Primary.Locks {
		if s.locks.eased[i] < easeTurns/2 {
			moves = append(moves, event.ToldMove{Turn: s.lockTurn(i, -by)})
		}
	}
	return moves
}

// EasesLocks reports whether the first told moves ease all the locks, and returns
// the moves without a quarter turn of each.
func (s State) EasesLocks(t event.Told) (rest []event.ToldMove, all bool) {
	n := s.Tel.Primary.Locks
	if n == 0 || len(t.Moves) < n {
		return t.Moves, false
	}
	for _, m := range t.Moves[:n] {
		if m.Lock == "" || m.Turns > -easeTurns {
			return t.Moves, false
		}
		if m.Turns += easeTurns; m.Turns < -SlackTurns { // more than the quarter
			rest = append(rest, m)
		}
	}
	return append(rest, t.Moves[n:]...), true
}

func (s State) lockTurn(i int, turns float64) optics.Turn {
	return optics.Turn{Mirror: optics.Primary, Lock: s.Tel.Primary.Labels[i], Turns: turns}
}
