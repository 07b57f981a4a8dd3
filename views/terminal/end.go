package terminal

import (
	"errors"
	"fmt"

	"github.com/charmbracelet/bubbletea"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/views/schematic"
	"spotward/views/theme"
)

func errNumber(most int) error { return fmt.Errorf("say a number from 1 to %d", most) }

// The answers to a word where only Enter goes on: it stands in the line, or a
// key has entered it.
var (
	errClear = errors.New("nothing is asked here: Ctrl-U clears the line, then Enter goes on")
	errEnter = errors.New("press Enter to go on")
)

// endPage is what a session came to.
type endPage struct {
	state  session.State
	record string
	after  []string // in practice: how it compares with what was really there
}

func (s *endPage) draw(p *page, _ string) {
	st := s.state
	p.scopeName(st.Scope.Name, st.World != nil)
	wide := schematic.Rect{X: 3, Y: 2, W: min(76, p.Cols-6), H: p.sizes.Rule.Y - 2}
	set := loose
	if p.narrow() { // what was really there must find room too
		set = tight
		wide.Y, wide.H = 1, p.sizes.Rule.Y-1
	}
	f := p.flow(wide)
	f.heading(outcomeWords(st.Outcome))
	f.gap(set)
	left := st.Left
	if left.P.Known || left.P.Gone {
		goalRow(f, "outgoing spot", left.Centred, spotWords(st, optics.FacePrimary, left.P))
		goalRow(f, "return spot", left.Home, spotWords(st, optics.FaceTarget, left.T))
		f.gap(set)
	}
	axisRows(p, f, st)
	f.gap(set)
	const label = 10
	f.pair(label, "looks", fmt.Sprintf("%d looks, %d moves, %d rounds of locks", st.Looks, st.Moves, st.Nips))
	f.pair(label, "tag", tagWords(st.Tag)+tagNote(st))
	for _, c := range st.Checks.Found {
		f.pair(label, string(c.Check), c.Words)
	}
	switch {
	case s.record != "":
		f.pair(label, "record", s.record)
	default:
		f.pair(label, "record", "none was kept")
	}
	if len(s.after) > 0 {
		f.gap(set)
	}
	for _, line := range s.after {
		f.item(theme.Label, "-", theme.Ink, line)
	}
	if f.r.H > 9 {
		bothFaces(p, st, schematic.Rect{X: 2, Y: f.r.Y + 1, W: p.Cols - 4, H: f.r.H - 1})
	}
}

func tagNote(st session.State) string {
	if why := st.Record().TagWhy; why != "" {
		return ": " + why
	}
	return ""
}

func outcomeWords(outcome string) string {
	switch outcome {
	case session.OutcomeAligned:
		return "aligned: both spots are home, and it held in the swing"
	case session.OutcomeLeft:
		return "left alone: it is good enough as it is"
	case session.OutcomeStopped:
		return "stopped and made safe, unfinished"
	case session.OutcomeNotToday:
		return "not today: nothing was turned"
	}
	return "done in part"
}

func tagWords(tag string) string {
	switch tag {
	case session.TagReady:
		return "ready"
	case session.TagWithNote:
		return "ready, with a note"
	}
	return "hold back"
}

// spotWords says where a spot was left.
func spotWords(st session.State, f optics.Face, sp session.Spot) string {
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
func axisRows(p *page, f *flow, st session.State) {
	allowed := st.AllowedMM()
	full := max(3*allowed, 1.1*st.Found.ErrMM, 1.1*st.Left.ErrMM)
	for _, m := range []struct {
		name string
		s    session.Sighting
	}{{"found", st.Found}, {"left", st.Left}} {
		if f.r.H <= 0 {
			return
		}
		p.TextMax(f.r.X, f.r.Y, 10, theme.Label, m.name)
		if !m.s.ErrKnown {
			p.TextMax(f.r.X+10, f.r.Y, f.r.W-10, theme.Ink, "axis error not known: a spot was not seen")
			f.skip(1)
			continue
		}
		bar := axisBar(m.s.ErrMM, allowed)
		bar.Full = full
		const wide = 20
		p.Bar(f.r.X+10, f.r.Y, wide, bar)
		p.TextMax(f.r.X+11+wide, f.r.Y, f.r.W-11-wide, theme.Ink, fmt.Sprintf("%.1f mm, at most %.1f", m.s.ErrMM, m.s.ErrMaxMM))
		f.skip(1)
	}
	f.pair(10, "allowed", fmt.Sprintf("%.1f mm at f/%.1f, for %s", allowed, st.Tel.FocalRatio(), use(st)))
}

func (s *endPage) foot(sizes) foot {
	return foot{prompt: "read?", hint: "Enter closes it", keys: footer("close", "close", "theme", "large")}
}

func (s *endPage) take(a *app, text string) tea.Cmd {
	switch text {
	case "", "q", "quit":
		s.esc(a)
		if len(a.stack) == 0 {
			return a.quit()
		}
		return nil
	}
	a.onlyEnter()
	return nil
}

func (s *endPage) esc(a *app) {
	if s.record != "" && len(a.stack) == 1 {
		a.farewell = append(a.farewell, s.state.Scope.Name+": "+s.state.Outcome+", record "+s.record)
	}
	a.pop()
}
