package teach

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/session/lesson"
	"spotward/views/desk"
	"spotward/views/teach"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

// LadderPage is the ladder of lessons, and how far a trainee has come.
type LadderPage struct {
	Desk    *desk.Desk // with the trainee's name
	results []lesson.Result
	signed  []string // who has signed, a line each
	Naming  bool     // the name is asked for
	from    int      // the first lesson shown; below zero: where the next one is seen
	shown   int      // how many, as last drawn
}

// ShowLadder shows the ladder; where nobody has said a name, it is asked for.
func ShowLadder(a *frame.App) *LadderPage {
	d := *a.Desk
	s := &LadderPage{Desk: &d, Naming: d.Library != nil && d.Who == "", from: -1}
	s.read(a)
	a.Push(s)
	return s
}

func (s *LadderPage) Returned(a *frame.App) { s.read(a) }

// read looks at the trainee's results again.
func (s *LadderPage) read(a *frame.App) {
	results, err := teach.Results(s.Desk)
	if err != nil {
		a.Fail(err)
	}
	s.results = results
	s.signed = signedLines(a, s.Desk)
}

// signedLines says who has signed for a desk's trainee.
func signedLines(a *frame.App, d *desk.Desk) (lines []string) {
	signed, err := teach.Signed(d)
	if err != nil {
		a.Fail(err)
	}
	for _, one := range signed {
		lines = append(lines, teach.SignedWords(one, d.Now()))
	}
	return lines
}

// sign signs the trainee off, by an instructor.
func (s *LadderPage) sign(a *frame.App, by string) {
	signed, err := teach.Sign(s.Desk, by, 0)
	if err != nil {
		a.Fail(err)
		return
	}
	a.Used()
	s.read(a)
	a.Say(teach.SignedWords(signed, s.Desk.Now()))
}

// IsFree: a name may be any word.
func (s *LadderPage) IsFree() bool { return s.Naming }

// next is the lesson that comes next: the first that is not passed.
func (s *LadderPage) next() int {
	best := teach.Progress(s.results)
	for i, l := range lesson.All() {
		if !best[l.ID].Passed {
			return i
		}
	}
	return 0
}

// meant is the lesson that typed text means; the next one for an empty line.
func (s *LadderPage) meant(typed string) (int, bool) {
	word := strings.ToLower(strings.TrimSpace(typed))
	if word == "" {
		return s.next(), true
	}
	for i, l := range lesson.All() {
		if word == strconv.Itoa(i) || word == l.ID || word == l.Title {
			return i, true
		}
	}
	return 0, false
}

func (s *LadderPage) Echo(typed string) (string, bool) {
	if s.Naming {
		return "", false
	}
	n, ok := s.meant(typed)
	if !ok {
		return "", false
	}
	return lesson.All()[n].Title, true
}

func (s *LadderPage) Take(a *frame.App, text string) tea.Cmd {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "q", "quit", "b", "back": // while a name is asked for as well
		return a.Pop()
	}
	if s.Naming {
		if a.FromLine {
			s.named(a, strings.TrimSpace(text))
		} else {
			a.Fail(errName)
		}
		return nil
	}
	verb, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	switch strings.ToLower(verb) {
	case "name", "who":
		if rest == "" {
			s.Naming = true
			a.Used()
			return nil
		}
		s.named(a, strings.TrimSpace(rest))
		return nil
	case "more":
		a.Used()
		if s.from = max(0, s.from) + s.shown; s.from >= len(lesson.All()) {
			s.from = 0
		}
		return nil
	case "sign":
		if by := strings.TrimSpace(rest); by != "" && by != "off" {
			s.sign(a, by)
			return nil
		}
		fallthrough
	case "results":
		a.Used()
		if s.Desk.Who == "" {
			showTrainees(a, s.Desk)
		} else {
			a.Push(signOff(s.Desk.Who, s.results, s.signed))
		}
		return nil
	}
	n, ok := s.meant(text)
	if !ok {
		a.Fail(fmt.Errorf("say a number from 0 to %d, results, name, or back", len(lesson.All())-1))
		return nil
	}
	a.Used()
	BeginLesson(a, s.Desk, n)
	return nil
}

var (
	errNotKept = errors.New("nothing is saved here: start without --no-record to keep a trainee's progress")
	errName    = errors.New("type a name and press Enter, or press Enter alone")
)

// named takes the trainee's name; none is one too.
func (s *LadderPage) named(a *frame.App, name string) {
	if s.Desk.Library == nil {
		a.Fail(errNotKept)
		return
	}
	if name != "" {
		if _, err := s.Desk.Library.LessonsOf(name); err != nil {
			a.Fail(err)
			return
		}
	}
	a.Used()
	s.Naming, s.Desk.Who = false, name
	s.read(a)
}

func (s *LadderPage) Esc(a *frame.App) { a.Pop() }

// signOff is what an instructor reads: what may be signed off, and the figures
// of each lesson.
func signOff(who string, results []lesson.Result, signed []string) *frame.Sheet {
	sh := &frame.Sheet{Title: "results"}
	if who != "" {
		sh.Title = "results of " + who
	}
	sh.Parts = append(sh.Parts, frame.Part{Head: "to sign off"})
	for _, c := range lesson.SignOff(results) {
		sh.Parts = append(sh.Parts, frame.Part{Mark: frame.Pad(yesNo(c.Met), 7), Text: c.Words})
	}
	for _, line := range signed {
		sh.Parts = append(sh.Parts, frame.Part{Text: line})
	}
	if len(signed) == 0 && who != "" {
		sh.Parts = append(sh.Parts, frame.Part{Text: "Nobody has signed yet. Once all is shown, an instructor types sign and a name on the page before."})
	}
	sh.Parts = append(sh.Parts, frame.Part{Head: "lessons"})
	best := teach.Progress(results)
	for i, l := range lesson.All() {
		mark := frame.Pad(fmt.Sprintf("%2d", i), 3)
		r, ok := best[l.ID]
		if !ok {
			sh.Parts = append(sh.Parts, frame.Part{Mark: mark, Text: l.Title + ": not taken yet"})
			continue
		}
		text := l.Title + ": " + teach.PassedWords(r) + ". " + teach.ResultWords(r)
		for _, deed := range r.Deeds {
			text += " " + align.Sentence(deed)
		}
		sh.Parts = append(sh.Parts, frame.Part{Mark: mark, Text: text})
	}
	return sh
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "not yet"
}
