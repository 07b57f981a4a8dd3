package optics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What a clockwise turn does to the spot that is seen, by the exact trace.
// Screws and spots are clock hours as one stands there, 12 toward the focuser.
// Derived by hand: a right-hand screw turned clockwise goes away from the
// person who faces its head.
func TestWhatAClockwiseTurnDoes(t *testing.T) {
	tests := []struct {
		name        string
		mirror      Mirror
		pulls, flat bool
		spots       [4]float64 // for a screw at 12, 3, 6, 9
		hand        float64    // +1: the spots run the same way round as the screws
	}{
		{"secondary, pushing: to the opposite side", Secondary, false, false, [4]float64{6, 9, 0, 3}, 1},
		{"secondary, pulling: to the screw's own side", Secondary, true, false, [4]float64{0, 3, 6, 9}, 1},
		{"primary, pulling, slanted face: flipped top to bottom", Primary, true, false, [4]float64{6, 3, 0, 9}, -1},
		{"primary, pulling, flat face", Primary, true, true, [4]float64{0, 9, 6, 3}, -1},
		{"primary, pushing, slanted face", Primary, false, false, [4]float64{0, 9, 6, 3}, -1},
		{"primary, pushing, flat face", Primary, false, true, [4]float64{6, 3, 0, 9}, -1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			scope := tenInch()
			scope.Target.Flat = tt.flat
			for i, hour := range tt.spots {
				cell := Cell{Screws: 3, CircleMM: 90, LeadMM: 0.8, ClockwisePulls: tt.pulls, FirstDeg: 90 * float64(i), LabelsClockwise: true}
				scope.Primary, scope.Secondary = cell, cell
				got := scope.ToSeen(tt.mirror.SpotFace(), tracedResponse(t, scope, tt.mirror, 0))
				assert.InDelta(t, 0, hoursApart(hour, Dial(got).Hour()), 0.1, "screw at %d", 3*i)
				round := 0.0
				for k := range 3 {
					here := scope.ToSeen(tt.mirror.SpotFace(), tracedResponse(t, scope, tt.mirror, k))
					next := scope.ToSeen(tt.mirror.SpotFace(), tracedResponse(t, scope, tt.mirror, (k+1)%3))
					round += math.Copysign(1, hoursApart(Dial(here).Hour(), Dial(next).Hour()))
				}
				assert.Equal(t, 3*tt.hand, round, "screw at %d", 3*i)
			}
		})
	}
}

// hoursApart returns b − a in hours, between −6 and 6.
func hoursApart(a, b float64) float64 { return math.Remainder(b-a, 12) }

// tracedResponse returns mm a turn of screw i by the exact trace, from a
// hundredth of a turn.
func tracedResponse(t require.TestingT, scope Telescope, m Mirror, i int) Tube {
	const turn = 0.01
	turns := make([]float64, scope.Cell(m).Screws)
	turns[i] = turn
	tilt := scope.Cell(m).Tilt(m, turns)
	pose := Pose{Secondary: tilt}
	if m == Primary {
		pose = Pose{Primary: tilt}
	}
	s, err := scope.Trace(pose)
	require.NoError(t, err)
	if m == Primary {
		return s.T.Scale(1 / turn)
	}
	return s.P.Scale(1 / turn)
}

func TestNominalResponseFollowsTheTrace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := anyScope(t)
		for _, m := range []Mirror{Primary, Secondary} {
			response := scope.NominalResponse(m)
			require.Len(t, response, scope.Cell(m).Screws)
			var sum Tube
			for i, r := range response {
				traced := tracedResponse(t, scope, m, i)
				assert.InDelta(t, 0, r.Sub(traced).Len()/traced.Len(), 0.01, "%v screw %d", m, i)
				sum = sum.Add(r)
			}
			// All screws together leave the tilt as it was.
			assert.Less(t, sum.Len(), scope.Cell(m).LeadMM+1e-9)
		}
	})
}

// One primary turn of 0.8 mm at 90 mm moves the return spot 14.4 mm; one
// secondary turn of 0.7 mm at 14 mm the primary's spot 64 along, 32 across.
// Worked by hand: 2·S·2Δ/(3R) and L·2Δ/(3R).
func TestOrderOfSize(t *testing.T) {
	scope := tenInch()
	scope.Primary = Cell{Screws: 3, CircleMM: 90, LeadMM: 0.8}
	scope.Secondary = Cell{Screws: 3, CircleMM: 14, LeadMM: 0.7}
	assert.InDelta(t, 14.4, scope.NominalResponse(Primary)[0].Len(), 0.05)
	assert.InDelta(t, 64.5, scope.NominalResponse(Secondary)[0].Len(), 0.5)
	scope.Secondary.FirstDeg = 90
	assert.InDelta(t, 32.2, scope.NominalResponse(Secondary)[0].Len(), 0.5)
}

// A published-style check worked in rationals: radius 80 mm, screws at 90°,
// 210° and 330° in the plane of the plate; travel in mm, not turns.
func TestThreeScrews(t *testing.T) {
	for _, row := range published(t, "three_screws.csv") {
		cell := Cell{Screws: 3, CircleMM: number(t, row[0]), LeadMM: 1, FirstDeg: 90, LabelsClockwise: true}
		turns := []float64{-number(t, row[1]), -number(t, row[2]), -number(t, row[3])} // clockwise goes down, seen from behind
		cell.ClockwisePulls = true
		got := cell.Tilt(Primary, turns)
		assert.InDelta(t, number(t, row[4]), got.Grad.X, 1e-6, row)
		assert.InDelta(t, number(t, row[5]), got.Grad.Y, 1e-6, row)
		assert.InDelta(t, number(t, row[6]), got.ShiftMM, 1e-5, row)
	}
}

// The plane of Tilt goes through the tips of three screws, and of four as long
// as those lie in one plane.
func TestThePlateStandsOnItsTips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := anyScope(t)
		m := rapid.SampledFrom([]Mirror{Primary, Secondary}).Draw(t, "mirror")
		cell := scope.Cell(m)
		turn := rapid.Float64Range(-2, 2)
		turns := make([]float64, cell.Screws)
		for i := range turns {
			turns[i] = turn.Draw(t, "turn")
		}
		if cell.Screws == 4 {
			turns[3] = turns[0] - turns[1] + turns[2]
		}
		tilt := cell.Tilt(m, turns)
		for i, n := range turns {
			away := n * cell.LeadMM // from the person
			if cell.ClockwisePulls {
				away = -away
			}
			if m == Secondary { // the person looks down the tube
				away = -away
			}
			assert.InDelta(t, away, tilt.ShiftMM+tilt.Grad.Dot(cell.Position(m, i)), 1e-9)
		}
	})
}

func TestFourScrewsInPairs(t *testing.T) {
	cell := Cell{Screws: 4, CircleMM: 100, LeadMM: 1, LabelsClockwise: true}
	tests := []struct {
		turns    []float64
		gradient float64
		shift    float64
	}{
		{[]float64{1, 0, -1, 0}, 1. / 100, 0},
		{[]float64{1, 1, -1, -1}, math.Sqrt2 / 100, 0},
		{[]float64{1, 1, 1, 1}, 0, 1},
		{[]float64{1, 0, 0, 0}, 1. / 200, 0.25},
		{[]float64{1, -1, 1, -1}, 0, 0},
	}
	for _, tt := range tests {
		got := cell.Tilt(Primary, tt.turns)
		assert.InDelta(t, tt.gradient, got.Grad.Len(), 1e-12, tt.turns)
		assert.InDelta(t, tt.shift, got.ShiftMM, 1e-12, tt.turns)
	}
}
