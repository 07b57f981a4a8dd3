package paper

import (
	"fmt"
	"math"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
)

// rimUnits is the radius of a drawing's rim in its own units.
const rimUnits = 50

// face is a drawing of a face as one sees it who stands where the spot is read,
// 12 o'clock straight up. Lengths are in units of the drawing, y down.
type face struct {
	Title, Standing, Rim string
	Rings                []ring
	Way                  string // the points of a line
	Spots                []spot
	Ends                 []spot // found and left
	Focuser              float64
}

// ring is a circle round the middle, or flattened by Flat along the direction
// turned by Turn degrees from straight up.
type ring struct {
	R, Flat, Turn float64
	Class         string
}

// spot is a point of a drawing and the word beside it.
type spot struct {
	X, Y float64
	Word string
	Left bool // left as it is; else found so
}

// facesOf returns both faces, each as a whole with the way of its spot and
// close up as it was left.
func facesOf(tel optics.Telescope, r session.Record, looks []look) []face {
	ring := math.Max(tel.RingOuterMM, 0.02*tel.ApertureMM)
	t := tel.Target
	var out []face
	for _, f := range []struct {
		face                  optics.Face
		title                 string
		found, left           *session.Mark
		wide, close, mirrorMM float64
	}{
		{optics.FacePrimary, "spot on the primary", r.Found.P, r.Left.P, 3 * ring, 1.5 * ring, tel.ApertureMM / 2},
		{optics.FaceTarget, "return spot on the target", r.Found.T, r.Left.T, t.FaceRadiusMM, 2 * t.HoleRadiusMM, t.FaceRadiusMM},
	} {
		var way []look
		for _, l := range looks {
			if l.face == f.face {
				way = append(way, l)
			}
		}
		whole := drawing{tel: tel, face: f.face, rimMM: f.wide}
		whole.hold(way, f.found, f.left)
		near := drawing{tel: tel, face: f.face, rimMM: f.close}
		near.hold(nil, f.left)
		out = append(out,
			whole.draw(f.title+": found, and the way", way, f.found, f.left),
			near.draw(f.title+": left", nil, nil, f.left))
	}
	return out
}

// drawing is a face at a scale.
type drawing struct {
	tel   optics.Telescope
	face  optics.Face
	rimMM float64
}

// hold widens the rim until every spot is within it.
func (d *drawing) hold(way []look, marks ...*session.Mark) {
	far := 0.0
	for _, l := range way {
		if l.at != nil {
			far = math.Max(far, l.at.Len())
		}
	}
	for _, m := range marks {
		if at, ok := d.place(m); ok {
			far = math.Max(far, at.Len())
		}
	}
	if far > 0.93*d.rimMM {
		d.rimMM = 1.1 * far
	}
}

// place returns where a mark is on the dial, and false where it has no place.
func (d drawing) place(m *session.Mark) (optics.Dial, bool) {
	if m == nil || m.Saw == event.SawGone || m.Saw == event.SawCantSee {
		return optics.Dial{}, false
	}
	return d.tel.ToDial(d.face, optics.Seen{Right: m.Right, Up: m.Up}), true
}

func (d drawing) at(p optics.Dial) spot {
	k := rimUnits / d.rimMM
	return spot{X: words.Round(k*p.Right, 1), Y: words.Round(-k*p.Up, 1)}
}

func (d drawing) draw(title string, way []look, found, left *session.Mark) face {
	station := d.tel.Station(d.face)
	f := face{
		Title: title, Standing: "seen from the sky end", Rim: fmt.Sprintf("rim %.0f mm", d.rimMM), Rings: d.rings(),
		Focuser: words.Round(30*d.tel.FocuserDial(station).Hour(), 1),
	}
	if station == optics.Behind {
		f.Standing = "seen from behind"
	}
	f.Spots, f.Way = d.way(way)
	if at, ok := d.place(found); ok {
		p := d.at(at)
		if p.Word = "found"; found.Saw == event.SawComputed {
			p.Word = "found, computed"
		}
		f.Ends = append(f.Ends, p)
	}
	if at, ok := d.place(left); ok {
		p := d.at(at)
		p.Word, p.Left = "left", true
		f.Ends = append(f.Ends, p)
	}
	return f
}

// way returns the spots of all looks and the line through them. Words are the
// numbers of looks, where there is room for them.
func (d drawing) way(looks []look) ([]spot, string) {
	var spots []spot
	var line strings.Builder
	for _, l := range looks {
		if l.at == nil {
			continue
		}
		p := d.at(*l.at)
		fmt.Fprintf(&line, "%.1f,%.1f ", p.X, p.Y)
		if roomFor(p, spots) {
			p.Word = fmt.Sprint(l.N)
		}
		spots = append(spots, p)
	}
	return spots, strings.TrimSpace(line.String())
}

// roomFor reports whether a number beside p is clear of the others.
func roomFor(p spot, others []spot) bool {
	for _, o := range others {
		if o.Word != "" && math.Hypot(o.X-p.X, o.Y-p.Y) < 7 {
			return false
		}
	}
	return math.Hypot(p.X, p.Y) > 7
}

// rings returns what is seen on the face: the centre ring and the mirror's
// edge, or the printed rings and the hole.
func (d drawing) rings() []ring {
	t := d.tel
	units := func(mm float64) float64 { return words.Round(mm*rimUnits/d.rimMM, 1) }
	var out []ring
	put := func(mm float64, class string) {
		if mm > 0 && mm <= d.rimMM*1.001 {
			out = append(out, ring{R: units(mm), Flat: units(mm), Class: class})
		}
	}
	if d.face == optics.FacePrimary {
		put(t.ApertureMM/2, "edge")
		put(t.RingOuterMM, "mark")
		put(t.RingInnerMM, "mark")
		return out
	}
	flat := 1.0
	if t.Target.AlongFace && !t.Target.Flat {
		flat = math.Sqrt2 / 2
	}
	for k := 1; k <= t.Target.RingCount; k++ {
		mm := t.Target.HoleRadiusMM + float64(k)*t.Target.RingStepMM
		if mm <= d.rimMM {
			out = append(out, ring{R: units(mm), Flat: words.Round(units(mm)*flat, 1), Turn: words.Round(30*t.FocuserDial(t.Station(d.face)).Hour(), 1), Class: "print"})
		}
	}
	put(t.Target.FaceRadiusMM, "edge")
	put(t.Target.HoleRadiusMM, "hole")
	return out
}
