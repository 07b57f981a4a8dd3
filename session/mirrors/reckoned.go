package mirrors

import (
	"sync"

	"spotward/optics"
	"spotward/optics/adviser"
)

// reckoned keeps what the adviser has said of beliefs, so that it is not worked out
// again each time one event or one frame asks for it. What it says of a belief
// never changes; a session's states share one.
type reckoned struct {
	mu    sync.Mutex
	worth map[worthKey]bool
	floor map[adviser.Mark]float64
}

type worthKey struct {
	mark adviser.Mark
	goal optics.Goal
}

// mostReckoned is how many answers are kept: those of the last few events.
const mostReckoned = 32

// worthMoving reports whether a move toward g is expected to gain anything.
func (n *reckoned) worthMoving(k adviser.Tracker, g optics.Goal) bool {
	work := func() bool {
		_, more := adviser.Advise(k, g, adviser.Options{LeastMM: leastGainMM, AsFolded: true})
		return more
	}
	if n == nil {
		return work()
	}
	return remembered(n, &n.worth, worthKey{k.Mark(), g}, work)
}

// floorMM returns how near to a goal the best of hands bring the spot.
func (n *reckoned) floorMM(k adviser.Tracker) float64 {
	if n == nil {
		return k.FloorMM()
	}
	return remembered(n, &n.floor, k.Mark(), k.FloorMM)
}

// remembered returns what stands in the map at key, or else works it out.
func remembered[K comparable, V any](n *reckoned, in *map[K]V, key K, work func() V) V {
	n.mu.Lock()
	defer n.mu.Unlock()
	if v, is := (*in)[key]; is {
		return v
	}
	if len(*in) >= mostReckoned || *in == nil {
		*in = map[K]V{}
	}
	v := work()
	(*in)[key] = v
	return v
}
