package align

import (
	"fmt"

	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// heading writes the scope, the rail, and the four things that are said first
// at every step: where to stand, which tool, how the tube lies, the laser.
func heading(p *frame.Page, st session.State) {
	end := p.ScopeName(st.Scope.Name, st.World != nil)
	rail := p.RailAt
	if from := end + 2; p.Name.Y == rail.Y {
		rail.X, rail.W = from, rail.X+rail.W-from
	}
	p.Rail(rail.X, rail.Y, rail.W, RailOf(st))
	h := st.Ask().Heading
	if len(p.Facts) == 1 {
		briefFacts(p, h)
		return
	}
	Fact(p, p.Facts[0], 3, []HeadFact{{"stand", h.Stand}, {"tool", h.Tool}})
	Fact(p, p.Facts[1], 3, []HeadFact{{"tube", h.Tube}, {"laser", h.Laser}})
	if st.Looks > 0 && p.Cols >= 100 {
		p.TextRight(p.Facts[0].X+p.Facts[0].W, p.Facts[0].Y, theme.Label, counts(st))
	}
}

func counts(st session.State) string { return fmt.Sprintf("look %d   moves %d", st.Looks, st.Moves) }

// HeadFact is one thing that is said first, with its label.
type HeadFact struct {
	Label string
	Said  session.Wording
}

// Fact writes labels with their values in a row, gap columns apart, or closer
// where they would not fit; the last in brief where even that does not do.
func Fact(p *frame.Page, r schematic.Rect, gap int, facts []HeadFact) {
	for gap > 1 && FactsWidth(facts, gap) > r.W {
		gap--
	}
	if last := &facts[len(facts)-1]; FactsWidth(facts, gap) > r.W {
		last.Said = Brief(last.Said)
	}
	col := r.X
	for _, f := range facts {
		col = p.TextMax(col, r.Y, r.X+r.W-col, theme.Label, f.Label) + 1
		col = p.TextMax(col, r.Y, r.X+r.W-col, theme.Head, f.Said.Long) + gap
	}
}

// Brief has the short wording alone.
func Brief(w session.Wording) session.Wording { return Same(w.Short) }

// Same is a wording with one length.
func Same(words string) session.Wording { return session.Wording{Long: words, Short: words} }

func FactsWidth(facts []HeadFact, gap int) int {
	cols := -gap
	for _, f := range facts {
		cols += schematic.Width(f.Label) + 1 + schematic.Width(f.Said.Long) + gap
	}
	return cols
}

// briefFacts writes them in one row; where one stands is written at the
// drawing.
func briefFacts(p *frame.Page, h session.HeaderWords) {
	r := p.Facts[0]
	col := p.TextMax(r.X, r.Y, r.W, theme.Head, h.Tool.Short) + 2
	Fact(p, schematic.Rect{X: col, Y: r.Y, W: r.X + r.W - col, H: 1}, 2, []HeadFact{{"tube", Brief(h.Tube)}, {"laser", Brief(h.Laser)}})
}

// RailOf groups the stages by where one stands.
func RailOf(st session.State) schematic.RailSpec {
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
