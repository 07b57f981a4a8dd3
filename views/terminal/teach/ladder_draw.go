package teach

import (
	"fmt"
	"strconv"

	"spotward/session/lesson"
	"spotward/views/schematic"
	"spotward/views/teach"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

func (s *LadderPage) Draw(p *frame.Page, typed string) {
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.Pal.Heading("lessons"))
	who := "no name: nothing is saved"
	if s.Desk.Who != "" {
		who = s.Desk.Who
	}
	p.TextRight(p.Cols-1, 0, theme.Label, who)
	if s.Naming {
		s.drawNaming(p)
		return
	}
	const list = 37 // columns: number, title, how it stands
	body := schematic.Rect{X: 1, Y: 2, W: p.Cols - 2, H: p.Sizes.Rule.Y - 2}
	aside := schematic.Rect{X: body.X + list + 2, Y: body.Y, W: min(76, body.W-list-2), H: body.H}
	s.shown = body.H
	if p.Narrow() {
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
	if off := chosen < from || chosen >= from+s.shown; off && (from < 0 || typed != "") {
		from = max(0, min(chosen, len(lessons)-s.shown))
	}
	from = max(0, from)
	s.list(p, body, from, chosen)
	s.aside(p, aside, lessons[chosen])
}

// list writes the lessons from one on, a line each, and marks the one that is
// meant.
func (s *LadderPage) list(p *frame.Page, r schematic.Rect, from, chosen int) {
	lessons, best := lesson.All(), teach.Progress(s.results)
	for i, l := range lessons[from:min(len(lessons), from+s.shown)] {
		n, y := from+i, r.Y+i
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
		p.Zone(schematic.Rect{X: r.X, Y: y, W: min(38, r.W), H: 1}, strconv.Itoa(n))
	}
	if len(lessons) > s.shown {
		p.TextMax(r.X+5, r.Y+s.shown, r.W-5, theme.Label, "more: type more")
	}
}

// aside says what a lesson is for; where there is room, what is signed off.
func (s *LadderPage) aside(p *frame.Page, r schematic.Rect, l lesson.Lesson) {
	f := p.Flow(r)
	if p.Narrow() {
		f.Say(theme.Ink, l.Aim)
		return
	}
	f.Say(theme.Ink, l.Aim)
	f.Skip(1)
	f.Say(theme.Label, "Done when: "+l.Done)
	f.Skip(1)
	criteria := lesson.SignOff(s.results)
	var words []string
	met := 0
	for _, c := range criteria {
		words = append(words, c.Words)
		if c.Met {
			met++
		}
	}
	f.Heading("to sign off")
	if len(s.signed) > 0 {
		f.Say(theme.Good, s.signed[len(s.signed)-1])
		return
	}
	if met == len(criteria) {
		f.Say(theme.Ink, "All is shown. To sign, an instructor types sign and a name, as in sign Ida.")
		return
	}
	if !f.Fits(words, 4) {
		f.Say(theme.Ink, fmt.Sprintf("%d of %d as yet: results says which.", met, len(criteria)))
		return
	}
	for _, c := range criteria {
		mark, role := "no ", theme.Label
		if c.Met {
			mark, role = "yes", theme.Good
		}
		f.Item(role, mark, theme.Ink, c.Words)
	}
}

func (s *LadderPage) drawNaming(p *frame.Page) {
	f := p.Flow(schematic.Rect{X: 3, Y: 2, W: min(70, p.Cols-6), H: p.Sizes.Rule.Y - 2})
	f.Say(theme.Head, "Whose lessons are they?")
	f.Skip(1)
	f.Say(theme.Ink, "Type a name: what you pass is saved under it, for you and for whoever teaches you. Nothing of it leaves this computer.")
	f.Skip(1)
	f.Say(theme.Label, "Enter alone goes on without a name, and saves nothing.")
}

func (s *LadderPage) Foot(sz frame.Sizes) frame.Foot {
	if s.Naming {
		return frame.Foot{Prompt: "your name?", Hint: "Enter = no name", Keys: frame.Footer("accept", "back")}
	}
	l := lesson.All()[s.next()]
	f := frame.Foot{Prompt: "which?", Hint: "Enter = " + strconv.Itoa(s.next()) + ", " + l.Title, Keys: frame.Footer("begin", "back", "help", "theme")}
	if !sz.Narrow() {
		f.Keys = append([]frame.Key{f.Keys[0], {F: "results", Word: "", Label: "in full"}, {F: "name", Word: "", Label: "another"}}, f.Keys[1:]...)
	} else {
		f.Hint = frame.CutWords(f.Hint, sz.Understood.W)
	}
	return f
}
