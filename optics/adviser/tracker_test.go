package adviser

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
)

// measuredTenInch is a 254 mm f/4.7 with a laser hole 20 mm beyond the focal
// plane.
func measuredTenInch() optics.Telescope {
	return optics.Telescope{
		ApertureMM: 254, FocalLengthMM: 1194, FromPrimaryMM: 967, HoleFromAxisMM: 247,
		MinorAxisMM: 63, InnerRadiusMM: 142, SkyEndMM: 1300,
	}
}

// threeScrews is a 254 mm f/4.7 with screws that were measured: A at twelve, the
// labels clockwise.
func threeScrews() optics.Telescope {
	t := measuredTenInch()
	labels := []string{"A", "B", "C"}
	t.Secondary = optics.Cell{Screws: 3, CircleMM: 14, LeadMM: 0.7, GainKnown: optics.Given, Kind: optics.Sprung, SenseKnown: optics.Given,
		Labels: labels, LabelsClockwise: true, PlacesKnown: optics.Given}
	t.Primary = optics.Cell{Screws: 3, CircleMM: 90, LeadMM: 0.8, GainKnown: optics.Given, Kind: optics.Sprung, ClockwisePulls: true,
		SenseKnown: optics.Given, Labels: labels, LabelsClockwise: true, PlacesKnown: optics.Given, Locks: 3}
	return t
}

func at(x, y float64) optics.Belief {
	v := optics.Tube{X: x, Y: y}
	return optics.Belief{At: v, Cov: optics.Polar(v, 0.1*v.Len()+0.5, 0.11*v.Len()+0.4)}
}

// A secondary screw that pushes from twelve sends the spot to six, 64 mm a turn
// of 0.7 mm on a circle of 14 mm; one at three 32 mm to nine, where y is
// positive. Worked out by hand from dz = −lead.
func TestNewTrackerKnowsWhichWayTheSpotGoes(t *testing.T) {
	scope := threeScrews()
	k := NewTracker(scope, optics.Secondary, nil)
	var top gauss
	for _, h := range k.bank {
		if h.asFiled && !h.coarse {
			top = h.g
			break
		}
	}
	assert.InDelta(t, -64, top.at(screwAt(0)).X, 2)
	assert.InDelta(t, 0, top.at(screwAt(0)).Y, 0.1)
	assert.Less(t, k.PerTurn(0).At.X, -40.0)
	assert.Greater(t, k.PerTurn(1).At.Y, 10.0, "the second stands at four: the spot goes to ten, where y is positive")

	p := NewTracker(scope, optics.Primary, nil)
	assert.Greater(t, p.PerTurn(0).At.X, 9.0, "pulling at twelve: toward the sky, six on the slanted face")
	assert.InDelta(t, 0.96, k.HandCertain(), 0.001)
}

// NIST's Norris data, y = B0 + B1·x, certified B0 −0.262323073774029 and B1
// 1.00211681802045 (StRD, linear regression). The spot is B0, a screw's response
// B1, and each point is a turn by the difference of x and a look.
func TestFilterIsLeastSquares(t *testing.T) {
	x := []float64{.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, .4, .6, 775.5, 666.9, 338.0, 447.5, 11.6,
		556.0, 228.1, 995.8, 887.6, 120.2, .3, .3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, .5}
	y := []float64{.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, .3, .1, 778.1, 668.8, 339.3, 448.9, 10.8,
		557.7, 228.3, 998.0, 888.8, 119.6, .3, .6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, .2}
	g := newGauss(4)
	g.forget(0, 1e3)
	g.forget(screwAt(0), 1e3)
	turned := 0.0
	for i := range x {
		g.move(screwAt(0), x[i]-turned, 0)
		turned = x[i]
		g.see(optics.Belief{At: optics.Tube{X: y[i], Y: 0}, Cov: optics.Round(1)})
	}
	g.move(screwAt(0), -turned, 0)
	assert.InDelta(t, -0.262323073774029, g.m[0], 2e-6)
	assert.InDelta(t, 1.00211681802045, g.m[screwAt(0)], 1e-8)
	assert.InDelta(t, 6.92384428759429e-2, g.p[0], 1e-6, "(XᵀX)⁻¹, published with the data's solution in a numerical library")
}

func TestReversedScrewLosesTravel(t *testing.T) {
	net, _ := effective(-0.25, true, false)
	assert.InDelta(t, -(0.25 - lostTravel), net, 1e-9)
	net, _ = effective(0.25, false, false)
	assert.InDelta(t, 0.25, net, 1e-9)
	net, _ = effective(0.01, true, false)
	assert.InDelta(t, 0, net, 1e-9)
}

func TestLookDoubtsWhatTurnsCannotHaveDone(t *testing.T) {
	k := NewTracker(threeScrews(), optics.Secondary, nil)
	k, d := k.Look(at(30, 0))
	require.False(t, d.Doubted, "nothing is expected of the first")
	turned := k.Turn([]Move{{Mirror: optics.Secondary, Screw: 0, Turns: 0.25}}, ByAmount)
	_, d = turned.Look(at(14, 0))
	assert.False(t, d.Doubted)
	for name, z := range map[string]optics.Belief{
		"half a dial out": at(-14, 0), "cm for mm": at(140, 0), "the wrong side": at(60, -60),
	} {
		wild, d := turned.Look(z)
		assert.True(t, d.Doubted, name)
		assert.InDelta(t, 14, wild.Spot().At.X, 6, "%s must not carry the belief away", name)
		again, d := wild.Look(at(14, 1))
		assert.False(t, d.Doubted, name)
		assert.InDelta(t, 14, again.Spot().At.X, 3, name)
	}
}

// Of two readings that do not go together the wrong one may be the one before:
// half a dial out at the first look, and right at the second.
func TestLookDoubtsTheEarlierReading(t *testing.T) {
	turn := []Move{{Mirror: optics.Secondary, Screw: 0, Turns: 0.25}}
	first, _ := NewTracker(threeScrews(), optics.Secondary, nil).Look(at(-30, 0))
	_, d := first.Turn(turn, ByAmount).Look(at(14, 0))
	assert.True(t, d.Doubted)
	assert.Greater(t, d.Earlier, 0.3, "the first was half a dial out")

	k, _ := NewTracker(threeScrews(), optics.Secondary, nil).Look(at(46, 0))
	k, d = k.Turn(turn, ByAmount).Look(at(30, 0))
	require.False(t, d.Doubted)
	_, d = k.Turn(turn, ByAmount).Look(at(-14, 0))
	assert.True(t, d.Doubted)
	assert.Less(t, d.Earlier, 0.1, "two before it agree, this one is half a dial out")
}

func TestConfirmTakesAReadingAtItsWord(t *testing.T) {
	k := NewTracker(threeScrews(), optics.Secondary, nil)
	k, _ = k.Look(at(46, 0))
	k = k.Turn([]Move{{Mirror: optics.Secondary, Screw: 0, Turns: 0.25}}, ByAmount)
	k, _ = k.Look(at(30, 0))
	k = k.Turn([]Move{{Mirror: optics.Secondary, Screw: 0, Turns: 0.5}}, ByAmount)
	z := at(30, 1)
	k, d := k.Look(z)
	require.True(t, d.Doubted)
	did := k.PerTurn(0).Cov.Sigma()
	k = k.Confirm(z)
	assert.InDelta(t, 30, k.Spot().At.X, 6)
	assert.Greater(t, k.PerTurn(0).Cov.Sigma(), 1.5*did, "what the screw does is less sure")
}

func TestWentSettlesTheHand(t *testing.T) {
	scope := threeScrews()
	scope.Primary.PlacesKnown = optics.Unknown
	k := NewTracker(scope, optics.Primary, nil)
	k, _ = k.Look(at(20, 0))
	k = k.Went(by(0, 0.25), optics.Tube{X: 1, Y: 0}, 0.1).Went(by(1, 0.25), optics.Tube{X: -0.5, Y: -math.Sqrt(3) / 2}, 0.1)
	assert.Greater(t, k.PerTurn(0).At.X, 5.0, "clockwise sent it toward +x")
	assert.Less(t, k.HandCertain(), 0.1, "clockwise labels would send B's spot to +y")
}

func TestSaysKeepsAdviceOffAScrew(t *testing.T) {
	k := NewTracker(threeScrews(), optics.Secondary, nil)
	k, _ = k.Look(at(30, 2))
	g := optics.Goal{InsideMM: 2}
	a, more := Advise(k, g, Options{})
	require.True(t, more)
	first := a.Moves[0].Screw
	for _, o := range []Options{{}, {Watching: true}, {Whole: true}} {
		a, _ = Advise(k.Says(first, Stuck, 0), g, o)
		for _, m := range a.Moves {
			assert.NotEqual(t, first, m.Screw)
		}
	}
	turned := k.Turn(a.Moves, ByAmount)
	at := a.Moves[0]
	turned = turned.Says(at.Screw, End, 0)
	assert.False(t, turned.allows(at.Screw, at.Turns))
	assert.True(t, turned.allows(at.Screw, -at.Turns))
	backed := turned.Turn([]Move{{Mirror: optics.Secondary, Screw: at.Screw, Turns: -at.Turns}}, ByAmount)
	assert.True(t, backed.allows(at.Screw, at.Turns), "up to its end it goes again")
	assert.False(t, backed.allows(at.Screw, 1.5*at.Turns))

	fresh := k.Says(0, End, -0.25)
	assert.False(t, fresh.allows(0, -0.25), "the very first turn of it can meet its end")
	assert.True(t, fresh.allows(0, 0.25))
}

func TestLoseKeepsWhatTheScrewsDo(t *testing.T) {
	k := NewTracker(threeScrews(), optics.Secondary, nil)
	k, _ = k.Look(at(30, 0))
	k = k.Turn([]Move{{Mirror: optics.Secondary, Screw: 0, Turns: 0.25}}, ByAmount)
	k, _ = k.Look(at(18, 0))
	lost := k.Lose()
	assert.False(t, lost.Seen())
	assert.Equal(t, k.PerTurn(0), lost.PerTurn(0))
	assert.Greater(t, lost.Spot().Cov.Sigma(), 20.0)
}

func TestBeyondMovesTheBeliefOut(t *testing.T) {
	k := NewTracker(threeScrews(), optics.Primary, nil)
	k, _ = k.Look(at(10, 0))
	k = k.Turn([]Move{{Mirror: optics.Primary, Screw: 0, Turns: 0.5}}, ByAmount).Beyond(20)
	assert.Greater(t, k.Spot().At.Len(), 16.0)
}

// What a tracker is asked does not change it, nor what another one grew from.
func TestTrackerIsAValue(t *testing.T) {
	tries := 0
	rapid.Check(t, func(r *rapid.T) {
		if tries++; tries > usually(25, 100) { // each is eight advices
			return
		}
		scope := threeScrews()
		scope.Secondary.PlacesKnown = rapid.SampledFrom([]optics.Known{optics.Unknown, optics.Guessed, optics.Given}).Draw(r, "places")
		k := NewTracker(scope, optics.Secondary, nil)
		k, _ = k.Look(at(rapid.Float64Range(-40, 40).Draw(r, "x"), 20))
		spot, per, hand := k.Spot(), k.PerTurn(1), k.HandCertain()
		g := optics.Goal{InsideMM: 2}
		a, _ := Advise(k, g, Options{})
		for range 3 {
			n := k.Turn([]Move{{Mirror: optics.Secondary, Screw: rapid.IntRange(0, 2).Draw(r, "screw"), Turns: 0.25}}, ByAmount)
			n, _ = n.Look(at(5, rapid.Float64Range(-40, 40).Draw(r, "y")))
			n = n.Confirm(at(6, 6)).Shift(optics.Round(3)).Says(1, End, 0).Lose().Beyond(20).Went(by(1, 1), optics.Tube{X: 1, Y: 0}, 0.1)
			Advise(n, g, Options{Watching: true})
		}
		b, _ := Advise(k, g, Options{})
		assert.Equal(r, spot, k.Spot())
		assert.Equal(r, per, k.PerTurn(1))
		assert.InDelta(r, hand, k.HandCertain(), 0)
		assert.Equal(r, a, b, "the same belief, the same advice")
	})
}

// by is one screw of the secondary turned.
func by(screw int, turns float64) []Move {
	return []Move{{Mirror: optics.Secondary, Screw: screw, Turns: turns}}
}
