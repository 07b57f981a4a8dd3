package terminal

import (
	"fmt"
	"strconv"

	"spotward/session/lesson"
	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/theme"
)

func (s *ladderPage) draw(p *page, typed string) {
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.pal.Heading("lessons"))
	who := "no name: nothing is kept"
	if s.desk.Who != "" {
		who = s.desk.Who
	}
	p.TextRight(p.Cols-1, 0, theme.Label, who)
	if s.naming {
		s.drawNaming(p)
		return
	}
	const list = 37 // columns: number, title, how it stands
	body := schematic.Rect{X: 1, Y: 2, W: p.Cols - 2, H: p.sizes.Rule.Y - 2}
	aside := schematic.Rect{X: body.X + list + 2, Y: body.Y, W: min(76, body.W-list-2), H: body.H}
	s.shown = body.H
	if p.narrow() {
		const text = 4 // rows for what the lesson is for
		s.shown = body.H - text - 1
		aside = schematic.Rect{X: 3, Y: body.Y + s.shown + 1, W: p.Cols - 6, H: text}
	}
	lessons := lesson.All()
	if len(lessons) > s.shown {
		s.shown-- // for the word that there are more
	}
	chosen, ok := s.meant(typed)
	if !ok {
		chosen = s.next()
	}
	from := min(s.from, len(lessons)-1)
	if off := chosen <= from || chosen > from+s.shown; off && (from < 0 || typed != "") {
		from = max(0, min(chosen-1, len(lessons)-s.shown))
	}
	from = max(0, from)
	s.list(p, body, from, chosen)
	s.aside(p, aside, lessons[chosen-1])
}

// list writes the lessons from one on, a line each, and marks the one that is
// meant.
func (s *ladderPage) list(p *page, r schematic.Rect, from, chosen int) {
	lessons, best := lesson.All(), desk.Progress(s.results)
	for i, l := range lessons[from:min(len(lessons), from+s.shown)] {
		n, y := from+i+1, r.Y+i
		role := theme.Ink
		if n == chosen {
			role = theme.Head
			p.TextMax(r.X, y, 1, theme.Act, ">")
		}
		p.TextRight(r.X+4, y, theme.Act, strconv.Itoa(n))
		p.TextMax(r.X+5, y, 25, role, l.Title)
		if res, ok := best[l.ID]; ok && res.Passed {
			p.TextMax(r.X+31, y, 7, theme.Good, "passed")
		} else if ok {
			p.TextMax(r.X+31, y, 7, theme.Label, "not yet")
		}
		p.zone(schematic.Rect{X: r.X, Y: y, W: min(38, r.W), H: 1}, strconv.Itoa(n))
	}
	if len(lessons) > s.shown {
		p.TextMax(r.X+5, r.Y+s.shown, r.W-5, theme.Label, "more: type more")
	}
}

// aside says what a lesson is for; where there is room, what is signed off.
func (s *ladderPage) aside(p *page, r schematic.Rect, l lesson.Lesson) {
	f := p.flow(r)
	if p.narrow() {
		f.say(theme.Ink, l.Aim)
		return
	}
	f.say(theme.Ink, l.Aim)
	f.skip(1)
	f.say(theme.Label, "Done when: "+l.Done)
	f.skip(1)
	criteria := lesson.SignOff(s.results)
	var words []string
	met := 0
	for _, c := range criteria {
		words = append(words, c.Words)
		if c.Met {
			met++
		}
	}
	f.heading("to sign off")
	if !f.fits(words, 4) {
		f.say(theme.Ink, fmt.Sprintf("%d of %d as yet: results says which.", met, len(criteria)))
		return
	}
	for _, c := range criteria {
		mark, role := "no ", theme.Label
		if c.Met {
			mark, role = "yes", theme.Good
		}
		f.item(role, mark, theme.Ink, c.Words)
	}
}

func (s *ladderPage) drawNaming(p *page) {
	f := p.flow(schematic.Rect{X: 3, Y: 2, W: min(70, p.Cols-6), H: p.sizes.Rule.Y - 2})
	f.say(theme.Head, "Whose lessons are they?")
	f.skip(1)
	f.say(theme.Ink, "Type a name: what is passed is kept under it, for you and for whoever teaches you. Nothing of it leaves this computer.")
	f.skip(1)
	f.say(theme.Label, "Enter alone goes on without a name, and keeps nothing.")
}

func (s *ladderPage) foot(sz sizes) foot {
	if s.naming {
		return foot{prompt: "your name?", hint: "Enter = no name", keys: footer("take it", "back")}
	}
	l := lesson.All()[s.next()-1]
	f := foot{prompt: "which?", hint: "Enter = " + strconv.Itoa(s.next()) + ", " + l.Title, keys: footer("begin", "back", "help", "theme", "large")}
	if !sz.narrow() {
		f.keys = append([]key{f.keys[0], {"results", "", "in full"}, {"name", "", "another"}}, f.keys[1:]...)
	} else {
		f.hint = cutWords(f.hint, sz.Understood.W)
	}
	return f
}
