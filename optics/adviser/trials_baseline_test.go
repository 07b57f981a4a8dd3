package adviser

import (
	"math"

	"spotward/optics"
)

// byWatching is trial and error while watching: one screw after another, each
// to where the spot comes nearest.
func byWatching(v *visit) int {
	for n := range givenUp {
		if v.looksHome() {
			return n
		}
		mv := Move{Mirror: v.m, Screw: n % v.screws, Turns: 1, Stop: &optics.Stop{At: v.goal.At, As: optics.StopClosest}}
		before := v.off()
		if v.w.watch(mv, v.goal) {
			v.out.starts++
		}
		v.worse(n, before)
	}
	return givenUp
}

// byNumbers is trial and error on numbers called out: a screw is turned on while
// it helps, back when it does not, then the next one; smaller bites when none
// has helped.
func byNumbers(v *visit) int {
	const most = 80
	bite, way, screw, idle := 0.25, 1.0, 0, 0
	last := v.called()
	for n := range most {
		if last <= v.goal.InsideMM {
			return n
		}
		before := v.off()
		v.w.turn(v.m, screw, way*bite)
		v.worse(n, before)
		now := v.called()
		if now < last {
			last, idle = now, 0
			continue
		}
		last, idle = now, idle+1
		if way = -way; idle%2 == 0 {
			screw = (screw + 1) % v.screws
		}
		if idle >= 2*v.screws {
			bite, idle = math.Max(bite/2, 1.0/16), 0
		}
	}
	return most
}

func (v *visit) looksHome() bool { return v.called() <= v.goal.InsideMM }

// called is the distance a helper calls out.
func (v *visit) called() float64 {
	v.out.looks++
	z, ok := v.w.lookAt(v.m)
	if !ok {
		return 60
	}
	return z.At.Sub(v.goal.At).Len()
}

func (v *visit) worse(n int, before float64) {
	if n == 0 {
		return
	}
	v.out.judged++
	if v.off() > before+1 {
		v.out.wrong++
	}
}
