package terminal

import (
	"strings"

	"spotward/session"
	"spotward/views/schematic"
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
