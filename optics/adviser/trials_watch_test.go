package adviser

import (
	"math"

	"spotward/optics"
)

// watch turns a screw until the spot stands at the cue, as well as eyes can
// tell. It returns true when the first nudge showed that the other way was
// needed.
func (w *world) watch(mv Move, g optics.Goal) bool {
	m, i := mv.Mirror, mv.Screw
	to := mv.Stop.At // what the spot is to come nearer to
	if mv.Stop.As == optics.StopClosest {
		to = g.At
	}
	way := math.Copysign(1, mv.Turns)
	const nudge = 1.0 / 32
	off := func(n float64) float64 { return w.after(m, i, n).Sub(to).Len() }
	other := off(way*nudge) > off(0)
	if other {
		w.drive(m, i, way*nudge)
		way = -way
		w.drive(m, i, way*nudge)
	}
	w.drive(m, i, way*w.stopAt(m, i, way, to, mv.Stop, g))
	return other
}

// stopAt returns how many turns the person makes that way: to where the bearing
// is met, or else to where the spot goes by nearest to the cue.
func (w *world) stopAt(m optics.Mirror, i int, way float64, to optics.Tube, stop *optics.Stop, g optics.Goal) float64 {
	const step, most = 1.0 / 64, 3.0
	cue := stop.At.Sub(g.At)
	side := func(v optics.Tube) float64 { return v.X*cue.Y - v.Y*cue.X }
	last := w.spot(m).Sub(g.At)
	n, best, met := 0.0, last.Add(g.At).Sub(to).Len(), false
	for x := step; x <= most && !met; x += step {
		at := w.after(m, i, way*x)
		v := at.Sub(to).Len()
		if off := at.Sub(g.At); stop.As == optics.StopBearing && side(off)*side(last) <= 0 && off.Dot(cue) > 0 {
			n, met = x, true
		} else if v < best {
			n, best, last = x, v, off
		} else if v > 1.5*best+3 {
			break
		}
	}
	// Eyes: the bearing to a few degrees, and vaguely where it is met at a slant;
	// the nearest point to what distance from the goal can be told.
	there := w.after(m, i, way*n)
	off, on := there.Sub(g.At), w.after(m, i, way*(n+step)).Sub(there)
	err := math.Hypot(w.hands.least, w.hands.distance*off.Len())
	if met {
		slant := math.Abs(off.X*on.Y-off.Y*on.X) / (off.Len()*on.Len() + 1e-9)
		err = math.Hypot(w.hands.least, w.hands.direction*off.Len()) / math.Max(slant, 0.3)
	}
	n += w.rng.NormFloat64() * math.Hypot(err*step/on.Len(), w.hands.turnLeast)
	return math.Max(0, n)
}

// after returns where the spot would be after n turns of screw i.
func (w *world) after(m optics.Mirror, i int, n float64) optics.Tube {
	x := *w
	x.apply(m, x.tilt(m, i), n)
	return x.spot(m)
}

// wayOf is the answer to "which way did it go?", to the half-hour. Nobody can
// say it of a spot that hardly moved.
func (w *world) wayOf(from, to optics.Tube) (way optics.Tube, sigmaRad float64) {
	d := to.Sub(from)
	if d.Len() < 2 {
		return optics.Tube{}, 0
	}
	sigma := math.Hypot(w.hands.direction, w.hands.least/d.Len())
	rad := math.Atan2(d.Y, d.X) + sigma*w.rng.NormFloat64()
	rad = math.Round(rad/deg(15)) * deg(15)
	return w.polar(1, rad), math.Hypot(sigma, deg(4.3))
}

// nudge turns a screw until the spot has visibly gone some way, and returns by
// how much, about, and which way it went.
func (w *world) nudge(mv Move) (turns float64, way optics.Tube, sigmaRad float64) {
	from := w.spot(mv.Mirror)
	step := math.Copysign(1.0/64, mv.Turns)
	for math.Abs(turns) < 0.3 {
		w.drive(mv.Mirror, mv.Screw, step)
		turns += step
		if w.spot(mv.Mirror).Sub(from).Len() > 5 {
			break
		}
	}
	way, sigmaRad = w.wayOf(from, w.spot(mv.Mirror))
	return turns, way, sigmaRad
}
