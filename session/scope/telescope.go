package scope

import (
	"math"

	"spotward/optics"
)

// Telescope returns the scope with usual figures in the place of what its file
// leaves out: those of common Newtonians of that size, as this program has them. Where
// a figure decides what a screw does, the cell says how well it is known.
func (s Scope) Telescope() optics.Telescope {
	d, f := s.Aperture.MM(), s.FocalLength.MM()
	m := s.Measured()
	fromPrimary := s.Secondary.FromPrimary.Or(math.Max(f-d/2-100, f/2))
	return optics.Telescope{
		ApertureMM:     d,
		FocalLengthMM:  f,
		FromPrimaryMM:  fromPrimary,
		HoleFromAxisMM: s.Laser.HoleFromAxis.Or(f - fromPrimary + 20),
		MinorAxisMM:    s.Secondary.MinorAxis.Or(d / 4),
		PivotAboveMM:   s.Secondary.PivotAbove.Or(40),
		InnerRadiusMM:  s.Tube.InnerRadius.Or(d/2 + 15),
		SkyEndMM:       s.Tube.SkyEnd.Or(fromPrimary + 1.3*d),
		FocuserDeg:     clockOr(s.FocuserAt, "2:00").Deg(),
		Corrector:      s.Corrector,
		Secondary:      s.Secondary.cell(m.Secondary.CellPart, usualCell{14, "M4", "push-pull", "pushes"}),
		Primary:        s.primaryCell(d),
		RingInnerMM:    s.Primary.RingInner.Or(math.Min(4.5, s.Primary.RingOuter.Or(4.5))),
		RingOuterMM:    s.Primary.RingOuter.Or(math.Max(8, s.Primary.RingInner.MM()+3)),
		Target:         s.Laser.target(),
	}
}

func (s Scope) primaryCell(apertureMM float64) optics.Cell {
	c := s.Primary.cell(s.Measured().Primary.CellPart, usualCell{0.37 * apertureMM, "M5", "sprung", "pulls"})
	c.Locks = c.Screws
	if n := s.Primary.Locks; n != nil {
		c.Locks = *n
	}
	return c
}

// usualCell is what stands in for what a file leaves out of a cell.
type usualCell struct {
	circleMM  float64
	thread    string
	kind      string
	clockwise string
}

// cell returns the cell; measured is what of c is no estimate.
func (c CellPart) cell(measured CellPart, usual usualCell) optics.Cell {
	cell := optics.Cell{
		Screws:          c.screws(),
		CircleMM:        c.Circle.Or(usual.circleMM),
		LeadMM:          c.leadMM(usual.thread),
		GainKnown:       known(measured.Circle.Given() && (measured.Thread != "" || measured.Lead.Given()), optics.Unknown),
		Kind:            optics.CellKind(textOr(c.Kind, usual.kind)),
		ClockwisePulls:  textOr(c.Clockwise, usual.clockwise) == "pulls",
		SenseKnown:      known(measured.Clockwise != "", optics.Unknown),
		Labels:          c.Labels,
		FirstDeg:        c.FirstAt.Deg(),
		LabelsClockwise: c.LabelsRun != "anticlockwise",
		// Labels are taken to have been put on as people are asked to do it.
		PlacesKnown: known(measured.FirstAt != "" && measured.LabelsRun != "", optics.Guessed),
	}
	if len(cell.Labels) == 0 {
		cell.Labels = []string{"A", "B", "C", "D"}[:cell.Screws]
	}
	return cell
}

// leadMM returns the travel of one turn, mm.
func (c CellPart) leadMM(usualThread string) float64 {
	if c.Lead.Given() {
		return c.Lead.MM()
	}
	t, err := optics.ParseThread(textOr(c.Thread, usualThread))
	if err != nil { // never checked: as if left out
		t, _ = optics.ParseThread(usualThread)
	}
	return t.LeadMM
}

func (l Laser) target() optics.Target {
	rings := 5
	if l.RingCount != nil {
		rings = *l.RingCount
	}
	flat := l.Face == FaceFlat
	return optics.Target{
		HoleRadiusMM: l.HoleRadius.Or(math.Min(3, l.FaceRadius.Or(13)/2)),
		FaceRadiusMM: l.FaceRadius.Or(math.Max(13, 2*l.HoleRadius.MM())),
		RingStepMM:   l.RingStep.Or(2),
		RingCount:    rings,
		BeamWidthMM:  l.BeamWidth.Or(2),
		Flat:         flat,
		AlongFace:    !flat && l.Rings != RingsAlongTube,
	}
}

func known(given bool, otherwise optics.Known) optics.Known {
	if given {
		return optics.Given
	}
	return otherwise
}

func textOr(text, usual string) string {
	if text == "" {
		return usual
	}
	return text
}

func clockOr(c, usual Clock) Clock { return Clock(textOr(string(c), string(usual))) }
