package optics

import "math"

// Options says how the person works.
type Options struct {
	Whole    bool // all screws before the next look
	Watching bool // somebody watches the spot while the screw is turned
}

// Advise returns the next move toward g. It returns false where the spot is
// thought to be inside g already and there is nothing to do.
func Advise(k Tracker, g Goal, o Options) (Advice, bool) {
	miss := g.At.Sub(k.Spot().At)
	if k.Seen() && miss.Len() <= g.InsideMM {
		return Advice{}, false
	}
	best := Advice{Group: GroupOne, Trust: 0.5, HandCertain: k.HandCertain()}
	left := math.Inf(1)
	for i := range k.cell.Screws {
		r := k.PerTurn(i).At
		n := onGrid(miss.Dot(r) / math.Max(r.Dot(r), 1e-9))
		if after := miss.Sub(r.Scale(n)).Len(); n != 0 && after < left {
			left = after
			at := k.Spot().At.Add(r.Scale(n))
			best.After = at
			best.Moves = []Move{{Mirror: k.mirror, Screw: i, Turns: n, Stop: &Stop{at, StopClosest}}}
		}
	}
	return best, len(best.Moves) > 0
}

// onGrid rounds turns to what a hand can make: sixteenths up to a quarter, then
// eighths.
func onGrid(turns float64) float64 {
	step := 1.0 / 16
	if math.Abs(turns) > 0.5 {
		step = 1.0 / 8
	}
	return math.Round(turns/step) * step
}
