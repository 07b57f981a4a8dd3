package virtual

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"spotward/optics"
)

// starlight is the light of a star in the middle of the field. It is followed ray
// by ray, over both mirrors as they stand, onto a screen across the focuser.
type starlight struct {
	w        *World
	plate    optics.Tilt // the secondary's
	down     r3.Vec      // its direction before it meets the primary
	vertex   r3.Vec      // of the primary
	turn     r3.Rotation
	middle   r3.Vec // a point of the secondary's face
	normal   r3.Vec // of it
	screenMM float64
}

// starlight returns the light of a star on a screen that stands beyondMM farther
// out than the focal plane.
func (w *World) starlight(beyondMM float64) starlight {
	t, p := w.real, w.pose()
	s := starlight{
		w: w, plate: p.Secondary, vertex: r3.Vec{Z: p.Primary.ShiftMM}, turn: turnOf(p.Primary.Grad),
		screenMM: t.FocalLengthMM - t.FromPrimaryMM,
	}
	s.middle = s.onPlate(r3.Vec{Z: t.FromPrimaryMM})
	s.normal = turnOf(p.Secondary.Grad).Rotate(r3.Unit(r3.Vec{X: 1, Z: -1}))
	// The field's middle as the primary sees it, through the secondary: the ray
	// that comes from there to the vertex is the star's, sent back.
	field := r3.Vec{X: s.screenMM, Z: t.FromPrimaryMM}
	field = r3.Sub(field, r3.Scale(2*r3.Dot(r3.Sub(field, s.middle), s.normal), s.normal))
	s.down = mirrored(r3.Unit(r3.Sub(field, s.vertex)), s.turn.Rotate(r3.Vec{Z: 1}))
	s.screenMM += beyondMM
	return s
}

// turnOf returns the rotation of a plate with that slope: about (gy, −gx, 0).
func turnOf(g optics.Tube) r3.Rotation {
	return r3.NewRotation(g.Len(), r3.Vec{X: g.Y, Y: -g.X})
}

// mirrored returns direction d after a mirror of unit normal n.
func mirrored(d, n r3.Vec) r3.Vec { return r3.Sub(d, r3.Scale(2*r3.Dot(d, n), n)) }

// onPlate returns where a point of the secondary stands that would be at q if the
// plate were square: the plate turns about its pivot and slides on its stalk.
func (s starlight) onPlate(q r3.Vec) r3.Vec {
	pivot := r3.Vec{Z: s.w.real.FromPrimaryMM + s.w.real.PivotAboveMM}
	at := r3.Add(pivot, turnOf(s.plate.Grad).Rotate(r3.Sub(q, pivot)))
	at.Z += s.plate.ShiftMM
	return at
}

// past returns where on the screen the star's ray ends that passes a point, X
// along the tube and Y along y, from the focuser's axis.
func (s starlight) past(q r3.Vec) optics.Tube {
	return s.from(r3.Add(q, r3.Scale(s.toPrimary(q), s.down)))
}

// toPrimary returns how far the star's ray goes from a point to the primary. With
// the axis a, the ray meets the mirror where |x − (x·a)a|² = 4·f·(x·a), x from the
// vertex.
func (s starlight) toPrimary(q r3.Vec) float64 {
	a, x := s.turn.Rotate(r3.Vec{Z: 1}), r3.Sub(q, s.vertex)
	xa, da := r3.Dot(x, a), r3.Dot(s.down, a)
	xr, dr := r3.Sub(x, r3.Scale(xa, a)), r3.Sub(s.down, r3.Scale(da, a))
	four := 4 * s.w.real.FocalLengthMM
	// For rays along the axis the square term is next to nothing: Newton's way
	// keeps its digits.
	n := -xa / da
	for range 6 {
		miss := r3.Norm2(r3.Add(xr, r3.Scale(n, dr))) - four*(xa+n*da)
		n -= miss / (2*(r3.Dot(xr, dr)+n*r3.Dot(dr, dr)) - four*da)
	}
	return n
}

// from returns where on the screen the star's ray ends that meets the primary at a
// point of it.
func (s starlight) from(on r3.Vec) optics.Tube {
	// The normal of a paraboloid points from the surface toward its axis: by 2f up
	// and as much in as the point is out.
	a, x := s.turn.Rotate(r3.Vec{Z: 1}), r3.Sub(on, s.vertex)
	out := r3.Sub(x, r3.Scale(r3.Dot(x, a), a))
	up := mirrored(s.down, r3.Unit(r3.Sub(r3.Scale(2*s.w.real.FocalLengthMM, a), out)))
	fold := r3.Add(on, r3.Scale(r3.Dot(r3.Sub(s.middle, on), s.normal)/r3.Dot(up, s.normal), up))
	back := mirrored(up, s.normal)
	end := r3.Add(fold, r3.Scale((s.screenMM-fold.X)/back.X, back))
	return optics.Tube{X: end.Z - s.w.real.FromPrimaryMM, Y: end.Y}
}

// outlineSteps is of how many rays an outline is drawn.
const outlineSteps = 180

// outline returns what is seen of a closed line.
func outline(at func(sin, cos float64) optics.Tube) []optics.Tube {
	line := make([]optics.Tube, outlineSteps)
	for i := range line {
		line[i] = at(math.Sincos(2 * math.Pi * float64(i) / outlineSteps))
	}
	return line
}

// disc returns the outline of the star's disc: the primary's edge.
func (s starlight) disc() []optics.Tube {
	r, f := s.w.real.ApertureMM/2, s.w.real.FocalLengthMM
	return outline(func(sin, cos float64) optics.Tube {
		return s.from(r3.Add(s.vertex, s.turn.Rotate(r3.Vec{X: r * cos, Y: r * sin, Z: r * r / (4 * f)})))
	})
}

// dark returns the outline of the dark spot in it: the edge of the glass where it
// stands, which is cut for the cone and so reaches farther away from the focuser
// than toward it.
func (s starlight) dark() []optics.Tube {
	near, far := s.w.glassEnds()
	half := s.w.real.MinorAxisMM / 2
	return outline(func(sin, cos float64) optics.Tube {
		x := (near-far)/2 + (near+far)/2*cos
		return s.past(s.onPlate(r3.Vec{X: x, Y: half * sin, Z: s.w.real.FromPrimaryMM + x}))
	})
}
