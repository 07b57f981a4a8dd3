package virtual

import "spotward/optics"

// Builtin returns the practice telescope that is always there: a 200 mm f/6
// with push-pull screws at the secondary, three sprung adjusting screws and
// three locks at the primary. Its measures are invented, in the range of what
// is sold.
func Builtin() optics.Telescope {
	return optics.Telescope{
		ApertureMM:     200,
		FocalLengthMM:  1200,
		FromPrimaryMM:  1000,
		HoleFromAxisMM: 215,
		MinorAxisMM:    50,
		PivotAboveMM:   40,
		InnerRadiusMM:  115,
		SkyEndMM:       1220,
		FocuserDeg:     60,
		Secondary: optics.Cell{
			Screws: 3, CircleMM: 13, LeadMM: 0.7, GainKnown: optics.Given,
			Kind: optics.PushPull, SenseKnown: optics.Given,
			Labels: []string{"A", "B", "C"}, LabelsClockwise: true, PlacesKnown: optics.Given,
		},
		Primary: optics.Cell{
			Screws: 3, CircleMM: 80, LeadMM: 0.8, GainKnown: optics.Given,
			Kind: optics.Sprung, ClockwisePulls: true, SenseKnown: optics.Given,
			Labels: []string{"A", "B", "C"}, FirstDeg: 30, LabelsClockwise: true, PlacesKnown: optics.Given,
			Locks: 3,
		},
		RingInnerMM: 4.5,
		RingOuterMM: 8,
		Target: optics.Target{
			HoleRadiusMM: 3, FaceRadiusMM: 13, RingStepMM: 2, RingCount: 5,
			BeamWidthMM: 2, AlongFace: true,
		},
	}
}
