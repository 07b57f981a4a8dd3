package optics

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Tilt is how a mirror stands away from square: the gradient of its plate,
// dz/dx and dz/dy (Tube.X and Tube.Y, rad for small ones), and its mean
// displacement along z. The plate of the secondary is square to the tube; the
// glass is fixed to it at 45°.
type Tilt struct {
	Grad    Tube
	ShiftMM float64
}

// Add returns the sum of two small tilts.
func (a Tilt) Add(b Tilt) Tilt {
	return Tilt{Grad: a.Grad.Add(b.Grad), ShiftMM: a.ShiftMM + b.ShiftMM}
}

// rotation returns the exact rotation that belongs to the gradient: by the
// rotation vector (gy, −gx, 0).
func (a Tilt) rotation() r3.Rotation {
	return r3.NewRotation(a.Grad.Len(), r3.Vec{X: a.Grad.Y, Y: -a.Grad.X})
}

// Laser is how the beam leaves the target hole: the hole's offset from the
// focuser's axis, across it (mm, along the tube's y and z), and the beam's
// slope dy/(−dx), dz/(−dx) against that axis.
type Laser struct {
	OffsetY, OffsetZ float64 // mm
	SlopeY, SlopeZ   float64 // rad for small ones
}

// Pose is how the two mirrors and the laser stand.
type Pose struct {
	Secondary, Primary Tilt
	Laser              Laser
}

// Spots is where the beam and the primary's axis go, in mm.
//
// P, Q, T and the rest are worked out as if both mirrors went on beyond their
// edges; Wall and Leaves say where the real ones end.
type Spots struct {
	P Tube // spot on the primary, from its centre, in its own plane
	Q Tube // return spot minus outgoing spot on the secondary, seen along the tube
	T Tube // return spot minus target hole; X along z, Y along y
	// E is where the primary's optical axis cuts the focal plane, from the
	// focuser's axis; X along z, Y along y.
	E        Tube
	Outgoing Tube // outgoing spot on the secondary, seen along the tube, from the tube's axis
	Return   Tube // return spot likewise
	// Wall: the beam misses the primary, whose P lies outside the aperture.
	Wall bool
	// Leaves: the return passes by the secondary and out of the open end, at
	// LeavesAt from the tube's axis. A scope of unknown minor axis stops
	// everything; one of unknown inner radius lets everything out.
	Leaves   bool
	LeavesAt Tube // where the return crosses, or would cross, the open end
	// Beam is the way of the light, from hole to end: the hole, the secondary,
	// the primary, then the secondary and the target face, or the open end.
	Beam []r3.Vec
}

// ErrNoBeam: the beam, or the primary's axis, never meets the next surface.
var ErrNoBeam = errors.New("the beam does not reach the mirrors: undo the last move or begin with the mirrors about square")

// ray is a point and a unit direction.
type ray struct{ at, dir r3.Vec }

// toPlane returns where the ray, forward, meets the plane through point q with
// normal n.
func (r ray) toPlane(q, n r3.Vec) (r3.Vec, bool) {
	along := r3.Dot(r.dir, n)
	s := r3.Dot(r3.Sub(q, r.at), n) / along
	if !(s > 0) || math.IsInf(s, 0) {
		return r3.Vec{}, false
	}
	return r.point(s), true
}

func (r ray) point(s float64) r3.Vec { return r3.Add(r.at, r3.Scale(s, r.dir)) }

// bounce returns direction d after reflection at unit normal n: d − 2(d·n)n.
func bounce(d, n r3.Vec) r3.Vec { return r3.Sub(d, r3.Scale(2*r3.Dot(d, n), n)) }

// paraboloid is the primary: x² + y² = 4fz in a frame that is turned by turn
// about the vertex.
type paraboloid struct {
	focalLengthMM float64
	vertex        r3.Vec
	turn          r3.Rotation
}

// hit returns where the ray, coming down, meets the mirror: the point itself,
// the point in the mirror's own frame and the unit normal there.
func (m paraboloid) hit(r ray) (at, own, normal r3.Vec, ok bool) {
	back := r3.Rotation(conj(m.turn))
	o, d := back.Rotate(r3.Sub(r.at, m.vertex)), back.Rotate(r.dir)
	a := d.X*d.X + d.Y*d.Y
	b := 2*(o.X*d.X+o.Y*d.Y) - 4*m.focalLengthMM*d.Z
	c := o.X*o.X + o.Y*o.Y - 4*m.focalLengthMM*o.Z
	disc := b*b - 4*a*c
	if !(disc >= 0) || !(b > 0) {
		return
	}
	// The nearer root, in the form that keeps its digits for rays along the axis.
	s := -2 * c / (b + math.Sqrt(disc))
	if !(s > 0) {
		return
	}
	own = r3.Add(o, r3.Scale(s, d))
	n := r3.Unit(r3.Vec{X: -own.X, Y: -own.Y, Z: 2 * m.focalLengthMM})
	return r.point(s), own, m.turn.Rotate(n), true
}

func conj(q r3.Rotation) r3.Rotation {
	q.Imag, q.Jmag, q.Kmag = -q.Imag, -q.Jmag, -q.Kmag
	return q
}

// Trace follows the beam exactly: from the hole over the secondary to the
// primary and back. A mirror's pose is the rotation that belongs to its
// gradient (Rodrigues), about the secondary plate's pivot or the primary's
// vertex, and then its shift along z. The only error is ErrNoBeam; no number
// returned is NaN.
func (t Telescope) Trace(p Pose) (Spots, error) {
	turn := p.Secondary.rotation()
	normal := turn.Rotate(r3.Unit(r3.Vec{X: 1, Z: -1}))
	middle := r3.Add(
		r3.Vec{Z: t.FromPrimaryMM + t.PivotAboveMM + p.Secondary.ShiftMM},
		turn.Rotate(r3.Vec{Z: -t.PivotAboveMM}))
	primary := paraboloid{t.FocalLengthMM, r3.Vec{Z: p.Primary.ShiftMM}, p.Primary.rotation()}

	hole := r3.Vec{X: t.HoleFromAxisMM, Y: p.Laser.OffsetY, Z: t.FromPrimaryMM + p.Laser.OffsetZ}
	out := ray{hole, r3.Unit(r3.Vec{X: -1, Y: p.Laser.SlopeY, Z: p.Laser.SlopeZ})}
	on1, ok1 := out.toPlane(middle, normal)
	down := ray{on1, bounce(out.dir, normal)}
	onPrimary, own, normalP, okP := primary.hit(down)
	up := ray{onPrimary, bounce(down.dir, normalP)}
	on2, ok2 := up.toPlane(middle, normal)
	back := ray{on2, bounce(up.dir, normal)}
	onFace, okF := back.toPlane(hole, r3.Vec{X: 1})
	if !(ok1 && okP && ok2 && okF) {
		return Spots{}, ErrNoBeam
	}
	e, ok := t.axisAt(primary, middle, normal)
	if !ok {
		return Spots{}, ErrNoBeam
	}

	s := Spots{
		P:        Tube{own.X, own.Y},
		T:        Tube{onFace.Z - hole.Z, onFace.Y - hole.Y},
		E:        e,
		Outgoing: Tube{on1.X, on1.Y},
		Return:   Tube{on2.X, on2.Y},
		Wall:     math.Hypot(own.X, own.Y) > t.ApertureMM/2,
		Beam:     []r3.Vec{hole, on1, onPrimary, on2, onFace},
	}
	s.Q = s.Return.Sub(s.Outgoing)
	end, ok := up.toPlane(r3.Vec{Z: t.OpenEndMM()}, r3.Vec{Z: 1})
	if !ok {
		return Spots{}, ErrNoBeam
	}
	s.LeavesAt = Tube{end.X, end.Y}
	s.Leaves = !s.Wall && t.passesSecondary(s.Return) && !t.meetsTube(s.LeavesAt)
	if s.Leaves {
		s.Beam = append(s.Beam[:3], end)
	}
	return s, nil
}

// axisAt returns where the primary's optical axis, folded by the secondary,
// cuts the focal plane, from the focuser's axis: X along z, Y along y.
func (t Telescope) axisAt(m paraboloid, middle, normal r3.Vec) (Tube, bool) {
	axis := ray{m.vertex, m.turn.Rotate(r3.Vec{Z: 1})}
	fold, ok := axis.toPlane(middle, normal)
	if !ok {
		return Tube{}, false
	}
	at, ok := ray{fold, bounce(axis.dir, normal)}.toPlane(r3.Vec{X: t.FocalLengthMM - t.FromPrimaryMM}, r3.Vec{X: 1})
	return Tube{at.Z - t.FromPrimaryMM, at.Y}, ok
}

// passesSecondary tells whether a beam that crosses the secondary's plane at
// the given place, seen along the tube, goes by its edge. The glass looks
// round from there, of its minor axis.
func (t Telescope) passesSecondary(at Tube) bool {
	return t.MinorAxisMM > 0 && at.Len() > t.MinorAxisMM/2
}

// meetsTube tells whether the tube's wall stops a beam at the given distance
// from the axis.
func (t Telescope) meetsTube(at Tube) bool {
	return t.InnerRadiusMM > 0 && at.Len() > t.InnerRadiusMM
}
