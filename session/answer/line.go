package answer

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/lex"
	"spotward/session/mirrors"
	"spotward/session/reading"
	"spotward/session/scope"
)

// Context returns what a typed line is understood against where s stands.
func Context(s session.State) reading.Context {
	ask := s.Ask()
	c := reading.Context{Tel: s.Tel, Face: ask.Face, Told: s.Told(), Turned: s.Carried(), Mirror: s.Working()}
	if ask.Face == "" {
		c.Face = optics.FacePrimary
	}
	if ask.HasGoal {
		c.Goal = ask.Goal
	}
	c.Aside, c.Search = ask.Aside, ask.Whether
	if last, ok := s.LastOn(c.Face); ok {
		c.Last, c.Untouched = &last, s.UntouchedSince(c.Face)
	}
	return c
}

// Typed is what a typed line amounts to: the events to send, and the understood
// form to say back.
type Typed struct {
	Events []event.Event
	Echo   string
}

// ErrEmpty says that nothing was typed where an answer is wanted.
var ErrEmpty error = emptyError{}

type emptyError struct{}

// Error is a line of the screen: a sentence, and what to do.
func (emptyError) Error() string { return "Nothing typed. Type where the spot is: the help shows how" }

// Line understands a typed line where s stands: the words that hold
// everywhere first, then the answers to what is asked, then readings and what
// screws say. On an error nothing is to be sent and what was typed stays.
func Line(s session.State, text string) (Typed, error) {
	text = strings.TrimSpace(text)
	ask := s.Ask()
	if err := twoMeanings(ask.Options, text); err != nil {
		return Typed{}, err
	}
	if text == "B" && ask.Told != nil && labelIndex(s.Tel.Cell(s.Working()).Labels, text) >= 0 {
		return Typed{}, &lex.Error{Part: text, Why: "screw B, or back?", Examples: []string{"wrong B", "B +1/8", "stuck B", "back"}}
	}
	word := reading.Command(text)
	if word == "go back" {
		return Typed{}, errors.New("the last answer undone, or back to the stage before? say undo or back")
	}
	if ev, ok := everywhere(word); ok && !(ev.Kind == event.KindUnsure && ask.Want == session.WantChoice) {
		if ev.Kind == event.KindGoOn {
			word = "go on; nothing is saved from here on"
		}
		if long, ok := map[string]string{"u": "undo", "b": "back", "q": "quit"}[word]; ok {
			word = long
		}
		return Typed{Events: []event.Event{ev}, Echo: word}, nil
	}
	if typed, ok, err := named(text); ok || err != nil {
		return typed, err
	}
	if typed, ok, err := here(s, ask, text); ok || err != nil {
		return typed, err
	}
	switch ask.Want {
	case session.WantConfirm:
		if word == "" || lex.SaysYes(text) {
			return Typed{Events: []event.Event{{Kind: event.KindConfirm}}, Echo: "done"}, nil
		}
	case session.WantChoice:
		if word == "" && ask.Named() {
			return Typed{}, noAnswer(ask.Options, "Enter")
		}
		if t, ok, err := lettersLine(s, ask, text); ok {
			return t, err
		}
		if t, ok := choiceLine(s, ask, text); ok {
			return t, nil
		}
	}
	if word == "" {
		return Typed{}, ErrEmpty
	}
	said, err := reading.Parse(text, Context(s))
	if err != nil {
		return Typed{}, lineError(s, ask, text, err)
	}
	return fromSaid(s, ask, said)
}

// named understands a line that begins with the word for what it is about: the
// focuser's place, a stage that is left out.
func named(text string) (Typed, bool, error) {
	if where, ok := cutWord(strings.ToLower(text), "focuser"); ok && where != "" {
		for _, w := range []string{"is seen at", "is at", "at", "is"} {
			if rest, ok := cutWord(where, w); ok {
				where = rest
				break
			}
		}
		c, err := scope.ParseClock(where)
		if err != nil {
			return Typed{}, false, err
		}
		return Typed{Events: []event.Event{{Kind: event.KindFocuser, Hour: c.Deg() / 30, Text: text}}, Echo: "the focuser is seen at " + string(c)}, true, nil
	}
	why, ok := cutWord(text, "skip")
	if !ok {
		return Typed{}, false, nil
	}
	switch strings.ToLower(strings.Trim(why, ".!")) {
	case "", "it", "this", "that", "this step", "the stage", "stage":
		return Typed{}, false, errors.New("why is it left out? say why, as in: skip no time")
	}
	return Typed{Events: []event.Event{{Kind: event.KindSkip, Why: why}}, Echo: "left out: " + why}, true, nil
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
	case "watching", "not watching", "by amount":
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
func choiceLine(s session.State, ask session.Ask, text string) (Typed, bool) {
	mm, err := reading.ParseWidth(text, Context(s))
	wide := ask.Dial && err == nil
	if n, ok := pick(answers(ask.Options), text); ok && !(wide && reading.HasUnit(text)) {
		o := ask.Options[n]
		return Typed{Events: []event.Event{{Kind: event.KindChoice, Choice: o.ID, Text: text}}, Echo: o.Words}, true
	}
	if ask.Step == session.StepTag && lex.SaysYes(text) { // all is counted
		o := ask.Options[0]
		return Typed{Events: []event.Event{{Kind: event.KindChoice, Choice: o.ID, Text: text}}, Echo: o.Words}, true
	}
	if !wide {
		return Typed{}, false
	}
	ev := event.Event{Kind: event.KindChoice, Choice: s.CircleOf(mm), WidthMM: mm, Text: text}
	return Typed{Events: []event.Event{ev}, Echo: fmt.Sprintf("a circle %.0f mm wide", mm)}, true
}

// lineError puts an error into the terms of what is asked.
func lineError(s session.State, ask session.Ask, text string, err error) error {
	var part *lex.Error
	if errors.As(err, &part) && part.Tells() {
		return err
	}
	switch {
	case ask.Step == session.StepOn || ask.Step == session.StepRed:
		return &lex.Error{Part: text, Why: "is red on the card?", Examples: redWays(ask)}
	case ask.Step == session.StepUp || ask.Step == session.StepSwing:
		if part != nil && part.Asks && !lex.SaysYes(text) {
			return err
		}
		if lex.SaysYes(text) {
			return &lex.Error{Part: text, Why: "good: where is the return spot now?", Examples: swungWays}
		}
		return &lex.Error{Part: text, Why: "is it swung? Then where is the return spot?", Examples: append(swungWays, "skip no room")}
	}
	switch ask.Want {
	case session.WantConfirm:
		return lex.NotDone(text, inTheWay(ask.Step)...)
	case session.WantChoice:
		if ask.Dial {
			return noAnswer(ask.Options, text, "8 mm")
		}
		return noAnswer(ask.Options, text)
	}
	return err
}

// swungWays is what may be said of the return spot after a swing.
var swungWays = []string{"4:30 8", "home", "out 4", "not there", "cannot see", "same"}

// redWays is what may be said where red is looked for on the card.
func redWays(ask session.Ask) []string {
	ways := []string{"none", "4", "4 50", "dead laser", "weak laser", "no card"}
	if ask.Yes {
		ways = append([]string{"yes"}, ways...)
	}
	return ways
}

// inTheWay is what may keep one from what is asked, as one may say it.
func inTheWay(step session.StepID) []string {
	switch step {
	case session.StepOn:
		return []string{"no card", "dead laser"}
	case session.StepSafe:
		return []string{"hex key missing"}
	}
	return []string{"not done", "skip no time"}
}

// fromSaid turns a reading or what a screw said into events.
func fromSaid(s session.State, ask session.Ask, said reading.Said) (Typed, error) {
	t, told := Typed{Echo: said.Echo()}, s.Told()
	look := event.Event{Kind: event.KindReading, Face: said.Face, Text: said.Text}
	switch said.Kind {
	case reading.SaidScrew:
		if said.Is == event.SaysNotDone && told == nil {
			return t, lineError(s, ask, said.Text, nil)
		}
		ev := event.Event{Kind: event.KindScrew, Mirror: s.Working(), Screw: said.Label, Is: said.Is, Text: said.Text}
		if said.Lock {
			switch said.Is {
			case event.SaysOtherWay, event.SaysNotDone, event.SaysUnturned:
				ev.Screw = ""
			case event.SaysStuck:
				if s.EasesTight(said.Label) {
					ev.Is = event.SaysLockStuck
					t.Events = []event.Event{ev}
					t.Echo += ": no force; it and its screw are left alone, the others will do its share"
					return t, nil
				}
				if s.EasedFor(said.Label) {
					ev.Is = event.SaysEnd
					t.Events = []event.Event{ev}
					t.Echo += ": no force; its screw goes no farther onto it, the others will do its share"
					return t, nil
				}
				fallthrough
			default:
				return t, fmt.Errorf("%s: no force. Does the mirror move without it? If so, answer with the spot's place. If not, say skip lock %s %s", said.Echo(), said.Label, said.Is)
			}
		}
		t.Events = []event.Event{ev}
		t.Echo += afterSaid(s, ev)
		return t, nil
	case reading.SaidTurned:
		t.Events = []event.Event{{Kind: event.KindTurned, Turned: said.Turned, Text: said.Text}}
		return t, nil
	case reading.SaidWrong:
		if told == nil || len(told.Moves) == 0 {
			return t, mirrors.ErrNothingDue
		}
		wrong := told.Moves[0].Turn
		wrong.Screw = said.Label
		t.Events = []event.Event{{Kind: event.KindTurned, Turned: []optics.Turn{wrong}, Text: said.Text}}
		return t, nil
	case reading.SaidWent:
		way := s.Tel.FromDial(said.Face, said.At)
		t.Events = []event.Event{{Kind: event.KindWent, Screw: said.Label, Right: way.Right, Up: way.Up, Text: said.Text}}
		return t, nil
	case reading.SaidLaserDead:
		t.Events = []event.Event{{Kind: event.KindLaser, Text: said.Text}}
		return t, nil
	case reading.SaidLaser:
		t.Events = []event.Event{{Kind: event.KindLaser, Is: said.Is, Text: said.Text}}
		return t, nil
	case reading.SaidMany:
		return t, errors.New("which one? Move your head: a reflection moves with it. The outgoing spot is the brighter one. Where is the other? say 4:30 12, dead or cannot see")
	}
	if ask.Want != session.WantReading {
		return t, cmp.Or(lineError(s, ask, said.Text, nil), session.ErrOver)
	}
	switch said.Kind {
	case reading.SaidGone:
		look.Saw = event.SawGone
	case reading.SaidCantSee:
		look.Saw = event.SawCantSee
	case reading.SaidMiddle:
		look.Saw = event.SawWithin
	default:
		look = placed(s, look, said)
	}
	look.Watched = told != nil && told.Watch && said.HasPlace()
	t.Echo += takenFor(s, look)
	t.Events = []event.Event{look}
	return t, nil
}

// takenFor says what else a reading is taken to say: that what was told was
// turned. A spot that stands where it stood makes one ask.
func takenFor(s session.State, ev event.Event) string {
	told := s.Told()
	if told == nil || len(told.Moves) == 0 {
		return ""
	}
	if s.HardlyMoved(ev) {
		return "; it hardly moved: say not turned, or stuck " + told.Moves[0].Screw + told.Moves[0].Lock
	}
	if told.Watch {
		return "; stopped there"
	}
	return "; turned as told"
}

// placed fills a reading that has coordinates.
func placed(s session.State, ev event.Event, said reading.Said) event.Event {
	ev.Saw = event.SawPlace
	switch said.Kind {
	case reading.SaidHome:
		ev.Saw = event.SawHome
		if said.Belief.At.Len() > 0 { // brighter on that side
			ev.Glow = event.GlowSide
		}
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
