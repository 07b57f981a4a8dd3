package frame

import (
	"errors"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/session/reading"
	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/theme"
)

// Screen is one of the things that the whole terminal can show. It is a
// pointer: it changes in place.
type Screen interface {
	// draw draws all above the rule.
	Draw(p *Page, typed string)
	// foot says what stands below it.
	Foot(s Sizes) Foot
	// take takes a line that was entered. A function key enters its word.
	Take(a *App, text string) tea.Cmd
	// esc is left by the escape key.
	Esc(a *App)
}

// echoer understands what is typed while it is typed.
type echoer interface {
	Echo(typed string) (understood string, ok bool)
}

// nudger moves what is typed by a step.
type nudger interface {
	Nudge(typed string, right, up int) (string, bool)
}

// pointed puts what is typed where the mouse points.
type pointed interface {
	Point(s Sizes, aspect float64, col, row int) (string, bool)
}

// hider is a screen on which what is typed is not to be seen.
type hider interface{ Hides() bool }

// dragger is a screen of which the mouse may drag a part.
type dragger interface{ Drag(m tea.MouseEvent) bool }

// Foot is what stands below the rule beside what is typed.
type Foot struct {
	Caution string // where the hand is about to act; "" = none
	Brief   string // the same in a row of the smallest screen
	Rule    string // what stands in the rule's right end, whatever is asked
	Prompt  string
	Hint    string // what an empty line would say
	Keys    []Key
}

// App is the whole of the terminal UI: which screen is shown, what is typed
// there, and what the terminal is like. The alignment itself is in the screens'
// session alone.
type App struct {
	Desk *desk.Desk
	Now  func() time.Time
	Seed func() uint64 // of a new practice telescope

	Theme  theme.Name
	Depth  theme.Depth
	Glyphs schematic.Glyphs
	aspect float64
	Window func() float64 // reads the aspect again
	Large  bool
	Words  func() Screen // what the words mean; nil: nothing says so
	Mouse  bool
	Crash  desk.CrashLog

	cols, Rows int
	Stack      []*shown
	Note       string // said below the rule until the next key
	Bad        bool   // and it says what was not understood
	Version    int    // counts what may have changed what is drawn
	Memo       memo
	LastKey    time.Time
	FromLine   bool           // what is being taken was typed, not a key's word
	Again      func() tea.Cmd // begins, without a record, what could not be begun with one

	watching bool // a timer looks for what a screen waits for

	Exit     int
	Quitting bool
	Farewell []string // printed once the terminal is as it was
}

// Exit codes of the terminal.
const (
	ExitDone        = 0
	ExitUnfinished  = 1
	ExitInterrupted = 130
)

// shown is a screen and what is typed in it.
type shown struct {
	Screen
	Line Line
}

func (a *App) Top() *shown { return a.Stack[len(a.Stack)-1] }

// Push shows a screen over the present one, whose typed line stays.
func (a *App) Push(s Screen) {
	a.Stack = append(a.Stack, &shown{Screen: s})
	a.Version++
}

// Pop goes back to the screen below; below the last is the end.
func (a *App) Pop() tea.Cmd {
	a.FromLine = false // what is typed below is not what was just taken
	a.Stack = a.Stack[:len(a.Stack)-1]
	a.Version++
	if len(a.Stack) == 0 {
		return a.Quit()
	}
	if s, ok := a.Top().Screen.(returner); ok {
		s.Returned(a)
	}
	return nil
}

// ticker is a screen that goes on by itself. What it has asked for comes back
// to it while it is shown, and whatever else is no key.
type ticker interface {
	Ticked(a *App, msg tea.Msg) tea.Cmd
}

// Leaver is a screen with something to close when the program is left at once.
type Leaver interface{ Abandon(a *App) }

// sleeper is a screen at which something may have been done, or forgotten,
// while nobody typed. wakeUp asks about it; nil = there is nothing to ask.
type sleeper interface{ WakeUp() Screen }

// returner is a screen that has to look again when it is come back to.
type returner interface{ Returned(a *App) }

// Replace shows a screen in the place of the present one.
func (a *App) Replace(s Screen) {
	a.Stack[len(a.Stack)-1] = &shown{Screen: s}
	a.Version++
}

func (a *App) Quit() tea.Cmd {
	a.Quitting = true
	return tea.Quit
}

// leaving reports whether the program is being left: there is nothing below the
// last screen.
func (a *App) leaving() bool { return a.Quitting || len(a.Stack) == 0 }

// Say says something back below the rule.
func (a *App) Say(text string) { a.Note, a.Bad = text, false }

// Fail says what was not understood, or could not be done. What was typed
// stays, until something else is.
func (a *App) Fail(err error) {
	a.Note, a.Bad = err.Error(), true
	if a.FromLine && len(a.Stack) > 0 {
		a.Top().Line.refuse(a.Note)
	}
}

// Init asks for nothing: the terminal tells its size by itself.
func (a *App) Init() tea.Cmd { return nil }

// Update is the one place where messages are routed. Once it is being left
// nothing is taken any more: keys may come before the order to quit is through.
func (a *App) Update(msg tea.Msg) (m tea.Model, cmd tea.Cmd) {
	defer a.survive("update", func() {
		m, cmd = a, nil
		if a.leaving() {
			cmd = a.Quit()
		}
	})
	if a.leaving() {
		return a, a.Quit()
	}
	defer func() { cmd = tea.Batch(cmd, a.watch()) }()
	switch msg := msg.(type) {
	case watchMsg:
		a.watched()
	case tea.WindowSizeMsg:
		a.cols, a.Rows, a.aspect = msg.Width, msg.Height, a.Window()
		a.Version++
	case tea.KeyMsg:
		return a, a.key(msg)
	case tea.MouseMsg:
		a.Point(tea.MouseEvent(msg))
	case tea.ResumeMsg:
		// What was asked before may have been done meanwhile.
		a.wake()
		if a.Mouse {
			return a, tea.EnableMouseCellMotion // suspending has switched it off
		}
	default:
		if s, ok := a.Top().Screen.(ticker); ok {
			return a, s.Ticked(a, msg)
		}
	}
	return a, nil
}

// enter takes an entered line or the word of a function key: the words that
// hold on every screen first, then the screen's own.
func (a *App) enter(text string) tea.Cmd {
	a.Version++
	if !a.answers(text) {
		switch reading.Command(text) {
		case "h", "help":
			a.Used()
			if sh, ok := a.Top().Screen.(*Sheet); ok && sh.isHelp && a.Words != nil {
				a.Push(a.Words())
				return nil
			}
			a.Push(helpFor(a.Top().Screen))
			return nil
		case "t", "theme":
			a.Used()
			a.Theme = a.Theme.Next()
			a.Say("theme: " + string(a.Theme))
			return nil
		case "large":
			a.Used()
			a.Large = !a.Large
			if s, ok := SizesFor(a.cols, a.Rows, a.Large, false); a.Large && (!ok || !s.Projector) {
				a.Say("large letters need a window of 120 x 36")
			}
			return nil
		case "mouse":
			a.Used()
			return a.toggleMouse()
		case "go on":
			if a.Again != nil {
				a.Used()
				return a.unkept()
			}
		}
	}
	return a.Top().Take(a, text)
}

// unkept begins without a record what could not be begun with one.
func (a *App) unkept() tea.Cmd {
	again := a.Again
	a.Again, a.Desk.Unkept = nil, true
	cmd := again()
	if !a.Bad {
		a.Say("nothing of it is saved")
	}
	return cmd
}

// Used empties the line once what was typed in it is taken. What a function key
// enters leaves the line as it is.
func (a *App) Used() {
	if a.FromLine {
		a.Top().Line, a.FromLine = Line{}, false
	}
}

// freeText is a screen whose line may hold any words.
type freeText interface{ IsFree() bool }

// lettered is a screen at which a letter that is a command elsewhere may begin
// an answer.
type lettered interface{ Begins(word string) bool }

// answers reports whether a line is for the screen alone, whatever it says
// elsewhere.
func (a *App) answers(text string) bool {
	if free, ok := a.Top().Screen.(freeText); ok && free.IsFree() {
		return true
	}
	own, ok := a.Top().Screen.(lettered)
	return ok && own.Begins(text)
}

func (a *App) toggleMouse() tea.Cmd {
	a.Mouse = !a.Mouse
	if a.Mouse {
		a.Say("the mouse may point: shift-drag selects text")
		return tea.EnableMouseCellMotion
	}
	a.Say("the mouse is the terminal's again")
	return tea.DisableMouse
}

// Asleep is after how long without a key somebody may have done, or forgotten,
// what was asked.
const Asleep = 20 * time.Minute

// wake asks what became of the move that was told last; it reports whether
// there is anything to ask.
func (a *App) wake() bool {
	s, ok := a.Top().Screen.(sleeper)
	if !ok {
		return false
	}
	asks := s.WakeUp()
	if asks == nil {
		return false
	}
	a.Push(asks)
	return true
}

// Point types what the mouse points at.
func (a *App) Point(m tea.MouseEvent) {
	if d, ok := a.Top().Screen.(dragger); ok && a.Mouse && d.Drag(m) {
		a.Version++
		return
	}
	if m.Action != tea.MouseActionPress || m.Button != tea.MouseButtonLeft || !a.Mouse {
		return
	}
	top := a.Top()
	for _, z := range a.Memo.Zones {
		if z.Holds(m.X, m.Y) {
			a.pointed(z.typed)
			return
		}
	}
	s, ok := SizesFor(a.cols, a.Rows, a.Large, a.Glyphs == schematic.ASCII)
	if n, can := top.Screen.(pointed); ok && can {
		if text, hit := n.Point(s, a.cellAspect(), m.X, m.Y); hit {
			a.pointed(text)
		}
	}
}

// pointed types what was pointed at, as a key would.
func (a *App) pointed(text string) {
	a.Note, a.Bad = "", false
	a.Top().Line.Set(text)
}

func (a *App) cellAspect() float64 {
	if a.aspect >= 1 && a.aspect <= 4 {
		return a.aspect
	}
	return 2
}

// OnlyEnter refuses a word where nothing is asked.
func (a *App) OnlyEnter() {
	if a.Top().Line.empty() {
		a.Fail(errEnter)
		return
	}
	a.Fail(errClear)
}

// The answers to a word where only Enter goes on: it stands in the line, or a
// key has entered it.
var (
	errClear = errors.New("nothing is asked here: Ctrl-U clears the line, then Enter goes on")
	errEnter = errors.New("press Enter to go on")
)
