package terminal

import (
	"errors"
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbletea"

	"spotward/session/scope"
	"spotward/views/schematic"
	"spotward/views/theme"
)

// form asks what describes a scope or a kit, and draws what to measure.
type form struct {
	*scope.Form
	from   int  // the first line shown while all is looked over
	warned bool // what was answered cannot be kept: to leave again leaves all the same
}

var errNoShelf = errors.New("nothing is kept here: start without --no-record to describe a scope")

// newScope begins the form of a scope that is not known yet.
func newScope(a *app) tea.Cmd {
	if a.desk.Library == nil {
		a.fail(errNoShelf)
		return nil
	}
	f, err := a.desk.Library.DescribeScope("", scope.Builtin())
	showForm(a, f, err)
	return nil
}

// editScope begins the form of a scope that is known here.
func editScope(a *app, name string) tea.Cmd {
	if a.desk.Library == nil {
		a.fail(errNoShelf)
		return nil
	}
	f, err := a.desk.Library.EditScope(name)
	showForm(a, f, err)
	return nil
}

func showForm(a *app, f *scope.Form, err error) {
	if err != nil {
		a.fail(err)
		return
	}
	a.push(&form{Form: f})
	a.top().line.set(f.Typed())
	if f.Continued {
		a.say("this goes on where it was left")
		if !f.IsEdit() {
			a.say("this goes on where it was left; afresh begins anew")
		}
	}
}

// isFree reports that a name is asked for, which may be any word.
func (s *form) isFree() bool {
	q, _, _, asked := s.Asked()
	return asked && q.Key == "name"
}

func (s *form) draw(p *page, _ string) {
	title := s.Title()
	switch {
	case title == "" && s.IsKit():
		title = "a laser and its holder"
	case title == "":
		title = "a scope of your own"
	}
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.pal.Heading(title))
	q, n, of, asked := s.Asked()
	if !asked {
		s.drawReview(p)
		return
	}
	p.TextRight(p.Cols-1, 0, theme.Label, fmt.Sprintf("%d of %d", n, of))
	r := p.body
	if s.drawSketch(p, q) {
		r = p.column
	}
	f := p.flow(r)
	f.say(theme.Head, q.Ask)
	f.say(theme.Ink, q.How)
	for i, o := range q.Pick {
		text := o.ID
		if o.Words != o.ID {
			text += ": " + o.Words
		}
		f.option(i+1, text)
	}
	f.skip(1)
	if usual := s.Usual(q); usual != "" {
		f.say(theme.Label, usual)
	}
	switch said, guess := s.Said(q), s.Estimate(q); {
	case said != "":
		f.say(theme.Label, "So far: "+said+". To take it out again, say unknown.")
	case guess != "":
		f.say(theme.Label, "Left out, it is taken as "+guess+", an estimate.")
	}
}

// reviewLabel is how wide the questions' names stand when all is looked over.
const reviewLabel = 28

// drawReview draws all that was said, and what is estimated, a line each.
func (s *form) drawReview(p *page) {
	f := p.flow(schematic.Rect{X: 1, Y: 1, W: min(76, p.Cols-2), H: p.sizes.Rule.Y - 1})
	if scope := s.Scope(); !s.IsKit() {
		t := scope.Telescope()
		f.say(theme.Ink, fmt.Sprintf("%.0f mm, f/%.1f. %.1f mm of axis error will be allowed.", t.ApertureMM, t.FocalRatio(), t.AllowedMM(optUse(scope))))
	}
	f.say(theme.Label, "~ marks an estimate. A number changes that line.")
	due := s.Due()
	room := f.r.H
	if room < len(due) {
		room-- // for how to see more
	}
	if s.from >= len(due) {
		s.from = 0
	}
	for i, q := range due[s.from:min(len(due), s.from+room)] {
		n := s.from + i + 1
		at := f.r
		text, role := s.Said(q), theme.Ink
		if text == "" {
			text, role = "-", theme.Label
			if guess := s.Estimate(q); guess != "" {
				text = "~ " + guess
			}
		}
		p.TextMax(at.X, at.Y, 3, theme.Act, fmt.Sprintf("%2d", n))
		p.TextMax(at.X+4, at.Y, reviewLabel-4, theme.Label, q.Name)
		p.TextMax(at.X+reviewLabel, at.Y, at.W-reviewLabel, role, text)
		p.zone(schematic.Rect{X: at.X, Y: at.Y, W: at.W, H: 1}, fmt.Sprint(n))
		f.skip(1)
	}
	if room < len(due) {
		f.say(theme.Label, fmt.Sprintf("%d to %d of %d: say more", s.from+1, min(len(due), s.from+room), len(due)))
	}
}

func (s *form) foot(z sizes) foot {
	q, _, _, asked := s.Asked()
	if !asked {
		return foot{prompt: "keep it?", hint: "Enter keeps it", keys: footer("keep it", "back", "help", "theme")}
	}
	f := foot{prompt: q.Name + "?", hint: "Enter leaves it out", keys: footer("take it", "back", "help", "theme")}
	if !z.narrow() {
		f.hint += "; done leaves out the rest"
	}
	switch said := s.Said(q); {
	case said != "":
		f.hint = "Enter = " + said
	case q.Must:
		f.hint = "this one is needed"
	}
	return f
}

// esc goes back by a question; what stands in the line is kept for it.
func (s *form) esc(a *app) { s.back(a, a.top().line.String()) }

func (s *form) back(a *app, typed string) tea.Cmd {
	if !s.Back(typed) {
		return s.leave(a)
	}
	a.top().line.set(s.Typed())
	return nil
}

// leave keeps what was answered for the next time. Where that cannot be kept,
// leaving once more loses it: nobody is held in a form by a full disk.
func (s *form) leave(a *app) tea.Cmd {
	err := a.desk.Library.KeepDraft(s.Form)
	if err != nil && !s.warned {
		s.warned = true
		a.fail(fmt.Errorf("%w (once more leaves it all the same)", err))
		return nil
	}
	if len(a.stack) == 1 && s.IsEdit() && !s.Changed() {
		a.farewell = append(a.farewell, s.Title()+" is as it was.")
		return a.pop()
	}
	if len(a.stack) == 1 {
		a.exit = exitUnfinished
		farewell := "Nothing is kept yet. What was answered is there when you come back."
		if err != nil {
			farewell = "Nothing is kept."
		}
		a.farewell = append(a.farewell, farewell)
	}
	return a.pop()
}

func (s *form) take(a *app, text string) tea.Cmd {
	word := strings.ToLower(strings.TrimSpace(text))
	_, _, _, asked := s.Asked()
	switch {
	case (word == "back" || word == "b") && !a.fromLine: // a key: what is typed waits
		return s.back(a, a.top().line.String())
	case word == "more" && !asked:
		a.used()
		s.from += max(1, a.rows-10)
		return nil
	}
	step, err := s.Form.Take(text)
	if err != nil {
		a.fail(err)
		return nil
	}
	switch step {
	case scope.FormKeep:
		return s.keep(a)
	case scope.FormLeave:
		return s.leave(a)
	}
	a.used()
	s.warned = false
	if typed := s.Typed(); typed != "" {
		a.top().line.set(typed)
	}
	if err := a.desk.Library.KeepDraft(s.Form); err != nil {
		a.fail(err)
	}
	return nil
}

func (s *form) keep(a *app) tea.Cmd {
	if err := a.desk.Library.KeepForm(s.Form); err != nil {
		a.fail(err)
		return nil
	}
	kept := s.Title() + " is kept"
	if len(a.stack) == 1 {
		a.farewell = append(a.farewell, kept+".")
	}
	cmd := a.pop()
	a.say(kept)
	return cmd
}
