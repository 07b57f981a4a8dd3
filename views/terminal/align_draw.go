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
		s.drawQuestion(p, typed)
	}
}

// notReal stands by everything that is played at the practice telescope.
const notReal = "nothing real moves"

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

// foot says what is asked, and the caution for what the hand is about to do.
func (s *align) foot(sz sizes) foot {
	st := s.state()
	ask := st.Ask()
	f := foot{prompt: s.prompt(sz), caution: caution(st, sz)}
	if s.practising() {
		f.rule = notReal
	}
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
			f.hint = "Enter = as told; or say what was"
		case ask.Told != nil:
			f.hint = "key out, hands off, then look"
		}
	}
	if sz.narrow() {
		f.hint, _, _ = strings.Cut(f.hint, ";")
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
	return fitting(text, width, 2) // better two rows of it than half of what it says
}

// fitting keeps as many whole clauses as fit so many rows.
func fitting(text string, width, rows int) string {
	for schematic.Width(text) > 0 && len(schematic.Wrap(text, width)) > rows {
		i := strings.LastIndexAny(text[:len(text)-1], ".:;,")
		if i < 0 {
			return text
		}
		text = text[:i] + "."
	}
	return text
}

// cutWords keeps as many whole words as fit a width.
func cutWords(text string, width int) string {
	if lines := schematic.Wrap(text, width); len(lines) > 0 {
		return lines[0]
	}
	return ""
}
