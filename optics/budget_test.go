package optics

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// lender is a scope of a focal ratio with a laser's face of 3 mm hole and 2 mm
// beam, and a ring of 4.5 mm.
func lender(ratio float64) Telescope {
	scope := ofRatio(ratio)
	scope.RingInnerMM, scope.RingOuterMM = 4.5, 8
	scope.Target = Target{HoleRadiusMM: 3, BeamWidthMM: 2, FaceRadiusMM: 13}
	return scope
}

func lines(b Budget) map[string]BudgetLine {
	got := map[string]BudgetLine{}
	for _, l := range b.Lines {
		got[l.What] = l
	}
	return got
}

func TestBudgetLines(t *testing.T) {
	scope := tenInch() // f/S = 0.984, X − I = 20
	scope.RingInnerMM, scope.Target = 4.5, Target{HoleRadiusMM: 3, BeamWidthMM: 2}
	zero, four, half := 0.0, 4.0, 0.5
	k := 1194. / 1214
	tests := []struct {
		name   string
		method Method
		what   string
		mm     float64
		bound  bool
	}{
		{"vanishing in the hole", Method{}, "the hole", 2.5 / 2 * k, true},
		{"even all round", Method{Home: HoleEven}, "the hole", EvenMM / 2 * k, false},
		{"between the rims", Method{Home: HoleRims}, "the hole", 0.1, true},
		{"fast mirror: the eye on the middle", Method{}, "your eye", 0.35, false},
		{"ring, guessed", Method{}, "the ring's place", 0.25, false},
		{"ring, measured", Method{RingPlacedMM: &four}, "the ring's place", 2, false},
		{"ring, known to be right", Method{RingPlacedMM: &zero}, "the ring's place", 0, false},
		{"offset, guessed", Method{}, "the laser's offset", 0.3 * k, false},
		{"offset, measured", Method{LaserOffsetMM: &half}, "the laser's offset", half * k, false},
		{"slope, not tried", Method{}, "the laser's slope", 0.01 * 254 * 20 / 1214, true},
		{"slope, a circle of 4 mm", Method{CircleMM: &four}, "the laser's slope", 4 * 20 / 1214., true},
		{"no circle", Method{CircleMM: &zero}, "the laser's slope", 0, false},
		{"seat within what is fine", Method{SeatSpreadMM: 2}, "the laser's seat", 0, false},
		{"seat", Method{SeatSpreadMM: 4}, "the laser's seat", 2, true},
		{"locks", Method{LockShiftMM: 3}, "the locks", 1.5 * k, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := lines(scope.BudgetOf(tt.method))[tt.what]
			assert.InDelta(t, tt.mm, got.MM, 0.005)
			if tt.mm > 0 {
				assert.Equal(t, tt.bound, got.Bound)
				assert.NotEmpty(t, got.Why)
			}
		})
	}
}

func TestSlowMirrorsAskForTheRingOnly(t *testing.T) {
	got := lines(lender(8).BudgetOf(Method{}))
	require.Contains(t, got, "the ring")
	assert.InDelta(t, 2.25, got["the ring"].MM, 1e-9)
	assert.True(t, got["the ring"].Bound)
	assert.NotContains(t, got, "your eye")
	assert.Contains(t, lines(lender(8).BudgetOf(Method{Middle: true})), "your eye")
}

func TestBoundsAreKeptApartFromSigmas(t *testing.T) {
	b := Budget{}
	for _, l := range []BudgetLine{{MM: 1, Bound: true}, {MM: 0.5, Bound: true}, {MM: 0.3}, {MM: 0.4}, {MM: 0}} {
		b.add(l)
	}
	assert.Len(t, b.Lines, 4)
	assert.InDelta(t, 1.5, b.BoundMM, 1e-12)
	assert.InDelta(t, 0.5, b.SigmaMM, 1e-12)
	assert.Equal(t, 1.0, b.Largest().MM)

	hole := Budget{}
	hole.add(BudgetLine{MM: 1, Bound: true})
	assert.Equal(t, 1.0, hole.WithinMM(), "never beyond a bound")
}

// What the total claims, against drawing every line: bounds anywhere in their
// circles, sigmas normal. It may claim more than comes to pass, never less.
func TestTheTotalHolds(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for _, scope := range []Telescope{lender(4.5), lender(6), lender(8)} {
		for _, m := range []Method{{}, {Home: HoleEven, Middle: true}, {Home: HoleRims, LockShiftMM: 4}} {
			b := scope.BudgetOf(m)
			const n = 4000
			held := 0.0
			for range n {
				var e Tube
				for _, l := range b.Lines {
					d := Tube{l.MM * r.NormFloat64(), l.MM * r.NormFloat64()}
					if l.Bound {
						d = turned(Tube{X: l.MM * math.Sqrt(r.Float64())}, 360*r.Float64())
					}
					e = e.Add(d)
				}
				if e.Len() <= b.WithinMM() {
					held += 1. / n
				}
			}
			assert.GreaterOrEqual(t, held, 0.94, "%v %v", scope.FocalRatio(), m)
		}
	}
}

// Spots anywhere in a 4.5 mm ring and a 3 mm hole leave an axis error of 3.05
// mm in 95 of 100: worked out by drawing them, apart from this program.
func TestRingAndHoleAlone(t *testing.T) {
	b := Budget{}
	b.add(BudgetLine{MM: 4.5 / 2, Bound: true})
	b.add(BudgetLine{MM: 3. / 2 * 0.984, Bound: true})
	assert.InDelta(t, 3.05, b.WithinMM(), 0.3)
}

func TestBudgetWords(t *testing.T) {
	zero := 0.0
	tests := []struct {
		name   string
		scope  Telescope
		method Method
		enough bool
		says   string
	}{
		{"fast", lender(4.8), Method{}, false, "Most of that is the hole (1.3 mm). Only a finer check, best on a star, shows the rest."},
		{"slow, just inside", lender(8), Method{}, false, "With the spot in the middle of the ring, and the glow even all round the hole, it is 1.4."},
		{"slow, closely", lender(8), Method{Middle: true, Home: HoleEven}, true, "This laser can show what this scope asks for."},
		{"very slow", lender(10), Method{}, true, "This laser can show what this scope asks for."},
		{"slow, rim to rim but just inside", smallRing(lender(7.6)), Method{Use: Planets, Home: HoleRims}, false, "it is 1.3."},
		{"ring off", lender(6), Method{Home: HoleRims, RingPlacedMM: ptr(6), LaserOffsetMM: &zero}, false, "Most of that is the ring's place"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.enough, tt.scope.BudgetOf(tt.method).Enough())
			assert.Contains(t, tt.scope.BudgetWords(tt.method), tt.says)
		})
	}
}

func smallRing(scope Telescope) Telescope { scope.RingInnerMM = 2.5; return scope }

func ptr(v float64) *float64 { return &v }
