package answer

import (
	"fmt"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/lex"
	"spotward/session/reading"
	"spotward/session/scope"
)

// here understands what can be said at some questions only: a verdict before the
// first turn, where red shows on the card, another place where the spot is, and
// what shows round the hole.
func here(s session.State, ask session.Ask, text string) (Typed, bool, error) {
	word := reading.Command(text)
	if verdict := strings.ReplaceAll(strings.TrimSuffix(strings.TrimSuffix(word, " alone"), " it"), " ", "_"); s.Sayable(verdict) && ask.Want != session.WantChoice {
		return Typed{Events: []event.Event{{Kind: event.KindChoice, Choice: verdict, Text: text}}, Echo: word}, true, nil
	}
	switch {
	case ask.Want != session.WantReading:
		return Typed{}, false, nil
	case ask.Step == session.StepOn || ask.Step == session.StepRed:
		return redLine(s, ask, word, text)
	case ask.Face == optics.FaceTarget && saysEven(word):
		ev := event.Event{Kind: event.KindReading, Face: ask.Face, Saw: event.SawHome, Glow: event.GlowEven, Text: text}
		return Typed{Events: []event.Event{ev}, Echo: "home, the glow even all round" + takenFor(s, ev)}, true, nil
	}
	if len(ask.Faces) > 1 {
		return placeLine(s, ask, word, text)
	}
	return Typed{}, false, nil
}

// saysEven reports whether a line says of a spot in the hole that its glow is even, and
// nothing else: in words, or by the number pad's point.
func saysEven(word string) bool {
	if word == "." {
		return true
	}
	even := false
	for _, w := range strings.Fields(strings.ReplaceAll(word, ",", " ")) {
		switch w {
		case "even":
			even = true
		case "home", "rays", "glow", "glows", "glowing", "evenly", "all", "round", "the", "down", "in", "hole":
			even = even || w == "evenly"
		default:
			if !lex.Fillers[w] {
				return false
			}
		}
	}
	return even
}

// hourAlonePart is where a red dot is taken to be of which the hour alone was told,
// in parts of the tube's radius; it may be anywhere that way.
const hourAlonePart = 0.6

// RedAtHour returns the reading of a red dot on the card of which the hour alone
// was told, on the dial of somebody who stands before the open end.
func RedAtHour(s session.State, d optics.Dial) event.Event {
	mm := hourAlonePart * s.Tel.InnerRadiusMM
	seen := s.Tel.FromDial(optics.FaceCard, optics.AtHour(d.Hour(), mm))
	return event.Event{Kind: event.KindReading, Face: optics.FaceCard, Saw: event.SawPlace, Right: seen.Right, Up: seen.Up, Cov: &[3]float64{mm * mm, 0, mm * mm}}
}

// redLine understands whether red shows on the card, and where: none, an hour, an
// hour and a distance; a yes says that the laser is on and nobody looked.
func redLine(s session.State, ask session.Ask, word, text string) (Typed, bool, error) {
	if ask.Yes && (word == "" || lex.SaysYes(text) && !strings.Contains(word, "safe")) {
		return Typed{Events: []event.Event{{Kind: event.KindConfirm}}, Echo: "the laser is on"}, true, nil
	}
	none, only := redWords(text)
	switch bare := strings.TrimSuffix(word, "."); {
	case none, bare == "none", bare == "nothing", bare == "0":
		ev := event.Event{Kind: event.KindReading, Face: ask.Face, Saw: event.SawGone, Text: text}
		return Typed{Events: []event.Event{ev}, Echo: "no red on the card"}, true, nil
	}
	if strings.Contains(word, "anywhere") || strings.Contains(word, "at all") {
		return Typed{}, true, fmt.Errorf("%q: is the laser lit? say none if it is, dead laser if it stays dark", lex.Shorten(text, 24))
	}
	said, err := reading.Parse(text, Context(s))
	unclear := err == nil && (said.Kind == reading.SaidCantSee || said.Kind == reading.SaidDead || said.Kind == reading.SaidMiddle)
	if unclear || word == "no" {
		return Typed{}, true, lineError(s, ask, text, nil)
	}
	hour, ok := cutWord(word, "card")
	if !ok {
		hour = word
	}
	if rest, ok := cutWord(hour, "at"); ok {
		hour = rest
	}
	if only != "" {
		hour = only
	}
	if c, err := scope.ParseClock(hour); err == nil {
		ev := RedAtHour(s, optics.AtHour(c.Deg()/30, 1))
		ev.Text = text
		return Typed{Events: []event.Event{ev}, Echo: "red on the card, toward " + string(c)}, true, nil
	}
	return Typed{}, false, nil
}

// redTalk are words of a red dot on the card that say nothing of where it is.
var redTalk = lex.WordSet("on red dot spot light visible seen see card there at toward towards yes yeah yep oclock o clock about one sharp any shows showing")

// redWords understands that there is no red dot, or at which hour it is, among words
// that change nothing of it.
func redWords(text string) (none bool, hour string) {
	toks, err := lex.Scan(text)
	if err != nil || strings.Contains(text, "?") {
		return false, ""
	}
	red := false
	for _, t := range toks {
		switch {
		case t.IsNumber() && t.Sign == 0 && hour == "" && !none:
			hour = t.Raw
			if n := len(hour); t.Shape == lex.ShapeWhole && n > 2 { // 430, on a number pad
				hour = hour[:n-2] + ":" + hour[n-2:]
			}
		case t.Is("no", "none", "not") && hour == "":
			none = true
		case !redTalk[t.Raw] && !lex.Fillers[t.Raw] || t.IsNumber():
			return false, ""
		}
		red = red || t.Is("red", "dot", "spot", "visible", "see")
	}
	return none && red, hour
}

// placeWords are the words before a reading that name its place.
var placeWords = map[string]optics.Face{
	"two": optics.FaceSecondary, "two spots": optics.FaceSecondary, "secondary": optics.FaceSecondary,
	"mouth": optics.FaceMouth, "drawtube": optics.FaceMouth, "card": optics.FaceCard, "face": optics.FaceTarget,
}

// placeLine understands a reading that names its place, and that the spot is at
// none of them.
func placeLine(s session.State, ask session.Ask, word, text string) (Typed, bool, error) {
	if ask.Face != optics.FaceTarget && (word == "gone" || word == "none" || word == "nowhere") {
		ev := event.Event{Kind: event.KindReading, Face: ask.Face, Saw: event.SawGone, All: true, Text: text}
		return Typed{Events: []event.Event{ev}, Echo: "at none of them" + takenFor(s, ev)}, true, nil
	}
	best := ""
	for w, f := range placeWords {
		if _, ok := cutWord(word, w); ok && slices.Contains(ask.Faces, f) && len(w) > len(best) {
			best = w
		}
	}
	if best == "" {
		return Typed{}, false, nil
	}
	rest, _ := cutWord(strings.TrimSpace(text), best)
	if rest == "" {
		return Typed{}, false, nil
	}
	c := Context(s)
	c.Face, c.Last = placeWords[best], nil
	said, err := reading.Parse(rest, c)
	if err != nil {
		return Typed{}, false, err
	}
	t, err := fromSaid(s, ask, said)
	return t, err == nil, err
}
