package terminal

import (
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/terminal/theme"
)

// drawLook draws a question for where the spot is: the face on the left, the
// question and how to answer it on the right. In practice the left is what one
// would see, and one's own drawing is smaller beside it.
func (s *align) drawLook(p *page, typed string) {
	ask := s.state().Ask()
	text := p.column
	if s.looking() {
		s.sight(p, s.state())
		s.ownDrawing(p, typed)
		used := p.Ring.Row + int(p.Ring.R/2) + 2 - text.Y
		text.Y, text.H = text.Y+used, text.H-used
	} else {
		p.Face(p.sizes.Face, s.faceSpec(p.sizes, typed))
	}
	f := p.flow(text)
	f.say(theme.Head, ask.Say)
	if !s.looking() {
		f.skip(1)
	}
	examples(f, s.state())
	guide(f, ask)
}

// ownDrawing draws in small what one has typed so far, beside what one would
// see, and what the sight cannot show beside that.
func (s *align) ownDrawing(p *page, typed string) {
	spec := s.faceSpec(p.sizes, typed)
	spec.Standing, spec.GroundWord, spec.FocuserWord, spec.Within = nil, "", "", ringWords(p.sizes)
	spec.Object = quiet(spec.Object)
	p.Face(p.Ring, spec)
	p.TextMax(p.column.X, p.column.Y, 6, theme.Label, "yours")
	if view, ok := s.work.Look(s.state().Ask().Face); ok {
		x := p.Ring.Col + int(p.Ring.R) + 4
		f := p.flow(schematic.Rect{X: x, Y: p.column.Y + 1, W: p.Cols - 1 - x, H: int(p.Ring.R) + 1})
		f.say(theme.Ink, besideSight(view.Sight))
	}
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
	return schematic.Rect{X: x, Y: sz.column.Y, W: sz.Ring.Col + r + 3 - x, H: r + 4}
}

// example is something that may be typed and what it says.
type example struct{ typed, says string }

// examplesOn are ways to say where the spot is on a face.
func examplesOn(t optics.Telescope, f optics.Face) []example {
	switch f {
	case optics.FacePrimary:
		if t.RingOuterMM > 0 {
			return []example{{"4:30 2r", "half past 4, 2 ring widths"}, {"4 on", "on the ring; in: inside it"}, {"wall 12", "off the mirror, at 12"}}
		}
		return []example{{"4:30 20", "half past 4, 20 mm"}, {"4 edge", "at the rim"}, {"wall 12", "off the mirror, at 12"}}
	case optics.FaceTarget:
		return []example{{"4:30 8", "half past 4, 8 mm"}, {"4 2r", "two printed rings"}, {"home", "seen going down the hole"}, {"gone", "not on the face"}}
	case optics.FaceSecondary:
		return []example{{"4:30 8", "8 mm from the brighter one"}, {"dead", "on top of it"}, {"gone", "one spot only"}}
	}
	return []example{{"4:30 30", "half past 4, 30 mm"}, {"gone", "not there"}}
}

func examples(f *flow, st session.State) {
	if f.p.narrow() {
		var typed []string
		for _, e := range examplesOn(st.Tel, st.Ask().Face) {
			typed = append(typed, e.typed)
		}
		f.item(theme.Label, "as in", theme.Act, strings.Join(typed, ",  "))
		return
	}
	f.say(theme.Label, f.p.pal.Heading("type, for example"))
	for _, e := range examplesOn(st.Tel, st.Ask().Face) {
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
// question and its answers on the right.
func (s *align) drawQuestion(p *page) {
	st := s.state()
	ask := st.Ask()
	s.scene(p, st)
	f := p.flow(p.column)
	if see := s.work.See(); see != "" {
		f.say(theme.Ink, p.pal.Heading("you see")+"  "+see)
		f.skip(1)
	}
	f.say(theme.Head, ask.Say)
	if ask.Note != "" {
		f.skip(1)
		f.say(theme.Label, ask.Note)
	}
	if len(ask.Options) > 0 {
		f.skip(1)
	}
	for i, o := range ask.Options {
		f.option(i+1, o.Words)
	}
	if ask.Dial {
		f.say(theme.Label, "or how wide, as in: 1r")
	}
	guide(f, ask)
}
