package teach

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/optics/virtual"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/views/desk"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// Bench says what the instructor's bench begins with. The zero Bench is the
// built-in telescope, easy, with a seed of its own.
type Bench struct {
	Scope scope.Scope
	Level virtual.Level
	Seed  *uint64
	Blank bool // nothing of what is set up is to be seen
}

// benchPage is where an instructor sets up a practice telescope, fault by
// fault, and hands it over.
type benchPage struct {
	desk  *desk.Desk // with the trainee's name
	scope scope.Scope
	set   virtual.Arranged
	seed  uint64
	from  int  // the first line shown
	shown int  // how many, as last drawn
	blank bool // nothing of it is to be seen: a class looks on
}

// ShowBench shows the instructor's bench.
func ShowBench(a *frame.App, b Bench) {
	d := *a.Desk
	s := &benchPage{desk: &d, scope: b.Scope, set: virtual.Arranged{Level: b.Level}, seed: a.Seed(), blank: b.Blank || a.Large || a.Theme == theme.Projector}
	if s.scope.Name == "" {
		s.scope = scope.Builtin()
	}
	if b.Seed != nil {
		s.seed = *b.Seed
	}
	a.Push(s)
}

// understood is what a typed line means: the number before a line of the list
// is the word in it.
func (s *benchPage) understood(typed string) string {
	first, rest, _ := strings.Cut(strings.TrimSpace(typed), " ")
	if n, err := strconv.Atoi(first); err == nil && n >= 1 && n <= len(virtual.Knobs()) {
		return strings.TrimSpace(virtual.Knobs()[n-1].Name + " " + rest)
	}
	return strings.ToLower(strings.Join(strings.Fields(typed), " "))
}

// unfinished reports whether a line names a knob that takes more than its name.
func unfinished(line string) (virtual.Knob, bool) {
	for _, k := range virtual.Knobs() {
		if line == k.Name {
			return k, k.Takes() != ""
		}
	}
	return virtual.Knob{}, false
}

// Hides what is typed while a class looks on.
func (s *benchPage) Hides() bool { return s.blank }

func (s *benchPage) Echo(typed string) (string, bool) {
	if s.blank {
		return "", false
	}
	line := s.understood(typed)
	if k, more := unfinished(line); more {
		return k.Name + " ... " + k.Takes(), true
	}
	if _, err := s.set.With(s.scope.Telescope(), line); err == nil {
		return line, true
	}
	return "", false
}

var errBlank = errors.New("not accepted: list shows all that can be set, to everybody; or type it anew")

var errHandOver = errors.New("that is all of the list: say hand over, to give it to a trainee")

func (s *benchPage) Take(a *frame.App, text string) tea.Cmd {
	line := s.understood(text)
	verb, rest, _ := strings.Cut(line, " ")
	switch line {
	case "q", "quit", "b", "back":
		return a.Pop()
	case "":
		s.turnPage(a)
		return nil
	case "blank", "list":
		a.Used()
		s.blank = line == "blank"
		return nil
	case "hand over", "hand", "over":
		a.Used()
		s.handOver(a)
		return nil
	case "light", "light path", "path":
		a.Used()
		a.Push(newPathPage(s.scope))
		return nil
	case "clear":
		a.Used()
		s.set = virtual.Arranged{Level: s.set.Level}
		return nil
	}
	switch verb {
	case "name", "who":
		a.Used()
		s.desk.Who = strings.TrimSpace(strings.TrimSpace(text)[len(verb):])
		return nil
	case "seed":
		n, err := strconv.ParseUint(rest, 10, 64)
		if err != nil {
			a.Fail(errors.New("a seed is a whole number, as in: seed 7"))
			return nil
		}
		a.Used()
		s.seed = n
		return nil
	}
	if k, more := unfinished(line); more && !s.blank {
		a.Top().Line.Set(k.Name + " ")
		a.Say(k.Says + ": type " + k.Takes() + " after it, or off")
		return nil
	}
	set, err := s.set.With(s.scope.Telescope(), line)
	if err != nil && s.blank {
		err = errBlank // the error would name it
	}
	if err != nil {
		a.Fail(err)
		return nil
	}
	a.Used()
	s.set = set
	if s.blank {
		a.Say(fmt.Sprintf("accepted; set by hand: %d", len(set.Set())))
	}
	s.turnTo(verb)
	return nil
}

// turnTo shows the part of the list where the line of that name stands, so that
// what was set up is seen.
func (s *benchPage) turnTo(name string) {
	i := slices.IndexFunc(benchRows(), func(r benchRow) bool { return r.n > 0 && r.knob.Name == name })
	if s.shown > 0 && (i < s.from || i >= s.from+s.shown) {
		s.from = i - i%s.shown
	}
}

// turnPage shows the next lines of the list; after the last, the first.
func (s *benchPage) turnPage(a *frame.App) {
	switch n := len(benchRows()); {
	case s.shown >= n:
		a.Fail(errHandOver)
	case s.from+s.shown >= n:
		s.from = 0
	default:
		s.from += s.shown
	}
}

// handOver begins the session that the trainee plays, the instructor beside it.
func (s *benchPage) handOver(a *frame.App) {
	w, err := s.desk.Practice(s.scope, event.World{Seed: s.seed, Level: s.set.String()})
	align.Opened(a, w, err, func() tea.Cmd {
		s.desk.Unkept = a.Desk.Unkept
		s.handOver(a)
		return nil
	})
	if err == nil {
		at := a.Top().Screen.(*align.Screen)
		at.By = &instructor{align: at, again: s.handOver}
	}
}

func (s *benchPage) Esc(a *frame.App) { a.Pop() }

func (s *benchPage) Foot(sz frame.Sizes) frame.Foot {
	f := frame.Foot{Prompt: "set up?", Hint: "a fault's number or name; hand over to begin", Keys: []frame.Key{
		{F: "enter", Word: "", Label: "more"}, {F: "hand over", Word: "", Label: "begin"}, {F: "light path", Word: "", Label: "large"}, {F: "clear", Word: "", Label: "all off"},
		frame.KeyFor("help"), frame.KeyFor("theme"), {F: "esc", Word: "", Label: "back"},
	}}
	if s.blank {
		f.Hint = "nobody sees what you type; hand over begins"
		f.Keys = []frame.Key{{F: "hand over", Word: "", Label: "begin"}, {F: "list", Word: "", Label: "show it"}, frame.KeyFor("help"), frame.KeyFor("theme"), {F: "esc", Word: "", Label: "back"}}
	} else if !sz.Narrow() {
		f.Keys = append(f.Keys[:4:4], append([]frame.Key{{F: "blank", Word: "", Label: "hide it"}}, f.Keys[4:]...)...)
	}
	if sz.Narrow() {
		f.Hint = "or: hand over"
	}
	return f
}

// heading says what is set up on, for whom, and from which seed.
func (s *benchPage) heading() (title, right string) {
	who := ""
	if s.desk.Who != "" {
		who = "for " + s.desk.Who + ", "
	}
	level := s.set.Level
	if level == "" {
		level = virtual.Easy
	}
	return "bench: " + s.scope.Name, fmt.Sprintf("%slevel %s, seed %d", who, level, s.seed)
}
