package session

import (
	"errors"
	"fmt"
	"strings"

	"spotward/optics"
)

// Context returns what a typed line is understood against where s stands.
func (s State) Context() ReadingContext {
	ask := s.Ask()
	c := ReadingContext{Tel: s.Tel, Face: ask.Face, Told: s.told, Mirror: s.working()}
	if ask.Face == "" {
		c.Face = optics.FacePrimary
	}
	if ask.HasGoal {
		c.Goal = ask.Goal
	}
	if step := s.step(); step != nil {
		c.Aside = step.Aside
	}
	if last, ok := s.LastOn(c.Face); ok {
		c.Last = &last
	}
	return c
}

// LastOn returns the last reading on face f, in the frame of optics.Tube.
func (s State) LastOn(f optics.Face) (optics.Belief, bool) {
	for n := s.history; n != nil; n = n.before.history {
		ev := n.event
		if ev.Kind == KindReading && ev.Face == f && ev.Saw != SawGone && ev.Saw != SawCantSee {
			return s.belief(Ask{}, ev), true
		}
	}
	return optics.Belief{}, false
}

// Typed is what a typed line amounts to: the events to send, and the understood
// form to say back.
type Typed struct {
	Events []Event
	Echo   string
}

// ErrEmpty says that nothing was typed where an answer is wanted.
var ErrEmpty = errors.New("nothing was typed: say where the spot is, or h for help")

// ParseLine understands a typed line where s stands: the words that hold
// everywhere first, then the answers to what is asked, then readings and what
// screws say. On an error nothing is to be sent and what was typed stays.
func (s State) ParseLine(text string) (Typed, error) {
	text = strings.TrimSpace(text)
	word := strings.ToLower(text)
	ask := s.Ask()
	if err := twoMeanings(ask.Options, word); err != nil {
		return Typed{}, err
	}
	if ev, ok := everywhere(word); ok {
		if ev.Kind == KindGoOn {
			word = "go on; nothing is kept from here on"
		}
		return Typed{Events: []Event{ev}, Echo: word}, nil
	}
	if where, ok := cutWord(word, "focuser"); ok && where != "" {
		c, err := ParseClock(where)
		if err != nil {
			return Typed{}, err
		}
		return Typed{Events: []Event{{Kind: KindFocuser, Hour: c.Deg() / 30, Text: text}}, Echo: "the focuser is seen at " + string(c)}, nil
	}
	if why, ok := cutWord(text, "skip"); ok {
		return Typed{Events: []Event{{Kind: KindSkip, Why: why}}, Echo: "left out: " + why}, nil
	}
	switch ask.Want {
	case WantConfirm:
		switch word {
		case "", "y", "yes", "done", "ok":
			return Typed{Events: []Event{{Kind: KindConfirm}}, Echo: "done"}, nil
		}
	case WantChoice:
		if t, ok, err := s.lettersLine(ask, text); ok {
			return t, err
		}
		if t, ok := s.choiceLine(ask, word, text); ok {
			return t, nil
		}
	}
	if word == "" {
		return Typed{}, ErrEmpty
	}
	if _, ok := cutWord(word, "dropped"); ok {
		return Typed{}, errors.New("laser off; do not tilt the tube; look for it with a torch, and count the kit; then go on, or stop safely")
	}
	said, err := ParseReading(text, s.Context())
	if err != nil {
		return Typed{}, s.lineError(ask, err)
	}
	return s.fromSaid(ask, said)
}

// everywhere returns the event of a word that holds in every step.
func everywhere(word string) (Event, bool) {
	switch word {
	case "u", "undo":
		return Event{Kind: KindUndo}, true
	case "redo":
		return Event{Kind: KindRedo}, true
	case "b", "back":
		return Event{Kind: KindBack}, true
	case "stop safely", "stop":
		return Event{Kind: KindStop}, true
	case "go on", "without record":
		return Event{Kind: KindGoOn}, true
	case "q", "quit":
		return Event{Kind: KindQuit}, true
	case "finer", "finer check":
		return Event{Kind: KindFiner}, true
	case "dead laser", "laser dead":
		return Event{Kind: KindLaser}, true
	case "one screw", "whole move":
		whole := word == "whole move"
		return Event{Kind: KindManner, Whole: &whole}, true
	case "not sure":
		return Event{Kind: KindUnsure}, true
	case "watching", "not watching":
		watching := word == "watching"
		return Event{Kind: KindManner, Watching: &watching}, true
	}
	return Event{}, false
}

func cutWord(text, word string) (rest string, ok bool) {
	if len(text) < len(word) || !strings.EqualFold(text[:len(word)], word) {
		return "", false
	}
	rest = text[len(word):]
	if rest != "" && rest[0] != ' ' {
		return "", false
	}
	return strings.TrimSpace(rest), true
}

// choiceLine understands an answer to a choice, and a width where one is taken.
func (s State) choiceLine(ask Ask, word, text string) (Typed, bool) {
	if o, ok := pickOption(ask.Options, word); ok {
		return Typed{Events: []Event{{Kind: KindChoice, Choice: o.ID, Text: text}}, Echo: o.Words}, true
	}
	if !ask.Dial {
		return Typed{}, false
	}
	mm, err := ParseWidth(text, s.Context())
	if err != nil {
		return Typed{}, false
	}
	ev := Event{Kind: KindChoice, Choice: s.CircleOf(mm), WidthMM: mm, Text: text}
	return Typed{Events: []Event{ev}, Echo: fmt.Sprintf("a circle %.0f mm wide", mm)}, true
}

// lineError puts an error into the terms of what is asked.
func (s State) lineError(ask Ask, err error) error {
	switch ask.Want {
	case WantConfirm:
		return errors.New("say yes (or Enter) when it is done; u undoes, stop safely makes safe")
	case WantChoice:
		return fmt.Errorf("say a number from 1 to %d, or a word: %s", len(ask.Options), optionIDs(ask.Options))
	}
	return err
}

// fromSaid turns a reading or what a screw said into events.
func (s State) fromSaid(ask Ask, said Said) (Typed, error) {
	t := Typed{Echo: said.Echo()}
	reading := Event{Kind: KindReading, Face: said.Face, Text: said.Text}
	switch said.Kind {
	case SaidScrew:
		ev := Event{Kind: KindScrew, Mirror: s.working(), Screw: said.Label, Is: said.Is, Text: said.Text}
		if said.Lock {
			return t, fmt.Errorf("a lock that is %s: go on without it, and skip with that as the reason if the mirror does not move", said.Is)
		}
		t.Events = []Event{ev}
		t.Echo += s.afterSaid(ev)
		return t, nil
	case SaidTurned:
		t.Events = []Event{{Kind: KindTurned, Turned: said.Turned, Text: said.Text}}
		return t, nil
	case SaidWrong:
		if s.told == nil || len(s.told.Moves) == 0 {
			return t, ErrNothingDue
		}
		wrong := s.told.Moves[0].Turn
		wrong.Screw = said.Label
		t.Events = []Event{{Kind: KindTurned, Turned: []Turn{wrong}, Text: said.Text}}
		return t, nil
	case SaidLaserDead:
		t.Events = []Event{{Kind: KindLaser, Text: said.Text}}
		return t, nil
	case SaidLaser:
		t.Events = []Event{{Kind: KindLaser, Is: said.Is, Text: said.Text}}
		return t, nil
	case SaidMany:
		return t, errors.New("the true spot stays on the glass when you move your head, the outgoing one is brighter, a 1/16 turn moves the return: which one?")
	}
	if ask.Want != WantReading {
		return t, s.lineError(ask, nil)
	}
	switch said.Kind {
	case SaidGone:
		reading.Saw = SawGone
	case SaidCantSee:
		reading.Saw = SawCantSee
	case SaidMiddle:
		reading.Saw = SawWithin
	default:
		reading = s.placed(reading, said)
	}
	t.Echo += s.takenFor(reading)
	t.Events = []Event{reading}
	return t, nil
}

// takenFor says what else a reading is taken to say: that what was told was
// turned. A spot that stands where it stood makes one ask.
func (s State) takenFor(ev Event) string {
	if s.told == nil || len(s.told.Moves) == 0 {
		return ""
	}
	was, ok := s.LastOn(ev.Face)
	stop := s.told.Moves[len(s.told.Moves)-1].Stop
	if ev.Saw == SawPlace && ok && stop != nil {
		cue := s.Tel.FromSeen(ev.Face, optics.Seen{Right: stop.Right, Up: stop.Up})
		went := s.Tel.FromSeen(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up}).Sub(was.At).Len()
		if foretold := cue.Sub(was.At).Len(); foretold > tellingMM && went < movedPart*foretold {
			return "; it hardly moved: say not turned, or stuck " + s.told.Moves[0].Screw + s.told.Moves[0].Lock
		}
	}
	return "; turned as told"
}

// placed fills a reading that has coordinates.
func (s State) placed(ev Event, said Said) Event {
	ev.Saw = SawPlace
	switch said.Kind {
	case SaidHome:
		ev.Saw = SawHome
	case SaidOffMirror:
		ev.Saw = SawOffGlass
	case SaidAsCued:
		ev.Cued = true
	}
	seen := s.Tel.ToSeen(said.Face, said.Belief.At)
	ev.Right, ev.Up = seen.Right, seen.Up
	c := s.Tel.CovToSeen(said.Face, said.Belief.Cov)
	ev.Cov = &[3]float64{c.XX, c.XY, c.YY}
	return ev
}
