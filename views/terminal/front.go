package terminal

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/charmbracelet/bubbletea"

	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/views/desk"
)

// front is the front page: the scopes known here, what was left unfinished, and
// what can be done.
type front struct {
	scopes  []scope.Scope // the practice telescope first
	open    []history.Unfinished
	last    map[string]session.Record // by scope, the latest that counts
	records int
	from    int // the first line shown, where there are more than fit
	rows    int // shown at once, as last drawn
	height  int // of the whole list
}

func newFront(a *app) *front {
	f := &front{last: map[string]session.Record{}}
	f.read(a)
	return f
}

// returned looks at the shelf again: a session may have ended.
func (f *front) returned(a *app) { f.read(a) }

// read looks at the shelf. What cannot be read is said, and the rest is
// there all the same.
func (f *front) read(a *app) {
	f.scopes, f.open, f.records = []scope.Scope{scope.Builtin()}, nil, 0
	if a.desk.Library == nil {
		return
	}
	scopes, errs := a.desk.Library.Scopes()
	f.scopes = append(f.scopes, scopes...)
	open, more := a.desk.Library.Unfinished("")
	f.open = open
	records, _ := a.desk.Library.Records()
	f.records = len(records)
	for _, r := range records {
		if r.Practice == scope.SameName(r.Scope, scope.Builtin().Name) {
			f.last[strings.ToLower(r.Scope)] = r
		}
	}
	if errs = append(errs, more...); len(errs) > 0 {
		a.fail(errs[0])
	}
}

// entry is a line of the front page: what it says, and what it does.
type entry struct {
	cols [3]string
	do   func(a *app) tea.Cmd
}

// groups are the lines of the front page, numbered on from one to the next.
func (f *front) groups() []group {
	scopes := group{head: "scopes", cols: [3]string{"", "", "last time"}}
	for _, s := range f.scopes {
		scopes.entries = append(scopes.entries, entry{f.scopeLine(s), func(a *app) tea.Cmd {
			a.push(newScopePage(a, s))
			return nil
		}})
	}
	gs := []group{scopes}
	if len(f.open) > 0 {
		g := group{head: "unfinished"}
		for _, u := range f.open {
			g.entries = append(g.entries, entry{openLine(u), func(a *app) tea.Cmd { return f.takeUp(a, u.ID) }})
		}
		gs = append(gs, g)
	}
	more := group{head: "more"}
	more.entries = append(more.entries,
		entry{[3]string{"lessons", "short exercises, from safe hands on", ""}, func(a *app) tea.Cmd { showLadder(a); return nil }},
		entry{[3]string{"bench", "for an instructor: set up a fault", ""}, func(a *app) tea.Cmd { showBench(a, Bench{}); return nil }},
		entry{[3]string{"records", fmt.Sprintf("what was done, %d so far", f.records), ""}, func(a *app) tea.Cmd { return showRecords(a, "") }},
		entry{[3]string{"fleet", "how each scope holds", ""}, showFleet},
		entry{[3]string{"new", "describe a scope of your own", ""}, func(a *app) tea.Cmd { return newScope(a) }})
	return append(gs, more)
}

type group struct {
	head    string
	cols    [3]string
	entries []entry
}

// says reports whether any line of the group has something in a column.
func (g group) says(col int) bool {
	return slices.ContainsFunc(g.entries, func(e entry) bool { return e.cols[col] != "" })
}

func (f *front) scopeLine(s scope.Scope) [3]string {
	t := s.Telescope()
	what := fmt.Sprintf("%.0f mm f/%.1f", t.ApertureMM, t.FocalRatio())
	if scope.SameName(s.Name, scope.Builtin().Name) {
		what += ", not real"
	}
	last := ""
	if r, ok := f.last[strings.ToLower(s.Name)]; ok {
		last = lastWords(r)
	}
	return [3]string{s.Name, what, last}
}

// lastWords says how a scope was left, and how far it had drifted before.
func lastWords(r session.Record) string {
	words := r.Ended.Local().Format("2 Jan 2006") + ", " + tagWords(r.Tag)
	if r.Left.Claimed {
		words += fmt.Sprintf(", %.1f of %.1f mm", r.Left.AxisErrorMM, r.AllowedMM)
	}
	return words
}

func openLine(u history.Unfinished) [3]string {
	what, who := "begun ", ""
	if u.World != nil {
		what = "practice, begun "
	}
	if u.Who != "" {
		who = ", " + u.Who
	}
	return [3]string{u.Scope, what + u.Began.Local().Format("2 Jan 15:04") + who, ""}
}

func (f *front) foot(sizes) foot {
	ft := foot{prompt: "which?", hint: "Enter = 1, Dunlin", keys: footer("choose", "leave", "help", "theme", "large")}
	if f.from > 0 || f.height > f.rows {
		ft.rule = "more lines: up, down"
	}
	return ft
}

// stepKey shows what is above and below.
func (f *front) stepKey(a *app, k tea.KeyType) bool {
	by, ok := map[tea.KeyType]int{tea.KeyUp: -1, tea.KeyDown: 1, tea.KeyPgUp: -10, tea.KeyPgDown: 10}[k]
	if ok {
		f.from = max(0, min(f.from+by, f.height-f.rows))
		a.version++
	}
	return ok
}

func (f *front) esc(a *app) { a.pop() }

var errFront = errors.New("say a number before a line, or: practise, align NAME, check NAME, records, fleet, new, quit")

func (f *front) take(a *app, text string) tea.Cmd {
	verb, rest, _ := strings.Cut(strings.ToLower(strings.TrimSpace(text)), " ")
	rest = strings.TrimSpace(rest)
	typed := a.fromLine
	cmd, err := f.does(a, verb, rest)
	if err != nil {
		a.fail(err)
		return cmd
	}
	if typed && len(a.stack) > 0 {
		a.stack[0].line.set("")
	}
	return cmd
}

func (f *front) does(a *app, verb, rest string) (tea.Cmd, error) {
	if verb == "" {
		verb = "1"
	}
	if n, err := strconv.Atoi(verb); err == nil {
		for _, g := range f.groups() {
			if n >= 1 && n <= len(g.entries) {
				return g.entries[n-1].do(a), nil
			}
			n -= len(g.entries)
		}
		return nil, errFront
	}
	switch verb {
	case "q", "quit":
		return a.pop(), nil
	case "more":
		f.from += 10
		if f.from > len(f.scopes)+len(f.open)+6 {
			f.from = 0
		}
		return nil, nil
	case "records":
		return showRecords(a, rest), nil
	case "fleet":
		return showFleet(a), nil
	case "lessons":
		showLadder(a)
		return nil, nil
	case "bench":
		showBench(a, Bench{})
		return nil, nil
	case "new":
		return newScope(a), nil
	case "align", "check", "practise", "practice":
		scope, err := f.named(verb, rest)
		if err != nil {
			return nil, err
		}
		return begin(a, scope, verb), nil
	}
	for _, s := range f.scopes {
		if scope.SameName(s.Name, strings.TrimSpace(verb+" "+rest)) {
			a.push(newScopePage(a, s))
			return nil, nil
		}
	}
	return nil, errFront
}

// named returns the scope of that name; to practise needs none.
func (f *front) named(verb, name string) (scope.Scope, error) {
	if name == "" && strings.HasPrefix(verb, "pract") {
		return scope.Builtin(), nil
	}
	for _, s := range f.scopes {
		if scope.SameName(s.Name, name) {
			return s, nil
		}
	}
	return scope.Scope{}, fmt.Errorf("no scope %q here: say the number before its line, or new to describe one", name)
}

// begin starts a session and shows it.
func begin(a *app, sc scope.Scope, verb string) tea.Cmd {
	var w *desk.Work
	var err error
	switch verb {
	case "align", "check":
		if scope.SameName(sc.Name, scope.Builtin().Name) {
			return begin(a, sc, string(virtual.Easy)) // it is not there to be aligned
		}
		w, err = a.desk.Align(sc, verb == "check")
	case string(virtual.Usual), string(virtual.Hard):
		w, err = a.desk.Practice(sc, event.World{Seed: a.seed(), Level: verb})
	default:
		w, err = a.desk.Practice(sc, event.World{Seed: a.seed(), Level: string(virtual.Easy)})
	}
	return opened(a, w, err, func() tea.Cmd { return begin(a, sc, verb) })
}

func (f *front) takeUp(a *app, id string) tea.Cmd {
	w, err := a.desk.TakeUp(id)
	return opened(a, w, err, func() tea.Cmd { return f.takeUp(a, id) })
}

// opened shows a session that was begun; again begins it once more.
func opened(a *app, w *desk.Work, err error, again func() tea.Cmd) tea.Cmd {
	a.again = nil
	var unkept *journal.UnkeptError
	if errors.As(err, &unkept) {
		a.again, err = again, fmt.Errorf("%w (say: go on)", err)
	}
	if err != nil {
		a.fail(err)
		return nil
	}
	a.push(newAlign(w))
	if w.Notice != "" {
		a.say(w.Notice)
	}
	a.lastKey = time.Time{}
	return nil
}
