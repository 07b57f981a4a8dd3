package session

import (
	"spotward/optics"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/words"
)

func shadowStage() *Stage {
	return &Stage{
		ID: StageShadow, Title: "ring's shadow", Where: header.StandBehind,
		// Nose up for the reading too: it is read again while the locks are eased.
		Header: header.Header{Stand: header.StandBehind, Tool: header.ToolNone, Tube: header.TubeNoseUp, Beam: header.BeamOn, Card: header.CardWhole, Seat: header.SeatLens},
		Do: []string{
			"A lens on the laser spreads its beam over the primary. What comes back has the ring's shadow in it.",
			"Where the shadow's middle falls does not depend on how the laser points. It depends on where the light spreads from, and on the ring's place.",
		},
		Beware: []string{
			"Spread or not, never look into the beam or along it. Lens on or off: laser off first.",
			"Nose up, held, while locks are eased. If a screw goes hard or free, stop.",
			"A phone at the face: straight behind, along the tube, its screen seen from beside. No flash.",
		},
		Brief: "Never look into the beam. Laser off for the lens.",
		Skip:  "the ring's shadow was not read",
		Steps: append([]Step{
			{
				ID: StepLens, Want: WantChoice,
				Header: &header.Header{Stand: header.StandBeside, Tool: header.ToolNone, Tube: header.TubeLevel, Beam: header.BeamOff, Card: header.CardNone, Seat: header.SeatLensNext},
				Say: func(s State) string {
					return "A finer check: the ring's shadow. Do you have a lens that spreads the laser's beam?"
				},
				Opts: func(State) []words.Option {
					return []words.Option{
						{ID: FinerYes, Words: "yes: laser off, lens on; card up, laser on"},
						{ID: FinerNo, Words: "no: go on without"},
					}
				},
				Take: wantFiner,
			},
			{
				ID: StepShadow, Want: WantReading, Face: optics.FaceTarget, Aside: true, Goal: State.shadowGoal,
				Due: func(s State) bool { return s.finer.on && !s.finer.seen },
				Say: func(State) string {
					return "From behind: where is the middle of the ring's shadow, measured from the hole?"
				},
				Take: takeShadow,
			},
		}, afterFiner(header.BeamOn, header.CardWhole, header.SeatLens)...),
	}
}

func (s State) shadowSource() optics.ShadowSource {
	aim := optics.Belief{Cov: optics.Round(s.Tel.AimAllowedMM())}
	if s.Left.P.Known {
		aim = s.Left.P.At
		aim.At = aim.At.Sub(s.Laser.Aims.Rho)
	}
	return optics.ShadowSourceOf(s.Method(), aim)
}

// shadowGoal is where the shadow stands when the axis does not miss.
func (s State) shadowGoal() optics.Goal {
	k := 2 * s.Tel.PathMM() / s.Tel.FocalLengthMM
	return optics.Goal{At: s.Tel.ShadowOf(optics.Belief{}, s.shadowSource()).At, InsideMM: k * s.AllowedMM()}
}

// takeShadow draws the conclusion from the shadow's place. One that is not
// there says nothing: the check is left.
func takeShadow(s *State, ev event.Event) {
	if ev.Saw == event.SawGone || ev.Saw == event.SawCantSee {
		s.finer.on = false
		return
	}
	s.finer.sharp = ev.Picture != nil
	at := s.Tel.AxisErrorFromShadow(s.Belief(s.Ask().goal(), ev), s.shadowSource())
	s.found(at, func(s State) string {
		return "By the ring's shadow " + s.finerFigures() + " It does not see a ring that is off the mirror's middle. Nor does it see light that spreads from beside the focuser's axis."
	})
}
