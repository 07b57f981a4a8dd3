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
	fromPrimary, hole := s.Secondary.FromPrimary.Or(math.Max(f-d/2-100, f/2)), 0.
	if s.LensInside() { // the focus is as near to the tube as any focuser's
		fromPrimary = s.Secondary.FromPrimary.Or(math.Max(s.Tube.SkyEnd.MM()-1.3*d, d))
		hole = s.Laser.HoleFromAxis.Or(s.Tube.InnerRadius.Or(d/2+15) + 80)
	} else {
		hole = s.Laser.HoleFromAxis.Or(f - fromPrimary + 20)
	}
	return optics.Telescope{
		ApertureMM:     d,
		FocalLengthMM:  f,
		FromPrimaryMM:  fromPrimary,
		HoleFromAxisMM: hole,
		MinorAxisMM:    s.Secondary.MinorAxis.Or(d / 4),
		PivotAboveMM:   s.Secondary.PivotAbove.Or(40),
		InnerRadiusMM:  s.Tube.InnerRadius.Or(d/2 + 15),
		SkyEndMM:       s.Tube.SkyEnd.Or(fromPrimary + 1.3*d),
		FocuserDeg:     clockOr(s.FocuserAt, "2:00").Deg(),
		Corrector:      s.Corrector,
		LensInside:     s.LensInside(),
		Secondary:      s.Secondary.cell(m.Secondary.CellPart, usualCell{14, "M4", "push-pull", "pushes"}),
		Primary:        s.primaryCell(d),
		RingInnerMM:    s.Primary.RingInner.Or(math.Min(4.5, s.Primary.RingOuter.Or(4.5))),
		RingOuterMM:    s.Primary.RingOuter.Or(math.Max(8, s.Primary.RingInner.MM()+3)),
		Target:         s.Laser.target(),
	}
}

// LensInside reports whether a lens must be built into the tube or the drawtube:
// the mirrors stand so near each other, or the tube is so short, that the primary
// alone would have its focus far outside.
func (s Scope) LensInside() bool {
	least := shortestMM(s.Aperture.MM(), s.FocalLength.MM())
	return s.Tube.SkyEnd.Given() && s.Tube.SkyEnd.MM() < least ||
		s.Secondary.FromPrimary.Given() && s.Secondary.FromPrimary.MM() < least
}

// shortestMM is how near to the primary a plain Newtonian's secondary stands at the
// least.
func shortestMM(apertureMM, focalLengthMM float64) float64 {
	return focalLengthMM - apertureMM/2 - farthestFocusMM
}

// farthestFocusMM is how far outside its tube a plain Newtonian may have its
// focus. This program's own.
const farthestFocusMM = 250

// MayHaveLens reports whether the scope is of a size in which tubes with a lens
// built in are sold, and its file does not say how long the tube is.
func (s Scope) MayHaveLens() bool {
	return !s.Tube.SkyEnd.Given() && !s.Secondary.FromPrimary.Given() &&
		s.Aperture.MM() <= 160 && s.FocalLength.MM() >= 6.5*s.Aperture.MM() && shortestMM(s.Aperture.MM(), s.FocalLength.MM()) > 0
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

// guessedRuler is how far a ring or a hole that was not measured may be from its
// usual size, 1σ as a part of it.
const guessedRuler = 0.1

// RulerPart returns how well the size is known that a picture of a face is
// measured by, 1σ as a part of it: the centre ring's, the laser's hole and face.
// It is 0 where one of its two radii was measured: the picture shows whether the
// other one is right.
func (s Scope) RulerPart(face optics.Face) float64 {
	m := s.Measured()
	one, other := m.Primary.RingInner, m.Primary.RingOuter
	if face == optics.FaceTarget {
		one, other = m.Laser.HoleRadius, m.Laser.FaceRadius
	}
	if one.Given() || other.Given() {
		return 0
	}
	return guessedRuler
}
