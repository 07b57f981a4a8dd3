// Package terminal is the face for people in front of a terminal: drawings,
// one line to type in, function keys that type words.
//
// It sends lines and draws states; where a spot is and what to do about it is
// decided by the session. Everything can be done by words in the line; letters
// never act by themselves.
package terminal

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"

	"github.com/charmbracelet/bubbletea"
	"github.com/mattn/go-runewidth"

	"spotward/session/lesson"
	"spotward/session/scope"
	"spotward/views/desk"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/terminal/home"
	"spotward/views/terminal/past"
	_ "spotward/views/terminal/quiet"
	"spotward/views/terminal/teach"
	"spotward/views/theme"
)

// Start is what is shown first.
type Start uint8

// The front page, a session that is in hand, sessions that are looked back at
// (one is replayed, two are compared), the lessons, the instructor's bench, or
// the form of a scope or kit.
const (
	StartFront Start = iota
	StartWork
	StartRecords
	StartLessons
	StartBench
	StartForm
)

// Options say how the terminal UI is to run. Input and Output must be a
// terminal.
type Options struct {
	Start     Start
	Work      *desk.Work  // with StartWork
	Lesson    string      // with StartLessons: the id of the one to begin with; "" = the ladder
	Bench     teach.Bench // with StartBench
	Records   []string    // their ids, with StartRecords
	Form      *scope.Form // with StartForm
	Theme     string      // "" = dark
	Projector bool        // large letters
	ASCII     bool
	NoMouse   bool
	Input     io.Reader // nil = standard input
	Output    io.Writer // nil = standard output
}

// framesPerSecond is how often the screen is looked over for changes: more
// would only keep the processor awake.
const framesPerSecond = 30

// Run shows the terminal UI until it is left, and leaves the terminal as it
// was. It returns the exit code: 0 done, 1 unfinished, 130 interrupted.
func Run(d *desk.Desk, o Options) (exit int, err error) {
	a, err := newApp(d, o, os.Getenv)
	if err != nil {
		return frame.ExitUnfinished, err
	}
	// Some settings count boxes and crosses as two columns; terminals do not.
	runewidth.DefaultCondition.EastAsianWidth = false

	// No signal may take the program with it before the screen is put back and
	// the journal is closed.
	ctx, ends := watchEnds(o.Input, o.Output)
	defer ends.stop()
	opts := []tea.ProgramOption{tea.WithAltScreen(), tea.WithFPS(framesPerSecond), tea.WithContext(ctx), tea.WithoutSignalHandler()}
	if a.Mouse {
		opts = append(opts, tea.WithMouseCellMotion())
	}
	if o.Input != nil && o.Input != io.Reader(os.Stdin) {
		opts = append(opts, tea.WithInput(o.Input))
	}
	if o.Output != nil {
		opts = append(opts, tea.WithOutput(o.Output))
	}
	_, err = tea.NewProgram(a, opts...).Run()
	ends.screenIsBack()
	return ended(a, err, o.Output)
}

// ended turns the end of the program into an exit code, and says what is left
// to say.
func ended(a *frame.App, err error, out io.Writer) (int, error) {
	for _, s := range a.Stack {
		if s, ok := s.Screen.(frame.Leaver); ok {
			s.Abandon(a)
		}
	}
	if out == nil {
		out = os.Stdout
	}
	for _, l := range a.Farewell {
		fmt.Fprintln(out, l)
	}
	switch {
	case errors.Is(err, tea.ErrProgramPanic):
		return frame.ExitUnfinished, fmt.Errorf("a fault of the program; what was accepted is saved in %s; if the terminal looks odd, type reset", a.Crash.Dir)
	case errors.Is(err, context.Canceled), errors.Is(err, tea.ErrInterrupted):
		return frame.ExitInterrupted, nil
	case err != nil:
		return frame.ExitUnfinished, err
	case !a.Quitting: // a signal has ended it
		return frame.ExitInterrupted, nil
	}
	return a.Exit, nil
}

func newApp(d *desk.Desk, o Options, env func(string) string) (*frame.App, error) {
	name := theme.Dark
	if o.Theme != "" {
		var err error
		if name, err = theme.Parse(o.Theme); err != nil {
			return nil, err
		}
	}
	if o.Projector && name == theme.Dark {
		name = theme.Projector // black for the room, bright for the back row
	}
	a := &frame.App{
		Desk: d, Now: d.Now, Seed: desk.NewSeed, Theme: name, Depth: frame.Depth(env), Glyphs: frame.Glyphs(o.ASCII, env),
		Large: o.Projector, Words: align.NewWordsPage, Mouse: !o.NoMouse, Crash: desk.CrashLog{Dir: os.TempDir()}, Window: windowOf(o.Output),
	}
	if d.Library != nil {
		a.Crash.Dir = d.Library.Dir()
	}
	switch o.Start {
	case StartWork:
		a.Push(align.New(o.Work))
	case StartRecords:
		s, err := past.LookBack(a, o.Records)
		if err != nil {
			return nil, err
		}
		a.Push(s)
	case StartLessons:
		l := teach.ShowLadder(a)
		if n := slices.IndexFunc(lesson.All(), func(l lesson.Lesson) bool { return l.ID == o.Lesson }); n >= 0 {
			l.Naming = false // it may be said later
			teach.BeginLesson(a, l.Desk, n)
		}
	case StartBench:
		teach.ShowBench(a, o.Bench)
	case StartForm:
		home.ShowForm(a, o.Form, nil)
	default:
		a.Push(home.NewFront(a))
	}
	return a, nil
}

// windowOf returns a reader of the cells' aspect of the terminal that is
// written to.
func windowOf(out io.Writer) func() float64 {
	f, ok := out.(*os.File)
	if !ok {
		f = os.Stdout
	}
	return func() float64 { return frame.CellAspect(f) }
}
