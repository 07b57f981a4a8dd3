package schematic

import "spotward/views/terminal/theme"

// StageMark is how a stage stands on the rail.
type StageMark uint8

// A stage is left to do, done, skipped, or the one being done.
const (
	StageLeft StageMark = iota
	StageDone
	StageSkipped
	StageNow
)

// RailSpec is the stages in order, grouped by where one stands. The words of
// the stage that is being done stand in its place.
type RailSpec struct {
	Groups [][]StageMark
	Now    string
}

// longestStage is how long a stage's piece of the rail gets at most.
const longestStage = 8

// Rail draws the stages in width columns. Where they find no room only the
// words are written.
func (c *Canvas) Rail(col, row, width int, s RailSpec) {
	words := s.Now
	if c.ASCII() && words != "" {
		words = "[ " + words + " ]"
	}
	pieces, gaps := 0, 0
	for i, group := range s.Groups {
		for j, mark := range group {
			if mark != StageNow {
				pieces++
			}
			if i > 0 && j == 0 {
				gaps += 2
			} else if j > 0 {
				gaps++
			}
		}
	}
	room := width - Width(words) - gaps - 2
	if pieces == 0 || room < pieces {
		c.TextMax(col, row, width, theme.Head, words)
		return
	}
	long, end := min(room/pieces, longestStage), col+width
	for i, group := range s.Groups {
		for j, mark := range group {
			if i > 0 && j == 0 {
				col += 2
			} else if j > 0 {
				col++
			}
			if mark == StageNow {
				col = c.TextMax(col+1, row, end-col-1, theme.Head, words) + 1
				continue
			}
			c.stage(col, row, long, mark)
			col += long
		}
	}
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
	for k := range width {
		c.put(col+k, row, glyph, 1, theme.Line)
	}
}
