package terminal

import (
	"spotward/optics"
	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/terminal/theme"
)

// drawLook draws a question for where the spot is: the face on the left, the
// question and how to answer it on the right. In practice the left is what one
// would see, and one's own drawing is smaller beside it.
func (s *align) drawLook(p *page, typed string) {
	st := s.state()
	ask := st.Ask()
	text := p.column
	if s.looking() {
		s.sight(p, st)
		spec := s.faceSpec(p.sizes, typed)
		spec.Standing, spec.GroundWord, spec.Within = nil, "", ringWords(p.sizes)
		spec.Object = quiet(spec.Object)
		p.Face(p.Ring, spec)
		p.TextMax(p.column.X, p.column.Y, 6, theme.Label, "yours")
		used := p.Ring.Row + int(p.Ring.R/2) + 2 - text.Y
		text.Y, text.H = text.Y+used, text.H-used
		howBeside(p, st)
	} else {
		p.Face(p.sizes.Face, s.faceSpec(p.sizes, typed))
	}
	f := p.flow(text)
	if s.looking() {
		if view, ok := s.work.Look(ask.Face); ok {
			f.say(theme.Ink, besideSight(view.Sight))
		}
	}
	f.say(theme.Head, ask.Say)
	if !s.looking() {
		f.skip(1)
		examples(f, st)
	}
	guide(f, ask)
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

// howBeside writes examples beside the small drawing.
func howBeside(p *page, st session.State) {
	x := p.Ring.Col + int(p.Ring.R) + 5
	examples(p.flow(schematic.Rect{X: x, Y: p.column.Y + 1, W: p.Cols - 1 - x, H: int(p.Ring.R)}), st)
}

// example is something that may be typed and what it says.
type example struct{ typed, says string }

// examplesOn are ways to say where the spot is on a face.
func examplesOn(t optics.Telescope, f optics.Face) []example {
	switch f {
	case optics.FacePrimary:
		if t.RingOuterMM > 0 {
			return []example{{"4:30 2r", "two ring widths off, at half past 4"}, {"4 on", "on the ring"}, {"in", "inside it"}, {"wall 12", "off the mirror"}}
		}
		return []example{{"4:30 20", "20 mm off, at half past 4"}, {"4 edge", "at the rim"}, {"wall 12", "off the mirror"}}
	case optics.FaceTarget:
		return []example{{"4:30 8", "8 mm off, at half past 4"}, {"4 2r", "two printed rings"}, {"home", "seen going in"}, {"gone", "not on the face"}}
	case optics.FaceSecondary:
		return []example{{"4:30 8", "8 mm from the other"}, {"dead", "on top of it"}, {"gone", "one spot only"}}
	}
	return []example{{"4:30 30", "30 mm off, at half past 4"}, {"gone", "not there"}}
}

func examples(f *flow, st session.State) {
	f.say(theme.Label, f.p.pal.Heading("type, for example"))
	for _, e := range examplesOn(st.Tel, st.Ask().Face) {
		if f.r.W < 30 {
			if f.r.H > 0 {
				f.p.TextMax(f.r.X, f.r.Y, f.r.W, theme.Act, e.typed)
				f.p.TextMax(f.r.X+8, f.r.Y, f.r.W-8, theme.Label, e.says)
				f.skip(1)
			}
			continue
		}
		f.item(theme.Act, e.typed+"        "[:max(0, 8-len(e.typed))], theme.Label, e.says)
	}
}

// guide writes what to do and what to beware of, as far as there is room for
// the whole of it.
func guide(f *flow, ask session.Ask) {
	for _, list := range []struct {
		mark  string
		role  theme.Role
		texts []string
	}{{"-", theme.Label, ask.Stage.Do}, {"!", theme.Ink, ask.Stage.Beware}} {
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
