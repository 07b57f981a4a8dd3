package terminal

import (
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/theme"
)

// screen is one of the things that the whole terminal can show. It is a
// pointer: it changes in place.
type screen interface {
	// draw draws all above the rule.
	draw(p *page, typed string)
	// foot says what stands below it.
	foot(s sizes) foot
	// take takes a line that was entered. A function key enters its word.
	take(a *app, text string) tea.Cmd
	// esc is left by the escape key.
	esc(a *app)
}

// echoer understands what is typed while it is typed.
type echoer interface {
	echo(typed string) (understood string, ok bool)
}

// nudger moves what is typed by a step, or puts it where the mouse points.
type nudger interface {
	nudge(typed string, right, up int) (string, bool)
	point(s sizes, aspect float64, col, row int) (string, bool)
}

// dragger is a screen of which the mouse may drag a part.
type dragger interface{ drag(m tea.MouseEvent) bool }

// foot is what stands below the rule beside what is typed.
type foot struct {
	caution string // where the hand is about to act; "" = none
	rule    string // what stands in the rule's right end, whatever is asked
	prompt  string
	hint    string // what an empty line would say
	keys    []key
}

// app is the whole of the terminal UI: which screen is shown, what is typed
// there, and what the terminal is like. The alignment itself is in the screens'
// session alone.
type app struct {
	desk *desk.Desk
	now  func() time.Time
	seed func() uint64 // of a new practice telescope

	theme  theme.Name
	depth  theme.Depth
	glyphs schematic.Glyphs
	aspect float64
	window func() float64 // reads the aspect again
	large  bool
	mouse  bool
	crash  desk.CrashLog

	cols, rows int
	stack      []*shown
	note       string // said below the rule until the next key
	bad        bool   // and it says what was not understood
	version    int    // counts what may have changed what is drawn
	memo       memo
	lastKey    time.Time
	fromLine   bool           // what is being taken was typed, not a key's word
	again      func() tea.Cmd // begins, without a record, what could not be begun with one

	exit     int
	quitting bool
	farewell []string // printed once the terminal is as it was
}

// Exit codes of the terminal.
const (
	exitDone        = 0
	exitUnfinished  = 1
	exitInterrupted = 130
)

// shown is a screen and what is typed in it.
type shown struct {
	screen
	line line
}

func (a *app) top() *shown { return a.stack[len(a.stack)-1] }

// push shows a screen over the present one, whose typed line stays.
func (a *app) push(s screen) {
	a.stack = append(a.stack, &shown{screen: s})
	a.version++
}

// pop goes back to the screen below; below the last is the end.
func (a *app) pop() tea.Cmd {
	a.fromLine = false // what is typed below is not what was just taken
	a.stack = a.stack[:len(a.stack)-1]
	a.version++
	if len(a.stack) == 0 {
		return a.quit()
	}
	if s, ok := a.top().screen.(returner); ok {
		s.returned(a)
	}
	return nil
}

// ticker is a screen that goes on by itself. What it has asked for comes back
// to it while it is shown, and whatever else is no key.
type ticker interface {
	ticked(a *app, msg tea.Msg) tea.Cmd
}

// leaver is a screen with something to close when the program is left at once.
type leaver interface{ abandon(a *app) }

// sleeper is a screen at which something may have been done, or forgotten,
// while nobody typed. wakeUp asks about it; nil = there is nothing to ask.
type sleeper interface{ wakeUp() screen }

// returner is a screen that has to look again when it is come back to.
type returner interface{ returned(a *app) }

// replace shows a screen in the place of the present one.
func (a *app) replace(s screen) {
	a.stack[len(a.stack)-1] = &shown{screen: s}
	a.version++
}

func (a *app) quit() tea.Cmd {
	a.quitting = true
	return tea.Quit
}

// leaving reports whether the program is being left: there is nothing below the
// last screen.
func (a *app) leaving() bool { return a.quitting || len(a.stack) == 0 }

// say says something back below the rule.
func (a *app) say(text string) { a.note, a.bad = text, false }

// fail says what was not understood, or could not be done. What was typed
// stays, until something else is.
func (a *app) fail(err error) {
	a.note, a.bad = err.Error(), true
	if a.fromLine && len(a.stack) > 0 {
		a.top().line.refuse(a.note)
	}
}

// Init asks for nothing: the terminal tells its size by itself.
func (a *app) Init() tea.Cmd { return nil }

// Update is the one place where messages are routed. Once it is being left
// nothing is taken any more: keys may come before the order to quit is through.
func (a *app) Update(msg tea.Msg) (m tea.Model, cmd tea.Cmd) {
	defer a.survive("update", func() {
		m, cmd = a, nil
		if a.leaving() {
			cmd = a.quit()
		}
	})
	if a.leaving() {
		return a, a.quit()
	}
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		a.cols, a.rows, a.aspect = msg.Width, msg.Height, a.window()
		a.version++
	case tea.KeyMsg:
		return a, a.key(msg)
	case tea.MouseMsg:
		a.point(tea.MouseEvent(msg))
	case tea.ResumeMsg:
		// What was asked before may have been done meanwhile.
		a.wake()
		if a.mouse {
			return a, tea.EnableMouseCellMotion // suspending has switched it off
		}
	default:
		if s, ok := a.top().screen.(ticker); ok {
			return a, s.ticked(a, msg)
		}
	}
	return a, nil
}

// enter takes an entered line or the word of a function key: the words that
// hold on every screen first, then the screen's own.
func (a *app) enter(text string) tea.Cmd {
	a.version++
	if !a.answers(text) {
		switch strings.ToLower(strings.TrimSpace(text)) {
		case "h", "help", "?":
			a.used()
			a.push(helpFor(a.top().screen))
			return nil
		case "t", "theme":
			a.used()
			a.theme = a.theme.Next()
			a.say("theme: " + string(a.theme))
			return nil
		case "large":
			a.used()
			a.large = !a.large
			if s, ok := sizesFor(a.cols, a.rows, a.large, false); a.large && (!ok || !s.Projector) {
				a.say("large letters need a window of 120 x 36")
			}
			return nil
		case "mouse":
			a.used()
			return a.toggleMouse()
		case "go on":
			if a.again != nil {
				a.used()
				return a.unkept()
			}
		}
	}
	return a.top().take(a, text)
}

// unkept begins without a record what could not be begun with one.
func (a *app) unkept() tea.Cmd {
	again := a.again
	a.again, a.desk.Unkept = nil, true
	cmd := again()
	if !a.bad {
		a.say("nothing of it is kept")
	}
	return cmd
}

// used empties the line once what was typed in it is taken. What a function key
// enters leaves the line as it is.
func (a *app) used() {
	if a.fromLine {
		a.top().line, a.fromLine = line{}, false
	}
}

// freeText is a screen whose line may hold any words.
type freeText interface{ isFree() bool }

// lettered is a screen at which a letter that is a command elsewhere may begin
// an answer.
type lettered interface{ begins(word string) bool }

// answers reports whether a line is for the screen alone, whatever it says
// elsewhere.
func (a *app) answers(text string) bool {
	if free, ok := a.top().screen.(freeText); ok && free.isFree() {
		return true
	}
	own, ok := a.top().screen.(lettered)
	return ok && own.begins(text)
}

func (a *app) toggleMouse() tea.Cmd {
	a.mouse = !a.mouse
	if a.mouse {
		a.say("the mouse may point: shift-drag selects text")
		return tea.EnableMouseCellMotion
	}
	a.say("the mouse is the terminal's again")
	return tea.DisableMouse
}

// asleep is after how long without a key somebody may have done, or forgotten,
// what was asked.
const asleep = 20 * time.Minute

// wake asks what became of the move that was told last; it reports whether
// there is anything to ask.
func (a *app) wake() bool {
	s, ok := a.top().screen.(sleeper)
	if !ok {
		return false
	}
	asks := s.wakeUp()
	if asks == nil {
		return false
	}
	a.push(asks)
	return true
}

// point types what the mouse points at.
func (a *app) point(m tea.MouseEvent) {
	if d, ok := a.top().screen.(dragger); ok && a.mouse && d.drag(m) {
		a.version++
		return
	}
	if m.Action != tea.MouseActionPress || m.Button != tea.MouseButtonLeft || !a.mouse {
		return
	}
	top := a.top()
	for _, z := range a.memo.zones {
		if z.holds(m.X, m.Y) {
			a.pointed(z.typed)
			return
		}
	}
	s, ok := sizesFor(a.cols, a.rows, a.large, a.glyphs == schematic.ASCII)
	if n, can := top.screen.(nudger); ok && can {
		if text, hit := n.point(s, a.cellAspect(), m.X, m.Y); hit {
			a.pointed(text)
		}
	}
}

// pointed types what was pointed at, as a key would.
func (a *app) pointed(text string) {
	a.note, a.bad = "", false
	a.top().line.set(text)
}

func (a *app) cellAspect() float64 {
	if a.aspect >= 1 && a.aspect <= 4 {
		return a.aspect
	}
	return 2
}

// onlyEnter refuses a word where nothing is asked.
func (a *app) onlyEnter() {
	if a.top().line.empty() {
		a.fail(errEnter)
		return
	}
	a.fail(errClear)
}
