package session

import (
	"fmt"
	"math"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/mirrors"
	"spotward/session/words"
)

// What to do about what a finer check has found.
const (
	FinerTurn  = "turn"
	FinerLeave = "leave"
)

// maxRounds is how often a screw is turned after a finer check before what is
// left is accepted and said: by then it is the air, or the lock.
const maxRounds = 5

// finerTodo reports whether something is still to be done about what was found.
func (s State) finerTodo() bool {
	return s.finer.on && s.finer.seen && (s.finerBeyond() || s.finerNearer()) && s.finer.rounds < maxRounds
}

// finerTurning reports whether the primary is to be turned now.
func (s State) finerTurning() bool { return s.finer.seen && s.finer.choice == FinerTurn }

// afterFiner are the steps that follow a finer look: what to do about it, the
// screw, and the locks. The laser stays as it was for the look.
func afterFiner(beam header.Beam, card header.Card, seat header.Seat) []Step {
	behind := &header.Header{Stand: header.StandBehind, Tool: header.ToolPrimaryAndLocks, Tube: header.TubeNoseUp, Beam: beam, Card: card, Seat: seat}
	return []Step{
		{
			ID: StepAfter, Want: WantChoice, Header: behind,
			Due: func(s State) bool { return s.finerTodo() && s.finer.choice == "" },
			Say: func(s State) string {
				said := fmt.Sprintf("The axis misses by about %.1f mm; %.1f mm is allowed.", s.finer.at.At.Len(), s.AllowedMM())
				switch {
				case !s.finerBeyond():
					said += " To be called ready it must be nearer."
				case s.Stage().ID == StageStar:
					said += " No spot shows a ring that is off centre. A star does."
				}
				return said + " Turn the primary for it?"
			},
			Opts: func(State) []words.Option {
				return []words.Option{
					{ID: FinerTurn, Words: "yes: the primary, a little at a time"},
					{ID: FinerLeave, Words: "no: leave it, and note it"},
				}
			},
			Take: func(s *State, ev event.Event) { s.finer.choice = ev.Choice },
		},
		{
			ID: StepEase, Want: WantConfirm, Header: behind,
			Due: func(s State) bool {
				return s.finerTurning() && s.Tel.Primary.Locks > 0 && s.Slack() <= mirrors.SlackTurns
			},
			Say: func(State) string {
				return "Ease the locks an eighth each, one by one, nose up. Press Enter when all are eased."
			},
			Tell: tellFinerLocks(-1. / 8),
			Take: func(s *State, _ event.Event) { s.finer.eased = true },
		},
		{
			ID: StepTurn, Want: WantConfirm, Header: behind,
			Due: State.finerTurning,
			Say: func(s State) string {
				if s.Due == nil {
					return "No turn is known that would improve it. Press Enter, then look again."
				}
				return "Make that turn. Key out, hands off. Press Enter, then look again."
			},
			Tell: tellFiner,
			Take: func(s *State, _ event.Event) {
				s.lookAgain()
				s.finer.turned = true
				s.finer.rounds++
			},
		},
		{
			ID: StepNip, Want: WantConfirm, Header: behind,
			Due: func(s State) bool {
				done := !s.finerBeyond() && !s.finerNearer() || s.finer.choice == FinerLeave || s.finer.rounds >= maxRounds
				return s.finer.eased && s.finer.seen && done && s.Slack() > mirrors.SlackTurns
			},
			Say: func(State) string {
				return "Nip the locks a touch each, round and round, until snug. Press Enter, then look once more."
			},
			Tell: tellNipAll,
			Take: func(s *State, _ event.Event) { s.lookAgain() },
		},
	}
}

// tellFiner asks the adviser which screw takes the axis home: the primary's
// screws move the return spot by 2·S/f of what they move the axis, so that what
// was learnt of the one holds for the other.
func tellFiner(s State) (event.Told, bool) {
	k := 2 * s.Tel.PathMM() / s.Tel.FocalLengthMM
	e := s.finer.at
	try := s
	try.Primary.Tracker = s.Primary.Tracker.Lose().Confirm(optics.Belief{At: e.At.Scale(k), Cov: e.Cov.Scale(k)})
	try.Whole, try.Watching = true, false
	t, ok := try.Tell(try.face(), optics.Primary, optics.Goal{InsideMM: math.Min(k*s.AllowedMM()/2, k*e.At.Len()/2)})
	if !ok {
		return t, false
	}
	for i := range t.Moves {
		t.Moves[i].Stop = nil // no laser's spot is there to be watched
	}
	to := s.Tel.TubeToDial(optics.FaceCard, e.At.Scale(-1))
	t.Then = nil
	t.Why = fmt.Sprintf("the axis has to go %.1f mm toward %s, as seen from the sky end", e.At.Len(), words.HourWords(to))
	return t, true
}

func tellFinerLocks(turns float64) func(State) (event.Told, bool) {
	return func(s State) (event.Told, bool) {
		t := event.Told{Group: adviser.GroupSet, Trust: 1, Why: "with the locks tight an adjusting screw moves nothing"}
		for i := range s.Tel.Primary.Locks {
			t.Moves = append(t.Moves, event.ToldMove{Turn: s.LockTurn(i, turns)})
		}
		return t, len(t.Moves) > 0
	}
}

// tellNipAll tightens each lock by what it was eased.
func tellNipAll(s State) (event.Told, bool) {
	t := event.Told{Group: adviser.GroupSet, Trust: 1, Why: "by a touch each, round and round: so no lock drags the mirror far"}
	for i := range s.Tel.Primary.Locks {
		if n := s.Locks.Eased[i]; n > mirrors.SlackTurns {
			t.Moves = append(t.Moves, event.ToldMove{Turn: s.LockTurn(i, n)})
		}
	}
	return t, len(t.Moves) > 0
}
