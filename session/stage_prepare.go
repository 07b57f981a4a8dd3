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
			"Count the kit out: laser, its cell, holder, driver, hex key, torch, tape, white card.",
		},
		Beware: []string{
			"Cap or card over the end whenever sun can reach the mirror. Never toward the sun. A sun filter goes over the front, never at the eyepiece.",
			"Cells are small: away from children; swallowed, go to emergency care at once.",
			"Heavy tubes: two people, for every swing.",
			"Local rules and trained people come first.",
		},
		Steps: []Step{{
			ID: StepWhy, Want: WantChoice,
			Say: func(s State) string {
				return "Motors off, tube level, open end to a wall, kit counted. Why are we here?"
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
		Beware: []string{"Open end away from the sun before the cap comes off and before an eye comes to the focuser."},
		Skip:   "the place of the secondary is not checked",
		Steps: []Step{{
			ID: StepRound, Want: WantChoice,
			Due: func(s State) bool { return (s.Reason == WhyDropped || s.Reason == WhyPoor) && !s.done(0) },
			Say: func(s State) string {
				return "Look through the empty focuser. Does the secondary look round, in the middle, with the whole primary in it?" + s.placeFigures()
			},
			Opts: func(State) []words.Option {
				return []words.Option{
					{ID: EmptyRound, Words: "yes, near enough"},
					{ID: EmptyOff, Words: "no: turned, or well off the middle"},
					{ID: AnswerUnknown, Words: "cannot tell"},
					{ID: EmptyMeasure, Words: "a closer look: how far is it out of its place?"},
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
			"Leave the card over the half where red shows. Look in past the other half, at a slant, eye outside the rim, or with a phone's rear camera.",
			"The drawing has the focuser where you should see it. It is elsewhere? Say where, as in: focuser 3.",
			"Judge by the ring: one ring width is the whole of it, from edge to edge. How many from its middle, at which hour? 12 is straight up as you stand.",
		},
		Beware: []string{"Card up before you lean in. Do not put your eye where red falls on the card."},
		Steps: []Step{
			{
				ID: StepPrimary, Want: WantReading, Face: optics.FacePrimary,
				Say: func(s State) string {
					if _, known := s.RedAt(); !known {
						return "Card stays over red. Past it: where is the primary's spot, from the middle of its ring?"
					}
					return "Past the card: where is the spot on the primary, from the middle of its ring?"
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
					return fmt.Sprintf("Inside is not enough on this mirror: within %.1f mm of the middle is wanted. Where in the ring? As in: in 4, or dead.", s.GoalOnPrimary().InsideMM)
				},
			},
			{
				ID: StepTarget, Want: WantReading, Face: optics.FaceTarget, Header: &behind,
				Say: func(State) string {
					return "Go behind, card over the end. Where is the return spot on the laser's face, from the hole? None? Say: cannot see."
				},
				Goal: State.GoalOnTarget,
				Due: func(s State) bool {
					return (s.Check || s.Search.Behind) && !s.T.Known && !s.T.Gone && !s.Tel.LensInside
				},
			},
			glowStep(),
		},
	}
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
