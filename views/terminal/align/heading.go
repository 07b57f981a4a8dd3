package align

import (
	"fmt"

	"spotward/session"
	"spotward/session/header"
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
	h := st.Ask().Heading
	if len(p.Facts) == 1 && len(p.FactCols) < 4 { // the row of facts has no room for where to stand
		col := p.TextRight(rail.X+rail.W, rail.Y, theme.Head, h.Stand.Short)
		rail.W = p.TextRight(col-1, rail.Y, theme.Label, "stand") - 2 - rail.X
	}
	Rail(p, rail, RailOf(st))
	if len(p.Facts) == 1 {
		briefFacts(p, h)
		return
	}
	Facts(p, p.Facts[0], []HeadFact{{"stand", h.Stand}, {"tool", h.Tool}})
	Facts(p, p.Facts[1], []HeadFact{{"tube", h.Tube}, {"laser", h.Laser}})
	if st.Looks > 0 && p.Cols >= 100 {
		p.TextRight(p.Facts[0].X+p.Facts[0].W, p.Facts[0].Y, theme.Label, counts(st))
	}
}

func counts(st session.State) string { return fmt.Sprintf("look %d   moves %d", st.Looks, st.Moves) }

// HeadFact is one thing that is said first, with its label.
type HeadFact struct {
	Label string
	Said  header.Wording
}

// Facts writes a row of facts, each from its column on: in full where that has
// room before the next one, else in brief.
func Facts(p *frame.Page, r schematic.Rect, facts []HeadFact) {
	for i, f := range facts {
		col, end := FactPlace(p.Sizes, r, i, len(facts))
		p.TextMax(p.TextMax(col, r.Y, end-col, theme.Label, f.Label)+1, r.Y, end-col, theme.Head, f.Fitting(end-col))
	}
}

// FactPlace returns where the fact i of n begins, and the column before which it
// ends.
func FactPlace(sz frame.Sizes, r schematic.Rect, i, n int) (col, end int) {
	col, end = sz.FactCols[i], r.X+r.W
	if i+1 < n {
		end = sz.FactCols[i+1] - 1
	}
	return col, end
}

// Fitting returns the longest wording that has room beside its label.
func (f HeadFact) Fitting(width int) string {
	if schematic.Width(f.Label)+1+schematic.Width(f.Said.Long) <= width {
		return f.Said.Long
	}
	return f.Said.Short
}

// briefFacts writes them in one row, where one stands where there is room.
func briefFacts(p *frame.Page, h header.HeaderWords) {
	r := p.Facts[0]
	facts := []HeadFact{{"", h.Tool}, {"tube", h.Tube}, {"laser", h.Laser}}
	if len(p.FactCols) > len(facts) {
		Facts(p, r, []HeadFact{{"stand", h.Stand}, {"tool", h.Tool}, {"tube", h.Tube}, {"laser", h.Laser}})
		return
	}
	for i, f := range facts {
		col, end := FactPlace(p.Sizes, r, i, len(facts))
		if f.Label != "" {
			col = p.TextMax(col, r.Y, end-col, theme.Label, f.Label) + 1
		}
		p.TextMax(col, r.Y, end-col, theme.Head, f.Said.Short)
	}
}

// railCols is the width from which on the rail finds room with its names at
// every stage. Pieces without a name say nothing: below it there is the stage
// alone.
const railCols = 120

// Rail writes the stage and, where there is room, the way to it and from it.
func Rail(p *frame.Page, r schematic.Rect, spec schematic.RailSpec) {
	if p.Cols < railCols {
		spec.Groups = nil
	}
	p.Rail(r.X, r.Y, r.W, spec)
}

// railNames are the places where one stands, in a word.
var railNames = map[header.Stand]string{
	header.StandBeside: "beside", header.StandSky: "sky", header.StandBehind: "behind", header.StandAllRound: "round",
}

// RailOf groups the stages by where one stands.
func RailOf(st session.State) schematic.RailSpec {
	plan, at := st.Plan()
	skipped := map[session.StageID]bool{}
	for _, k := range st.Skips {
		skipped[k.Stage] = true
	}
	var spec schematic.RailSpec
	var where header.Stand
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
			spec.Names = append(spec.Names, railNames[row.Where])
		}
		where = row.Where
	}
	return spec
}
