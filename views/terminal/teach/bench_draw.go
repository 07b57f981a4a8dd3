package teach

import (
	"strconv"
	"strings"

	"spotward/optics/virtual"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// Draw lists what can be set up, and how it stands: what was set by hand, and
// what the level and the seed bring along.
func (s *benchPage) Draw(p *frame.Page, typed string) {
	title, right := s.heading()
	end := p.TextMax(1, 0, p.Cols-2, theme.Head, p.Pal.Heading(title))
	p.TextRight(p.Cols-1, 0, theme.Label, frame.CutWords(right, p.Cols-3-end))
	tel := s.scope.Telescope()
	setup := s.set.Setup(tel, s.seed)
	const name, now = 11, 12
	rows := p.Sizes.Rule.Y - 2
	if p.Narrow() {
		rows -= 2 // for what the one that is meant is
	}
	knobs := virtual.Knobs()
	s.shown = min(rows, len(knobs))
	if len(knobs) > rows {
		s.shown = rows - 1
	}
	s.from = min(s.from, max(0, len(knobs)-1))
	says := p.Cols - 7 - name - now
	for i, k := range knobs[s.from:min(len(knobs), s.from+s.shown)] {
		n, y := s.from+i+1, 2+i
		role, text := theme.Label, k.Now(setup, tel)
		if s.set.IsSet(k.Name) {
			role = theme.Act
			p.TextMax(5+name, y, 1, theme.Act, "*")
		}
		p.TextRight(4, y, theme.Act, strconv.Itoa(n))
		p.TextMax(5, y, name, theme.Head, k.Name)
		p.TextMax(7+name, y, now, role, text)
		if !p.Narrow() {
			p.TextMax(8+name+now, y, says-1, theme.Ink, k.Says)
		}
		p.Zone(schematic.Rect{X: 1, Y: y, W: p.Cols - 2, H: 1}, strconv.Itoa(n)+" ")
	}
	y := 2 + s.shown
	if len(knobs) > s.shown {
		p.TextMax(5, y, p.Cols-6, theme.Label, "more: press Enter")
		y++
	}
	if p.Narrow() {
		s.drawMeant(p, typed, y)
	}
}

// drawMeant says what the line that is being typed means, where the list has no
// room to.
func (s *benchPage) drawMeant(p *frame.Page, typed string, y int) {
	line := s.understood(typed)
	for _, k := range virtual.Knobs() {
		if line == k.Name || strings.HasPrefix(line, k.Name+" ") {
			p.TextMax(1, y, p.Cols-2, theme.Ink, k.Name+": "+k.Says)
			return
		}
	}
	p.TextMax(1, y, p.Cols-2, theme.Label, "* set by hand; the rest is as the level and the seed have it")
}
