package terminal

import (
	"slices"
	"strconv"
	"strings"

	"github.com/charmbracelet/bubbletea"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/theme"
)

// aside is a question that stands over a session for a while and is none of its
// own.
type aside struct {
	align   *align
	title   string
	says    func(st session.State) []row
	options []asideOption
	enter   int // the option that an empty line takes; 0 = none
	keys    []key
}

// asideOption is an answer: what it says, the words that mean it beside its
// number, and what it does once the question is closed.
type asideOption struct {
	words string
	typed []string
	does  func(a *app, s *align) tea.Cmd
}

func goesOn(*app, *align) tea.Cmd { return nil }

// newPause stands over a session while nobody works at it.
func newPause(s *align) *aside {
	return &aside{
		align: s, title: "pause", enter: 1, keys: footer("go on", "go on", "help", "stop safely", "theme"),
		says: func(st session.State) []row {
			rows := []row{{theme.Ink, "Everything that was taken is kept. Card over the open end, or the laser off. Do not leave the tube nose down with locks eased."}}
			return append(rows, lastAsked(st, theme.Ink)...)
		},
		options: []asideOption{
			{"go on", []string{"go on", "pause"}, goesOn},
			{"stop safely: make it safe and put it away", []string{"stop", "stop safely"}, func(a *app, s *align) tea.Cmd { return s.take(a, "stop safely") }},
			{"leave it unfinished and come back later", []string{"q", "quit", "leave"}, func(a *app, s *align) tea.Cmd { return s.quit(a) }},
		},
	}
}

// wakeUp asks, after a long time or when the program was put to sleep, what
// became of the move that was told last.
func (s *align) wakeUp() screen {
	if s.state().Told() == nil || s.by != nil && s.by.holds() != nil {
		return nil
	}
	send := func(ev event.Event) func(a *app, s *align) tea.Cmd {
		return func(a *app, s *align) tea.Cmd {
			if err := s.work.Send(ev); err != nil {
				a.fail(err)
			}
			return nil
		}
	}
	done := event.Event{Kind: event.KindTurned, Turned: s.state().Told().Turns()}
	return &aside{
		align: s, title: "where were we?", keys: footer("take it", "not done", "help", "theme"),
		says: func(st session.State) []row { return lastAsked(st, theme.Act) },
		options: []asideOption{
			{"not done", []string{"not done", "no"}, goesOn},
			{"done: it was turned as told", []string{"done", "yes"}, send(done)},
			{"not sure: look first, and say where the spot is", []string{"not sure", "unknown"}, send(event.Event{Kind: event.KindUnsure})},
		},
	}
}

// lastAsked says what was told and is not known to be done.
func lastAsked(st session.State, role theme.Role) []row {
	if st.Told() == nil {
		return nil
	}
	var moves []string
	for _, m := range st.Told().Moves {
		moves = append(moves, words.MoveWords(m.Turn))
	}
	return []row{{role, "Last asked: " + strings.Join(moves, "; ") + "."}}
}

func (s *aside) draw(p *page, _ string) {
	st := s.align.state()
	heading(p, st)
	f := p.flow(schematic.Rect{X: p.body.X + 2, Y: p.body.Y + 1, W: min(70, p.body.W-4), H: p.body.H - 1})
	f.heading(s.title)
	f.skip(1)
	for _, r := range s.says(st) {
		f.say(r.role, r.text)
		f.skip(1)
	}
	for i, o := range s.options {
		f.option(i+1, o.words)
	}
}

func (s *aside) foot(sizes) foot {
	hint := "a number"
	if s.enter > 0 {
		hint = "Enter = " + strconv.Itoa(s.enter) + ", " + s.options[s.enter-1].words
	}
	f := foot{prompt: "which?", hint: hint, keys: s.keys}
	if s.align.practising() {
		f.rule = notReal
	}
	return f
}

func (s *aside) esc(a *app) { a.pop() }

func (s *aside) take(a *app, text string) tea.Cmd {
	word := strings.ToLower(strings.TrimSpace(text))
	for i, o := range s.options {
		number := strconv.Itoa(i + 1)
		if word == number || word == "" && s.enter == i+1 || slices.Contains(o.typed, word) {
			a.pop()
			return o.does(a, s.align)
		}
	}
	a.fail(errNumber(len(s.options)))
	return nil
}
