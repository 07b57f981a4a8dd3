package virtual

import "spotward/optics"

// Truth is how the telescope really stands: for instructors and tests only.
type Truth struct {
	Telescope optics.Telescope // as it is, whatever its file says
	Pose      optics.Pose
	Spots     optics.Spots // as traced, with the laser as it is, lit or not
	Err       error        // of the trace
	ErrorMM   float64      // axis error: how long Spots.E is
	Ring      optics.Tube  // the ring's middle, from the primary's
	Secondary CellTruth
	Primary   CellTruth
	Laser     optics.Laser
	Faults    Faults
}

// CellTruth is how one mirror's screws and locks really stand.
type CellTruth struct {
	At    []optics.Tube // where the screws stand, mm
	Turns []float64     // where they have been turned to, clockwise, 0 where the mirror is square
	// PerTurn is what one turn of a screw moves: the spot on the primary for
	// the secondary's screws, the return spot on the target for the primary's;
	// for a plate that stands on all its screws.
	PerTurn []optics.Tube
	Loose   bool      // the plate is not held by all its screws
	Bite    []float64 // turns by which the locks press; below zero they stand off
	Pull    []optics.Tube
}

// Truth returns how the telescope really stands.
func (w *World) Truth() Truth {
	t := Truth{
		Telescope: w.real, Pose: w.pose(), Ring: w.ring, Laser: w.laser.beam(), Faults: w.setup.Faults,
		Secondary: w.cellTruth(optics.Secondary), Primary: w.cellTruth(optics.Primary),
	}
	t.Spots, t.Err = w.real.Trace(t.Pose)
	t.ErrorMM = t.Spots.E.Len()
	return t
}

// Described returns the telescope as its file would describe it: what New was
// given, less what nobody can know of screws without labels.
func (w *World) Described() optics.Telescope { return w.described }

func (w *World) cellTruth(mirror optics.Mirror) CellTruth {
	m := w.mount(mirror)
	c := CellTruth{At: append([]optics.Tube(nil), m.at...), Loose: m.bolted && m.overMM(m.tips(), 0) < 0}
	for i, s := range m.screws {
		c.Turns = append(c.Turns, s.hand)
		c.PerTurn = append(c.PerTurn, w.moves(mirror, m.turnSlope(i).Scale(m.way)))
		c.Loose = c.Loose || s.loose > 0
	}
	for i := range m.locks {
		c.Bite = append(c.Bite, m.bite(i))
		c.Pull = append(c.Pull, w.moves(mirror, m.lockPull(i).Scale(m.way)))
	}
	return c
}

// moves returns by how much a small change of a mirror's gradient would move
// the spot that is watched, scaled up to all of it.
func (w *World) moves(mirror optics.Mirror, grad optics.Tube) optics.Tube {
	const part = 1e-3
	spot := func(k float64) optics.Tube {
		p := w.pose()
		if mirror == optics.Primary {
			p.Primary.Grad = p.Primary.Grad.Add(grad.Scale(k))
		} else {
			p.Secondary.Grad = p.Secondary.Grad.Add(grad.Scale(k))
		}
		s, err := w.real.Trace(p)
		switch {
		case err != nil:
			return optics.Tube{}
		case mirror == optics.Primary:
			return s.T
		}
		return s.P
	}
	return spot(part).Sub(spot(-part)).Scale(1 / (2 * part))
}
