package session

import (
	"fmt"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/mirrors"
)

func retightenStage() *Stage {
	home := homeStage() // its screws are turned again where the locks pulled the spot off
	st := &Stage{
		ID: StageRetighten, Title: "locks nipped", Where: header.StandBehind,
		Header: header.Header{Stand: header.StandBehind, Tool: header.ToolLocksShort, Tube: header.TubeNoseUp, Beam: header.BeamOn, Card: header.CardWhole},
		Do:     []string{"Tighten each lock a little, round and round. After each round take the key out and look. Snug, never forced."},
		Beware: []string{
			"Two fingers only: a lock grips long before it feels tight. Force bends the cell or cracks the glass.",
			"Nose up, held, until the last lock is snug.",
		},
		Brief: "Two fingers only: a lock grips before it feels tight.",
		Skip:  "the locks stay eased: the mirror will not hold",
		Steps: []Step{
			{
				ID: StepNip, Want: WantReading, Face: optics.FaceTarget, Goal: State.HomeGoal,
				Due:      func(s State) bool { return s.Slack() > mirrors.SlackTurns && s.CanNip() },
				Say:      sayNip,
				Question: askNip,
				Tell:     State.TellNip,
				Take:     func(s *State, _ event.Event) { s.Nipped() },
			},
			{
				ID: StepNipAgain, Want: WantReading, Face: optics.FaceTarget, Goal: State.HomeGoal,
				Header: &home.Header, Beware: home.Beware, Brief: home.Brief,
				Due: func(s State) bool {
					return s.Tel.Primary.Locks > 0 && s.Locks.Nipped < mirrors.MaxNips && !s.Parked() && (s.T.Known || s.Search.Rung == optics.FaceTarget)
				},
				Say:      sayHome,
				Question: askNip,
				Tell:     tellFound(State.HomeGoal),
				Take:     func(s *State, _ event.Event) { s.Locks.Nipped++ },
			},
		},
	}
	for _, step := range searchSteps(State.HomeGoal) {
		due := step.Due
		step.Due = func(s State) bool { return s.Locks.Nipped < mirrors.MaxNips && due(s) }
		step.Take = func(s *State, _ event.Event) { s.Locks.Nipped++ }
		st.Steps = append(st.Steps, step)
	}
	return st
}

const askNip = "Where is the return spot now, measured from the hole's centre?"

// sayNip asks for the return spot between the rounds, and says before the first
// why it need not stand in the very hole.
func sayNip(s State) string {
	say := sayLoop(s, askNip)
	if g := s.HomeGoal(); s.Locks.Nipped == 0 && s.T.Saw != event.SawHome && s.Parked() {
		return fmt.Sprintf("Near enough: within %.1f mm of the goal. The locks are next. %s", g.InsideMM, say)
	}
	return say
}
