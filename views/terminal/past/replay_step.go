package past

import (
	"fmt"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// before returns where things stood before the step that is shown.
func (s *Screen) before() session.State {
	if s.At == 0 {
		return s.First.State
	}
	return s.Steps[s.At-1].Last().State
}

// drawStep draws a step: what happened, what was told then and why, what was
// known, and the face as it then stood.
func (s *Screen) drawStep(p *frame.Page) {
	step := s.Steps[s.At]
	st := step.Last().State
	end := p.At(p.Name, theme.Head, st.Scope.Name)
	rail := p.RailAt
	if from := end + 2; p.Name.Y == rail.Y {
		rail.X, rail.W = from, rail.X+rail.W-from
	}
	align.Rail(p, rail, align.RailOf(s.before()))
	count := fmt.Sprintf("%d of %d", s.At+1, len(s.Steps))
	if t := step.Frames[0].T; !t.IsZero() { // of a session in hand nobody keeps it
		count += " at " + t.Local().Format("15:04:05")
	}
	row := p.Facts[0]
	if p.Narrow() {
		row = schematic.Rect{X: p.Column.X, Y: row.Y, W: p.Column.W, H: 1}
	}
	p.TextMax(p.TextMax(row.X, row.Y, row.W, theme.Label, "step "), row.Y, row.W, theme.Head, count)
	face := faceThen(st)
	p.Face(p.Sizes.Face, stoodSpec(st, face, p.Sizes))
	text := p.Column
	if text.W >= 100 {
		other := otherFace(face)
		right := schematic.Rect{X: text.X + 62, Y: text.Y, W: text.W - 62, H: text.H}
		radius := min(pictureRadius(right, 1), p.Sizes.Face.R-4) // the face in hand is the larger
		pictureRow(p, right, radius, []picture{{title: words.Face(other), spec: smallSpec(st, other, p.Sizes)}})
		text.W = 60
	}
	if p.Roomy() || p.Projector {
		plot := schematic.Rect{X: text.X, Y: text.Y + text.H - stepPlot, W: text.W, H: stepPlot}
		text.H -= stepPlot + 1
		s.drawErrors(p, plot, st)
	}
	s.tellStep(p, text, st)
}

// stepPlot is the rows of the plot beside a step.
const stepPlot = 9

// drawErrors draws the axis error up to this step over all the looks.
func (s *Screen) drawErrors(p *frame.Page, r schematic.Rect, st session.State) {
	upTo := 0
	for _, l := range s.Looks {
		if l.N <= st.Looks {
			upTo = l.N
		}
	}
	line := errorLine(s.Looks[:upTo])
	if _, _, ok := st.AxisError(); !ok {
		line.Word = "" // it was, and is not known any more
	}
	p.TextMax(r.X, r.Y, r.W, theme.Label, "axis error so far")
	if len(line.Points) == 0 {
		p.TextMax(r.X, r.Y+1, r.W, theme.Label, "not known until both spots are seen")
		return
	}
	r.Y, r.H = r.Y+1, r.H-1
	p.Plot(r, *lookPlot(s.R, len(s.Looks), line))
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
func stoodSpec(st session.State, f optics.Face, sz frame.Sizes) schematic.FaceSpec {
	spec := align.SeenFrom(st.Tel, f, sz)
	align.SpotsOn(&spec, st, f, sz)
	if !st.Over && st.Ask().Face == f {
		align.NotThere(&spec, st.Ask(), sz)
		align.Cue(&spec, st, st.Ask())
	}
	if sz.Narrow() && spec.Cue != nil {
		spec.Cue.Word = ""
	}
	spec.RimMM = schematic.RimFor(spec, align.Rims(st.Tel, f)...)
	align.Measured(&spec, st.Tel, f, sz)
	return spec
}

// smallSpec is a face in small, with its readings alone.
func smallSpec(st session.State, f optics.Face, sz frame.Sizes) schematic.FaceSpec {
	spec := plainFace(st.Tel, f)
	align.SpotsOn(&spec, st, f, sz)
	spec.RimMM = schematic.RimFor(spec, align.Rims(st.Tel, f)...)
	align.Measured(&spec, st.Tel, f, sz)
	return spec
}

// tellStep writes the step beside its face: the newest on top, what was known
// at the bottom.
func (s *Screen) tellStep(p *frame.Page, r schematic.Rect, st session.State) {
	const known = 3
	f := p.Flow(schematic.Rect{X: r.X, Y: r.Y, W: r.W, H: r.H - known - 1})
	if p.Narrow() {
		f.R.H = r.H - known
	}
	s.happened(f)
	if told := st.Told(); told != nil && !st.Over {
		if !p.Narrow() {
			f.Skip(1)
		}
		f.Item(theme.Label, frame.Pad(p.Pal.Heading("told"), 5), theme.Act, words.MovesWords(told.Turns()))
		if told.Why != "" {
			why := told.Why + " (" + align.Sure(told.Trust) + ")"
			r := f.R
			r.W -= 6
			if len(schematic.Wrap(why, r.W)) > r.H {
				why = align.CutClause(told.Why, roomFor(r))
			}
			f.Item(theme.Label, "why  ", theme.Ink, why)
		}
	}
	if see := s.Steps[s.At].Last().See; see != "" && f.R.H > 2 && !p.Narrow() {
		f.Skip(1)
		f.Say(theme.Ink, align.CutClause("Then to be seen: "+see, roomFor(f.R)))
	}
	at := schematic.Rect{X: r.X, Y: r.Y + r.H - known, W: r.W, H: known}
	knownThen(p, at, st)
}

// roomFor is how long a text surely fits r: words do not fill their rows.
func roomFor(r schematic.Rect) int { return max(r.W, r.W*r.H-6*(r.H-1)) }

// happened says what was asked, and what the person said and did.
func (s *Screen) happened(f *frame.Flow) {
	step := s.Steps[s.At]
	if before := s.before(); !f.P.Narrow() && !before.Over {
		r := schematic.Rect{W: f.R.W - 6, H: 2}
		f.Item(theme.Label, "asked", theme.Label, align.CutClause(before.Ask().Question, roomFor(r)))
	}
	for i, line := range stepLines(step) {
		role := theme.Ink
		if i == 0 {
			role = theme.Head
		}
		f.Say(role, line)
	}
	if st := step.Last().State; st.Over {
		f.Skip(1)
		f.Say(theme.Head, align.Sentence(words.Outcome(st.Outcome)))
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
