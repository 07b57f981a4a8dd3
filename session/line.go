package session

import (
	"errors"
	"fmt"
	"strings"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/reading"
	"spotward/session/scope"
)

// Context returns what a typed line is understood against where s stands.
func (s State) Context() reading.Context {
	ask := s.Ask()
	c := reading.Context{Tel: s.Tel, Face: ask.Face, Told: s.told, Mirror: s.working()}
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
		if ev.Kind == event.KindReading && ev.Face == f && ev.Saw != event.SawGone && ev.Saw != event.SawCantSee {
			return s.belief(Ask{}, ev), true
		}
	}
	return optics.Belief{}, false
}

// Typed is what a typed line amounts to: the events to send, and the understood
// form to say back.
type Typed struct {
	Events []event.Event
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
		if ev.Kind == event.KindGoOn {
			word = "go on; nothing is kept from here on"
		}
		return Typed{Events: []event.Event{ev}, Echo: word}, nil
	}
	if where, ok := cutWord(word, "focuser"); ok && where != "" {
		c, err := scope.ParseClock(where)
		if err != nil {
			return Typed{}, err
		}
		return Typed{Events: []event.Event{{Kind: event.KindFocuser, Hour: c.Deg() / 30, Text: text}}, Echo: "the focuser is seen at " + string(c)}, nil
	}
	if why, ok := cutWord(text, "skip"); ok {
		return Typed{Events: []event.Event{{Kind: event.KindSkip, Why: why}}, Echo: "left out: " + why}, nil
	}
	switch ask.Want {
	case WantConfirm:
		switch word {
		case "", "y", "yes", "done", "ok":
			return Typed{Events: []event.Event{{Kind: event.KindConfirm}}, Echo: "done"}, nil
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
	said, err := reading.Parse(text, s.Context())
	if err != nil {
		return Typed{}, s.lineError(ask, err)
	}
	return s.fromSaid(ask, said)
}

// everywhere returns the event of a word that holds in every step.
func everywhere(word string) (event.Event, bool) {
	switch word {
	case "u", "undo":
		return event.Event{Kind: event.KindUndo}, true
	case "redo":
		return event.Event{Kind: event.KindRedo}, true
	case "b", "back":
		return event.Event{Kind: event.KindBack}, true
	case "stop safely", "stop":
		return event.Event{Kind: event.KindStop}, true
	case "go on", "without record":
		return event.Event{Kind: event.KindGoOn}, true
	case "q", "quit":
		return event.Event{Kind: event.KindQuit}, true
	case "finer", "finer check":
		return event.Event{Kind: event.KindFiner}, true
	case "dead laser", "laser dead":
		return event.Event{Kind: event.KindLaser}, true
	case "one screw", "whole move":
		whole := word == "whole move"
		return event.Event{Kind: event.KindManner, Whole: &whole}, true
	case "not sure":
		return event.Event{Kind: event.KindUnsure}, true
	case "watching", "not watching":
		watching := word == "watching"
		return event.Event{Kind: event.KindManner, Watching: &watching}, true
	}
	return event.Event{}, false
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
		return Typed{Events: []event.Event{{Kind: event.KindChoice, Choice: o.ID, Text: text}}, Echo: o.Words}, true
	}
	if !ask.Dial {
		return Typed{}, false
	}
	mm, err := reading.ParseWidth(text, s.Context())
	if err != nil {
		return Typed{}, false
	}
	ev := event.Event{Kind: event.KindChoice, Choice: s.CircleOf(mm), WidthMM: mm, Text: text}
	return Typed{Events: []event.Event{ev}, Echo: fmt.Sprintf("a circle %.0f mm wide", mm)}, true
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
func (s State) fromSaid(ask Ask, said reading.Said) (Typed, error) {
	t := Typed{Echo: said.Echo()}
	look := event.Event{Kind: event.KindReading, Face: said.Face, Text: said.Text}
	switch said.Kind {
	case reading.SaidScrew:
		ev := event.Event{Kind: event.KindScrew, Mirror: s.working(), Screw: said.Label, Is: said.Is, Text: said.Text}
		if said.Lock {
			return t, fmt.Errorf("a lock that is %s: go on without it, and skip with that as the reason if the mirror does not move", said.Is)
		}
		t.Events = []event.Event{ev}
		t.Echo += s.afterSaid(ev)
		return t, nil
	case reading.SaidTurned:
		t.Events = []event.Event{{Kind: event.KindTurned, Turned: said.Turned, Text: said.Text}}
		return t, nil
	case reading.SaidWrong:
		if s.told == nil || len(s.told.Moves) == 0 {
			return t, ErrNothingDue
		}
		wrong := s.told.Moves[0].Turn
		wrong.Screw = said.Label
		t.Events = []event.Event{{Kind: event.KindTurned, Turned: []optics.Turn{wrong}, Text: said.Text}}
		return t, nil
	case reading.SaidLaserDead:
		t.Events = []event.Event{{Kind: event.KindLaser, Text: said.Text}}
		return t, nil
	case reading.SaidLaser:
		t.Events = []event.Event{{Kind: event.KindLaser, Is: said.Is, Text: said.Text}}
		return t, nil
	case reading.SaidMany:
		return t, errors.New("the true spot stays on the glass when you move your head, the outgoing one is brighter, a 1/16 turn moves the return: which one?")
	}
	if ask.Want != WantReading {
		return t, s.lineError(ask, nil)
	}
	switch said.Kind {
	case reading.SaidGone:
		look.Saw = event.SawGone
	case reading.SaidCantSee:
		look.Saw = event.SawCantSee
	case reading.SaidMiddle:
		look.Saw = event.SawWithin
	default:
		look = s.placed(look, said)
	}
	t.Echo += s.takenFor(look)
	t.Events = []event.Event{look}
	return t, nil
}

// takenFor says what else a reading is taken to say: that what was told was
// turned. A spot that stands where it stood makes one ask.
func (s State) takenFor(ev event.Event) string {
	if s.told == nil || len(s.told.Moves) == 0 {
		return ""
	}
	was, ok := s.LastOn(ev.Face)
	stop := s.told.Moves[len(s.told.Moves)-1].Stop
	if ev.Saw == event.SawPlace && ok && stop != nil {
		cue := s.Tel.FromSeen(ev.Face, optics.Seen{Right: stop.Right, Up: stop.Up})
		went := s.Tel.FromSeen(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up}).Sub(was.At).Len()
		if foretold := cue.Sub(was.At).Len(); foretold > tellingMM && went < movedPart*foretold {
			return "; it hardly moved: say not turned, or stuck " + s.told.Moves[0].Screw + s.told.Moves[0].Lock
		}
	}
	return "; turned as told"
}

// placed fills a reading that has coordinates.
func (s State) placed(ev event.Event, said reading.Said) event.Event {
	ev.Saw = event.SawPlace
	switch said.Kind {
	case reading.SaidHome:
		ev.Saw = event.SawHome
	case reading.SaidOffMirror:
		ev.Saw = event.SawOffGlass
	case reading.SaidAsCued:
		ev.Cued = true
	}
	seen := s.Tel.ToSeen(said.Face, said.Belief.At)
	ev.Right, ev.Up = seen.Right, seen.Up
	c := s.Tel.CovToSeen(said.Face, said.Belief.Cov)
	ev.Cov = &[3]float64{c.XX, c.XY, c.YY}
	return ev
}
