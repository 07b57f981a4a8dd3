package terminal

import (
	"fmt"
	"strings"

	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/terminal/theme"
)

func (s *align) draw(p *page, typed string) {
	st := s.state()
	heading(p, st)
	ask := st.Ask()
	switch {
	case ask.Told != nil:
		s.drawMove(p, typed)
	case ask.Want == session.WantReading:
		s.drawLook(p, typed)
	default:
		s.drawQuestion(p)
	}
}

// heading writes the scope, the rail, and the four things that are said first
// at every step: where to stand, which tool, how the tube lies, the laser.
func heading(p *page, st session.State) {
	end := p.at(p.name, theme.Head, st.Scope.Name)
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

// fact writes labels with their values in a row, gap columns apart.
func fact(p *page, r schematic.Rect, gap int, facts [][2]string) {
	col := r.X
	for _, f := range facts {
		col = p.TextMax(col, r.Y, r.X+r.W-col, theme.Label, f[0]) + 1
		col = p.TextMax(col, r.Y, r.X+r.W-col, theme.Head, f[1]) + gap
	}
}

// briefFacts writes them in one row; where one stands is written at the
// drawing.
func briefFacts(p *page, h session.Header) {
	tool := brief(h.Tool)
	if h.Tool == session.NoTool {
		tool = "no tool"
	}
	laser := brief(h.Laser)
	if strings.Contains(h.Laser, "card") && laser == "on" {
		laser = "on, card"
	}
	r := p.facts[0]
	col := p.TextMax(r.X, r.Y, r.W, theme.Head, tool) + 2
	fact(p, schematic.Rect{X: col, Y: r.Y, W: r.X + r.W - col, H: 1}, 2, [][2]string{{"tube", brief(h.Tube)}, {"laser", laser}})
}

// brief returns a fact without what comes after its first comma or colon.
func brief(s string) string {
	if i := strings.IndexAny(s, ",:;"); i >= 0 {
		return s[:i]
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
		row := session.StageRow(id)
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

// foot says what is asked, and the caution for what the hand is about to do.
func (s *align) foot(sz sizes) foot {
	st := s.state()
	ask := st.Ask()
	f := foot{prompt: s.prompt(sz), caution: caution(st, sz)}
	if felt := s.work.Felt(); felt != "" {
		f.caution = felt + " If a screw will not do as told, say so: stuck B, free B, end B."
	}
	switch ask.Want {
	case session.WantConfirm:
		f.hint = "Enter when done"
		f.keys = footer("done", "pause", "help", "do", "stop safely", "undo", "back")
	case session.WantChoice:
		f.hint = "Enter = 1"
		if len(ask.Options) > 0 && !sz.narrow() {
			f.hint = "Enter = 1, " + ask.Options[0].Words
		}
		f.keys = footer("take it", "pause", "help", "do", "stop safely", "undo", "back")
	default:
		f.keys = footer("take it", "pause", "help", "why", "=", "stop safely", "undo", "do", "view", "back")
		if ask.Told == nil {
			f.keys = footer("take it", "pause", "help", "do", "stop safely", "undo", "view", "back")
		}
		switch {
		case ask.Told != nil && s.practising():
			f.hint = "Enter = as told, or say what was"
		case ask.Told != nil:
			f.hint = "key out, hands off, then look"
		}
	}
	if sz.narrow() {
		f.hint = cutWords(f.hint, sz.Understood.W)
		f.keys = narrowKeys(f.keys)
	}
	if s.by != nil {
		f = s.by.foot(f, sz)
	}
	return f
}

// narrowKeys shortens labels where there is little room.
func narrowKeys(ks []key) []key {
	out := append([]key(nil), ks...)
	for i := range out {
		switch out[i].label {
		case "stop safely":
			out[i].label = "safe"
		case "take it":
			out[i].label = "take"
		}
	}
	return out
}

// prompt is the question in a few words, before what is typed.
func (s *align) prompt(sz sizes) string {
	st := s.state()
	ask := st.Ask()
	switch ask.Want {
	case session.WantConfirm:
		return "done?"
	case session.WantChoice:
		return "which?"
	}
	if ask.Again {
		return "look again:"
	}
	if s.practising() && ask.Told != nil {
		return "turned?"
	}
	if sz.narrow() {
		return "spot now?"
	}
	return "where is it now?"
}

// caution returns what to beware of just now, cut to whole clauses that fit.
func caution(st session.State, sz sizes) string {
	ask := st.Ask()
	if ask.Told != nil && ask.Told.Ask != "" {
		return ask.Told.Ask
	}
	return cutClause(firstOf(ask.Beware), sz.Caution.W-2)
}

func firstOf(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return list[0]
}

// cutClause keeps as many whole sentences, or else clauses, as fit a width.
func cutClause(text string, width int) string {
	if schematic.Width(text) <= width {
		return text
	}
	for _, ends := range []string{".", ":;", ","} {
		for i := len(text) - 1; i > 0; i-- {
			if strings.IndexByte(ends, text[i]) >= 0 && i < width {
				return strings.TrimRight(text[:i], " .:;,") + "."
			}
		}
	}
	return cutWords(text, width)
}

// cutWords keeps as many whole words as fit a width.
func cutWords(text string, width int) string {
	if lines := schematic.Wrap(text, width); len(lines) > 0 {
		return lines[0]
	}
	return ""
}
