package session

import (
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/words"
)

// Reworded returns the state with everything that it says to people put through
// say, as in another language: the stages' texts, the header's words, questions,
// answers, cautions, advice. What is asked and what an answer does stay the same,
// and what is journalled stays in the words it was told in.
func (s State) Reworded(say func(string) string) State {
	s.say = say
	s.settled()
	return s
}

// Reword has the session speak in other words from here on; see State.Reworded.
func (s *Session) Reword(say func(string) string) { s.state = s.state.Reworded(say) }

// word returns a text in the state's words.
func (s State) word(text string) string {
	if s.say == nil || text == "" {
		return text
	}
	return s.say(text)
}

func (s State) wordAll(texts []string) []string {
	if s.say == nil || texts == nil {
		return texts
	}
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = s.word(t)
	}
	return out
}

// wordStage returns a row of the table in the state's words.
func (s State) wordStage(st *Stage) *Stage {
	if s.say == nil || st == nil {
		return st
	}
	row := *st
	row.Title, row.Skip, row.NoBack = s.word(st.Title), s.word(st.Skip), s.word(st.NoBack)
	row.Do, row.Beware = s.wordAll(st.Do), s.wordAll(st.Beware)
	row.Brief, row.Look = s.word(st.Brief), s.word(st.Look)
	return &row
}

// wordTold returns what was told in the state's words.
func (s State) wordTold(t *event.Told) *event.Told {
	if s.say == nil || t == nil {
		return t
	}
	told := *t
	told.Why, told.Ask, told.Brief = s.word(t.Why), s.word(t.Ask), s.word(t.Brief)
	return &told
}

// wordAsk returns a question in the state's words. Its stage and what is told are
// so already.
func (s State) wordAsk(a Ask) Ask {
	if s.say == nil {
		return a
	}
	a.Say, a.Question, a.Note, a.Beam = s.word(a.Say), s.word(a.Question), s.word(a.Note), s.word(a.Beam)
	a.Beware, a.Brief = s.wordAll(a.Beware), s.word(a.Brief)
	options := make([]words.Option, len(a.Options))
	for i, o := range a.Options {
		options[i] = words.Option{ID: o.ID, Words: s.word(o.Words)}
	}
	a.Options = options
	for _, w := range []*header.Wording{&a.Heading.Stand, &a.Heading.Tool, &a.Heading.Tube, &a.Heading.Laser} {
		w.Long, w.Short = s.word(w.Long), s.word(w.Short)
	}
	return a
}
