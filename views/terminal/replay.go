package terminal

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/session"
	"spotward/views/desk"
)

// past is a session looked back at: step by step, and after the last of them
// the record in pictures.
type past struct {
	first desk.Frame // the begin line
	steps []desk.Step
	looks []desk.Look
	album album // the record in pictures
	r     session.Record
	at    int           // the step shown; len(steps): the record
	pace  time.Duration // a step while it plays; 0: it does not
	runs  int           // how often it was set going
}

// newPast reads session id back, its record r.
func newPast(d *desk.Desk, r session.Record) (*past, error) {
	frames, report, err := d.Replay(r.ID)
	if err != nil {
		return nil, err
	}
	s := &past{r: r, steps: desk.Steps(frames)}
	if len(frames) > 0 {
		s.first = frames[0]
	}
	s.looks, _ = desk.Looks(frames)
	s.album = recordAlbum(r, frames)
	if note := report.String(); note != "" {
		s.album.parts = append(s.album.parts, part{mark: "-", text: note})
	}
	s.at = len(s.steps)
	return s, nil
}

// recordScreen is a record in pictures; its steps are before it. A journal that
// cannot be told again leaves the record in words.
func recordScreen(a *app, r session.Record) screen {
	s, err := newPast(a.desk, r)
	if err != nil {
		a.fail(err)
		return &past{r: r, album: recordAlbum(r, nil)}
	}
	return s
}

// lookBack opens a session to be replayed, or two to be compared, by their ids.
func lookBack(a *app, ids []string) (screen, error) {
	if a.desk.Library == nil {
		return nil, errNoRecords
	}
	var found []session.Record
	for _, id := range ids {
		r, err := recordOrSo(a.desk, id)
		if err != nil {
			return nil, err
		}
		found = append(found, r)
	}
	if len(found) > 1 {
		return newCompare(a.desk, found[0], found[1])
	}
	s, err := newPast(a.desk, found[0])
	if err != nil {
		return nil, err
	}
	s.at = 0
	return s, nil
}

// recordOrSo returns the record of a session, or what it amounts to so far where
// it is not over.
func recordOrSo(d *desk.Desk, id string) (session.Record, error) {
	r, err := d.Library.Record(id)
	if err == nil {
		return r, nil
	}
	frames, _, torn := d.Replay(id)
	if torn != nil || len(frames) == 0 {
		return r, err
	}
	r = frames[len(frames)-1].State.Record()
	r.Began, r.Ended = frames[0].T, frames[len(frames)-1].T
	return r, nil
}

func (s *past) over() bool { return s.at >= len(s.steps) }

func (s *past) draw(p *page, _ string) {
	if s.over() {
		s.album.draw(p)
		return
	}
	s.drawStep(p)
}

func (s *past) foot(sz sizes) foot {
	f := foot{prompt: fmt.Sprintf("step %d of %d", s.at+1, len(s.steps)), hint: "Enter, or an arrow key, goes on"}
	f.keys = footer("next", "close", "why", "back", "help", "theme", "large")
	switch {
	case s.over() && s.album.more():
		f.prompt, f.hint = "more?", "Enter reads on"
		f.keys = footer("read on", "close", "back", "help", "theme", "large")
	case s.over():
		f.prompt, f.hint = "read?", "Enter closes it"
		f.keys = footer("close", "close", "back", "help", "theme", "large")
	case s.pace > 0:
		f.hint = "playing; Enter pauses"
		f.keys = footer("pause", "close", "why", "back", "help", "theme", "large")
	}
	if s.over() && len(s.steps) > 0 && !sz.narrow() {
		f.hint += "; first, or play, tells how it went"
	}
	return f
}

func (s *past) esc(a *app) { a.pop() }

// returned stops what played: it was laid over.
func (s *past) returned(*app) { s.pace = 0 }

// show shows a step, or the record after the last of them.
func (s *past) show(at int) {
	s.at = max(0, min(at, len(s.steps)))
	s.album.page = 0
}

// step goes one on or back: through the pages of the record too.
func (s *past) step(by int) {
	page := s.album.page + by
	switch {
	case !s.over():
		s.show(s.at + by)
	case page < 0:
		s.show(s.at - 1)
	case page < s.album.pages:
		s.album.page = page
	}
}

// stepKey takes the keys that step while nothing is typed.
func (s *past) stepKey(a *app, k tea.KeyType) bool {
	switch k {
	case tea.KeyRight, tea.KeyDown, tea.KeyPgDown:
		s.step(1)
	case tea.KeyLeft, tea.KeyUp, tea.KeyPgUp:
		s.step(-1)
	case tea.KeyHome:
		s.show(0)
	case tea.KeyEnd:
		s.show(len(s.steps))
	default:
		return false
	}
	s.pace = 0
	a.version++
	return true
}

var errPast = errors.New("say: next, back, step 12, first, last, play, play 2, pause, why or quit")

func (s *past) take(a *app, text string) tea.Cmd {
	verb, rest, _ := strings.Cut(strings.ToLower(strings.TrimSpace(text)), " ")
	rest = strings.TrimSpace(rest)
	played := s.pace > 0
	s.pace = 0
	var cmd tea.Cmd
	switch verb {
	case "":
		if s.over() && !s.album.more() {
			return a.pop()
		}
		if !played {
			s.step(1)
		}
	case "next", "n":
		s.step(1)
	case "back", "b":
		s.step(-1)
	case "first":
		s.show(0)
	case "last", "record", "all":
		s.show(len(s.steps))
	case "pause", "stop":
	case "why", "w":
		if !s.over() {
			a.push(s.whySheet())
		}
	case "play", "replay":
		if cmd = s.play(a, rest); cmd == nil {
			return nil
		}
	case "q", "quit", "close":
		return a.pop()
	default:
		n, err := strconv.Atoi(strings.TrimSpace(strings.TrimPrefix(verb+" "+rest, "step")))
		if err != nil || n < 1 || n > len(s.steps) {
			a.fail(s.noStep(err))
			return nil
		}
		s.show(n - 1)
	}
	a.used()
	return cmd
}

func (s *past) noStep(err error) error {
	if err != nil {
		return errPast
	}
	return fmt.Errorf("there are steps 1 to %d; last is the record after them", len(s.steps))
}

func (s *past) help() (string, [][2]string) {
	return "look back", [][2]string{
		{"Enter  arrows", "a step on; left goes back"},
		{"back   F7", "a step back"},
		{"step 12   12", "straight to a step"},
		{"first   Home", "to the first step"},
		{"last   End", "to the record in pictures, after the last step"},
		{"play   play 5", "goes on by itself, a step in 2 or 5 seconds"},
		{"pause   Enter", "stops there"},
		{"why   F2", "all that was known at the step, in words"},
		{"quit   Esc", "closes it"},
	}
}
