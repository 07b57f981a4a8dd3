package terminal

import (
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/theme"
)

// drawLook draws a question for where the spot is: the face on the left, the
// question and how to answer it on the right. In practice the left is what one
// would see, and one's own drawing is smaller beside it.
func (s *align) drawLook(p *page, typed string) {
	ask := s.state().Ask()
	text := p.column
	if s.looking() {
		s.sight(p, s.drawn(typed))
		s.ownDrawing(p, typed)
		used := underRing(p.sizes) - text.Y
		text.Y, text.H = text.Y+used, text.H-used
	} else {
		p.Face(p.sizes.Face, s.faceSpec(p.sizes, typed))
		if s.arrived() {
			const rows = 6
			s.agree(p, schematic.Rect{X: text.X, Y: text.Y, W: text.W, H: rows}, typed)
			text.Y, text.H = text.Y+rows, text.H-rows
		}
	}
	f := p.flow(text)
	f.say(theme.Head, ask.Say)
	if !s.looking() {
		f.skip(1)
	}
	examples(f, s.examples(p.sizes, typed))
	guide(f, ask)
}

// ownDrawing draws in small what one has typed so far, beside what one would
// see, and what the sight cannot show beside that.
func (s *align) ownDrawing(p *page, typed string) {
	x := p.Ring.Col + int(p.Ring.R) + 4
	beside := p.flow(schematic.Rect{X: x, Y: p.column.Y, W: p.Cols - 1 - x, H: int(p.Ring.R) + 2})
	if view, ok := s.work.Look(s.state().Ask().Face); ok {
		beside.say(theme.Ink, besideSight(view.Sight))
	}
	if s.arrived() && s.agreeing(typed) {
		s.tubeEnd(p, p.Ring, ringWords(p.sizes), typed)
		beside.say(theme.Label, s.agreeWords(s.drawn(typed), typed))
		return
	}
	spec := s.faceSpec(p.sizes, typed)
	spec.Standing, spec.GroundWord, spec.FocuserWord, spec.Scale, spec.Within = nil, "", "", nil, ringWords(p.sizes)
	spec.Object = quiet(spec.Object)
	p.Face(p.Ring, spec)
	p.TextMax(p.column.X, p.column.Y, 6, theme.Label, "yours")
}

// quiet takes the words off a plate, for a small drawing.
func quiet(o schematic.Object) schematic.Object {
	if plate, ok := o.(schematic.TargetPlate); ok {
		plate.AwayWord, plate.TubeWord = "", ""
		return plate
	}
	return o
}

// ringWords is where words of the small drawing may stand.
func ringWords(sz sizes) schematic.Rect {
	r := int(sz.Ring.R)
	x := max(sz.column.X, sz.Ring.Col-r-3)
	return schematic.Rect{X: x, Y: sz.column.Y, W: sz.Ring.Col + r + 7 - x, H: underRing(sz) - sz.column.Y}
}

// underRing is the row from which on text stands under the small drawing.
func underRing(sz sizes) int { return sz.Ring.Row + int(sz.Ring.R/2) + 2 }

// example is something that may be typed and what it says.
type example struct{ typed, says string }

// examplesOn are ways to say where the spot is on a face.
func examplesOn(t optics.Telescope, f optics.Face, byRing bool) []example {
	switch f {
	case optics.FacePrimary:
		if t.RingOuterMM > 0 {
			far := example{"4 1/2", "half of the way to the edge"}
			if byRing {
				far = example{"4:30 2r", "half past 4, 2 ring widths"}
			}
			return []example{far, {"4 on", "on the ring; in: inside it"}, {"wall 12", "off the mirror, at 12"}, {"middle", "in the middle of the ring"}}
		}
		return []example{{"4:30 20", "half past 4, 20 mm"}, {"4 edge", "at the rim"}, {"wall 12", "off the mirror, at 12"}}
	case optics.FaceTarget:
		return []example{{"4:30 8", "half past 4, 8 mm"}, {"4 2r", "on the second printed ring"}, {"home", "seen going down the hole"}, {"cant see", "no return spot is seen"}, {"home 7", "and its rim brighter at 7"}}
	case optics.FaceSecondary:
		return []example{{"4:30 8", "8 mm from the brighter one"}, {"dead", "on top of it"}, {"gone", "one spot only"}}
	}
	return []example{{"4:30 30", "half past 4, 30 mm"}, {"gone", "not there"}}
}

// examples are those for the question in hand: by the ring only where it is
// drawn large enough to measure by.
func (s *align) examples(sz sizes, typed string) []example {
	st := s.state()
	rim := s.faceSpec(sz, typed).RimMM
	return examplesOn(st.Tel, st.Ask().Face, rulesByRing(st.Tel, sz.Face.R, rim))
}

func examples(f *flow, list []example) {
	if f.p.narrow() {
		var typed []string
		for _, e := range list {
			typed = append(typed, e.typed)
		}
		for len(typed) > 1 && !f.fits([]string{strings.Join(typed, ",  ")}, 6) {
			typed = typed[:len(typed)-1]
		}
		f.item(theme.Label, "as in", theme.Act, strings.Join(typed, ",  "))
		return
	}
	f.say(theme.Label, f.p.pal.Heading("type, for example"))
	for _, e := range list {
		f.item(theme.Act, pad(e.typed, 8), theme.Label, e.says)
	}
}

// guide writes what to do and what to beware of, as far as there is room for
// the whole of it.
func guide(f *flow, ask session.Ask) {
	for _, list := range []struct {
		mark  string
		role  theme.Role
		texts []string
	}{{"-", theme.Label, ask.Stage.Do}, {"!", theme.Ink, ask.Beware}} {
		if f.r.H < 2 || len(list.texts) == 0 {
			continue
		}
		f.skip(1)
		for _, t := range list.texts {
			if f.fits([]string{t}, 2) {
				f.item(theme.Head, list.mark, list.role, t)
			}
		}
	}
}

// drawQuestion draws a confirmation or a choice: the scene on the left, the
// question and its answers on the right. Where they find no room there they
// have the whole page: answers are never left out.
func (s *align) drawQuestion(p *page, typed string) {
	see := s.work.See()
	for set := loose; set <= tight; set++ {
		if s.questionRows(p, p.column.W, see, typed, set) <= p.column.H {
			s.scene(p, s.drawn(typed))
			s.question(p.flow(p.column), see, typed, set, true)
			return
		}
	}
	text := schematic.Rect{X: p.body.X + 1, Y: p.body.Y, W: p.body.W - 2, H: p.body.H}
	set := loose
	for set < bare && s.questionRows(p, text.W, see, typed, set) > text.H {
		set++
	}
	s.question(p.flow(text), see, typed, set, true)
	if s.arrived() {
		s.endBeside(p, text, typed)
	}
}

// endBeside draws the end of the tube that one has come to beside the answers,
// where they leave it room.
func (s *align) endBeside(p *page, text schematic.Rect, typed string) {
	const wide, rows = 13, 6
	for _, o := range s.state().Ask().Options {
		if schematic.Width(o.Words)+2 > text.W-wide {
			return
		}
	}
	r := schematic.Rect{X: text.X + text.W - wide, Y: text.Y + text.H - rows, W: wide, H: rows}
	s.tubeEnd(p, schematic.Place{Col: r.X + wide/2, Row: r.Y + 2, R: 4.75}, r, typed)
}

// setting is how close a question is set.
type setting uint8

const (
	loose setting = iota
	tight         // without empty rows
	bare          // without what is only good to know
)

// questionRows is how many rows a question takes with all its answers.
func (s *align) questionRows(p *page, width int, see, typed string, set setting) int {
	nowhere := &page{Canvas: schematic.New(0, 0, schematic.Options{}), sizes: p.sizes, pal: p.pal}
	f := nowhere.flow(schematic.Rect{W: width, H: maxSheet})
	s.question(f, see, typed, set, false)
	return f.r.Y
}

// question writes what is to be seen, a question and its answers, and what else there is to say of
// it as far as there is room left.
func (s *align) question(f *flow, see, typed string, set setting, more bool) {
	st := s.state()
	ask := st.Ask()
	if see != "" {
		f.say(theme.Ink, f.p.pal.Heading("you see")+"  "+see)
		f.gap(set)
	}
	f.say(theme.Head, ask.Say)
	if s.arrived() {
		f.gap(set)
		f.say(theme.Ink, s.agreeWords(s.drawn(typed), typed))
	}
	if ask.Note != "" && set != bare {
		f.gap(set)
		f.say(theme.Label, ask.Note)
	}
	if len(ask.Options) > 0 {
		f.gap(set)
	}
	for i, o := range ask.Options {
		f.option(i+1, o.Words)
	}
	if ask.Dial {
		f.say(theme.Label, "or how wide, as in: 1r")
	}
	if more {
		guide(f, ask)
	}
}
