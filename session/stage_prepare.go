package session

import (
	"fmt"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/words"
)

// Choices before the verdict.
const (
	WhyRoutine = "routine"
	WhyPoor    = "poor"
	WhyCarried = "carried"
	WhyDropped = "dropped"

	EmptyRound = "round"
	EmptyOff   = "off"

	// Of the ring's width, from edge to edge. CircleSmall is what half was called.
	CircleStill   = "still"
	CircleQuarter = "quarter"
	CircleHalf    = "half"
	CircleSmall   = "small"
	CircleWide    = "wide"

	AnswerUnknown = "unknown"
)

func readyStage() *Stage {
	return &Stage{
		ID: StageReady, Title: "ready", Where: header.StandBeside,
		Header: header.Header{Stand: header.StandBeside, Tool: header.ToolNone, Tube: header.TubeLevel, Beam: header.BeamOff, Card: header.CardNone},
		Do: []string{
			"Cap on, motors off. Swing the tube up and down twice, so that the mirror settles.",
			"Turn the open end to a wall. Nothing else in the focuser: no step-down ring, no lens.",
			"Count the kit out: laser, its battery, holder, driver, hex key, torch, tape, white card.",
		},
		Beware: []string{
			"Cap on where sun can come in. Never toward the sun. A sun filter goes over the front, never at the eyepiece.",
			"Keep button batteries from children. If one is swallowed, get emergency care at once.",
			"Heavy tubes: two people, for every swing.",
			"Local rules and trained people come first.",
		},
		Brief: "Cap on where sun can come in. Never toward the sun.",
		Steps: []Step{{
			ID: StepWhy, Want: WantChoice,
			Say: func(s State) string {
				return "Motors off, tube level, open end to a wall. Count the tools. What brings you to this scope?"
			},
			Opts: func(State) []words.Option {
				return []words.Option{
					{ID: WhyRoutine, Words: "a routine look"},
					{ID: WhyPoor, Words: "its images are poor"},
					{ID: WhyCarried, Words: "it was carried or driven about"},
					{ID: WhyDropped, Words: "it was dropped or taken apart"},
				}
			},
			Take: func(s *State, ev event.Event) {
				s.Reason = ev.Choice
				if ev.Choice == WhyDropped { // what was taken apart is new again
					for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
						s.Of(m).Learnt = nil
						s.SetTracker(m, adviser.NewTracker(s.Tel, m, nil))
					}
				}
			},
		}},
	}
}

func emptyStage() *Stage {
	return &Stage{
		ID: StageEmpty, Title: "empty focuser", Where: header.StandBeside,
		Header: header.Header{Stand: header.StandBeside, Tool: header.ToolNone, Tube: header.TubeLevel, Beam: header.BeamOff, Card: header.CardNone, Seat: header.SeatEmpty},
		Do: []string{
			"Open end to a light wall, cap off. Look in through the empty focuser from a hand's breadth, eye in the middle.",
			"The secondary should look round and stand in the middle of the drawtube, the primary's clips all in it.",
		},
		Beware: []string{"Turn the open end from the sun before the cap comes off and before an eye comes to the focuser."},
		Brief:  "Open end away from the sun before the cap comes off.",
		Skip:   "the place of the secondary is not checked",
		Steps: []Step{{
			ID: StepRound, Want: WantChoice,
			Due: func(s State) bool { return (s.Reason == WhyDropped || s.Reason == WhyPoor) && !s.done(0) },
			Say: func(s State) string {
				return "Look through the empty focuser. Is the secondary round and in the middle, with the whole primary in it?" + s.placeFigures()
			},
			Opts: func(State) []words.Option {
				return []words.Option{
					{ID: EmptyRound, Words: "yes, near enough"},
					{ID: EmptyOff, Words: "no: turned, or well off the middle"},
					{ID: AnswerUnknown, Words: "cannot tell"},
					{ID: EmptyMeasure, Words: "not sure: measure how far it is out of place"},
				}
			},
			Take: func(s *State, ev event.Event) {
				s.SecondaryOff = ev.Choice == EmptyOff
				if ev.Choice == EmptyMeasure {
					s.measurePlace()
				}
			},
		}},
	}
}

func firstLookStage() *Stage {
	behind := header.Header{Stand: header.StandBehind, Tool: header.ToolNone, Tube: header.TubeLevel, Beam: header.BeamOn, Card: header.CardWhole}
	return &Stage{
		ID: StageFirstLook, Title: "first look", Where: header.StandSky,
		Header: header.Header{Stand: header.StandSky, Tool: header.ToolNone, Tube: header.TubeLevel, Beam: header.BeamOn, Card: header.CardHalf},
		Do: []string{
			"Leave the card over half the end: the half where red shows, if it does. Look in at a slant past it, eye outside the rim. A phone's rear camera will do too.",
			"If you see the focuser elsewhere than it is shown or said to be, type where, as in: focuser 3.",
			"Judge by the ring: one ring width is the whole ring, edge to edge. Count them from its centre. 12 is straight up as you stand.",
		},
		Beware: []string{"Card up before you lean in. Do not put your eye where red falls on the card.", bewarePhone},
		Brief:  "Card up before you lean in. No eye where red falls.",
		Steps: []Step{
			{
				ID: StepPrimary, Want: WantReading, Face: optics.FacePrimary,
				Say: func(s State) string {
					if _, known := s.RedAt(); !known && !s.Red.Gone { // where none is there is none to leave it over
						return "Leave the card over the red. Look in past it. Where is the spot, from the ring's centre?"
					}
					return "Look in past the card. Where is the spot, measured from the ring's centre?"
				},
				Goal: State.GoalOnPrimary,
				Due:  func(s State) bool { return !s.P.Known && !s.P.Gone },
				Take: func(s *State, _ event.Event) { s.Search.Behind = s.looksBehind() },
			},
			{
				ID: StepWhere, Want: WantReading, Face: optics.FacePrimary, Goal: State.GoalOnPrimary,
				Due:  func(s State) bool { return !s.done(1) && s.Vague() },
				Take: func(s *State, _ event.Event) { s.Search.Behind = s.looksBehind() },
				Say: func(s State) string {
					return fmt.Sprintf("Inside is not enough on this mirror: the goal is %.1f mm from the middle. Where in the ring, as in: in 4, or dead?", s.GoalOnPrimary().InsideMM)
				},
			},
			behindAt(Step{
				ID: StepTarget, Want: WantReading, Face: optics.FaceTarget, Header: &behind,
				Say: func(s State) string {
					return s.atFace("Card over the end, then go behind. ") + "Where is the return spot, measured from the hole? If you see none, type: cant see."
				},
				Goal: State.GoalOnTarget,
				Due: func(s State) bool {
					return (s.Check || s.Search.Behind) && !s.T.Known && !s.T.Gone && !s.Tel.LensInside
				},
			}),
			behindAt(glowStep()),
		},
	}
}

// behindAt has a step that one stands behind the scope for beware of what is there.
func behindAt(st Step) Step {
	st.Beware = []string{"Card over the whole end before you walk round. Look at the laser's face alone, never along the beam."}
	st.Brief = "Card over the end. Look at the laser's face alone."
	return st
}

// looksBehind reports whether a walk behind can change what is done: the spot is
// at its goal, or the scope may well be one to leave alone.
func (s State) looksBehind() bool {
	if !s.P.Known {
		return false
	}
	off := s.P.At.At.Sub(s.Laser.Aims.Rho).Len()
	return off <= s.GoalOnPrimary().InsideMM || off <= s.Tel.AimAllowedMM() && s.chanceToLeave() > worthAWalk
}

// worthAWalk is the chance of leaving a scope alone from which it is walked round
// for. This program's own.
const worthAWalk = 1. / 20

// A scope without a history: the part of them that come as they were left, with
// the return spot within leftMM (1σ) of home, and how far off the others' is.
// Trainers' judgement.
const (
	asLeftPart = 0.6
	leftMM     = 1
	strayMM    = 6
)

// chanceToLeave returns how likely the axis error is within what is allowed,
// before the return spot is looked at.
func (s State) chanceToLeave() float64 {
	within := func(sigmaMM float64) float64 {
		e := s.Tel.AxisErrorBelief(s.P.At, optics.Belief{Cov: optics.Round(sigmaMM)})
		e.At = s.Tel.AxisErrorWith(s.Laser.Aims, s.P.At.At, optics.Tube{})
		return e.ChanceWithin(s.AllowedMM())
	}
	return asLeftPart*within(leftMM) + (1-asLeftPart)*within(strayMM)
}

// noteFound keeps the first sight of both spots as found. A later first look,
// after the scope was moved, does not replace it.
func (s *State) noteFound() {
	if s.Verdict == "" {
		s.Found = s.Sighting()
		s.Left = s.Found
	}
}
