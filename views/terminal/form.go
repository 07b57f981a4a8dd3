package terminal

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/terminal/theme"
)

// form describes a new scope, a question after the other. Whatever cannot be
// told is left out, and taken as usual until it is measured or learnt.
type form struct {
	at    int
	scope session.Scope
	said  []string // by question, as typed; "" = left out
}

// question is one of the form's.
type question struct {
	name  string // in a word or two
	ask   string
	how   string // how to measure it, or where to look
	must  bool
	pick  []string // the answers, where there are only a few
	usual func(session.Scope) string
	take  func(s *session.Scope, text string) error
	draw  func(p *page, s session.Scope)
}

var errNoShelf = errors.New("nothing is kept here: start without --no-record to describe a scope")

// newScope begins the form.
func newScope(a *app) tea.Cmd {
	if a.desk.Library == nil {
		a.fail(errNoShelf)
		return nil
	}
	a.push(&form{scope: session.Scope{Format: session.FormatVersion}, said: make([]string, len(questions()))})
	return nil
}

// isFree reports that a name is asked for, which may be any word.
func (s *form) isFree() bool { return s.at == 0 }

func (s *form) review() bool { return s.at == len(questions()) }

func (s *form) draw(p *page, _ string) {
	title := "a scope of your own"
	if s.scope.Name != "" {
		title = s.scope.Name
	}
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.pal.Heading(title))
	r := p.column
	if s.review() {
		s.drawReview(p)
		return
	}
	q := questions()[s.at]
	p.TextRight(p.Cols-1, 0, theme.Label, fmt.Sprintf("%d of %d", s.at+1, len(questions())))
	if q.draw != nil && s.drawable() {
		q.draw(p, s.scope)
	}
	f := p.flow(r)
	f.say(theme.Head, q.ask)
	f.skip(1)
	f.say(theme.Ink, q.how)
	for i, o := range q.pick {
		f.option(i+1, o)
	}
	if q.usual != nil && s.drawable() {
		f.skip(1)
		f.say(theme.Label, "If you do not know it, press Enter: it is then taken as "+q.usual(s.scope)+", an estimate.")
	}
	if s.said[s.at] != "" {
		f.skip(1)
		f.say(theme.Label, "So far: "+s.said[s.at])
	}
}

// drawable reports whether the scope is known well enough to be drawn.
func (s *form) drawable() bool {
	return s.scope.Aperture.MM() > 0 && s.scope.FocalLength.MM() > 0
}

func (s *form) drawReview(p *page) {
	t := s.scope.Telescope()
	if !p.narrow() {
		drawSection(p, s.scope)
	}
	r := p.column
	if p.narrow() {
		r = p.body
	}
	f := p.flow(r)
	f.say(theme.Head, fmt.Sprintf("%s: %.0f mm, f/%.1f. %.1f mm of axis error will be allowed.", s.scope.Name, t.ApertureMM, t.FocalRatio(), t.AllowedMM(optUse(s.scope))))
	f.skip(1)
	for i, q := range questions() {
		if s.said[i] != "" {
			f.pair(15, q.name, s.said[i])
		}
	}
	f.skip(1)
	if guessed := s.scope.Guessed(); len(guessed) > 0 {
		f.say(theme.Label, "Estimated: "+strings.Join(guessed, ", ")+".")
	}
}

func (s *form) foot(sizes) foot {
	if s.review() {
		return foot{prompt: "keep it?", hint: "Enter keeps it", keys: footer("keep it", "back", "theme", "back")}
	}
	q := questions()[s.at]
	f := foot{prompt: q.name + "?", hint: "Enter leaves it out", keys: footer("take it", "back", "theme", "back")}
	if q.must {
		f.hint = "this one is needed"
	}
	if s.said[s.at] != "" {
		f.hint = "Enter = " + s.said[s.at]
	}
	return f
}

func (s *form) esc(a *app) {
	if s.at == 0 {
		a.pop()
		return
	}
	s.at--
}

func (s *form) take(a *app, text string) tea.Cmd {
	text = strings.TrimSpace(text)
	switch {
	case !s.isFree() && (text == "back" || text == "b"):
		s.esc(a)
		a.used()
		return nil
	case s.review():
		return s.keep(a)
	case text == "" && s.said[s.at] == "" && questions()[s.at].must:
		a.fail(errors.New("this one cannot be guessed: it is needed"))
		return nil
	case text != "":
		if err := s.answer(a, text); err != nil {
			a.fail(err)
			return nil
		}
	}
	a.used()
	s.at++
	return nil
}

// answer takes an answer if the scope still makes sense with it.
func (s *form) answer(a *app, text string) error {
	q, try := questions()[s.at], s.scope
	if n, err := strconv.Atoi(text); err == nil && len(q.pick) > 0 && n >= 1 && n <= len(q.pick) {
		text = q.pick[n-1]
	}
	if err := q.take(&try, text); err != nil {
		return err
	}
	whole := try // what has not been asked yet must not be found missing
	if whole.Name == "" {
		whole.Name = "new"
	}
	if !whole.Aperture.Given() {
		whole.Aperture = session.MM(200)
	}
	if !whole.FocalLength.Given() {
		whole.FocalLength = session.MM(6 * whole.Aperture.MM())
	}
	if _, err := session.DecodeScope(session.EncodeScope(whole)); err != nil {
		return err
	}
	if s.at == 0 {
		known, _ := a.desk.Library.Scopes()
		for _, k := range append(known, session.Builtin()) {
			if session.SameName(k.Name, text) {
				return fmt.Errorf("there is a scope called %s here: give this one another name", k.Name)
			}
		}
	}
	s.scope, s.said[s.at] = try, text
	return nil
}

func (s *form) keep(a *app) tea.Cmd {
	if err := a.desk.Library.SaveScope(s.scope); err != nil {
		a.fail(err)
		return nil
	}
	a.pop()
	a.say(s.scope.Name + " is kept")
	return nil
}

// drawSection draws the scope in section with lengths over it.
func drawSection(p *page, scope session.Scope, dims ...schematic.Dim) {
	t := scope.Telescope()
	r := p.FaceWords
	p.LightPath(schematic.Rect{X: r.X + 1, Y: r.Y + 2, W: r.W - 3, H: r.H - 3}, schematic.PathSpec{
		TubeMM: t.MouthMM(), SkyEndMM: t.OpenEndMM(), MirrorMM: t.ApertureMM / 2, SecondaryMM: t.MinorAxisMM / 2,
		FoldMM: t.FromPrimaryMM, HoleMM: t.HoleFromAxisMM, Dims: dims,
		LaserWord: "laser", SkyWord: "sky end", PrimaryWord: "primary",
	})
}
