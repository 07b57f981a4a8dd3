package terminal

import (
	"fmt"

	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/theme"
)

// heading writes the scope, the rail, and the four things that are said first
// at every step: where to stand, which tool, how the tube lies, the laser.
func heading(p *page, st session.State) {
	end := p.scopeName(st.Scope.Name, st.World != nil)
	rail := p.rail
	if from := end + 2; p.name.Y == rail.Y {
		rail.X, rail.W = from, rail.X+rail.W-from
	}
	p.Rail(rail.X, rail.Y, rail.W, railOf(st))
	h := st.Ask().Heading
	if len(p.facts) == 1 {
		briefFacts(p, h)
		return
	}
	fact(p, p.facts[0], 3, []headFact{{"stand", h.Stand}, {"tool", h.Tool}})
	fact(p, p.facts[1], 3, []headFact{{"tube", h.Tube}, {"laser", h.Laser}})
	if st.Looks > 0 && p.Cols >= 100 {
		p.TextRight(p.facts[0].X+p.facts[0].W, p.facts[0].Y, theme.Label, counts(st))
	}
}

func counts(st session.State) string { return fmt.Sprintf("look %d   moves %d", st.Looks, st.Moves) }

// headFact is one thing that is said first, with its label.
type headFact struct {
	label string
	said  session.Wording
}

// fact writes labels with their values in a row, gap columns apart, or closer
// where they would not fit; the last in brief where even that does not do.
func fact(p *page, r schematic.Rect, gap int, facts []headFact) {
	for gap > 1 && factsWidth(facts, gap) > r.W {
		gap--
	}
	if last := &facts[len(facts)-1]; factsWidth(facts, gap) > r.W {
		last.said = brief(last.said)
	}
	col := r.X
	for _, f := range facts {
		col = p.TextMax(col, r.Y, r.X+r.W-col, theme.Label, f.label) + 1
		col = p.TextMax(col, r.Y, r.X+r.W-col, theme.Head, f.said.Long) + gap
	}
}

// brief has the short wording alone.
func brief(w session.Wording) session.Wording { return same(w.Short) }

// same is a wording with one length.
func same(words string) session.Wording { return session.Wording{Long: words, Short: words} }

func factsWidth(facts []headFact, gap int) int {
	cols := -gap
	for _, f := range facts {
		cols += schematic.Width(f.label) + 1 + schematic.Width(f.said.Long) + gap
	}
	return cols
}

// briefFacts writes them in one row; where one stands is written at the
// drawing.
func briefFacts(p *page, h session.HeaderWords) {
	r := p.facts[0]
	col := p.TextMax(r.X, r.Y, r.W, theme.Head, h.Tool.Short) + 2
	fact(p, schematic.Rect{X: col, Y: r.Y, W: r.X + r.W - col, H: 1}, 2, []headFact{{"tube", brief(h.Tube)}, {"laser", brief(h.Laser)}})
}

// railOf groups the stages by where one stands.
func railOf(st session.State) schematic.RailSpec {
	plan, at := st.Plan()
	skipped := map[session.StageID]bool{}
	for _, k := range st.Skips {
		skipped[k.Stage] = true
	}
	var spec schematic.RailSpec
	var where session.Stand
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
