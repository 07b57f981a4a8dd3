package align

import (
	"spotward/optics"
	"spotward/session"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// bothFaces draws where the spots were left, and the looks before, on both
// faces: one above the other, or side by side where there is room.
func bothFaces(p *frame.Page, st session.State, r schematic.Rect) {
	cells := []schematic.Rect{{X: r.X, Y: r.Y, W: r.W, H: r.H / 2}, {X: r.X, Y: r.Y + r.H/2, W: r.W, H: r.H / 2}}
	if r.W > 4*r.H {
		half := min(r.W/2, 46)
		cells = []schematic.Rect{{X: r.X, Y: r.Y, W: half, H: r.H}, {X: r.X + half, Y: r.Y, W: half, H: r.H}}
	}
	for i, face := range []optics.Face{optics.FacePrimary, optics.FaceTarget} {
		c := cells[i]
		radius := min(float64(c.H-3), float64(c.W)/2-6) - 0.25
		if radius < 4 {
			return
		}
		spec := SeenFrom(st.Tel, face, p.Sizes)
		spec.Standing, spec.GroundWord, spec.FocuserWord, spec.Within = nil, "", "", c
		spec.Object = Quiet(spec.Object)
		spec.Trail = readings(st, face)
		if n := len(spec.Trail); n > 0 {
			most := 6
			if radius < 7 {
				most = 1 // there is no room for more
			}
			spec.Now, spec.Trail = &schematic.Mark{At: spec.Trail[n-1].At, Word: "last"}, spec.Trail[max(0, n-1-most):n-1]
		}
		spec.RimMM = schematic.RimFor(spec, Rims(st.Tel, face)...)
		Measured(&spec, st.Tel, face, frame.Sizes{})
		p.TextMax(c.X+1, c.Y, c.W-1, theme.Label, words.Face(face))
		p.Face(schematic.Place{Col: c.X + c.W/2, Row: c.Y + 1 + int(radius/2) + 1, R: radius}, spec)
	}
}
