package teach

import (
	"strconv"

	"spotward/optics"
	"spotward/session/lesson"
	"spotward/session/scope"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// partsSpec is the picture of the whole telescope: its parts named, or with the
// numbers that a task gives them.
func partsSpec(t lesson.Task) schematic.PartsSpec {
	spec := align.SectionOf(scope.Builtin().Telescope())
	words := map[lesson.PartID]*string{
		lesson.PartLaser: &spec.Laser, lesson.PartFocuser: &spec.Focuser, lesson.PartSecondary: &spec.Secondary, lesson.PartSecondaryScrews: &spec.SecondaryScrews,
		lesson.PartCard: &spec.Card, lesson.PartPrimary: &spec.Primary, lesson.PartRing: &spec.Ring, lesson.PartPrimaryScrews: &spec.Screw, lesson.PartLocks: &spec.Lock,
	}
	for i, part := range t.Parts {
		*words[part.ID] = part.Word
		if t.Picture == lesson.Numbered {
			*words[part.ID] = strconv.Itoa(i + 1)
		}
	}
	return spec
}

// drawParts draws the whole telescope over a task's words, and returns the flow
// for them.
func (s *LessonPage) drawParts(p *frame.Page, t lesson.Task) *frame.Flow {
	words := 6 // rows, at the least
	switch {
	case p.Projector:
		words = 10
	case p.Narrow():
		words = 5
	}
	spec := partsSpec(t)
	r := schematic.Rect{X: 1, Y: 1, W: min(100, p.Cols-2), H: p.Sizes.Rule.Y - 1 - words}
	p.Parts(r, spec)
	y := r.Y + r.H
	if _, bottom, ok := p.PathCell(schematic.PartsTube(r), spec.Section, schematic.SectionPoint{UpMM: -spec.Section.TubeMM}); ok {
		y = bottom + 2 // below the words under the tube
	}
	return p.Flow(schematic.Rect{X: 3, Y: y, W: wordsWide(p), H: p.Sizes.Rule.Y - y})
}

// drawPicture draws a task that is about the whole telescope.
func (s *LessonPage) drawPicture(p *frame.Page, t lesson.Task) {
	draw := s.drawParts
	if t.Picture == lesson.BothEnds {
		draw = s.drawEnds
	}
	f := draw(p, t)
	f.Question(t.Say, f.LoudRows(t.Say, len(schematic.Wrap(s.Reply, f.R.W))+1))
	if s.Reply != "" {
		if !p.Narrow() {
			f.Skip(1)
		}
		f.Say(theme.Ink, s.Reply)
	}
}

// drawEnds draws the focuser as it is seen from the sky end, and from behind.
func (s *LessonPage) drawEnds(p *frame.Page, _ lesson.Task) *frame.Flow {
	tel := scope.Builtin().Telescope()
	words := 4 // rows
	if p.Projector {
		words = 10
	}
	h := p.Sizes.Rule.Y - 2 - words
	half := (p.Cols - 2) / 2
	for i, from := range []optics.Station{optics.SkyEnd, optics.Behind} {
		r := schematic.Rect{X: 1 + i*half, Y: 1, W: half - 1, H: h}
		radius := min(float64(h-4), float64(half-12)/2)
		p.Face(schematic.Place{Col: r.X + r.W/2, Row: r.Y + h/2, R: radius}, schematic.FaceSpec{
			RimMM: 1, Unmeasured: true, FocuserHour: tel.FocuserDial(from).Hour(), FocuserWord: "focuser", GroundWord: align.GroundWord(p.Sizes), Within: r,
		})
		title := map[optics.Station]string{optics.SkyEnd: "from the sky end", optics.Behind: "from behind"}[from]
		p.TextMax(r.X+1, r.Y, r.W, theme.Head, title)
	}
	y := 1 + h + 1
	return p.Flow(schematic.Rect{X: 3, Y: y, W: wordsWide(p), H: p.Sizes.Rule.Y - y})
}
