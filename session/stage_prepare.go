package session

import (
	"fmt"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/words"
)

// Choices before the verdict.
const (
	WhyRoutine = "routine"
	WhyPoor    = "poor"
	WhyCarried = "carried"
	WhyDropped = "dropped"

	ClassOver = "over"
	ClassNone = "none"

	EmptyRound = "round"
	EmptyOff   = "off"

	CircleStill = "still"
	CircleSmall = "small"
	CircleWide  = "wide"

	answerUnknown = "unknown"
)

func readyStage() *Stage {
	return &Stage{
		ID: StageReady, Title: "ready", Where: StandBeside,
		Header: Header{Stand: StandBeside, Tool: ToolNone, Tube: TubeLevel, Beam: BeamOff, Card: CardNone},
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
						s.of(m).learnt = nil
						s.setTracker(m, adviser.NewTracker(s.Tel, m, nil))
					}
				}
			},
		}},
	}
}

func emptyStage() *Stage {
	return &Stage{
		ID: StageEmpty, Title: "empty focuser", Where: StandBeside,
		Header: Header{Stand: StandBeside, Tool: ToolNone, Tube: TubeLevel, Beam: BeamOff, Card: CardNone, Seat: SeatEmpty},
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
					{ID: answerUnknown, Words: "cannot tell"},
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

func laserInStage() *Stage {
	return &Stage{
		ID: StageLaserIn, Title: "laser in", Where: StandBeside,
		Header: Header{Stand: StandBeside, Tool: ToolNone, Tube: TubeLevel, Beam: BeamOff, Card: CardWhole},
		Do: []string{
			"Out of the focuser, pressed to the palm: on once, off again. Red on the palm? Then its cell is good.",
			"Holder into the drawtube, its screws snug. Laser home to the stop, face to where you will stand.",
			"Snug the collar until it neither wobbles nor turns. Cap off, white card over the open end, taped. Then on.",
		},
		Beware: []string{
			"Never look into the beam or along it, nor at its reflection in a mirror. Class 2 or 3R only.",
			"A white card over the open end BEFORE the laser goes on: the beam can leave there.",
			"Adults only at the open end; children stand back. Never toward aircraft, a road or people.",
		},
		Steps: []Step{
			{
				ID: StepClass, Want: WantChoice,
				Due: func(s State) bool { return s.Laser.Class == "" && s.Scope.Laser.Class == "" },
				Say: func(State) string { return "Which class does the laser's label say? Leave it off." },
				Opts: func(State) []words.Option {
					return []words.Option{
						{ID: "1", Words: "class 1"},
						{ID: "2", Words: "class 2 (1 mW)"},
						{ID: "3R", Words: "class 3R or IIIa (5 mW)"},
						{ID: ClassOver, Words: "1M, 2M, 3B, 4, or more than 5 mW"},
						{ID: ClassNone, Words: "no label"},
						{ID: answerUnknown, Words: "cannot read it"},
					}
				},
				Take: func(s *State, ev event.Event) {
					s.Laser.Class = ev.Choice
					switch ev.Choice {
					case ClassOver, ClassNone, answerUnknown:
						s.decline("the laser is not of class 1, 2 or 3R by its label: it stays off")
					}
				},
			},
			{
				ID: StepOn, Want: WantConfirm,
				Say: func(State) string {
					return "Laser home in its holder and snug. Cap off, white card over the open end. Then switch it on."
				},
				Take: func(s *State, _ event.Event) { s.Laser.On = true },
			},
			{
				ID: StepCircle, Want: WantChoice, Dial: true,
				Header: &Header{Stand: StandSky, Tool: ToolNone, Tube: TubeLevel, Beam: BeamOn, Card: CardHalf},
				Beware: []string{"Eye outside the rim: the beam swings as the laser turns. Look in at a slant, or with a phone's rear camera; nobody in line with the open end."},
				Say: func(State) string {
					return "Where does red show on the card? Leave only that half on; none: either. Past it, watch the spot on the primary as the laser turns once round. How wide a circle?"
				},
				Opts: func(State) []words.Option {
					return []words.Option{
						{ID: CircleStill, Words: "it stands still, within a ring's width"},
						{ID: CircleSmall, Words: "a small circle, up to two ring widths"},
						{ID: CircleWide, Words: "a wide circle, or it wanders"},
						{ID: answerUnknown, Words: "cannot tell"},
					}
				},
				Take: takeCircle,
			},
		},
	}
}

// takeCircle notes the radius of the circle that the spot made as the laser
// was turned: as told, or from the words.
func takeCircle(s *State, ev event.Event) {
	least, most := s.Tel.CircleIgnoredMM(), s.Tel.CircleFittedMM()
	switch {
	case ev.WidthMM > 0:
		s.Laser.CircleMM = ev.WidthMM / 2
	case ev.Choice == CircleStill:
		s.Laser.CircleMM = 0
	case ev.Choice == CircleSmall:
		s.Laser.CircleMM = (least + most) / 2
	case ev.Choice == CircleWide:
		s.Laser.CircleMM = 2 * most
	}
}

// CircleOf returns the choice that a circle of that width, mm, comes to.
func (s State) CircleOf(widthMM float64) string {
	switch r := widthMM / 2; {
	case r <= s.Tel.CircleIgnoredMM():
		return CircleStill
	case r <= s.Tel.CircleFittedMM():
		return CircleSmall
	}
	return CircleWide
}

func firstLookStage() *Stage {
	behind := Header{Stand: StandBehind, Tool: ToolNone, Tube: TubeLevel, Beam: BeamOn, Card: CardWhole}
	return &Stage{
		ID: StageFirstLook, Title: "first look", Where: StandSky,
		Header: Header{Stand: StandSky, Tool: ToolNone, Tube: TubeLevel, Beam: BeamOn, Card: CardHalf},
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
				Due:  func(s State) bool { return !s.p.Known && !s.p.Gone },
				Take: noteFoundAlone,
			},
			{
				ID: StepWhere, Want: WantReading, Face: optics.FacePrimary, Goal: State.GoalOnPrimary,
				Due:  func(s State) bool { return !s.done(1) && s.vague() },
				Take: noteFoundAlone,
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
				Due:  func(s State) bool { return !s.t.Known && !s.t.Gone && !s.Tel.LensInside },
				Take: func(s *State, _ event.Event) { s.noteFound() },
			},
		},
	}
}

// noteFound keeps the first sight of both spots as found. A later first look,
// after the scope was moved, does not replace it.
func (s *State) noteFound() {
	if s.Verdict == "" {
		s.Found = s.sighting()
		s.Left = s.Found
	}
}

// noteFoundAlone does so with the spot on the primary alone, where the return is
// not looked at.
func noteFoundAlone(s *State, _ event.Event) {
	if s.Tel.LensInside {
		s.noteFound()
	}
}
