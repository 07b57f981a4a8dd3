package virtual

import (
	"math"

	"spotward/optics"
)

// A watched turn goes in steps too small to see, and never further than a
// whole turn: by then anybody would stop and ask.
const (
	watchStep  = 1. / 256
	watchTurns = 1.0
	tooFar     = 1.2 // of where it stood, and of where it was to stand
)

// Watch turns a screw, sense +1 clockwise or −1, while the spot is watched on
// the face that belongs to its mirror: the primary for the secondary's screws,
// the target for the primary's.
func (w *World) Watch(m optics.Mirror, screw, sense int, stop optics.Stop) Turned {
	face := optics.FacePrimary
	if m == optics.Primary {
		face = optics.FaceTarget
	}
	return w.WatchOn(face, m, screw, sense, stop, optics.Tube{})
}

// WatchOn turns a screw while the spot is watched on a face, until the cue
// comes, as the eyes judge it; a bearing is judged from goal. A spot that is
// not to be seen to begin with is not watched and nothing is turned.
func (w *World) WatchOn(face optics.Face, m optics.Mirror, screw, sense int, stop optics.Stop, goal optics.Tube) Turned {
	c := newChance(w.seed, streamHands, w.turns)
	stop.At = w.setup.Sight.misjudge(stop.At, goal, c)
	amount, away, lost := w.Clone().seek(face, m, screw, float64(sense), stop, goal)
	if amount != 0 {
		amount += w.setup.Hands.Turns * c.normal()
	}
	t := w.TurnExactly(m, screw, amount)
	t.Meant, t.Away, t.Lost = float64(sense), away, lost
	return t
}

// misjudge returns a cue as these eyes see it.
func (k Keen) misjudge(at, goal optics.Tube, c chance) optics.Tube {
	off := at.Sub(goal)
	right, up := clockwise(off.X, off.Y, k.Deg*math.Pi/180*c.normal())
	off = optics.Tube{X: right, Y: up}
	if n := off.Len(); n > 0 {
		off = off.Scale(math.Max(0, 1+(k.Part*c.normal()/2)+k.MM*c.normal()/n))
	}
	return goal.Add(off)
}

// seek turns a screw, on a copy of the world, and returns how far it had gone
// when the cue came.
func (w *World) seek(face optics.Face, m optics.Mirror, screw int, sense float64, stop optics.Stop, goal optics.Tube) (turns float64, away, lost bool) {
	at, seen := w.watched(face)
	if !seen {
		return 0, false, true
	}
	best, least := 0.0, miss(at, stop, goal)
	gone := 0.0
	// Nobody lets it run on that sees it go far off.
	farthest := tooFar*math.Max(at.Sub(goal).Len(), stop.At.Sub(goal).Len()) + tellMM
	for math.Abs(gone) < watchTurns {
		t := w.TurnExactly(m, screw, sense*watchStep)
		if t.Turns == 0 {
			break
		}
		gone += t.Turns
		was := at
		if at, seen = w.watched(face); !seen {
			lost = true
			break
		}
		if stop.As == optics.StopBearing && at.Sub(goal).Len() > farthest {
			break
		}
		if off := miss(at, stop, goal); off < least {
			best, least = gone, off
		}
		if stop.As == optics.StopBearing && passes(was, at, stop, goal) {
			return gone, false, false
		}
	}
	if lost && math.Abs(best) >= math.Abs(gone)-2*watchStep {
		return gone, false, true // it was still coming nearer when it went out of sight
	}
	return best, best == 0, false
}

// watched returns where the spot is on a face, and whether an eye can follow
// it there: down the hole too, for that is where it is wanted.
func (w *World) watched(face optics.Face) (optics.Tube, bool) {
	v := w.Sight(face)
	return v.At, v.Visible || v.InHole
}

// miss returns how far a spot is from its cue: mm, or rad for a bearing.
func miss(at optics.Tube, stop optics.Stop, goal optics.Tube) float64 {
	if stop.As != optics.StopBearing {
		return at.Sub(stop.At).Len()
	}
	a, b := at.Sub(goal), stop.At.Sub(goal)
	return math.Abs(math.Atan2(a.X*b.Y-a.Y*b.X, a.Dot(b)))
}

// passes tells whether a spot that went from was to at crossed the bearing.
func passes(was, at optics.Tube, stop optics.Stop, goal optics.Tube) bool {
	b := stop.At.Sub(goal)
	side := func(p optics.Tube) float64 { p = p.Sub(goal); return p.X*b.Y - p.Y*b.X }
	return side(was)*side(at) <= 0 && at.Sub(goal).Dot(b) > 0
}
