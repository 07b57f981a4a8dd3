package session

import (
	"fmt"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/words"
)

// Where the secondary's outline stands in the drawtube, and the primary's
// picture in it.
const (
	PlaceMiddle  = "middle"
	PlaceSky     = "sky"
	PlaceSkyFar  = "sky_far"
	PlaceBack    = "primary"
	PlaceBackFar = "primary_far"

	PictureCentral = "central"
	PictureAslant  = "aslant"
	PictureAcross  = "across"

	// EmptyMeasure asks for a closer look at the secondary's place.
	EmptyMeasure = "measure"
)

// slipStepMM is what counts as a little out of place along the stalk.
const slipStepMM = 3

// measurePlace has the secondary's place looked at before the laser goes in.
func (s *State) measurePlace() {
	if s.inPlan(StagePlace) {
		return
	}
	for i, id := range s.way.plan {
		if id == StageEmpty && i >= s.way.at {
			rest := append([]StageID{StagePlace}, s.way.plan[i+1:]...)
			s.way.plan = append(s.way.plan[:i+1:i+1], rest...)
			s.phased()
			return
		}
	}
}

// placeFigures says what one should see of the secondary, where the scope's
// file says enough, as a sentence to follow another.
func (s State) placeFigures() string {
	if s.Tel.MinorAxisMM <= 0 || s.Tel.LensInside {
		return ""
	}
	place := s.Tel.PlaceOfSecondary()
	return fmt.Sprintf(" It is %s mm wide. Its right place is %.1f mm toward the primary and as far from the focuser. From here that looks central.",
		words.MmText(s.Tel.MinorAxisMM), place.OffsetMM)
}

func placeStage() *Stage {
	return &Stage{
		ID: StagePlace, Title: "secondary's place", Where: header.StandBeside,
		Header: header.Header{Stand: header.StandBeside, Tool: header.ToolNone, Tube: header.TubeLevel, Beam: header.BeamOff, Card: header.CardNone, Seat: header.SeatEmpty},
		Do: []string{
			"Put a sheet of paper on the wall beyond the secondary, another between it and the primary. Its outline then shows plainly.",
			"Eye on the focuser's axis, a hand's breadth off. Judge by the glass's own width.",
			"Take that one out to see the primary's picture. Take both out before the laser goes in.",
		},
		Beware: []string{
			"Turn the open end from the sun before the cap comes off and before an eye comes to the focuser.",
			"What you find here is a job for a trained person. No screw of yours corrects it.",
		},
		Brief: "Open end away from the sun before the cap comes off.",
		Skip:  "the place of the secondary was not measured",
		Steps: []Step{
			{
				ID: StepOutline, Want: WantChoice,
				Say: func(s State) string {
					return "Where does the secondary's outline stand in the drawtube?" + s.placeFigures()
				},
				Opts: func(s State) []words.Option {
					return []words.Option{
						{ID: PlaceMiddle, Words: fmt.Sprintf("in the middle, within %d mm", optics.SlipFineMM)},
						{ID: PlaceSky, Words: fmt.Sprintf("toward the open end, by about %d mm%s", slipStepMM, s.ofWidth())},
						{ID: PlaceSkyFar, Words: "toward the open end, by more"},
						{ID: PlaceBack, Words: fmt.Sprintf("toward the primary, by about %d mm%s", slipStepMM, s.ofWidth())},
						{ID: PlaceBackFar, Words: "toward the primary, by more"},
						{ID: AnswerUnknown, Words: "cannot tell"},
					}
				},
				Take: takeOutline,
			},
			{
				ID: StepPicture, Want: WantChoice,
				Say: func(State) string {
					return "Where is the primary's picture in it? Measure by the mirror's width."
				},
				Opts: func(s State) []words.Option {
					return []words.Option{
						{ID: PictureCentral, Words: "in the middle, all clips in sight"},
						{ID: PictureAslant, Words: "off along the tube, or at an angle: its screws correct that"},
						{ID: PictureAcross, Words: fmt.Sprintf("off straight across the tube, by %.0f mm of the mirror or more", s.acrossMM())},
						{ID: AnswerUnknown, Words: "cannot tell"},
					}
				},
				Take: takePicture,
			},
		},
	}
}

// ofWidth says slipStepMM by the width of the glass.
func (s State) ofWidth() string {
	if s.Tel.MinorAxisMM <= 0 {
		return ""
	}
	return fmt.Sprintf(" (one %.0fth of its width)", s.Tel.MinorAxisMM/slipStepMM)
}

// acrossMM is how far across the mirror a secondary sends the picture that is
// turned about the tube by as much as its screws may take up.
func (s State) acrossMM() float64 { return s.Tel.TurnedMM(optics.TurnedFineDeg) }

// takeOutline notes a secondary that has slipped along its stalk. That costs
// light at one edge of the field and nothing of the alignment.
func takeOutline(s *State, ev event.Event) {
	slip := map[string]string{
		PlaceSky:     fmt.Sprintf("about %d mm toward the open end", slipStepMM),
		PlaceSkyFar:  fmt.Sprintf("more than %d mm toward the open end", slipStepMM),
		PlaceBack:    fmt.Sprintf("about %d mm toward the primary", slipStepMM),
		PlaceBackFar: fmt.Sprintf("more than %d mm toward the primary", slipStepMM),
	}[ev.Choice]
	f := Finer{Check: StagePlace, Words: "The secondary stands in its place, as far as eyes tell."}
	switch {
	case slip != "":
		f.Off = true
		f.Words = fmt.Sprintf("The secondary has slipped along its stalk, %s. That costs light at one edge of the field, and no alignment. It is a job for a trained person, not for the screws.", slip)
	case ev.Choice == AnswerUnknown:
		f.Words = "Where the secondary stands along its stalk could not be told."
	}
	s.keepFiner(f)
}

// takePicture holds a secondary back that is turned about the tube by more than
// its screws should take up.
func takePicture(s *State, ev event.Event) {
	if ev.Choice != PictureAcross {
		return
	}
	s.SecondaryOff = true
	turned := "The secondary is turned about the tube by more than its screws should take up: a trained person's job."
	if f := s.Checks.Found[len(s.Checks.Found)-1]; f.Off {
		turned = f.Words + " " + turned
	}
	s.keepFiner(Finer{Check: StagePlace, Off: true, Words: turned})
}
