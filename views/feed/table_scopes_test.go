package feed_test

import (
	"fmt"
	"math"
	"math/rand/v2"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session/scope"
)

// A hidden telescope: what its file says of it, and how it really is.
type hidden struct {
	file  scope.Scope
	truth optics.Telescope
	setup virtual.Setup
	seed  uint64
}

// The population: 114 to 406 mm, f/3.9 to f/8, screws as found on telescopes
// that are sold, three to a mirror, letters put on as people are asked to. Each
// stands as one that was carried, and trained hands and eyes are at it: turns to
// 8 % and a hundredth, distances to 10 % and half a millimetre, directions to 5°,
// told to the half-hour.
func newHidden(seed uint64) hidden {
	r := rand.New(rand.NewPCG(seed, 11))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	d := math.Round(between(114, 406))
	f := math.Round(d * between(3.9, 8))
	locks := 3
	if r.IntN(3) == 0 {
		locks = 0
	}
	s := scope.Scope{Format: scope.FormatVersion, Name: fmt.Sprint("hidden ", seed), Aperture: scope.MM(d), FocalLength: scope.MM(f), FocuserAt: "2:00"}
	s.Secondary.FromPrimary = scope.MM(math.Round(f - d/2 - between(70, 120)))
	s.Secondary.MinorAxis = scope.MM(math.Round(between(0.2, 0.28) * d))
	s.Secondary.CellPart = between3(r, between(9, 21), "push-pull")
	s.Primary.CellPart = between3(r, d*between(0.33, 0.45), "sprung")
	s.Primary.Locks = &locks
	h := hidden{file: s, truth: s.Telescope(), seed: seed}
	h.setup = virtual.SetupOf(virtual.Usual, h.truth, seed)
	h.setup.Faults.LooseSecondaryTurns = 0 // a mechanical fault
	return h
}

// between3 are three screws, which the file describes as well as one measures:
// to the half-hour, and their circle to a few parts in a hundred.
func between3(r *rand.Rand, circleMM float64, kind string) scope.CellPart {
	c := scope.CellPart{
		Screws: 3, Circle: scope.MM(circleMM), Lead: scope.MM(0.5 + 0.77*r.Float64()), Kind: kind,
		Clockwise: []string{"pushes", "pulls"}[r.IntN(2)], FirstAt: scope.ClockAt(120*r.Float64() - 60), LabelsRun: "clockwise",
	}
	if kind == "push-pull" {
		c.Clockwise = "pushes"
	}
	return c
}

// measured makes the file's figures those of somebody who measured them.
func (h *hidden) measured(m *scope.CellPart, r *rand.Rand) {
	m.FirstAt = scope.ClockAt(math.Round(m.FirstAt.Deg()/15) * 15)
	m.Circle = scope.MM(m.Circle.MM() * (1 + 0.06*r.NormFloat64()))
}

// told: the file has the screws' geometry, as measured.
func told(h *hidden) {
	r := rand.New(rand.NewPCG(h.seed, 12))
	h.measured(&h.file.Secondary.CellPart, r)
	h.measured(&h.file.Primary.CellPart, r)
}

// unknown: the file says nothing of the screws but how many locks there are.
func unknown(h *hidden) {
	h.file.Secondary.CellPart, h.file.Primary.CellPart = scope.CellPart{}, scope.CellPart{}
}

// reversed: the letters run the other way than the file says.
func reversed(h *hidden) {
	told(h)
	h.file.Secondary.LabelsRun, h.file.Primary.LabelsRun = "anticlockwise", "anticlockwise"
}

// quarterOut: the first screw stands a quarter of the dial from where the file
// says.
func quarterOut(h *hidden) {
	told(h)
	for _, c := range []*scope.CellPart{&h.file.Secondary.CellPart, &h.file.Primary.CellPart} {
		c.FirstAt = scope.ClockAt(c.FirstAt.Deg() + 90)
	}
}

// fourScrews: the primary stands on four.
func fourScrews(h *hidden) {
	told(h)
	four := 4
	h.truth.Primary.Screws, h.truth.Primary.Labels = 4, []string{"A", "B", "C", "D"}
	h.file.Primary.Screws = 4
	if h.truth.Primary.Locks > 0 {
		h.truth.Primary.Locks, h.file.Primary.Locks = 4, &four
	}
}

// beginners: a first-timer's hands and eyes.
func beginners(h *hidden) {
	told(h)
	first := virtual.SetupOf(virtual.Hard, h.truth, h.seed)
	h.setup.Hands, h.setup.Sight = first.Hands, first.Sight
}

// pulling: a lock beside every screw, that pulls as it bites.
func pulling(h *hidden) {
	told(h)
	three := 3
	h.truth.Primary.Locks, h.file.Primary.Locks = 3, &three
}

// knocked is the same telescope out again by a little: 8 mm on the primary, 6
// at the hole.
func (h hidden) knocked() hidden {
	h.setup.Faults.SpotMM, h.setup.Faults.ReturnMM = 8, 6
	return h
}
