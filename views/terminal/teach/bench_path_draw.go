package teach

import (
	"fmt"
	"math"

	"spotward/optics"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// pathLayout is where things stand on the light path's page: the section, the
// faces beside it, and the text.
type pathLayout struct {
	section schematic.Rect
	faces   []schematic.Rect // primary, target; none where there is no room
	beside  schematic.Rect   // figures beside the section, where there are no faces
	below   schematic.Rect
}

func layPath(p *frame.Page, spec schematic.PathSpec) pathLayout {
	last := p.Sizes.Rule.Y // the first row that is not ours
	side, least := 28, 9
	switch {
	case p.Narrow():
		side, least = 21, 6
	case p.Cols >= 180:
		side, least = 62, 20
	case p.Projector:
		side, least = 38, 16
	case p.Cols >= 120:
		side, least = 38, 10
	}
	l := pathLayout{section: schematic.Rect{X: 0, Y: 1, W: p.Cols - side - 1}}
	l.section.H = min(p.PathRows(l.section.W, spec), last-1-least)
	x, y := p.Cols-side, l.section.Y+l.section.H
	if _, bottom, ok := p.PathCell(l.section, spec, schematic.SectionPoint{UpMM: -spec.TubeMM}); ok {
		y = max(y, bottom+2) // below the words under the tube
	}
	switch {
	case p.Narrow():
		l.beside = schematic.Rect{X: x, Y: 1, W: side - 1, H: l.section.H}
	case p.Cols >= 120: // each where that part is: the primary's beside it, the laser's beside the focuser
		const lower = 5 // rows by which the section makes room above the tube
		l.section.Y += lower
		y += lower
		col, top, _ := p.PathCell(l.section, spec, schematic.SectionPoint{AlongMM: spec.FoldMM - spec.SecondaryMM, UpMM: spec.TubeMM})
		_, axis, _ := p.PathCell(l.section, spec, schematic.SectionPoint{})
		h := min(side/2+2, last-2)
		l.faces = []schematic.Rect{
			{X: x, Y: max(1, min(axis-h/2, last-h)), W: side - 1, H: h},
			{X: col + 4, Y: 1, W: min(side-1, l.section.W-col-6), H: max(4, top-1)},
		}
	default:
		w := side / 2
		h := min(w/2+2, last-1-least)
		l.faces = []schematic.Rect{{X: x + w, Y: 1, W: w - 1, H: h}, {X: x, Y: 1, W: w - 1, H: h}}
		y = max(y, 1+h)
	}
	l.below = schematic.Rect{X: 1, Y: y, W: p.Cols - 2, H: last - y}
	if len(l.faces) > 0 && p.Cols >= 120 {
		l.below.W = x - 2
	}
	return l
}

func (s *PathPage) Draw(p *frame.Page, _ string) {
	end := p.TextMax(1, 0, p.Cols-2, theme.Head, p.Pal.Heading("the light path")) + 2
	if s.err != nil {
		p.Paragraph(schematic.Rect{X: 1, Y: 2, W: p.Cols - 2, H: 4}, theme.Ink, align.Sentence(s.err.Error()))
		return
	}
	spec, tiltTimes := s.section()
	l := layPath(p, spec)
	if p.Narrow() {
		spec.SkyWord = "" // the secondary's name stands there
	}
	times := p.LightPath(l.section, spec)
	words := fmt.Sprintf("offsets enlarged %.0f times, tilts %.0f times", times, tiltTimes)
	if s.less {
		words = "now less: " + words
	}
	if p.Narrow() {
		words = fmt.Sprintf("drawn %.0f times", times)
	}
	if p.Cols-1-end > schematic.Width(words) {
		p.TextRight(p.Cols-1, 0, theme.Label, words)
	}
	s.mirrors(p, l.section, spec)
	for i, f := range []optics.Face{optics.FacePrimary, optics.FaceTarget} {
		if i < len(l.faces) {
			s.face(p, l.faces[i], f)
		}
	}
	below := p.Flow(l.below)
	switch {
	case l.beside.W > 0:
		s.figuresBeside(p.Flow(l.beside))
	case p.Projector:
		s.bigFigures(p, below)
	default:
		s.figures(below)
	}
	why := s.Walk.Why()
	for len(why) > 1 && !below.Fits(why, 0) {
		why = why[:len(why)-1] // a sentence is left out whole, never cut
	}
	if !below.Fits(why, 0) {
		why = nil
	}
	for _, line := range why {
		below.Say(theme.Ink, line)
	}
	below.Say(theme.Head, s.Walk.ends())
}

// section is the telescope with its mirrors turned and the ways of the beam
// before and now, and by how much the turns are enlarged.
func (s *PathPage) section() (spec schematic.PathSpec, tiltTimes float64) {
	t := s.Walk.Tel
	spec = schematic.PathSpec{
		TubeMM: t.MouthMM(), SkyEndMM: t.OpenEndMM(), MirrorMM: t.ApertureMM / 2, SecondaryMM: t.MinorAxisMM / 2,
		FoldMM: t.FromPrimaryMM, HoleMM: t.HoleFromAxisMM, LaserWord: "laser", SkyWord: "sky end",
	}
	spec.Out, spec.Back = align.BeamWays(t, s.Walk.Spots)
	spec.WasOut, spec.WasBack = align.BeamWays(t, s.Walk.spotsWas)
	spec.Times = s.enlarged(spec)
	now := s.Walk.pose(s.Walk.Now)
	most := math.Max(math.Abs(now.Secondary.Grad.X), math.Abs(now.Primary.Grad.X))
	for s.tilts == 0 || most*s.tilts > 0.3 && s.tilts > 10 {
		s.tilts = map[float64]float64{0: 50, 50: 20, 20: 10}[s.tilts]
	}
	tiltTimes = s.tilts
	spec.SecondaryRad, spec.PrimaryRad = tiltTimes*now.Secondary.Grad.X, tiltTimes*now.Primary.Grad.X
	return spec, tiltTimes
}

// mostTimes is the most that misses are enlarged: at a step of an arrow key the
// beam then walks by what can be seen.
const mostTimes = 20

// enlarged is by how much misses are enlarged. It is chosen once; it is made less
// only where the beam would leave the tube.
func (s *PathPage) enlarged(spec schematic.PathSpec) float64 {
	most := min(mostTimes, spec.TimesFor(spec.Out, spec.Back))
	if s.times > most {
		s.less = true
	}
	if s.times == 0 || s.times > most {
		s.times = most
	}
	return s.times
}

// mirrors writes the mirrors' names, the one that the arrows tilt set off, and
// notes where the mouse may take hold of them.
func (s *PathPage) mirrors(p *frame.Page, r schematic.Rect, spec schematic.PathSpec) {
	s.Zones = nil
	name := func(m optics.Mirror) (string, theme.Role) {
		if m == s.Mirror {
			return "> " + string(m), theme.Act
		}
		return string(m), theme.Label
	}
	if col, row, ok := p.PathCell(r, spec, schematic.SectionPoint{AlongMM: spec.FoldMM}); ok {
		text, role := name(optics.Secondary)
		_, under, _ := p.PathCell(r, spec, schematic.SectionPoint{AlongMM: spec.FoldMM, UpMM: -spec.TubeMM})
		at := under - 1
		if p.Narrow() {
			at = under + 1
		}
		p.TextMax(max(0, col-schematic.Width(text)/2), at, r.W, role, text)
		s.Zones = append(s.Zones, mirrorZone{optics.Secondary, schematic.Rect{X: col - 5, Y: row - 2, W: 11, H: 5}})
	}
	if col, row, ok := p.PathCell(r, spec, schematic.SectionPoint{}); ok {
		text, role := name(optics.Primary)
		_, under, _ := p.PathCell(r, spec, schematic.SectionPoint{UpMM: -spec.TubeMM})
		p.TextRight(col+3, under+1, role, text)
		half := under - row
		s.Zones = append(s.Zones, mirrorZone{optics.Primary, schematic.Rect{X: col - 3, Y: row - half, W: 8, H: 2*half + 1}})
	}
}

// face draws a face with the spot now, and where it was.
func (s *PathPage) face(p *frame.Page, r schematic.Rect, f optics.Face) {
	spots, was, title := s.Walk.Spots.P, s.Walk.spotsWas.P, "primary"
	if f == optics.FaceTarget {
		spots, was, title = s.Walk.Spots.T, s.Walk.spotsWas.T, "laser's face"
	}
	p.TextMax(r.X+max(0, (r.W-schematic.Width(title))/2), r.Y, r.W, theme.Label, title)
	spec := align.SeenFrom(s.Walk.Tel, f, p.Sizes)
	spec.Standing, spec.GroundWord, spec.FocuserWord, spec.Within, spec.Bare = nil, "", "", r, true
	spec.MarkScale = math.Min(spec.MarkScale, math.Max(1, float64(r.W)/24))
	spec.Object = align.Quiet(spec.Object)
	spec.Now = &schematic.Mark{At: s.Walk.Tel.TubeToDial(f, spots)}
	if was != spots {
		spec.Trail = []schematic.Mark{{At: s.Walk.Tel.TubeToDial(f, was)}}
	}
	spec.RimMM = schematic.RimFor(spec, align.Rims(s.Walk.Tel, f)...)
	align.Measured(&spec, s.Walk.Tel, f, p.Sizes)
	radius := min((r.W-1)/2, r.H-2)
	p.Face(schematic.Place{Col: r.X + r.W/2, Row: r.Y + 1 + (r.H-1)/2, R: float64(radius) - 0.25}, spec)
}

// spotFigures are both spots in words: name, before, now, to first order; mm.
func (s *PathPage) spotFigures() [2][4]string {
	w := s.Walk
	at := func(f optics.Face, tube optics.Tube) string { return offText(w.Tel.TubeToDial(f, tube)) }
	return [2][4]string{
		{"spot, mm", at(optics.FacePrimary, w.spotsWas.P), at(optics.FacePrimary, w.Spots.P), at(optics.FacePrimary, w.First.P)},
		{"return, mm", at(optics.FaceTarget, w.spotsWas.T), at(optics.FaceTarget, w.Spots.T), at(optics.FaceTarget, w.First.T)},
	}
}

// ends says where the beam ends, if not on the laser's face.
func (w walk) ends() string {
	switch {
	case w.Spots.Wall:
		return "It misses the primary."
	case w.Spots.Leaves:
		return "It passes the secondary and leaves by the open end."
	case w.Spots.T.Len() > w.Tel.Target.FaceRadiusMM:
		return "It comes back beside the laser's face."
	}
	return ""
}

// figures writes how the mirrors are tilted and where the spots stand.
func (s *PathPage) figures(f *frame.Flow) {
	w := s.Walk
	if f.R.H < 4 {
		return
	}
	const name, column = 14, 21
	r := f.R
	half := r.W / 2
	pair := func(x int, label, text string) {
		col := f.P.TextMax(x, r.Y, half, theme.Label, label) + 1
		f.P.TextMax(col, r.Y, x+half-1-col, theme.Head, frame.CutWords(text, x+half-1-col))
	}
	pair(r.X, "secondary", tiltText(w.Now.Secondary))
	pair(r.X+half, "primary", tiltText(w.Now.Primary))
	f.P.TextMax(r.X, r.Y+1, name, theme.Ink, fmt.Sprintf("axis %.1f mm", w.Spots.E.Len()))
	for i, head := range []string{"was", "now", "now, to first order"} {
		f.P.TextMax(r.X+name+i*column, r.Y+1, column, theme.Label, head)
	}
	for i, row := range s.spotFigures() {
		f.P.TextMax(r.X, r.Y+2+i, name, theme.Label, row[0])
		for j, role := range []theme.Role{theme.Label, theme.Light, theme.Label} {
			f.P.TextMax(r.X+name+j*column, r.Y+2+i, column-1, role, row[j+1])
		}
	}
	f.Skip(4)
}

// figuresBeside writes the same in a narrow column.
func (s *PathPage) figuresBeside(f *frame.Flow) {
	rows := 1
	for _, row := range s.spotFigures() {
		rows += 1 + len(schematic.Wrap(row[2], f.R.W-4)) + len(schematic.Wrap(row[1], f.R.W-4))
	}
	was := rows <= f.R.H
	for i, row := range s.spotFigures() {
		if i > 0 {
			f.Skip(1)
		}
		f.Say(theme.Label, row[0])
		f.Item(theme.Label, "now", theme.Light, row[2])
		if was {
			f.Item(theme.Label, "was", theme.Label, row[1])
		}
	}
}

// bigFigures writes how far each spot stands off, for the back row.
func (s *PathPage) bigFigures(p *frame.Page, f *frame.Flow) {
	w := s.Walk
	size := schematic.Small
	if p.Cols >= 180 {
		size = schematic.SmallDouble
	}
	rows := p.BigRows(size)
	for i, at := range []struct {
		word string
		mm   float64
	}{{"spot, mm", w.Spots.P.Len()}, {"return, mm", w.Spots.T.Len()}} {
		x := f.R.X + i*f.R.W/2
		p.TextMax(x, f.R.Y, f.R.W/2, theme.Label, p.Pal.Heading(at.word))
		p.Big(x, f.R.Y+1, schematic.BigSpec{Text: fmt.Sprintf("%.1f", at.mm), Size: size, Role: theme.Huge, Low: !p.ASCII() && size == schematic.Small})
	}
	f.Skip(rows + 2)
	s.figures(f)
}
