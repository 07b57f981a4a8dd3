package teach

import (
	"strconv"
	"strings"

	"spotward/optics/virtual"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// benchRow is a line of the list: a group's heading, or what can be set.
type benchRow struct {
	about string
	n     int // its number, from 1; 0 = a heading
	knob  virtual.Knob
}

func benchRows() (rows []benchRow) {
	n := 0
	for _, g := range virtual.Groups() {
		rows = append(rows, benchRow{about: g.About})
		for _, k := range g.Knobs {
			n++
			rows = append(rows, benchRow{n: n, knob: k})
		}
	}
	return rows
}

// Draw lists what can be set up, and how it stands: what was set by hand, and
// what the level and the seed bring along. Where a class looks on it does not.
func (s *benchPage) Draw(p *frame.Page, typed string) {
	title, right := s.heading()
	end := p.TextMax(1, 0, p.Cols-2, theme.Head, p.Pal.Heading(title))
	p.TextRight(p.Cols-1, 0, theme.Label, frame.CutWords(right, p.Cols-3-end))
	if s.blank {
		shout(p, "WAIT", "A telescope is being got ready.")
		return
	}
	all := benchRows()
	rows := p.Sizes.Rule.Y - 2
	if p.Narrow() {
		rows -= 2 // for what the one that is meant is
	}
	columns := 1
	if p.Cols >= twoLists {
		columns = 2
		rows = min(rows, (len(all)+1)/2)
		for all[rows].n != 0 && rows < p.Sizes.Rule.Y-2 { // a group is not parted
			rows++
		}
	}
	s.shown = min(columns*rows, len(all))
	if len(all) > columns*rows {
		rows--
		s.shown = columns * rows
	}
	s.from = min(s.from, max(0, len(all)-1))
	wide := p.Cols / columns
	for i, row := range all[s.from:min(len(all), s.from+s.shown)] {
		s.drawRow(p, schematic.Rect{X: i / rows * wide, Y: 2 + i%rows, W: wide, H: 1}, row)
	}
	y := 2 + min(rows, s.shown)
	if len(all) > s.shown {
		p.TextMax(5, y, p.Cols-6, theme.Label, "more: press Enter")
		y++
	}
	if p.Narrow() {
		s.drawMeant(p, typed, y)
	}
}

// twoLists is from where on two columns of the list have room.
const twoLists = 110

// drawRow writes a line of the list.
func (s *benchPage) drawRow(p *frame.Page, r schematic.Rect, row benchRow) {
	if row.n == 0 {
		p.TextMax(r.X+5, r.Y, r.W-6, theme.Label, p.Pal.Heading(row.about))
		return
	}
	const name, now = 11, 11
	tel, k := s.scope.Telescope(), row.knob
	role, text := theme.Label, k.Now(s.set.Setup(tel, s.seed), tel)
	if s.set.IsSet(k.Name) {
		role = theme.Act
		p.TextMax(r.X+5+name, r.Y, 1, theme.Act, "*")
	}
	p.TextRight(r.X+4, r.Y, theme.Act, strconv.Itoa(row.n))
	p.TextMax(r.X+5, r.Y, name, theme.Head, k.Name)
	p.TextMax(r.X+7+name, r.Y, now, role, text)
	if !p.Narrow() {
		p.TextMax(r.X+7+name+now, r.Y, r.W-8-name-now, theme.Ink, frame.CutWords(k.Says, r.W-8-name-now))
	}
	p.Zone(schematic.Rect{X: r.X + 1, Y: r.Y, W: r.W - 2, H: 1}, strconv.Itoa(row.n)+" ")
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
	p.TextMax(1, y, p.Cols-2, theme.Label, "* set by hand; the rest by level and seed")
}
