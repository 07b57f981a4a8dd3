package session

import (
	"strings"
	"time"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/mirrors"
	"spotward/session/words"
)

func laserInStage() *Stage {
	red := header.Header{Stand: header.StandSky, Tool: header.ToolNone, Tube: header.TubeLevel, Beam: header.BeamOn, Card: header.CardWhole}
	return &Stage{
		ID: StageLaserIn, Title: "laser in", Where: header.StandBeside,
		Header: header.Header{Stand: header.StandBeside, Tool: header.ToolNone, Tube: header.TubeLevel, Beam: header.BeamOff, Card: header.CardWhole},
		Do: []string{
			"Hold the laser to your palm, outside the focuser. Switch it on and off. A red glow means the battery is good.",
			"Put the holder into the drawtube and snug its screws. Push the laser in to the stop, its face toward where you will stand.",
			"Snug the collar until the laser cannot move. Cap off. Tape a white card over the open end; thin paper shows the dot best. Then switch on.",
		},
		Beware: []string{
			"Never look into the beam or along it, nor at its reflection in a mirror. Class 2 or 3R only.",
			"White card over the open end BEFORE the laser goes on: the beam can leave there.",
			"Adults only at the open end; children stand back. Never toward aircraft, a road or people.",
		},
		Brief: "Never look into the beam or at its reflection.",
		Steps: []Step{
			{
				ID: StepClass, Want: WantChoice,
				Due: func(s State) bool { return s.Laser.Class == "" && s.Scope.Laser.Class == "" },
				Say: func(State) string { return "Leave the laser off. Which class is on its label?" },
				Opts: func(State) []words.Option {
					return []words.Option{
						{ID: "1", Words: "class 1"},
						{ID: "2", Words: "class 2 (1 mW)"},
						{ID: "3R", Words: "class 3R or IIIa (5 mW)"},
						{ID: mirrors.ClassOver, Words: "1M, 2M, 3B, 4, or more than 5 mW"},
						{ID: mirrors.ClassNone, Words: "no label"},
						{ID: AnswerUnknown, Words: "I cannot read it"},
					}
				},
				Take: func(s *State, ev event.Event) {
					s.Laser.Class = ev.Choice
					switch ev.Choice {
					case mirrors.ClassOver, mirrors.ClassNone, AnswerUnknown:
						s.decline("the laser is not of class 1, 2 or 3R by its label: it stays off")
					}
				},
			},
			{
				// The answer is the confirmation. A yes says that nobody looked.
				ID: StepOn, Want: WantReading, Face: optics.FaceCard, Aside: true, Yes: true,
				Say: func(State) string {
					return "Laser in and snug, cap off, white card over the whole open end. Then switch on. At which hour is a sharp red dot on the card? If there is none, type: none."
				},
				Deeds: func(State) []Deed { return []Deed{DeedLaserIn, DeedCardWhole, DeedLaserOn} },
				Take: func(s *State, ev event.Event) {
					s.Laser.On = true
					s.noteRed(ev)
					if s.circleKnown() {
						s.Laser.CircleMM = s.Knew.Circle.RadiusMM
					}
				},
			},
			{
				ID: StepRed, Want: WantReading, Face: optics.FaceCard, Aside: true, Header: &red,
				Due: func(s State) bool { return s.Laser.On && !s.Red.Known && !s.Red.Gone && !s.done(2) },
				Say: func(State) string {
					return "Card over the whole sky end. At which hour is red on the card? If there is none, type: none."
				},
				Take: (*State).noteRed,
			},
			{
				ID: StepCircle, Want: WantChoice, Dial: true,
				Due:    func(s State) bool { return !s.done(3) && !s.circleKnown() },
				Header: &header.Header{Stand: header.StandSky, Tool: header.ToolNone, Tube: header.TubeLevel, Beam: header.BeamOn, Card: header.CardHalf},
				Beware: []string{"Eye outside the rim: the beam swings as the laser turns. Nobody in line with the open end."},
				Brief:  "Eye outside the rim: the beam swings.",
				Say: func(s State) string {
					half := "No red on the card: uncover either half. Red past the card later? Hands off, cover it all."
					if s.Red.Known {
						half = "Leave the card on the half where red shows."
					}
					return half + " Look in past it. Turn the laser once round. How wide a circle does the spot on the primary make?"
				},
				Deeds: func(State) []Deed { return []Deed{DeedCardHalf, DeedTurnLaser} },
				Opts: func(State) []words.Option {
					return []words.Option{
						{ID: CircleStill, Words: "no wider than the spot itself"},
						{ID: CircleQuarter, Words: "a quarter of the ring"},
						{ID: CircleHalf, Words: "half of the ring"},
						{ID: CircleWide, Words: "wider, or it wanders"},
						{ID: AnswerUnknown, Words: "cannot tell"},
					}
				},
				Take: takeCircle,
			},
		},
	}
}

// noteRed notes where red shows on the card over the whole open end, or that none
// does.
func (s *State) noteRed(ev event.Event) {
	switch {
	case ev.Kind != event.KindReading || ev.Saw == event.SawCantSee:
	case ev.Saw == event.SawGone:
		s.Red = mirrors.Spot{Saw: ev.Saw, Gone: true}
	default:
		s.Red = mirrors.Spot{Known: true, Saw: ev.Saw, At: s.Belief(nil, ev)}
	}
}

// circleDays is for how long a laser that stood still is taken to do so.
const circleDays = 30

// idTime is how an id says when its session began, UTC.
const idTime = "20060102T150405Z"

// circleKnown reports whether the laser need not be turned: this kit, under no
// suspicion, stood still lately, and nothing was dropped since.
func (s State) circleKnown() bool {
	c := s.Knew.Circle
	began, err := time.Parse(idTime, strings.SplitN(s.ID, "-", 2)[0])
	return c != nil && err == nil && s.Kit != "" && s.Knew.Suspect == "" && s.Reason != WhyDropped &&
		began.Sub(c.At) <= circleDays*24*time.Hour && c.RadiusMM <= s.Tel.CircleIgnoredMM()
}

// takeCircle notes the radius of the circle that the spot made as the laser
// was turned: as told, or from the words.
func takeCircle(s *State, ev event.Event) {
	switch {
	case ev.WidthMM > 0:
		s.Laser.CircleMM = ev.WidthMM / 2
	case ev.Choice == CircleStill:
		s.Laser.CircleMM = 0
	case ev.Choice == CircleQuarter:
		s.Laser.CircleMM = s.RingWideMM() / 8
	case ev.Choice == CircleHalf:
		s.Laser.CircleMM = s.RingWideMM() / 4
	case ev.Choice == CircleWide:
		s.Laser.CircleMM = max(s.RingWideMM()/2, 2*s.Tel.CircleFittedMM())
	}
}

// CircleOf returns the choice that a circle of that width, mm, comes to.
func (s State) CircleOf(widthMM float64) string {
	switch ring := s.RingWideMM(); {
	case widthMM/2 > s.Tel.CircleFittedMM(), widthMM > 0.75*ring:
		return CircleWide
	case widthMM/2 <= s.Tel.CircleIgnoredMM():
		return CircleStill
	case widthMM < 0.375*ring:
		return CircleQuarter
	}
	return CircleHalf
}
