package align

import (
	"fmt"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/scope"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// doPage is what to do at the present stage and what to beware of, in full.
func doPage(s *Screen) *frame.Sheet {
	st := s.State()
	ask := st.Ask()
	h := ask.Heading
	sh := &frame.Sheet{Title: ask.Stage.Title}
	sh.Parts = append(sh.Parts, frame.Part{Head: "now"}, frame.Part{Text: ask.Say})
	for _, f := range []HeadFact{{"stand", h.Stand}, {"tool", h.Tool}, {"tube", h.Tube}, {"laser", h.Laser}} {
		sh.Parts = append(sh.Parts, frame.Part{Mark: frame.Pad(f.Label, 6), Text: f.Said.Long})
	}
	if ask.Note != "" {
		sh.Parts = append(sh.Parts, frame.Part{Text: ask.Note})
	}
	if felt := s.felt(); felt != "" {
		sh.Parts = append(sh.Parts, frame.Part{Mark: frame.Pad("felt", 6), Text: felt})
	}
	sh.List("what to do", "-", ask.Stage.Do)
	sh.List("beware", "!", ask.Beware)
	if ask.Stage.Skip != "" {
		sh.List("to leave it out", "-", []string{"skip and the reason, as in: skip no time. Then " + ask.Stage.Skip + "."})
	}
	return sh
}

// whyPage is what the advice rests on: what was learnt of each screw, drawn and
// in words.
func whyPage(s *Screen) *frame.Sheet {
	st := s.State()
	sh := &frame.Sheet{Title: "why"}
	told := st.Told()
	if told != nil {
		sh.Parts = append(sh.Parts, frame.Part{Head: "this move"}, frame.Part{Text: Sentence(told.Why)}, frame.Part{Text: words.Trust(told.Trust)})
		for _, m := range told.Moves {
			sh.Parts = append(sh.Parts, frame.Part{Mark: "-", Text: words.MoveWords(m.Turn) + ": the key's handle goes " + words.KeyHandle(m.Turns)})
		}
	}
	if mm, bound, ok := st.AxisError(); ok {
		sh.Parts = append(sh.Parts, frame.Part{Head: "how far from good enough"}, frame.Part{Text: fmt.Sprintf(
			"The primary's axis misses the middle of the field by about %.1f mm. In 95 of 100 cases it is no more than %.1f mm. At f/%.1f, for %s, %.1f mm is allowed.",
			mm, bound, st.Tel.FocalRatio(), use(st), st.AllowedMM())})
	} else {
		sh.Parts = append(sh.Parts, frame.Part{Head: "how far from good enough"}, frame.Part{Text: "No axis error until both spots have been seen since the last turn."})
	}
	learnt := desk.LearntOf(st)
	if learnt.Screws == nil {
		return sh
	}
	if told == nil {
		sh.Parts = append(sh.Parts, frame.Part{Head: "where the spot is"}, frame.Part{Text: learnt.Where})
	}
	sh.Parts = append(sh.Parts, frame.Part{Head: "what a turn of each screw does, clockwise"})
	for i, label := range st.Tel.Cell(learnt.Mirror).Labels {
		sh.Parts = append(sh.Parts, frame.Part{Mark: label, Text: learnt.Screws[i]})
	}
	sh.List("what the screws have said", "-", st.Trouble())
	sh.Draws = func(p *frame.Page) { drawResponses(p, st, learnt.Mirror) }
	return sh
}

func use(st session.State) string {
	if st.Scope.Use == "" {
		return scope.UseAllRound + " use"
	}
	return st.Scope.Use + " use"
}

// Sentence begins with a capital and ends in a stop.
func Sentence(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:] + "."
}

// drawResponses draws what a turn of each screw does to the spot.
func drawResponses(p *frame.Page, st session.State, m optics.Mirror) {
	spec := SeenFrom(st.Tel, m.SpotFace(), p.Sizes)
	act := ""
	if told := st.Told(); told != nil && len(told.Moves) > 0 {
		act = told.Moves[0].Screw
	}
	var arrows schematic.Responses
	far := 0.0
	for i, label := range st.Tel.Cell(m).Labels {
		b := st.Tracker(m).PerTurn(i)
		at := st.Tel.TubeToDial(m.SpotFace(), b.At)
		far = max(far, at.Len())
		arrows.Arrows = append(arrows.Arrows, schematic.Arrow{Label: "by " + label, To: at, SigmaMM: b.Cov.Sigma(), Act: label == act})
	}
	spec.Object, spec.RimMM = arrows, max(1, 1.2*far)
	spec.Standing = []string{"where the spot goes", "by a turn clockwise"}
	p.Face(p.Sizes.Face, spec)
}

// callPage is for two people: what the one at the spot calls to the one at the
// screw.
func callPage(s *Screen) *frame.Sheet {
	st := s.State()
	sh := &frame.Sheet{Title: "call"}
	told := st.Told()
	if told == nil {
		sh.Parts = []frame.Part{{Head: "nothing to turn just now"}, {Text: "When a move is told, this page has the sentence to call to the one at the screw."}}
		return sh
	}
	sh.Parts = append(sh.Parts, frame.Part{Head: "you are at the spot, somebody is at the screw"})
	for _, line := range desk.Calls(st, *told) {
		sh.Parts = append(sh.Parts, frame.Part{Mark: "-", Text: line})
	}
	sh.Parts = append(sh.Parts, frame.Part{Text: "Then key out, hands off, and say where the spot stands. If it stands at the cue, press F5."})
	return sh
}

// goalRow says whether a spot reached its goal, and where it was left.
func goalRow(f *frame.Flow, name string, reached bool, where string) {
	mark, role := "no ", theme.Ink
	if reached {
		mark, role = "yes", theme.Good
	}
	f.Item(role, mark, theme.Ink, name+": "+where)
}
