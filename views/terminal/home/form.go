package home

import (
	"errors"
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/session/scope"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/terminal/past"
	"spotward/views/theme"
)

// Form asks what describes a scope or a kit, and draws what to measure.
type Form struct {
	*scope.Form
	from   int  // the first line shown while all is looked over
	warned bool // what was answered cannot be kept: to leave again leaves all the same
}

var errNoShelf = errors.New("nothing is saved here: start without --no-record to describe a scope")

// newScope begins the form of a scope that is not known yet.
func newScope(a *frame.App) tea.Cmd {
	if a.Desk.Library == nil {
		a.Fail(errNoShelf)
		return nil
	}
	f, err := a.Desk.Library.DescribeScope("", scope.Builtin())
	ShowForm(a, f, err)
	return nil
}

// editScope begins the form of a scope that is known here.
func editScope(a *frame.App, name string) tea.Cmd {
	if a.Desk.Library == nil {
		a.Fail(errNoShelf)
		return nil
	}
	f, err := a.Desk.Library.EditScope(name)
	ShowForm(a, f, err)
	return nil
}

func ShowForm(a *frame.App, f *scope.Form, err error) {
	if err != nil {
		a.Fail(err)
		return
	}
	a.Push(&Form{Form: f})
	a.Top().Line.Set(f.Typed())
	if f.Continued {
		a.Say("this goes on where it was left")
		if !f.IsEdit() {
			a.Say("this goes on where it was left; afresh starts over")
		}
	}
}

// IsFree reports that a name is asked for, which may be any word.
func (s *Form) IsFree() bool {
	q, _, _, asked := s.Asked()
	return asked && q.Key == "name"
}

func (s *Form) Draw(p *frame.Page, _ string) {
	title := s.Title()
	switch {
	case title == "" && s.IsKit():
		title = "a laser and its holder"
	case title == "":
		title = "a scope of your own"
	}
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.Pal.Heading(title))
	q, n, of, asked := s.Asked()
	if !asked {
		s.drawReview(p)
		return
	}
	p.TextRight(p.Cols-1, 0, theme.Label, fmt.Sprintf("%d of %d", n, of))
	r := p.Body
	if s.drawSketch(p, q) {
		r = p.Column
	}
	f := p.Flow(r)
	f.Say(theme.Head, q.Ask)
	f.Say(theme.Ink, q.How)
	for i, o := range q.Pick {
		text := o.ID
		if o.Words != o.ID {
			text += ": " + o.Words
		}
		f.Option(i+1, text)
	}
	f.Skip(1)
	if usual := s.Usual(q); usual != "" {
		f.Say(theme.Label, usual)
	}
	switch said, guess := s.Said(q), s.Estimate(q); {
	case said != "":
		f.Say(theme.Label, "So far: "+said+". To take it out again, say unknown.")
	case guess != "":
		f.Say(theme.Label, "If you skip it, "+guess+" is assumed, as an estimate.")
	}
}

// reviewLabel is how wide the questions' names stand when all is looked over.
const reviewLabel = 28

// drawReview draws all that was said, and what is estimated, a line each.
func (s *Form) drawReview(p *frame.Page) {
	f := p.Flow(schematic.Rect{X: 1, Y: 1, W: min(76, p.Cols-2), H: p.Sizes.Rule.Y - 1})
	if scope := s.Scope(); !s.IsKit() {
		t := scope.Telescope()
		f.Say(theme.Ink, fmt.Sprintf("%.0f mm, f/%.1f. %.1f mm of axis error will be allowed.", t.ApertureMM, t.FocalRatio(), t.AllowedMM(past.OptUse(scope))))
	}
	f.Say(theme.Label, "~ marks an estimate. A number changes that line.")
	due := s.Due()
	room := f.R.H
	if room < len(due) {
		room-- // for how to see more
	}
	if s.from >= len(due) {
		s.from = 0
	}
	for i, q := range due[s.from:min(len(due), s.from+room)] {
		n := s.from + i + 1
		at := f.R
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
		p.Zone(schematic.Rect{X: at.X, Y: at.Y, W: at.W, H: 1}, fmt.Sprint(n))
		f.Skip(1)
	}
	if room < len(due) {
		f.Say(theme.Label, fmt.Sprintf("%d to %d of %d: say more", s.from+1, min(len(due), s.from+room), len(due)))
	}
}

func (s *Form) Foot(z frame.Sizes) frame.Foot {
	q, _, _, asked := s.Asked()
	if !asked {
		return frame.Foot{Prompt: "keep it?", Hint: "Enter keeps it", Keys: frame.Footer("keep it", "back", "help", "theme")}
	}
	f := frame.Foot{Prompt: q.Name + "?", Hint: "Enter leaves it out", Keys: frame.Footer("accept", "back", "help", "theme")}
	if !z.Narrow() {
		f.Hint += "; done leaves out the rest"
	}
	switch said := s.Said(q); {
	case said != "":
		f.Hint = "Enter = " + said
	case q.Must:
		f.Hint = "required"
	}
	return f
}

// Esc goes back by a question; what stands in the line is kept for it.
func (s *Form) Esc(a *frame.App) { s.back(a, a.Top().Line.String()) }

func (s *Form) back(a *frame.App, typed string) tea.Cmd {
	if !s.Back(typed) {
		return s.leave(a)
	}
	a.Top().Line.Set(s.Typed())
	return nil
}

// leave keeps what was answered for the next time. Where that cannot be kept,
// leaving once more loses it: nobody is held in a form by a full disk.
func (s *Form) leave(a *frame.App) tea.Cmd {
	err := a.Desk.Library.KeepDraft(s.Form)
	if err != nil && !s.warned {
		s.warned = true
		a.Fail(fmt.Errorf("%w (once more leaves it all the same)", err))
		return nil
	}
	if len(a.Stack) == 1 && s.IsEdit() && !s.Changed() {
		a.Farewell = append(a.Farewell, s.Title()+" is as it was.")
		return a.Pop()
	}
	if len(a.Stack) == 1 {
		a.Exit = frame.ExitUnfinished
		farewell := "Nothing is saved yet. What was answered is there when you come back."
		if err != nil {
			farewell = "Nothing is saved."
		}
		a.Farewell = append(a.Farewell, farewell)
	}
	return a.Pop()
}

func (s *Form) Take(a *frame.App, text string) tea.Cmd {
	word := strings.ToLower(strings.TrimSpace(text))
	_, _, _, asked := s.Asked()
	switch {
	case (word == "back" || word == "b") && !a.FromLine: // a key: what is typed waits
		return s.back(a, a.Top().Line.String())
	case word == "more" && !asked:
		a.Used()
		s.from += max(1, a.Rows-10)
		return nil
	}
	step, err := s.Form.Take(text)
	if err != nil {
		a.Fail(err)
		return nil
	}
	switch step {
	case scope.FormKeep:
		return s.keep(a)
	case scope.FormLeave:
		return s.leave(a)
	}
	a.Used()
	s.warned = false
	if typed := s.Typed(); typed != "" {
		a.Top().Line.Set(typed)
	}
	if err := a.Desk.Library.KeepDraft(s.Form); err != nil {
		a.Fail(err)
	}
	return nil
}

func (s *Form) keep(a *frame.App) tea.Cmd {
	if err := a.Desk.Library.KeepForm(s.Form); err != nil {
		a.Fail(err)
		return nil
	}
	kept := s.Title() + " is saved"
	if len(a.Stack) == 1 {
		a.Farewell = append(a.Farewell, kept+".")
	}
	cmd := a.Pop()
	a.Say(kept)
	return cmd
}
