package align

import (
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/header"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// drawLook draws a question for where the spot is: the face on the left, the
// question and how to answer it on the right. In practice the left is what one
// would see, and one's own drawing is smaller beside it.
func (s *Screen) drawLook(p *frame.Page, typed string) {
	ask := s.State().Ask()
	text := p.Column
	under := UnderRing(p.Sizes) - text.Y
	alone := s.Looking() && len(schematic.Wrap(ask.Say, text.W)) > text.H-under
	if alone { // the question comes before one's own drawing
		s.sight(p, s.drawn(typed))
	} else if s.Looking() {
		s.sight(p, s.drawn(typed))
		s.ownDrawing(p, typed)
		text.Y, text.H = text.Y+under, text.H-under
	} else {
		p.Face(p.Sizes.Face, s.FaceSpec(p.Sizes, typed))
		if s.arrived() {
			const rows = 6
			s.agree(p, schematic.Rect{X: text.X, Y: text.Y, W: text.W, H: rows}, typed)
			text.Y, text.H = text.Y+rows, text.H-rows
		}
	}
	f := p.Flow(text)
	if view, ok := s.Work.Look(ask.Face); ok && alone {
		f.Say(theme.Ink, BesideSight(view.Sight))
	}
	if !s.Looking() {
		p.Typed(f.ForTyped(), typed)
	}
	f.Question(ask.Say, f.LoudRows(ask.Say, 0))
	if !s.Looking() {
		f.Skip(1)
	}
	if s.arrived() && alone {
		f.Say(theme.Ink, s.agreeBriefly(s.drawn(typed), f.R.W))
	}
	examples(f, s.examples(p.Sizes, typed))
	guide(f, ask)
}

// ownDrawing draws in small what one has typed so far, beside what one would
// see, and what the sight cannot show beside that.
func (s *Screen) ownDrawing(p *frame.Page, typed string) {
	x := p.Yours.Col + int(p.Yours.R) + 4
	beside := p.Flow(schematic.Rect{X: x, Y: p.Column.Y, W: p.Cols - 1 - x, H: int(p.Yours.R) + 2})
	if view, ok := s.Work.Sees(); ok {
		beside.Say(theme.Ink, BesideSight(view.Sight))
		beside.Skip(1)
	}
	if s.arrived() && s.agreeing(typed) {
		s.tubeEnd(p, p.Yours, RingWords(p.Sizes), typed)
		beside.Say(theme.Label, s.agreeWords(s.drawn(typed), typed))
		return
	}
	p.Typed(schematic.Rect{X: beside.R.X + 1, Y: beside.R.Y, W: beside.R.W - 1, H: beside.R.H}, typed)
	spec := s.FaceSpec(p.Sizes, typed)
	spec.Standing, spec.GroundWord, spec.FocuserWord, spec.Scale, spec.Within = nil, "", "", nil, RingWords(p.Sizes)
	spec.Object = Quiet(spec.Object)
	p.Face(p.Yours, spec)
	p.TextMax(p.Column.X, p.Column.Y, 6, theme.Label, "yours")
}

// Quiet takes the words off a plate, for a small drawing.
func Quiet(o schematic.Object) schematic.Object {
	if plate, ok := o.(schematic.TargetPlate); ok {
		plate.AwayWord, plate.TubeWord = "", ""
		return plate
	}
	return o
}

// RingWords is where words of the small drawing may stand.
func RingWords(sz frame.Sizes) schematic.Rect {
	r := int(sz.Yours.R)
	x := max(sz.Column.X, sz.Yours.Col-r-3)
	return schematic.Rect{X: x, Y: sz.Column.Y, W: sz.Yours.Col + r + 7 - x, H: UnderRing(sz) - sz.Column.Y}
}

// UnderRing is the row from which on text stands under the small drawing.
func UnderRing(sz frame.Sizes) int { return sz.Yours.Row + int(sz.Yours.R/2) + 2 }

// example is something that may be typed and what it says.
type example struct{ Typed, says string }

// ExamplesOn are ways to say where the spot is on a face.
func ExamplesOn(t optics.Telescope, f optics.Face, byRing bool) []example {
	switch f {
	case optics.FacePrimary:
		if t.RingOuterMM > 0 {
			far, mm := example{"4 1/2", "half of the way to the edge"}, example{"4:30 40", "half past 4, 40 mm"}
			if byRing { // what is drawn is not much wider than the ring
				far, mm = example{"4:30 2r", "half past 4, 2 ring widths"}, example{"4:30 12", "half past 4, 12 mm"}
			}
			return []example{far, mm, {"4 on", "on the ring at 4"}, {"in", "somewhere inside the ring"}, {"wall 12", "on the tube wall at 12"}, {"middle", "in the middle of the ring"}}
		}
		return []example{{"4:30 20", "half past 4, 20 mm"}, {"4 edge", "at the rim"}, {"wall 12", "on the tube wall at 12"}}
	case optics.FaceTarget:
		return []example{{"4:30 8", "half past 4, 8 mm"}, {"home even", "down the hole, rim even"}, {"home 7", "down it, brighter at 7"}, {"not there", "no red on the face"}, {"home", "down it, rim not told"}, {"cant see", "no return spot is seen"}, {"4 2r", "on the second printed ring"}}
	case optics.FaceSecondary:
		return []example{{"4:30 8", "8 mm from the brighter one"}, {"dead", "on top of it"}, {"gone", "one spot only"}}
	}
	return []example{{"4:30 30", "half past 4, 30 mm"}, {"gone", "not there"}}
}

// examples are those for the question in hand: by the ring only where it is
// drawn large enough to measure by.
func (s *Screen) examples(sz frame.Sizes, typed string) []example {
	st := s.State()
	rim := s.FaceSpec(sz, typed).RimMM
	if view, ok := s.Work.Sees(); ok { // that is drawn larger, and measured by
		rim = SightOf(st.Tel, view.Face, view, sz).RimMM
	}
	return examplesFor(st, RulesByRing(st.Tel, sz.Face.R, rim))
}

func examplesFor(st session.State, byRing bool) []example {
	ask := st.Ask()
	switch {
	case ask.Stage.ID == session.StageShadow && ask.Face == optics.FaceTarget: // a shadow, which goes down no hole
		return []example{{"4:30 2", "half past 4, 2 mm"}, {"dead", "round the hole's middle"}, {"cant see", "no shadow is seen"}}
	case ask.Step == session.StepOn || ask.Step == session.StepRed:
		return []example{{"4:30 30", "half past 4, 30 mm"}, {"none", "no red dot"}}
	}
	return ExamplesOn(st.Tel, ask.Face, byRing)
}

func examples(f *frame.Flow, list []example) {
	const least = 3 // rows: a heading alone says nothing
	if f.P.Projector && f.R.H < least {
		return
	}
	if f.P.Narrow() {
		var typed []string
		for _, e := range list {
			typed = append(typed, words.Together(e.Typed))
		}
		for len(typed) > 1 && !f.Fits([]string{strings.Join(typed, ",  ")}, 6) {
			typed = typed[:len(typed)-1]
		}
		f.Item(theme.Label, "as in", theme.Act, strings.Join(typed, ",  "))
		return
	}
	f.Say(theme.Label, f.P.Pal.Heading("type, for example"))
	for _, e := range list {
		f.Item(theme.Act, frame.Pad(e.Typed, 8), theme.Label, e.says)
	}
}

// guide writes what to do and what to beware of, as far as there is room for
// the whole of it.
func guide(f *frame.Flow, ask session.Ask) {
	for _, list := range []struct {
		mark  string
		role  theme.Role
		texts []string
	}{{"-", theme.Label, ask.Stage.Do}, {"!", theme.Ink, ask.Beware}} {
		if f.R.H < 2 || len(list.texts) == 0 {
			continue
		}
		f.Skip(1)
		for _, t := range list.texts {
			if f.Fits([]string{t}, 2) {
				f.Item(theme.Head, list.mark, list.role, t)
			}
		}
	}
}

// drawQuestion draws a confirmation or a choice: the scene on the left, the
// question and its answers on the right. Where they find no room there they
// have the whole page: answers are never left out.
func (s *Screen) drawQuestion(p *frame.Page, typed string) {
	see := s.Work.See()
	if s.drawFirst(p, see, typed) {
		return
	}
	for set := frame.Loose; set <= frame.Tight; set++ {
		if s.questionRows(p, p.Column.W, see, typed, set) <= p.Column.H {
			s.scene(p, s.drawn(typed))
			s.question(p.Flow(p.Column), see, typed, set, s.belowQuestion(p, p.Column.W, see, typed, set))
			return
		}
	}
	text := schematic.Rect{X: p.Body.X + 1, Y: p.Body.Y, W: p.Body.W - 2, H: p.Body.H}
	set := frame.Loose
	for set < frame.Bare && s.questionRows(p, text.W, see, typed, set) > text.H {
		set++
	}
	s.question(p.Flow(text), see, typed, set, s.belowQuestion(p, text.W, see, typed, set))
	if s.arrived() {
		s.endBeside(p, text, typed)
	}
}

// drawFirst draws the first question under the telescope with its parts named,
// so that no word is met that was not shown; false where it is another question
// or there is no room.
func (s *Screen) drawFirst(p *frame.Page, see, typed string) bool {
	st := s.State()
	if _, at := st.Plan(); at > 0 || st.Ask().Header.Stand != header.StandBeside {
		return false
	}
	text := p.Body
	set, rows := frame.Loose, s.questionRows(p, text.W, see, typed, frame.Loose)
	if text.H-rows < leastParts {
		set, rows = frame.Tight, s.questionRows(p, text.W, see, typed, frame.Tight)
	}
	const more = 3 // rows of what to do, where there is room for both
	high := text.H - rows - more
	if high < 2*leastParts {
		high = min(text.H-rows, 2*leastParts)
	}
	if p.Projector {
		high = text.H / 2
	}
	if high < leastParts {
		return false
	}
	DrawNamed(p, schematic.Rect{X: text.X, Y: text.Y, W: text.W, H: high - 1}, st.Tel) // the ends' names are below it
	text.Y, text.H = text.Y+high, text.H-high
	s.question(p.Flow(text), see, typed, set, s.belowQuestion(p, text.W, see, typed, set))
	return true
}

// endBeside draws the end of the tube that one has come to beside the answers,
// where they leave it room.
func (s *Screen) endBeside(p *frame.Page, text schematic.Rect, typed string) {
	const wide, rows = 13, 6
	for _, o := range s.State().Ask().Options {
		if schematic.Width(o.Words)+2 > text.W-wide {
			return
		}
	}
	r := schematic.Rect{X: text.X + text.W - wide, Y: text.Y + text.H - rows, W: wide, H: rows}
	s.tubeEnd(p, schematic.Place{Col: r.X + wide/2, Row: r.Y + 2, R: 4.75}, r, typed)
}

// questionRows is how many rows a question takes with all its answers.
func (s *Screen) questionRows(p *frame.Page, width int, see, typed string, set frame.Setting) int {
	nowhere := &frame.Page{Canvas: schematic.New(0, 0, schematic.Options{}), Sizes: p.Sizes, Pal: p.Pal}
	f := nowhere.Flow(schematic.Rect{W: width, H: frame.MaxSheet})
	s.question(f, see, typed, set, counted)
	return f.R.Y
}

// counted says that a question is not drawn, its rows are counted.
const counted = -1

// belowQuestion is how many rows a question's answers, and what else stands
// below it, take.
func (s *Screen) belowQuestion(p *frame.Page, width int, see, typed string, set frame.Setting) int {
	return s.questionRows(p, width, see, typed, set) - len(schematic.Wrap(s.State().Ask().Say, width))
}

// question writes what is to be seen, a question and its answers, and what else
// there is to say of it as far as there is room left; below it so many rows are
// taken.
func (s *Screen) question(f *frame.Flow, see, typed string, set frame.Setting, below int) {
	more := below != counted
	st := s.State()
	ask := st.Ask()
	if see != "" {
		f.Say(theme.Ink, f.P.Pal.Heading("you see")+"  "+see)
		f.Gap(set)
	}
	if more {
		f.P.Typed(f.ForTyped(), typed)
		f.Question(ask.Say, f.LoudRows(ask.Say, below))
	} else {
		f.Say(theme.Head, ask.Say)
	}
	if s.arrived() {
		f.Gap(set)
		f.Say(theme.Ink, s.agreeWords(s.drawn(typed), typed))
	}
	if ask.Note != "" && set != frame.Bare {
		f.Gap(set)
		f.Say(theme.Label, ask.Note)
	}
	if len(ask.Options) > 0 {
		f.Gap(set)
	}
	for i, o := range ask.Options {
		f.Option(i+1, o.Words)
	}
	if ask.Dial {
		f.Say(theme.Label, "or type its width: 1r is one ring width")
	}
	if more {
		guide(f, ask)
	}
}
