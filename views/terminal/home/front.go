package home

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/scope"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/terminal/past"
	"spotward/views/terminal/teach"
)

// Front is the front page: the scopes known here, what was left unfinished, and
// what can be done.
type Front struct {
	scopes  []scope.Scope // real ones, that used last first; the practice telescope after them
	open    []history.Unfinished
	last    map[string]session.Record // by scope, the latest that counts
	records int
	from    int // the first line shown, where there are more than fit
	rows    int // shown at once, as last drawn
	height  int // of the whole list
}

func NewFront(a *frame.App) *Front {
	f := &Front{last: map[string]session.Record{}}
	f.read(a)
	return f
}

// Returned looks at the shelf again: a session may have ended.
func (f *Front) Returned(a *frame.App) { f.read(a) }

// read looks at the shelf. What cannot be read is said, and the rest is
// there all the same.
func (f *Front) read(a *frame.App) {
	f.scopes, f.open, f.records = nil, nil, 0
	defer func() { f.scopes = append(f.scopes, scope.Builtin()) }()
	if a.Desk.Library == nil {
		return
	}
	scopes, errs := a.Desk.Library.Scopes()
	f.scopes = slices.Clone(scopes)
	records, open, more := a.Desk.Library.Sessions()
	f.open = open
	f.records = len(records)
	for _, r := range records {
		if r.Practice == scope.SameName(r.Scope, scope.Builtin().Name) {
			f.last[strings.ToLower(r.Scope)] = r
		}
	}
	used := map[string]time.Time{} // a session that was left unfinished is a use as well
	for name, r := range f.last {
		used[name] = r.Began
	}
	for _, u := range open {
		if name := strings.ToLower(u.Scope); u.World == nil && u.Began.After(used[name]) {
			used[name] = u.Began
		}
	}
	slices.SortStableFunc(f.scopes, func(x, y scope.Scope) int {
		return used[strings.ToLower(y.Name)].Compare(used[strings.ToLower(x.Name)])
	})
	if errs = append(errs, more...); len(errs) > 0 {
		a.Fail(errs[0])
	}
}

// entry is a line of the front page: what it says, and what it does.
type entry struct {
	cols [3]string
	do   func(a *frame.App) tea.Cmd
}

// groups are the lines of the front page, numbered on from one to the next.
func (f *Front) groups() []group {
	scopes, practice := group{head: "scopes", cols: [3]string{"", "", "last time"}}, group{head: "practise"}
	for _, s := range f.scopes {
		e := entry{f.scopeLine(s), func(a *frame.App) tea.Cmd {
			a.Push(newScopePage(a, s))
			return nil
		}}
		if scope.SameName(s.Name, scope.Builtin().Name) {
			practice.entries = append(practice.entries, e)
		} else {
			scopes.entries = append(scopes.entries, e)
		}
	}
	var gs []group
	if len(scopes.entries) > 0 {
		gs = append(gs, scopes)
	} else {
		gs = append(gs, practice)
	}
	if len(f.open) > 0 {
		g := group{head: "unfinished"}
		for _, u := range f.open {
			g.entries = append(g.entries, entry{openLine(u), func(a *frame.App) tea.Cmd { return f.takeUp(a, u.ID) }})
		}
		gs = append(gs, g)
	}
	if len(scopes.entries) > 0 {
		gs = append(gs, practice)
	}
	more := group{head: "more"}
	more.entries = append(more.entries,
		entry{[3]string{"lessons", "short exercises, from safe hands on", ""}, func(a *frame.App) tea.Cmd { teach.ShowLadder(a); return nil }},
		entry{[3]string{"bench", "for an instructor: set up a fault", ""}, func(a *frame.App) tea.Cmd { teach.ShowBench(a, teach.Bench{}); return nil }},
		entry{[3]string{"records", fmt.Sprintf("what was done, %d so far", f.records), ""}, func(a *frame.App) tea.Cmd { return past.ShowRecords(a, "") }},
		entry{[3]string{"fleet", "how each scope holds", ""}, past.ShowFleet},
		entry{[3]string{"new", "describe a scope of your own", ""}, func(a *frame.App) tea.Cmd { return newScope(a) }})
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

func (f *Front) scopeLine(s scope.Scope) [3]string {
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
	words := r.Ended.Local().Format("2 Jan 2006") + ", " + words.Tag(r.Tag)
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

func (f *Front) Foot(frame.Sizes) frame.Foot {
	ft := frame.Foot{Prompt: "which?", Hint: "Enter = 1, " + f.groups()[0].entries[0].cols[0], Keys: frame.Footer("choose", "leave", "help", "theme")}
	if f.from > 0 || f.height > f.rows {
		ft.Rule = "more lines: up, down"
	}
	return ft
}

// Echo says which line a number means.
func (f *Front) Echo(typed string) (string, bool) {
	n, err := strconv.Atoi(strings.TrimSpace(typed))
	for _, g := range f.groups() {
		if err == nil && n >= 1 && n <= len(g.entries) {
			return g.entries[n-1].cols[0], true
		}
		n -= len(g.entries)
	}
	return "", true
}

// Nudge types the number of the line below or above the one that is typed.
func (f *Front) Nudge(typed string, _, up int) (string, bool) {
	n, err := strconv.Atoi(typed)
	if up == 0 || err != nil && typed != "" {
		return "", false
	}
	last := 0
	for _, g := range f.groups() {
		last += len(g.entries)
	}
	if n == 0 { // Enter alone is the first
		n = 1
	}
	return strconv.Itoa(max(1, min(n-up, last))), true
}

// StepKey shows what is above and below.
func (f *Front) StepKey(a *frame.App, k tea.KeyType) bool {
	by, ok := map[tea.KeyType]int{tea.KeyUp: -1, tea.KeyDown: 1, tea.KeyPgUp: -10, tea.KeyPgDown: 10}[k]
	if ok = ok && f.height > f.rows; ok {
		f.from = max(0, min(f.from+by, f.height-f.rows))
		a.Version++
	}
	return ok
}

func (f *Front) Esc(a *frame.App) { a.Pop() }

var errFront = errors.New("say a number before a line, or: practise, align NAME, check NAME, records, fleet, new, quit")

func (f *Front) Take(a *frame.App, text string) tea.Cmd {
	verb, rest, _ := strings.Cut(strings.ToLower(strings.TrimSpace(text)), " ")
	rest = strings.TrimSpace(rest)
	typed := a.FromLine
	cmd, err := f.does(a, verb, rest)
	if err != nil {
		a.Fail(err)
		return cmd
	}
	if typed && len(a.Stack) > 0 {
		a.Stack[0].Line.Set("")
	}
	return cmd
}

func (f *Front) does(a *frame.App, verb, rest string) (tea.Cmd, error) {
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
		return a.Pop(), nil
	case "more":
		f.from += 10
		if f.from > len(f.scopes)+len(f.open)+6 {
			f.from = 0
		}
		return nil, nil
	case "records":
		return past.ShowRecords(a, rest), nil
	case "fleet":
		return past.ShowFleet(a), nil
	case "lessons":
		teach.ShowLadder(a)
		return nil, nil
	case "bench":
		teach.ShowBench(a, teach.Bench{})
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
			a.Push(newScopePage(a, s))
			return nil, nil
		}
	}
	return nil, errFront
}

// named returns the scope of that name; to practise needs none.
func (f *Front) named(verb, name string) (scope.Scope, error) {
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
func begin(a *frame.App, sc scope.Scope, verb string) tea.Cmd {
	var w *desk.Work
	var err error
	switch verb {
	case "align", "check":
		if scope.SameName(sc.Name, scope.Builtin().Name) {
			return begin(a, sc, string(virtual.Easy)) // it is not there to be aligned
		}
		w, err = a.Desk.Align(sc, verb == "check")
	case string(virtual.Usual), string(virtual.Hard):
		w, err = a.Desk.Practice(sc, event.World{Seed: a.Seed(), Level: verb})
	default:
		w, err = a.Desk.Practice(sc, event.World{Seed: a.Seed(), Level: string(virtual.Easy)})
	}
	return align.Opened(a, w, err, func() tea.Cmd { return begin(a, sc, verb) })
}

func (f *Front) takeUp(a *frame.App, id string) tea.Cmd {
	w, err := a.Desk.TakeUp(id)
	return align.Opened(a, w, err, func() tea.Cmd { return f.takeUp(a, id) })
}
