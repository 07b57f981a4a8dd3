package align

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/mirrors"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

func ErrNumber(most int) error { return fmt.Errorf("say a number from 1 to %d", most) }

// EndPage is what a session came to.
type EndPage struct {
	State  session.State
	record string
	after  []string // in practice: how it compares with what was really there
}

func (s *EndPage) Draw(p *frame.Page, _ string) {
	st := s.State
	p.ScopeName(st.Scope.Name, st.World != nil)
	wide := schematic.Rect{X: 3, Y: 2, W: min(76, p.Cols-6), H: p.Sizes.Rule.Y - 2}
	set := frame.Loose
	if p.Narrow() { // what was really there must find room too
		set = frame.Tight
		wide.Y, wide.H = 1, p.Sizes.Rule.Y-1
	}
	f := p.Flow(wide)
	const loud = 8 // rows
	if p.Projector {
		f.Loud(theme.Act, st.Upshot().Words(), loud)
	} else {
		f.Heading(st.Upshot().Words())
	}
	if !p.Narrow() {
		f.Say(theme.Ink, words.Outcome(st.Outcome))
	}
	f.Gap(set)
	left := st.Left
	if left.P.Known || left.P.Gone {
		goalRow(f, "outgoing spot", left.Centred, spotWords(st, optics.FacePrimary, left.P))
		goalRow(f, "return spot", left.Home, spotWords(st, optics.FaceTarget, left.T))
		f.Gap(set)
	}
	axisRows(p, f, st)
	f.Gap(set)
	const label = 10
	f.Pair(label, "looks", fmt.Sprintf("%d looks, %d moves, %d rounds of locks", st.Looks, st.Moves, st.Nips))
	tag := words.Tag(st.Tag) + tagNote(st)
	rest := 1 + len(st.Checks.Found) // rows below it, which are never left out for its reason
	for i, line := range s.after {
		if i == 0 && set == frame.Loose {
			rest++ // the gap before them
		}
		rest += len(schematic.Wrap(line, f.R.W-2))
	}
	if len(schematic.Wrap(tag, f.R.W-label))+rest > f.R.H {
		tag = words.Tag(st.Tag)
	}
	f.Pair(label, "tag", tag)
	for _, c := range st.Checks.Found {
		f.Pair(label, string(c.Check), c.Words)
	}
	switch {
	case s.record != "":
		f.Pair(label, "record", s.record)
	default:
		f.Pair(label, "record", "none was saved")
	}
	if len(s.after) > 0 {
		f.Gap(set)
	}
	for _, line := range s.after {
		f.Item(theme.Label, "-", theme.Ink, line)
	}
	const beside = 36 // columns, enough for both faces one over the other
	if x := wide.X + wide.W + 1; p.Cols-1-x >= beside {
		bothFaces(p, st, schematic.Rect{X: x, Y: wide.Y, W: p.Cols - 1 - x, H: wide.H})
	} else if f.R.H > 9 {
		bothFaces(p, st, schematic.Rect{X: 2, Y: f.R.Y + 1, W: p.Cols - 4, H: f.R.H - 1})
	}
}

func tagNote(st session.State) string {
	if why := st.Record().TagWhy; why != "" {
		return ": " + why
	}
	return ""
}

// spotWords says where a spot was left.
func spotWords(st session.State, f optics.Face, sp mirrors.Spot) string {
	switch {
	case sp.Gone:
		return "not seen"
	case !sp.Known:
		return "not read"
	case sp.Saw == event.SawHome:
		return "seen going down the hole"
	}
	return placeText(f, st.Tel.TubeToDial(f, sp.At.At))
}

// axisRows draws the axis error as found and as left, against what is allowed.
func axisRows(p *frame.Page, f *frame.Flow, st session.State) {
	allowed := st.AllowedMM()
	full := max(3*allowed, 1.1*st.Found.ErrMM, 1.1*st.Left.ErrMM)
	for _, m := range []struct {
		name string
		s    mirrors.Sighting
	}{{"found", st.Found}, {"left", st.Left}} {
		if f.R.H <= 0 {
			return
		}
		p.TextMax(f.R.X, f.R.Y, 10, theme.Label, m.name)
		if !m.s.ErrKnown {
			p.TextMax(f.R.X+10, f.R.Y, f.R.W-10, theme.Ink, "axis error not known: a spot was not seen")
			f.Skip(1)
			continue
		}
		bar := AxisBar(m.s.ErrMM, allowed)
		bar.Full = full
		const wide = 20
		p.Bar(f.R.X+10, f.R.Y, wide, bar)
		p.TextMax(f.R.X+11+wide, f.R.Y, f.R.W-11-wide, theme.Ink, fmt.Sprintf("%.1f mm, at most %.1f", m.s.ErrMM, m.s.ErrMaxMM))
		f.Skip(1)
	}
	f.Pair(10, "allowed", fmt.Sprintf("%.1f mm at f/%.1f, for %s", allowed, st.Tel.FocalRatio(), use(st)))
}

func (s *EndPage) Foot(frame.Sizes) frame.Foot {
	return frame.Foot{Prompt: "read?", Hint: "Enter closes it", Keys: frame.Footer("close", "close", "theme", "large")}
}

func (s *EndPage) Take(a *frame.App, text string) tea.Cmd {
	switch text {
	case "", "q", "quit":
		s.Esc(a)
		if len(a.Stack) == 0 {
			return a.Quit()
		}
		return nil
	}
	a.OnlyEnter()
	return nil
}

func (s *EndPage) Esc(a *frame.App) {
	if s.record != "" && len(a.Stack) == 1 {
		a.Farewell = append(a.Farewell, s.State.Scope.Name+": "+s.State.Outcome+", record "+s.record)
	}
	a.Pop()
}
