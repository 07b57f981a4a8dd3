package virtual

import (
	"math"

	"spotward/optics"
)

// World is a telescope that is not real, with a laser in its focuser, and
// somebody at its screws. It begins with the laser in and on and the card over
// the open end. It is not safe for concurrent use.
type World struct {
	seed      uint64
	setup     Setup
	described optics.Telescope
	real      optics.Telescope
	secondary mount
	primary   mount
	twistRad  []float64 // of the secondary's holder, a turn of each screw
	twisted   float64   // rad, so far
	laser     laser
	ring      optics.Tube // the ring's middle, from the primary's
	card      bool
	out       bool // the beam leaves by the open end and no card is there
	acts      int  // whatever was done, counted for the battery
	turns     int  // numbers of the acts that draw from a stream
	looks     int
	seats     int
	swings    int
	deeds     []Deed
}

// New returns the practice telescope made after t, of a level. What t leaves
// unknown is drawn from the seed.
func New(t optics.Telescope, l Level, seed uint64) *World {
	return NewWith(t, SetupOf(l, t, seed), seed)
}

// NewWith returns a telescope made after t on which everything is set by hand.
func NewWith(t optics.Telescope, s Setup, seed uint64) *World {
	c := newChance(seed, streamBuild, 0)
	f := s.Faults
	w := &World{seed: seed, setup: s, described: t, card: true}
	w.real = realOf(t, f, c)
	if f.Unlabelled {
		w.described.Secondary.PlacesKnown = optics.Unknown
		w.described.Primary.PlacesKnown = optics.Unknown
	}
	spot, back := turned(f.SpotMM, c.angle()), turned(f.ReturnMM, c.angle())
	w.ring = turned(f.RingOffMM, c.angle())
	w.secondary = newMount(optics.Secondary, w.real, f, c)
	w.primary = newMount(optics.Primary, w.real, f, c)
	l, path := w.real.FromPrimaryMM, w.real.PathMM()
	// First order: p = L·(2gx, gy) and, with p = 0, t = −2·S·h.
	w.secondary.begin(optics.Tube{X: spot.X / (2 * l), Y: spot.Y / l}, f.of(optics.Secondary), c)
	w.twisted = f.SecondaryTurnedDeg * math.Pi / 180
	w.primary.begin(back.Scale(-1/(2*path)), f.of(optics.Primary), c)
	if f.LooseSecondaryTurns > 0 {
		w.secondary.loosen(c.IntN(len(w.secondary.screws)), f.LooseSecondaryTurns)
	}
	for range w.secondary.screws {
		w.twistRad = append(w.twistRad, f.TwistDeg*math.Pi/180*c.normal())
	}
	w.primary.givesMM = f.RockingPrimaryMM / (2 * path) * w.real.Primary.CircleMM
	w.laser = newLaser(f, c)
	w.Reseat()
	w.acts, w.deeds = 0, nil
	return w
}

// turned returns the point at a distance and an angle.
func turned(mm, rad float64) optics.Tube {
	s, c := math.Sincos(rad)
	return optics.Tube{X: mm * c, Y: mm * s}
}

// of returns the faults of one mirror's screws.
func (f Faults) of(m optics.Mirror) map[int]Ailment {
	ill := map[int]Ailment{}
	for _, s := range f.Screws {
		if s.Mirror == m {
			ill[s.Screw] = s.Is
		}
	}
	return ill
}

// realOf returns t with every figure settled. What t says for certain holds;
// what it guesses is about right; the rest is as found on telescopes that are
// sold: leads 0.5 to 1.27 mm, circles 9 to 21 mm at the secondary and 0.33 to
// 0.45 D at the primary, labels clockwise in nine of ten.
func realOf(t optics.Telescope, f Faults, c chance) optics.Telescope {
	fill := func(v *float64, otherwise float64) {
		if *v <= 0 {
			*v = otherwise
		}
	}
	fill(&t.FromPrimaryMM, t.FocalLengthMM-t.ApertureMM)
	fill(&t.HoleFromAxisMM, t.FocalLengthMM-t.FromPrimaryMM+10)
	fill(&t.MinorAxisMM, 0.25*t.ApertureMM)
	fill(&t.PivotAboveMM, 40)
	fill(&t.InnerRadiusMM, 0.55*t.ApertureMM+5)
	fill(&t.SkyEndMM, t.FromPrimaryMM+0.7*t.ApertureMM)
	fill(&t.Target.HoleRadiusMM, 3)
	fill(&t.Target.FaceRadiusMM, 13)
	fill(&t.Target.BeamWidthMM, 2)
	t.Secondary = realCell(t.Secondary, c, 9, 21)
	t.Primary = realCell(t.Primary, c, 0.33*t.ApertureMM, 0.45*t.ApertureMM)
	if f.Unlabelled {
		t.Secondary.FirstDeg, t.Primary.FirstDeg = c.between(0, 360), c.between(0, 360)
	}
	if f.SecondaryReversed {
		t.Secondary.LabelsClockwise = !t.Secondary.LabelsClockwise
	}
	if f.PrimaryReversed {
		t.Primary.LabelsClockwise = !t.Primary.LabelsClockwise
	}
	return t
}

func realCell(cell optics.Cell, c chance, circleFrom, circleTo float64) optics.Cell {
	if cell.Screws != 4 {
		cell.Screws = 3
	}
	circle, lead := c.between(circleFrom, circleTo), c.between(0.5, 1.27)
	switch cell.GainKnown {
	case optics.Unknown:
		cell.CircleMM, cell.LeadMM = circle, lead
	case optics.Guessed:
		cell.LeadMM *= math.Exp(0.1 * c.normal())
	}
	if cell.CircleMM <= 0 {
		cell.CircleMM = circle
	}
	if cell.LeadMM <= 0 {
		cell.LeadMM = lead
	}
	if pulls := c.happens(0.5); cell.SenseKnown == optics.Unknown {
		cell.ClockwisePulls = pulls
	}
	first, clockwise := c.between(0, 360), c.happens(0.9)
	switch cell.PlacesKnown {
	case optics.Unknown:
		cell.FirstDeg, cell.LabelsClockwise = first, clockwise
	case optics.Guessed:
		cell.FirstDeg += 5 * c.normal()
	}
	return cell
}

// newMount returns a mirror on its screws, all standing where it is square.
func newMount(mirror optics.Mirror, t optics.Telescope, f Faults, c chance) mount {
	cell := t.Cell(mirror)
	m := mount{way: wayOf(mirror, cell.ClockwisePulls), bolted: cell.Kind == optics.PushPull}
	m.boltMM, m.lean = math.Inf(-1), c.sign()
	for i := range cell.Screws {
		m.at = append(m.at, screwAt(mirror, cell.ScrewDeg(i), cell.CircleMM))
		m.leadMM = append(m.leadMM, cell.LeadMM*math.Exp(f.GainSpread*c.normal()))
		m.screws = append(m.screws, screw{play: f.PlayTurns})
	}
	for i := range min(cell.Locks, cell.Screws) {
		tight := c.between(0.15, 0.3)
		if f.LocksEased {
			tight = -0.1
		}
		m.locks = append(m.locks, lock{
			turned: tight,
			pull:   f.LockPull * c.between(1./3, 1),
			skew:   f.LockSkewDeg * math.Pi / 180 * c.between(-1, 1),
			follow: f.LockFollow,
			unit:   m.turnSlope(i),
		})
	}
	return m
}

// turnSlope returns what one turn of screw i does to the slope of a plate that
// stands on all its screws: 2·lead/(N·R) toward it.
func (m *mount) turnSlope(i int) optics.Tube {
	r := m.at[i]
	return r.Scale(2 * m.leadMM[i] / (float64(len(m.at)) * r.Dot(r)))
}

// begin turns the screws until the plate has the given gradient with its locks
// as they are, and cuts the threads to length.
func (m *mount) begin(grad optics.Tube, ill map[int]Ailment, c chance) {
	want := grad.Scale(m.way)
	for i := range m.locks { // before the screws stand, only the locks' own turns count
		m.locks[i].began = m.screws[i].reach()
	}
	want = want.Sub(m.lockSlope())
	for i := range m.screws {
		s := &m.screws[i]
		at := want.Dot(m.at[i]) / m.leadMM[i]
		s.hand, s.grip = at, at
		s.slackAt = math.Min(at, 0) - c.between(1.5, 2.5)
		s.from, s.to = s.slackAt-1, math.Max(at, 0)+c.between(2, 3)
		if m.bolted {
			s.slackAt = math.Inf(-1)
		}
		s.fallIll(ill[i])
	}
	for i := range m.locks {
		m.locks[i].began = m.screws[i].reach()
	}
	m.seat(m.tips())
	if m.bolted {
		m.boltMM = m.midMM - m.share()*snugTurns*m.leadMM[0]
	}
}

// fallIll gives a screw that stands at its place an ailment.
func (s *screw) fallIll(a Ailment) {
	switch s.ill = a; {
	case a == Slack && !math.IsInf(s.slackAt, -1):
		s.slackAt = s.hand - 1./8
	case a == NearEnd && s.hand > 0:
		s.from = s.hand / 2
	case a == NearEnd:
		s.to = s.hand / 2
	}
}

// loosen leaves screw i unsnugged, without the plate having moved yet.
func (m *mount) loosen(i int, turns float64) {
	s := &m.screws[i]
	if !m.bolted {
		s.loose, s.hand, s.grip = turns, s.hand-turns, s.grip-turns
		return
	}
	s.hand -= turns + snugTurns
	s.grip = math.Min(s.grip, s.hand)
	m.seat(m.tips())
}
