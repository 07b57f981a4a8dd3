package align

import (
	"slices"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// Aside is a question that stands over a session for a while and is none of its
// own.
type Aside struct {
	align   *Screen
	Title   string
	says    func(st session.State) []row
	options []asideOption
	enter   int // the option that an empty line takes; 0 = none
	keys    []frame.Key
}

// asideOption is an answer: what it says, the words that mean it beside its
// number, and what it does once the question is closed.
type asideOption struct {
	words string
	typed []string
	does  func(a *frame.App, s *Screen) tea.Cmd
}

func goesOn(*frame.App, *Screen) tea.Cmd { return nil }

// newPause stands over a session while nobody works at it.
func newPause(s *Screen) *Aside {
	return &Aside{
		align: s, Title: "pause", enter: 1, keys: frame.Footer("go on", "go on", "help", "stop safely", "theme"),
		says: func(st session.State) []row {
			rows := []row{{theme.Ink, "All your answers are saved. Card over the open end, or laser off. Never leave the tube nose down with locks eased."}}
			return append(rows, lastAsked(st, theme.Ink)...)
		},
		options: []asideOption{
			{"go on", []string{"go on", "pause"}, goesOn},
			{"stop safely: make it safe and put it away", []string{"stop", "stop safely"}, func(a *frame.App, s *Screen) tea.Cmd { return s.Take(a, "stop safely") }},
			{"leave it unfinished and come back later", []string{"q", "quit", "leave"}, func(a *frame.App, s *Screen) tea.Cmd { return s.quit(a) }},
		},
	}
}

// WakeUp asks, after a long time or when the program was put to sleep, what
// became of the move that was told last.
func (s *Screen) WakeUp() frame.Screen {
	if s.State().Told() == nil || s.By != nil && s.By.Holds() != nil {
		return nil
	}
	send := func(ev event.Event) func(a *frame.App, s *Screen) tea.Cmd {
		return func(a *frame.App, s *Screen) tea.Cmd {
			if err := s.Work.Send(ev); err != nil {
				a.Fail(err)
			}
			return nil
		}
	}
	done := event.Event{Kind: event.KindTurned, Turned: s.State().Told().Turns()}
	return &Aside{
		align: s, Title: "where were we?", keys: frame.Footer("accept", "not done", "help", "theme"),
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

func (s *Aside) Draw(p *frame.Page, _ string) {
	st := s.align.State()
	heading(p, st)
	r := schematic.Rect{X: p.Body.X + 2, Y: p.Body.Y + 1, W: min(70, p.Body.W-4), H: p.Body.H - 1}
	says := s.says(st)
	set, rows := frame.Loose, 2+len(s.options)+len(says)
	for _, row := range says {
		rows += len(schematic.Wrap(row.text, r.W))
	}
	if rows > r.H { // the answers come first
		set, r.Y, r.H = frame.Tight, p.Body.Y, p.Body.H
	}
	f := p.Flow(r)
	f.Heading(s.Title)
	f.Gap(set)
	for _, row := range says {
		f.Say(row.role, row.text)
		f.Gap(set)
	}
	for i, o := range s.options {
		f.Option(i+1, o.words)
	}
}

func (s *Aside) Foot(frame.Sizes) frame.Foot {
	hint := "a number"
	if s.enter > 0 {
		hint = "Enter = " + strconv.Itoa(s.enter) + ", " + s.options[s.enter-1].words
	}
	f := frame.Foot{Prompt: "which?", Hint: hint, Keys: s.keys}
	if s.align.practising() {
		f.Rule = notReal
	}
	return f
}

func (s *Aside) Esc(a *frame.App) { a.Pop() }

func (s *Aside) Take(a *frame.App, text string) tea.Cmd {
	word := strings.ToLower(strings.TrimSpace(text))
	for i, o := range s.options {
		number := strconv.Itoa(i + 1)
		if word == number || word == "" && s.enter == i+1 || slices.Contains(o.typed, word) {
			a.Pop()
			return o.does(a, s.align)
		}
	}
	a.Fail(ErrNumber(len(s.options)))
	return nil
}
