package past

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/session"
	"spotward/views/desk"
	"spotward/views/terminal/frame"
)

// past is a session looked back at: step by step, and after the last of them
// the record in pictures.
type Screen struct {
	First desk.Frame // the begin line
	Steps []desk.Step
	Looks []desk.Look
	Album Album // the record in pictures
	R     session.Record
	At    int           // the step shown; len(steps): the record
	Pace  time.Duration // a step while it plays; 0: it does not
	Runs  int           // how often it was set going
}

// newPast reads session id back, its record r.
func newPast(d *desk.Desk, r session.Record) (*Screen, error) {
	frames, report, err := d.Replay(r.ID)
	if err != nil {
		return nil, err
	}
	s := &Screen{R: r, Steps: desk.Steps(frames)}
	if len(frames) > 0 {
		s.First = frames[0]
	}
	s.Looks, _ = desk.Looks(frames)
	s.Album = RecordAlbum(r, frames)
	if note := report.String(); note != "" {
		s.Album.Parts = append(s.Album.Parts, frame.Part{Mark: "-", Text: note})
	}
	s.At = len(s.Steps)
	return s, nil
}

// recordScreen is a record in pictures; its steps are before it. A journal that
// cannot be told again leaves the record in words.
func recordScreen(a *frame.App, r session.Record) frame.Screen {
	s, err := newPast(a.Desk, r)
	if err != nil {
		a.Fail(err)
		return &Screen{R: r, Album: RecordAlbum(r, nil)}
	}
	return s
}

// LookBack opens a session to be replayed, or two to be compared, by their ids.
func LookBack(a *frame.App, ids []string) (frame.Screen, error) {
	if a.Desk.Library == nil {
		return nil, ErrNoRecords
	}
	var found []session.Record
	for _, id := range ids {
		r, err := recordOrSo(a.Desk, id)
		if err != nil {
			return nil, err
		}
		found = append(found, r)
	}
	if len(found) > 1 {
		return newCompare(a.Desk, found[0], found[1])
	}
	s, err := newPast(a.Desk, found[0])
	if err != nil {
		return nil, err
	}
	s.At = 0
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

func (s *Screen) Over() bool { return s.At >= len(s.Steps) }

func (s *Screen) Draw(p *frame.Page, _ string) {
	if s.Over() {
		s.Album.Draw(p)
		return
	}
	s.drawStep(p)
}

func (s *Screen) Foot(sz frame.Sizes) frame.Foot {
	f := frame.Foot{Prompt: fmt.Sprintf("step %d of %d", s.At+1, len(s.Steps)), Hint: "Enter, or an arrow key, goes on"}
	f.Keys = frame.Footer("next", "close", "why", "back", "help", "theme", "large")
	switch {
	case s.Over() && s.Album.More():
		f.Prompt, f.Hint = "more?", "Enter reads on"
		f.Keys = frame.Footer("read on", "close", "back", "help", "theme", "large")
	case s.Over():
		f.Prompt, f.Hint = "read?", "Enter closes it"
		f.Keys = frame.Footer("close", "close", "back", "help", "theme", "large")
	case s.Pace > 0:
		f.Hint = "playing; Enter pauses"
		f.Keys = frame.Footer("pause", "close", "why", "back", "help", "theme", "large")
	}
	if s.Over() && len(s.Steps) > 0 && !sz.Narrow() {
		f.Hint += "; first, or play, tells how it went"
	}
	return f
}

func (s *Screen) Esc(a *frame.App) { a.Pop() }

// Returned stops what played: it was laid over.
func (s *Screen) Returned(*frame.App) { s.Pace = 0 }

// show shows a step, or the record after the last of them.
func (s *Screen) show(at int) {
	s.At = max(0, min(at, len(s.Steps)))
	s.Album.page = 0
}

// step goes one on or back: through the pages of the record too.
func (s *Screen) step(by int) {
	page := s.Album.page + by
	switch {
	case !s.Over():
		s.show(s.At + by)
	case page < 0:
		s.show(s.At - 1)
	case page < s.Album.pages:
		s.Album.page = page
	}
}

// StepKey takes the keys that step while nothing is typed.
func (s *Screen) StepKey(a *frame.App, k tea.KeyType) bool {
	switch k {
	case tea.KeyRight, tea.KeyDown, tea.KeyPgDown:
		s.step(1)
	case tea.KeyLeft, tea.KeyUp, tea.KeyPgUp:
		s.step(-1)
	case tea.KeyHome:
		s.show(0)
	case tea.KeyEnd:
		s.show(len(s.Steps))
	default:
		return false
	}
	s.Pace = 0
	a.Version++
	return true
}

var errPast = errors.New("say: next, back, step 12, first, last, play, play 2, pause, why or quit")

func (s *Screen) Take(a *frame.App, text string) tea.Cmd {
	verb, rest, _ := strings.Cut(strings.ToLower(strings.TrimSpace(text)), " ")
	rest = strings.TrimSpace(rest)
	played := s.Pace > 0
	s.Pace = 0
	var cmd tea.Cmd
	switch verb {
	case "":
		if s.Over() && !s.Album.More() {
			return a.Pop()
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
		s.show(len(s.Steps))
	case "pause", "stop":
	case "why", "w":
		if !s.Over() {
			a.Push(s.whySheet())
		}
	case "play", "replay":
		if cmd = s.play(a, rest); cmd == nil {
			return nil
		}
	case "q", "quit", "close":
		return a.Pop()
	default:
		n, err := strconv.Atoi(strings.TrimSpace(strings.TrimPrefix(verb+" "+rest, "step")))
		if err != nil || n < 1 || n > len(s.Steps) {
			a.Fail(s.noStep(err))
			return nil
		}
		s.show(n - 1)
	}
	a.Used()
	return cmd
}

func (s *Screen) noStep(err error) error {
	if err != nil {
		return errPast
	}
	return fmt.Errorf("there are steps 1 to %d; last is the record after them", len(s.Steps))
}

func (s *Screen) Help() (string, [][2]string) {
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
