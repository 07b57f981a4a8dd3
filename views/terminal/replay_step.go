package terminal

import (
	"fmt"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/theme"
)

// before returns where things stood before the step that is shown.
func (s *past) before() session.State {
	if s.at == 0 {
		return s.first.State
	}
	return s.steps[s.at-1].Last().State
}

// drawStep draws a step: what happened, what was told then and why, what was
// known, and the face as it then stood.
func (s *past) drawStep(p *page) {
	step := s.steps[s.at]
	st := step.Last().State
	end := p.at(p.name, theme.Head, st.Scope.Name)
	rail := p.rail
	if from := end + 2; p.name.Y == rail.Y {
		rail.X, rail.W = from, rail.X+rail.W-from
	}
	p.Rail(rail.X, rail.Y, rail.W, railOf(s.before()))
	when := step.Frames[0].T.Local().Format("15:04:05")
	count := fmt.Sprintf("%d of %d", s.at+1, len(s.steps))
	row := p.facts[0]
	if p.narrow() {
		row = schematic.Rect{X: p.column.X, Y: row.Y, W: p.column.W, H: 1}
	}
	fact(p, row, 3, []headFact{{"step", same(count)}, {"at", same(when)}})
	face := faceThen(st)
	p.Face(p.sizes.Face, stoodSpec(st, face, p.sizes))
	text := p.column
	if text.W >= 100 {
		other := otherFace(face)
		right := schematic.Rect{X: text.X + 62, Y: text.Y, W: text.W - 62, H: text.H}
		radius := min(pictureRadius(right, 1), p.sizes.Face.R-4) // the face in hand is the larger
		pictureRow(p, right, radius, []picture{{title: faceWords(other), spec: smallSpec(st, other, p.sizes)}})
		text.W = 60
	}
	if p.roomy() || p.Projector {
		plot := schematic.Rect{X: text.X, Y: text.Y + text.H - stepPlot, W: text.W, H: stepPlot}
		text.H -= stepPlot + 1
		s.drawErrors(p, plot, st)
	}
	s.tellStep(p, text, st)
}

// stepPlot is the rows of the plot beside a step.
const stepPlot = 9

// drawErrors draws the axis error up to this step over all the looks.
func (s *past) drawErrors(p *page, r schematic.Rect, st session.State) {
	upTo := 0
	for _, l := range s.looks {
		if l.N <= st.Looks {
			upTo = l.N
		}
	}
	line := errorLine(s.looks[:upTo])
	if _, _, ok := st.AxisError(); !ok {
		line.Word = "" // it was, and is not known any more
	}
	p.TextMax(r.X, r.Y, r.W, theme.Label, "axis error so far")
	if len(line.Points) == 0 {
		p.TextMax(r.X, r.Y+1, r.W, theme.Label, "not known until both spots are seen")
		return
	}
	r.Y, r.H = r.Y+1, r.H-1
	p.Plot(r, *lookPlot(s.r, len(s.looks), line))
}

// faceThen is the face that was in hand: the one asked for, else the one read
// last.
func faceThen(st session.State) optics.Face {
	if !st.Over {
		if f := st.Ask().Face; f != "" {
			return f
		}
	}
	events := st.Events()
	for i := len(events) - 1; i >= 0; i-- {
		if events[i].Kind == event.KindReading {
			return events[i].Face
		}
	}
	return optics.FacePrimary
}

func otherFace(f optics.Face) optics.Face {
	if f == optics.FacePrimary {
		return optics.FaceTarget
	}
	return optics.FacePrimary
}

// stoodSpec is a face as it then stood, with the way of the told move.
func stoodSpec(st session.State, f optics.Face, sz sizes) schematic.FaceSpec {
	spec := seenFrom(st.Tel, f, sz)
	spotsOn(&spec, st, f, sz)
	if !st.Over && st.Ask().Face == f {
		cue(&spec, st, st.Ask())
	}
	if sz.narrow() && spec.Cue != nil {
		spec.Cue.Word = ""
	}
	spec.RimMM = schematic.RimFor(spec, rims(st.Tel, f)...)
	measured(&spec, st.Tel, f, sz)
	return spec
}

// smallSpec is a face in small, with its readings alone.
func smallSpec(st session.State, f optics.Face, sz sizes) schematic.FaceSpec {
	spec := plainFace(st.Tel, f)
	spotsOn(&spec, st, f, sz)
	spec.RimMM = schematic.RimFor(spec, rims(st.Tel, f)...)
	measured(&spec, st.Tel, f, sz)
	return spec
}

// tellStep writes the step beside its face: the newest on top, what was known
// at the bottom.
func (s *past) tellStep(p *page, r schematic.Rect, st session.State) {
	const known = 3
	f := p.flow(schematic.Rect{X: r.X, Y: r.Y, W: r.W, H: r.H - known - 1})
	if p.narrow() {
		f.r.H = r.H - known
	}
	s.happened(f)
	if told := st.Told(); told != nil && !st.Over {
		if !p.narrow() {
			f.skip(1)
		}
		f.item(theme.Label, pad(p.pal.Heading("told"), 5), theme.Act, words.MovesWords(told.Turns()))
		if told.Why != "" {
			why := told.Why + " (" + sure(told.Trust) + ")"
			r := f.r
			r.W -= 6
			if len(schematic.Wrap(why, r.W)) > r.H {
				why = cutClause(told.Why, roomFor(r))
			}
			f.item(theme.Label, "why  ", theme.Ink, why)
		}
	}
	if see := s.steps[s.at].Last().See; see != "" && f.r.H > 2 && !p.narrow() {
		f.skip(1)
		f.say(theme.Ink, cutClause("Then to be seen: "+see, roomFor(f.r)))
	}
	at := schematic.Rect{X: r.X, Y: r.Y + r.H - known, W: r.W, H: known}
	knownThen(p, at, st)
}

// roomFor is how long a text surely fits r: words do not fill their rows.
func roomFor(r schematic.Rect) int { return max(r.W, r.W*r.H-6*(r.H-1)) }

// happened says what was asked, and what the person said and did.
func (s *past) happened(f *flow) {
	step := s.steps[s.at]
	if before := s.before(); !f.p.narrow() && !before.Over {
		r := schematic.Rect{W: f.r.W - 6, H: 2}
		f.item(theme.Label, "asked", theme.Label, cutClause(before.Ask().Question, roomFor(r)))
	}
	for i, line := range stepLines(step) {
		role := theme.Ink
		if i == 0 {
			role = theme.Head
		}
		f.say(role, line)
	}
	if st := step.Last().State; st.Over {
		f.skip(1)
		f.say(theme.Head, sentence(outcomeWords(st.Outcome)))
	}
}

// stepLines say what happened in a step: first what the person said, then what
// the hands truly did.
func stepLines(step desk.Step) []string {
	var said, felt []string
	var hands []optics.Turn
	for _, fr := range step.Frames {
		switch fr.Event.Kind {
		case event.KindAdvised:
		case event.KindHand:
			hands = append(hands, fr.Event.Turned...)
		case event.KindTurned:
			said = append(said, "Said to be turned: "+words.TurnedWords(fr.Event.Turned))
		default:
			said = append([]string{fr.Words()}, said...)
		}
		if fr.Felt != "" {
			felt = append(felt, fr.Felt)
		}
	}
	if len(hands) > 0 {
		said = append(said, "Truly turned: "+words.TurnedWords(hands))
	}
	return append(said, felt...)
}
