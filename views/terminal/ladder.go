package terminal

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/charmbracelet/bubbletea"

	"spotward/session/lesson"
	"spotward/views/desk"
)

// ladderPage is the ladder of lessons, and how far a trainee has come.
type ladderPage struct {
	desk    *desk.Desk // with the trainee's name
	results []lesson.Result
	naming  bool // the name is asked for
	from    int  // the first lesson shown; below zero: where the next one is seen
	shown   int  // how many, as last drawn
}

// showLadder shows the ladder; where nobody has said a name, it is asked for.
func showLadder(a *app) *ladderPage {
	d := *a.desk
	s := &ladderPage{desk: &d, naming: d.Library != nil && d.Who == "", from: -1}
	s.read(a)
	a.push(s)
	return s
}

func (s *ladderPage) returned(a *app) { s.read(a) }

// read looks at the trainee's results again.
func (s *ladderPage) read(a *app) {
	results, err := s.desk.Results()
	if err != nil {
		a.fail(err)
	}
	s.results = results
}

// isFree: a name may be any word.
func (s *ladderPage) isFree() bool { return s.naming }

// next is the lesson that comes next: the first that is not passed.
func (s *ladderPage) next() int {
	best := desk.Progress(s.results)
	for i, l := range lesson.All() {
		if !best[l.ID].Passed {
			return i + 1
		}
	}
	return 1
}

// meant is the lesson that typed text means; the next one for an empty line.
func (s *ladderPage) meant(typed string) (int, bool) {
	word := strings.ToLower(strings.TrimSpace(typed))
	if word == "" {
		return s.next(), true
	}
	for i, l := range lesson.All() {
		if word == strconv.Itoa(i+1) || word == l.ID || word == l.Title {
			return i + 1, true
		}
	}
	return 0, false
}

func (s *ladderPage) echo(typed string) (string, bool) {
	if s.naming {
		return "", false
	}
	n, ok := s.meant(typed)
	if !ok {
		return "", false
	}
	return lesson.All()[n-1].Title, true
}

func (s *ladderPage) take(a *app, text string) tea.Cmd {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "q", "quit", "b", "back": // while a name is asked for as well
		return a.pop()
	}
	if s.naming {
		if a.fromLine {
			s.named(a, strings.TrimSpace(text))
		} else {
			a.fail(errName)
		}
		return nil
	}
	verb, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	switch strings.ToLower(verb) {
	case "name", "who":
		if rest == "" {
			s.naming = true
			a.used()
			return nil
		}
		s.named(a, strings.TrimSpace(rest))
		return nil
	case "more":
		a.used()
		if s.from = max(0, s.from) + s.shown; s.from >= len(lesson.All()) {
			s.from = 0
		}
		return nil
	case "sign", "results":
		a.used()
		if s.desk.Who == "" {
			showTrainees(a, s.desk)
		} else {
			a.push(signOff(s.desk.Who, s.results))
		}
		return nil
	}
	n, ok := s.meant(text)
	if !ok {
		a.fail(fmt.Errorf("say a number from 1 to %d, results, name, or back", len(lesson.All())))
		return nil
	}
	a.used()
	beginLesson(a, s.desk, n)
	return nil
}

var (
	errNotKept = errors.New("nothing is kept here: start without --no-record to keep a trainee's progress")
	errName    = errors.New("type a name and press Enter, or press Enter alone")
)

// named takes the trainee's name; none is one too.
func (s *ladderPage) named(a *app, name string) {
	if s.desk.Library == nil {
		a.fail(errNotKept)
		return
	}
	if name != "" {
		if _, err := s.desk.Library.LessonsOf(name); err != nil {
			a.fail(err)
			return
		}
	}
	a.used()
	s.naming, s.desk.Who = false, name
	s.read(a)
}

func (s *ladderPage) esc(a *app) { a.pop() }

// signOff is what an instructor reads: what may be signed off, and the figures
// of each lesson.
func signOff(who string, results []lesson.Result) *sheet {
	sh := &sheet{title: "results"}
	if who != "" {
		sh.title = "results of " + who
	}
	sh.parts = append(sh.parts, part{head: "to sign off"})
	for _, c := range lesson.SignOff(results) {
		sh.parts = append(sh.parts, part{mark: pad(yesNo(c.Met), 7), text: c.Words})
	}
	sh.parts = append(sh.parts, part{head: "lessons"})
	best := desk.Progress(results)
	for i, l := range lesson.All() {
		mark := pad(fmt.Sprintf("%2d", i+1), 3)
		r, ok := best[l.ID]
		if !ok {
			sh.parts = append(sh.parts, part{mark: mark, text: l.Title + ": not taken yet"})
			continue
		}
		text := l.Title + ": " + desk.PassedWords(r) + ". " + desk.ResultWords(r)
		for _, deed := range r.Deeds {
			text += " " + sentence(deed)
		}
		sh.parts = append(sh.parts, part{mark: mark, text: text})
	}
	return sh
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "not yet"
}
