package session

import (
	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/mirrors"
	"spotward/session/words"
)

func locksStage() *Stage {
	behind := header.Header{Stand: header.StandBehind, Tool: header.ToolNone, Tube: header.TubeNoseUp, Beam: header.BeamOn, Card: header.CardWhole}
	return &Stage{
		ID: StageLocks, Title: "locks eased", Where: header.StandBehind,
		Header: header.Header{Stand: header.StandBehind, Tool: header.ToolLocks, Tube: header.TubeNoseUp, Beam: header.BeamOn, Card: header.CardWhole},
		Do:     []string{"Ease each lock a quarter turn and no more, one after the other. A lock never comes out altogether."},
		Beware: []string{
			"Nose up, held; two people for a heavy tube. With locks eased and the sky end down the mirror tips.",
			"Never take a lock out. It only needs to let the screw beside it move.",
		},
		Brief: "Nose up, held; two people for a heavy tube.",
		Skip:  "the locks stay as they are: an adjusting screw may not move the mirror",
		Steps: []Step{
			{
				// Not where the spot was found from the sky end.
				ID: StepBefore, Want: WantReading, Face: optics.FaceTarget, Header: &behind, Goal: State.GoalOnTarget, Search: true,
				Due: func(s State) bool {
					return !s.done(0) && !s.T.Known && !s.T.Gone && !s.Primary.Tracker.Seen() && s.Slack() <= mirrors.SlackTurns
				},
				Say: func(s State) string {
					return s.atFace("Card over the end, nose up. Walk behind. ") + "Touch no lock yet. Where is the return spot on the face?"
				},
			},
			{
				// Once a scope, where its file does not say.
				ID: StepCell, Want: WantChoice,
				Due: func(s State) bool { return s.Cell() == "" && s.AllTight() && !s.Home() },
				Say: func(State) string {
					return "Look at the back. Are there springs under the primary's adjusting screws?"
				},
				Opts: func(State) []words.Option {
					return []words.Option{
						{ID: mirrors.CellSprung, Words: "yes: springs push the mirror"},
						{ID: mirrors.CellPushPull, Words: "no: the locks push against the screws"},
						{ID: AnswerUnknown, Words: "cannot tell"},
					}
				},
				Take: func(s *State, ev event.Event) { s.Locks.Cell = ev.Choice },
			},
			{
				// What they pull together is learnt, where that is not known and the
				// spot is there to tell. Else they are eased with the first move.
				ID: StepEase, Want: WantReading, Face: optics.FaceTarget, Goal: State.GoalOnTarget,
				Due: func(s State) bool {
					return s.AllTight() && s.LocksToLearn() && s.Cell() != mirrors.CellPushPull && !s.Home()
				},
				Say:  sayEase,
				Tell: tellEase,
			},
		},
	}
}

// sayEase asks for the return spot after the locks were eased: one that was is
// not eased once more.
func sayEase(s State) string {
	if s.Due != nil {
		return "Ease the locks, one by one. Key out, hands off. Where is the return spot now?"
	}
	return "Key out, hands off. Where is the return spot now?"
}

func tellEase(s State) (event.Told, bool) {
	moves := s.Easing(nil)
	return event.Told{
		Group: adviser.GroupSet, Moves: moves, Trust: 1,
		Why: "ease all of them, then look: that shows how far they pull the mirror",
	}, len(moves) > 0
}
