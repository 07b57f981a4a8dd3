package terminal

import (
	"fmt"
	"strings"

	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/terminal/theme"
)

// heading writes the scope, the rail, and the four things that are said first
// at every step: where to stand, which tool, how the tube lies, the laser.
func heading(p *page, st session.State) {
	end := p.scopeName(st)
	rail := p.rail
	if from := end + 2; p.name.Y == rail.Y {
		rail.X, rail.W = from, rail.X+rail.W-from
	}
	p.Rail(rail.X, rail.Y, rail.W, railOf(st))
	h := st.Ask().Header
	if len(p.facts) == 1 {
		briefFacts(p, h)
		return
	}
	fact(p, p.facts[0], 3, [][2]string{{"stand", h.Stand}, {"tool", h.Tool}})
	fact(p, p.facts[1], 3, [][2]string{{"tube", h.Tube}, {"laser", h.Laser}})
	if st.Looks > 0 && p.Cols >= 100 {
		p.TextRight(p.facts[0].X+p.facts[0].W, p.facts[0].Y, theme.Label, counts(st))
	}
}

func counts(st session.State) string { return fmt.Sprintf("look %d   moves %d", st.Looks, st.Moves) }

// fact writes labels with their values in a row, gap columns apart, or closer
// where they would not fit; the last in brief where even that does not do.
func fact(p *page, r schematic.Rect, gap int, facts [][2]string) {
	for gap > 1 && factsWidth(facts, gap) > r.W {
		gap--
	}
	if last := &facts[len(facts)-1]; factsWidth(facts, gap) > r.W {
		last[1] = brief(last[1])
	}
	col := r.X
	for _, f := range facts {
		col = p.TextMax(col, r.Y, r.X+r.W-col, theme.Label, f[0]) + 1
		col = p.TextMax(col, r.Y, r.X+r.W-col, theme.Head, f[1]) + gap
	}
}

func factsWidth(facts [][2]string, gap int) int {
	cols := -gap
	for _, f := range facts {
		cols += schematic.Width(f[0]) + 1 + schematic.Width(f[1]) + gap
	}
	return cols
}

// briefFacts writes them in one row; where one stands is written at the
// drawing.
func briefFacts(p *page, h session.Header) {
	r := p.facts[0]
	col := p.TextMax(r.X, r.Y, r.W, theme.Head, brief(h.Tool)) + 2
	fact(p, schematic.Rect{X: col, Y: r.Y, W: r.X + r.W - col, H: 1}, 2, [][2]string{{"tube", brief(h.Tube)}, {"laser", brief(h.Laser)}})
}

// brief says a fact in a word or two: as written here, or else without what
// comes after its first comma or colon.
func brief(s string) string {
	switch s {
	case session.NoTool:
		return "no tool"
	case "laser holder's collar":
		return "holder's collar"
	case "then behind: primary's key":
		return "primary's key"
	case "up to about 50 degrees and back":
		return "swung"
	case "off, or card over the end":
		return "off or card"
	case "card over the end; then off, out":
		return "card, off"
	case "off and out, an eyepiece in its place":
		return "off, out"
	case "off until the card is up":
		return "off till card"
	}
	long, _, _ := strings.Cut(s, ":")
	words := strings.FieldsFunc(long, func(r rune) bool { return r == ',' || r == ';' })
	switch {
	case len(words) > 1 && strings.Contains(s, "card"):
		return words[0] + ", card"
	case len(words) > 0:
		return words[0]
	}
	return s
}

// railOf groups the stages by where one stands.
func railOf(st session.State) schematic.RailSpec {
	plan, at := st.Plan()
	skipped := map[session.StageID]bool{}
	for _, k := range st.Skips {
		skipped[k.Stage] = true
	}
	var spec schematic.RailSpec
	where := ""
	for i, id := range plan {
		row := st.Row(id)
		mark := schematic.StageLeft
		switch {
		case i == at:
			mark, spec.Now = schematic.StageNow, row.Title
		case i < at && skipped[id]:
			mark = schematic.StageSkipped
		case i < at:
			mark = schematic.StageDone
		}
		if n := len(spec.Groups); n > 0 && row.Where == where {
			spec.Groups[n-1] = append(spec.Groups[n-1], mark)
		} else {
			spec.Groups = append(spec.Groups, []schematic.StageMark{mark})
		}
		where = row.Where
	}
	return spec
}
