package align

import (
	"strings"

	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
)

func (s *Screen) Draw(p *frame.Page, typed string) {
	if c, ok := s.By.(coverer); ok && c.Covers(p) {
		return
	}
	st := s.State()
	heading(p, st)
	ask := st.Ask()
	_, pictured := s.pictured()
	switch {
	case pictured:
		s.drawPictured(p, typed)
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

// felt says what the hand felt at the last turn, and to say so.
func (s *Screen) felt() string {
	felt := s.Work.Felt()
	if felt != "" && s.Work.Bench.Names() { // where it is not, the name is the question
		felt += " Say so: type stuck, free or end, and its letter."
	}
	return felt
}

// feltBriefly keeps the first that was felt, and says where the rest is.
func feltBriefly(felt string) string {
	name := strings.IndexByte(felt, ' ') + 1
	if strings.HasPrefix(felt, "Lock ") {
		name += strings.IndexByte(felt[name:], ' ') + 1
	}
	i := strings.IndexAny(felt[name:], ":,.")
	if i < 0 || name+i == len(felt)-1 {
		return felt // all of it
	}
	return felt[:name+i] + ". More: F6."
}

// Foot says what is asked, and the caution for what the hand is about to do.
func (s *Screen) Foot(sz frame.Sizes) frame.Foot {
	st := s.State()
	ask := st.Ask()
	f := frame.Foot{Prompt: s.prompt(sz), Caution: firstOf(ask.Beware), Brief: ask.Brief}
	if s.practising() {
		f.Rule = notReal
	}
	if felt := s.felt(); felt != "" {
		f.Caution, f.Brief = felt, feltBriefly(felt)
	}
	switch ask.Want {
	case session.WantConfirm:
		f.Hint = "Enter when done"
		f.Keys = frame.Footer("done", "pause", "help", "do", "stop safely", "undo", "back", "why")
	case session.WantChoice:
		f.Hint = "Enter = 1"
		switch {
		case ask.Named():
			f.Hint = "a number, off its label"
		case len(ask.Options) > 0 && !sz.Narrow():
			f.Hint = "Enter = 1, " + ask.Options[0].Words
		}
		f.Keys = frame.Footer("accept", "pause", "help", "do", "stop safely", "undo", "back", "why")
	default:
		f.Keys = frame.Footer("accept", "pause", "help", "why", "stop safely", "undo", "do", "view", "back")
		switch {
		case ask.Told != nil && ask.Told.Watch:
			f.Keys = frame.Footer("accept", "pause", "=", "help", "why", "stop safely", "undo", "do", "view", "back")
		case ask.Told == nil:
			f.Keys = frame.Footer("accept", "pause", "help", "do", "stop safely", "undo", "view", "back", "why")
		}
		switch {
		case ask.Told != nil && ask.Told.Watch && s.practising():
			f.Hint = "F5 = it stands at the stop; Enter = turned, then look"
		case ask.Told != nil && ask.Told.Watch:
			f.Hint = "F5 = it stands at the stop; or type where"
		case ask.Told != nil && s.practising():
			f.Hint = "Enter = done as told; or type what you did"
		case ask.Told != nil:
			f.Hint = "key out, hands off, then look"
		default:
			f.Hint = pictureHint(st, s.practising())
		}
	}
	if _, ok := s.pictured(); ok {
		f.Hint = "Enter takes both; arrows turn the focuser"
	}
	if sz.Narrow() {
		f.Hint, _, _ = strings.Cut(f.Hint, ";")
		f.Keys = narrowKeys(f.Keys)
	}
	if ask.Told != nil && (sz.Narrow() || s.arrived()) { // there is no other row for it
		const room = 44
		if how := howIn(room, 1, st.TurnBriefly(st.Working())); how != "" {
			f.Hint = how
			if all := "Enter = done. " + how; s.practising() && schematic.Width(all) <= room {
				f.Hint = all
			}
		}
	}
	if s.By != nil {
		f = s.By.Foot(f, sz)
	}
	return f
}

// narrowKeys shortens labels where there is little room.
func narrowKeys(ks []frame.Key) []frame.Key {
	out := append([]frame.Key(nil), ks...)
	for i := range out {
		switch out[i].Label {
		case "stop safely":
			out[i].Label = "safe"
		case "take it":
			out[i].Label = "take"
		case "at stop":
			out[i].Label, out[0].Label = "there", "ok"
		}
	}
	return out
}

// prompt is the question in a few words, before what is typed.
func (s *Screen) prompt(sz frame.Sizes) string {
	st := s.State()
	ask := st.Ask()
	switch ask.Want {
	case session.WantConfirm:
		return "done?"
	case session.WantChoice:
		return "which?"
	}
	if _, ok := s.pictured(); ok {
		return "right?"
	}
	if ask.Again {
		return "look again:"
	}
	if s.practising() && ask.Told != nil {
		return "turned?"
	}
	if sz.Narrow() {
		return "spot now?"
	}
	return "where is it now?"
}

func firstOf(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return list[0]
}

// CutClause keeps as many whole sentences, or else clauses, as fit a width.
func CutClause(text string, width int) string {
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
