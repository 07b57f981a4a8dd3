package virtual

import (
	"math"
	"math/rand/v2"
)

// stream is one kind of chance. Each act draws from its stream by its own
// number, so that one more look never shifts what a hand does next.
type stream uint64

const (
	streamSetup stream = iota + 1
	streamBuild
	streamHands
	streamEyes
	streamSeat
	streamSwing
	streamPhone
)

// chance is a source of random numbers for one act.
type chance struct{ *rand.Rand }

func newChance(seed uint64, s stream, n int) chance {
	return chance{rand.New(rand.NewPCG(seed, mixed(uint64(s)<<32|uint64(n))))}
}

// mixed spreads neighbouring numbers over all bits (the finaliser of
// SplitMix64; Steele, Lea and Flood 2014, constants from memory), because the
// generator's first draws from neighbouring seeds are alike.
func mixed(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// between returns a number from lo to hi, all equally likely.
func (c chance) between(lo, hi float64) float64 { return lo + (hi-lo)*c.Float64() }

// normal returns a normal deviate, cut at three sigmas: no hand and no eye is
// further out than that and still called one.
func (c chance) normal() float64 { return math.Max(-3, math.Min(3, c.NormFloat64())) }

// happens tells whether something of the given probability comes about.
func (c chance) happens(p float64) bool { return c.Float64() < p }

// angle returns a direction, rad.
func (c chance) angle() float64 { return c.between(0, 2*math.Pi) }

// sign returns −1 or 1.
func (c chance) sign() float64 {
	if c.happens(0.5) {
		return -1
	}
	return 1
}
