package schematic

import "spotward/views/theme"

// StageMark is how a stage stands on the rail.
type StageMark uint8

// A stage is left to do, done, skipped, or the one being done.
const (
	StageLeft StageMark = iota
	StageDone
	StageSkipped
	StageNow
)

// RailSpec is the stages in order, grouped by where one stands, and each group's
// name. The words of the stage that is being done stand in its place.
type RailSpec struct {
	Groups [][]StageMark
	Names  []string // of the groups; nil: they have none
	Now    string
}

// longestStage is how long a stage's piece of the rail gets at most.
const longestStage = 8

// Rail draws the stages in width columns. Where they find no room with their
// names only the words are written.
func (c *Canvas) Rail(col, row, width int, s RailSpec) {
	words := s.Now
	if c.ASCII() && words != "" {
		words = "[ " + words + " ]"
	}
	pieces, room := s.pieces(), width-Width(words)
	stages := 0
	for _, p := range pieces {
		room -= p.gap + p.named()
		if p.mark != StageNow {
			stages++
		}
	}
	if stages == 0 || room < stages {
		c.TextMax(col, row, width, theme.Head, words)
		return
	}
	long := min(room/stages, longestStage)
	for _, p := range pieces {
		col += p.gap
		if p.name != "" {
			col = c.Text(col, row, theme.Label, p.name) + 1
		}
		if p.mark == StageNow {
			col = c.Text(col, row, theme.Head, words)
			continue
		}
		c.stage(col, row, long, p.mark)
		col += long
	}
}

// piece is one stage on the rail and the gap before it.
type piece struct {
	mark StageMark
	gap  int
	name string // of the group that begins with it
}

// named is how many columns its group's name takes.
func (p piece) named() int {
	if p.name == "" {
		return 0
	}
	return Width(p.name) + 1
}

// pieces returns the stages in a row: a gap between them, a wider one between
// groups and on both sides of the words.
func (s RailSpec) pieces() []piece {
	var out []piece
	for g, group := range s.Groups {
		for i, mark := range group {
			gap := 1
			switch {
			case len(out) == 0:
				gap = 0
			case i == 0, mark == StageNow, out[len(out)-1].mark == StageNow:
				gap = 2
			}
			name := ""
			if i == 0 && s.Names != nil {
				name = s.Names[g]
			}
			out = append(out, piece{mark, gap, name})
		}
	}
	return out
}

// stage draws the piece of one stage.
func (c *Canvas) stage(col, row, long int, mark StageMark) {
	glyph, middle, role := "─", "─", theme.Line
	switch mark {
	case StageDone:
		glyph, middle, role = "━", "━", theme.Label
	case StageSkipped:
		glyph, middle, role = "╌", "×", theme.Label
	}
	if c.ASCII() {
		glyph = map[StageMark]string{StageDone: "=", StageSkipped: ".", StageLeft: "-"}[mark]
		middle = glyph
		if mark == StageSkipped {
			middle = "x"
		}
	}
	for k := range long {
		g := glyph
		if k == long/2 {
			g = middle
		}
		c.put(col+k, row, g, 1, role)
	}
}

// Rule draws a line across width columns.
func (c *Canvas) Rule(col, row, width int) {
	glyph := "─"
	if c.ASCII() {
		glyph = "-"
	}
	for k := range c.run(col, width) {
		c.put(col+k, row, glyph, 1, theme.Line)
	}
}
