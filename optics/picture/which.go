package picture

import (
	"math"
	"slices"

	"spotward/optics"
)

// fit is a red spot that may be the laser's, where the ring's plane has it.
type fit struct {
	at            optics.Dial // from the ring's middle, mm
	along, across float64     // 1σ, mm, but for the camera's roll
	mark          Disc
}

// sameSigmas is within how many of their errors two places are one; movedMM is how
// far another one must have gone at the least for the phone to have been moved. A
// reflection in the secondary goes by centimetres.
const (
	sameSigmas = 4
	movedMM    = 5
)

// With returns what two pictures from different places come to, each of which has
// several spots that fit: the one that keeps its place against the ring is on the
// glass. Where none does, or more than one, or nothing else has moved, it is as
// unknown as it was which.
func (s Sight) With(second Sight) Sight {
	if s.Missing != Which || second.Missing != Which || len(s.fits) < 2 || len(second.fits) < 2 {
		return second
	}
	var stays []fit
	for _, b := range second.fits {
		if slices.ContainsFunc(s.fits, b.is) {
			stays = append(stays, b)
		}
	}
	if len(stays) != 1 {
		return second
	}
	for _, b := range second.fits {
		if b != stays[0] && slices.ContainsFunc(s.fits, func(a fit) bool { return b.far(a) < movedMM }) {
			return second
		}
	}
	found := second
	found.Missing, found.Mark = Nothing, stays[0].mark
	return found.placed(stays[0].at, stays[0].along, stays[0].across)
}

func (f fit) far(g fit) float64 { return math.Hypot(f.at.Right-g.at.Right, f.at.Up-g.at.Up) }

// is reports whether two spots may be one, seen twice: the phone was not held
// equally straight.
func (f fit) is(g fit) bool {
	roll := math.Sqrt2 * RollRad * math.Max(f.at.Len(), g.at.Len())
	return f.far(g) < sameSigmas*math.Hypot(roll/2, math.Hypot(f.along, g.along))
}
