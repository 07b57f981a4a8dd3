package optics

import "slices"

// Look is one thing that can still be done to know the axis error better.
type Look string

// The looks, the cheapest first. LookEven: is the glow round the hole the same all
// round? LookTwice: the spot on the primary is read twice as well. LookPicture: it is
// read on a photograph. LookRing: the ring's place by paper template and ruler. LookLaser: the laser rolled on two
// nails in a board, out of the telescope. LookShadow: the ring's shadow on the laser's
// face, with a lens on the laser, on a photograph. LookStar: a star out of focus.
const (
	LookEven    Look = "even"
	LookTwice   Look = "twice"
	LookPicture Look = "picture"
	LookRing    Look = "ring"
	LookLaser   Look = "laser"
	LookShadow  Look = "shadow"
	LookStar    Look = "star"
)

// What the looks are worth, 1σ an axis, mm: an even glow and a single reading of
// the middle at the hole and on the primary; a middle on a photograph; a ring measured by template, a laser
// rolled 20 cm from a paper (this program's own).
const (
	EvenMM         = 0.5
	PictureMM      = 0.1
	TemplateRingMM = 0.3
	RolledLaserMM  = 0.1
)

// byCost are the looks that may be done together, each dearer than all before it.
var byCost = [...]Look{LookEven, LookTwice, LookPicture, LookRing, LookLaser, LookShadow}

// Settling returns the cheapest looks that would earn GradeReady if the axis does
// not miss at all: nothing where the method as it is does, a star where no other
// look is enough. pMM and rMM are the errors of the two readings, 1σ an axis, mm.
// Without are looks that cannot be done any more.
func (t Telescope) Settling(m Method, pMM, rMM float64, without ...Look) []Look {
	for set := range 1 << len(byCost) {
		var looks []Look
		for i, l := range byCost {
			if set&(1<<i) != 0 {
				looks = append(looks, l)
			}
		}
		if slices.ContainsFunc(looks, func(l Look) bool { return slices.Contains(without, l) }) {
			continue
		}
		if t.chancesAt(m, pMM, rMM, looks).Grade() == GradeReady {
			return looks
		}
	}
	return []Look{LookStar}
}

// chancesAt returns what would be claimed after those looks, if the axis does not
// miss at all.
func (t Telescope) chancesAt(m Method, pMM, rMM float64, looks []Look) Claim {
	for _, l := range looks {
		switch l {
		case LookEven:
			rMM = min(rMM, EvenMM)
		case LookTwice:
			pMM = min(pMM, EyesMM/2)
		case LookPicture:
			pMM = min(pMM, PictureMM)
		case LookRing:
			mm := min(m.ringSigmaMM(), TemplateRingMM)
			m.RingPlacedMM = &mm
		case LookLaser:
			mm := min(m.laserSigmaMM(), RolledLaserMM)
			m.LaserOffsetMM = &mm
		}
	}
	p := Belief{Cov: Round(pMM)}
	if slices.Contains(looks, LookShadow) {
		return t.chances(m.Use, t.AxisErrorFromShadow(Belief{Cov: Round(PictureMM)}, ShadowSourceOf(m, p)))
	}
	return t.ChancesFrom(m, LaserError{}, p, Belief{Cov: Round(rMM)})
}

// BestClaim returns what one look with the spot dead in the middle of the ring and
// the glow even round the hole would prove with that method, if the axis does not
// miss at all.
func (t Telescope) BestClaim(m Method) Claim { return t.chancesAt(m, EyesMM, EvenMM, nil) }
