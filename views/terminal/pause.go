package terminal

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/terminal/theme"
)

// pausePage stands over a session while nobody works at it.
type pausePage struct{ align *align }

func (s *pausePage) draw(p *page, _ string) {
	st := s.align.state()
	heading(p, st)
	f := p.flow(schematic.Rect{X: p.body.X + 2, Y: p.body.Y + 1, W: min(70, p.body.W-4), H: p.body.H - 1})
	f.heading("pause")
	f.skip(1)
	f.say(theme.Ink, "Everything that was taken is kept. Card over the open end, or the laser off. Do not leave the tube nose down with locks eased.")
	f.skip(1)
	if t := st.Told(); t != nil {
		f.say(theme.Ink, "Last asked: "+moves(t)+".")
		f.skip(1)
	}
	for i, o := range pauseOptions() {
		f.option(i+1, o)
	}
}

func pauseOptions() []string {
	return []string{"go on", "stop safely: make it safe and put it away", "leave it unfinished and come back later"}
}

// moves says what was told in a line.
func moves(t *session.Told) string {
	var out []string
	for _, m := range t.Moves {
		out = append(out, session.MoveWords(m.Turn))
	}
	return strings.Join(out, "; ")
}

func (s *pausePage) foot(sizes) foot {
	return foot{prompt: "which?", hint: "Enter = 1, go on", keys: footer("go on", "go on", "help", "stop safely", "theme")}
}

func (s *pausePage) esc(a *app) { a.pop() }

func (s *pausePage) take(a *app, text string) tea.Cmd {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "", "1", "go on", "pause":
		return a.pop()
	case "2", "stop", "stop safely":
		a.pop()
		return s.align.take(a, "stop safely")
	case "3", "q", "quit", "leave":
		a.pop()
		return s.align.quit(a)
	}
	a.fail(errNumber(len(pauseOptions())))
	return nil
}

// wakeUp asks, after a long time or when the program was put to sleep, what
// became of the move that was told last.
type wakeUp struct{ align *align }

func (s *wakeUp) draw(p *page, _ string) {
	st := s.align.state()
	heading(p, st)
	f := p.flow(schematic.Rect{X: p.body.X + 2, Y: p.body.Y + 1, W: min(70, p.body.W-4), H: p.body.H - 1})
	f.heading("where were we?")
	f.skip(1)
	if t := st.Told(); t != nil {
		f.say(theme.Act, "Last asked: "+moves(t)+".")
	}
	f.skip(1)
	for i, o := range wakeOptions() {
		f.option(i+1, o)
	}
}

func wakeOptions() []string {
	return []string{"not done", "done: it was turned as told", "not sure: look first, and say where the spot is"}
}

func (s *wakeUp) foot(sizes) foot {
	return foot{prompt: "which?", hint: "1, 2 or 3", keys: footer("take it", "not done", "help", "theme")}
}

func (s *wakeUp) esc(a *app) { a.pop() }

func (s *wakeUp) take(a *app, text string) tea.Cmd {
	told := s.align.state().Told()
	if told == nil {
		return a.pop()
	}
	ev := session.Event{Kind: session.KindTurned}
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "1", "not done", "no":
		return a.pop()
	case "2", "done", "yes":
		for _, m := range told.Moves {
			ev.Turned = append(ev.Turned, m.Turn)
		}
	case "3", "not sure", "unknown":
		ev = session.Event{Kind: session.KindUnsure}
	default:
		a.fail(errNumber(len(wakeOptions())))
		return nil
	}
	if err := s.align.work.Send(ev); err != nil {
		a.fail(err)
		return nil
	}
	return a.pop()
}
