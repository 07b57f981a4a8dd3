package optics

import "math"

// watch turns a screw until the spot stands at the cue, as well as eyes can
// tell. It returns true when the first nudge showed that the other way was
// needed.
func (w *world) watch(mv Move, g Goal) bool {
	m, i := mv.Mirror, mv.Screw
	way := math.Copysign(1, mv.Turns)
	const nudge = 1.0 / 32
	at := func(n float64) float64 { return w.foretell(m, i, n, mv.Stop, g) }
	// A nudge shows which way it goes.
	if at(way*nudge) > at(0) {
		w.drive(m, i, way*nudge)
		way = -way
		w.drive(m, i, way*nudge)
		w.drive(m, i, way*w.stopAt(m, i, way, mv.Stop, g))
		return true
	}
	w.drive(m, i, way*w.stopAt(m, i, way, mv.Stop, g))
	return false
}

// stopAt returns how many turns the person makes that way.
func (w *world) stopAt(m Mirror, i int, way float64, stop *Stop, g Goal) float64 {
	const step, most = 1.0 / 64, 3.0
	start := w.spot(m).Sub(g.At).Len()
	n, best := 0.0, w.foretell(m, i, 0, stop, g)
	for x := step; x <= most; x += step {
		v := w.foretell(m, i, way*x, stop, g)
		if v > best || w.after(m, i, way*x).Sub(g.At).Len() > start+10 {
			break
		}
		n, best = x, v
	}
	// Eyes: the bearing to a few degrees, the nearest point to what distance
	// from the goal can be told.
	there := w.after(m, i, way*n)
	per := w.after(m, i, way*(n+step)).Sub(there).Len() / step
	err := w.hands.least + w.hands.distance*there.Sub(g.At).Len()
	if stop.As == StopBearing {
		// A bearing that is met at a slant is met vaguely.
		off, on := there.Sub(g.At), w.after(m, i, way*(n+step)).Sub(there)
		slant := math.Abs(off.X*on.Y-off.Y*on.X) / (off.Len()*on.Len() + 1e-9)
		err = math.Hypot(w.hands.least, w.hands.direction*off.Len()) / math.Max(slant, 0.1)
	}
	n += w.rng.NormFloat64() * math.Hypot(err/per, w.hands.turnLeast)
	return math.Max(0, n)
}

// after returns where the spot would be after n turns of screw i.
func (w *world) after(m Mirror, i int, n float64) Tube {
	x := *w
	x.apply(m, x.tilt(m, i), n)
	return x.spot(m)
}

// foretell returns how far from the cue the spot would be after n turns.
func (w *world) foretell(m Mirror, i int, n float64, stop *Stop, g Goal) float64 {
	v := w.after(m, i, n)
	if stop.As == StopBearing {
		a, b := v.Sub(g.At), stop.At.Sub(g.At)
		return math.Abs(math.Atan2(a.X*b.Y-a.Y*b.X, a.Dot(b)))
	}
	if stop.As == StopPoint {
		return v.Sub(stop.At).Len()
	}
	return v.Sub(g.At).Len()
}
