package past

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/mirrors"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// knownThen writes where both spots were known to be and the axis error that
// followed.
func knownThen(p *frame.Page, r schematic.Rect, st session.State) {
	const label = 8
	for i, f := range []struct {
		name string
		face optics.Face
		spot mirrors.Spot
	}{{"primary", optics.FacePrimary, st.OnPrimary()}, {"return", optics.FaceTarget, st.OnTarget()}} {
		p.TextMax(r.X, r.Y+i, label, theme.Label, f.name)
		p.TextMax(r.X+label, r.Y+i, r.W-label, theme.Ink, cutTail(spotThen(st, f.face, f.spot), r.W-label))
	}
	y := r.Y + 2
	p.TextMax(r.X, y, label, theme.Label, "axis")
	allowed := st.AllowedMM()
	mm, most, ok := st.AxisError()
	if !ok {
		p.TextMax(r.X+label, y, r.W-label, theme.Label, cutTail("not known, both must be seen", r.W-label))
		return
	}
	text := fmt.Sprintf("%.1f mm, %.1f allowed", mm, allowed)
	if r.W > 55 {
		text = fmt.Sprintf("%.1f mm, at most %.1f; %.1f allowed", mm, most, allowed)
	}
	bar := min(12, r.W-label-schematic.Width(text)-1)
	if bar >= 3 {
		p.Bar(r.X+label, y, bar, align.AxisBar(mm, allowed))
	} else {
		bar = -1
	}
	p.TextMax(r.X+label+bar+1, y, r.W-label-bar-1, theme.Ink, text)
}

// cutTail leaves out what comes after the last comma, or " from", where a text
// does not fit.
func cutTail(text string, width int) string {
	for _, sep := range []string{" from ", ", "} {
		if schematic.Width(text) <= width {
			return text
		}
		if i := strings.LastIndex(text, sep); i > 0 {
			text = text[:i]
		}
	}
	return text
}

func spotThen(st session.State, f optics.Face, sp mirrors.Spot) string {
	switch {
	case sp.Gone:
		return "looked for, not there"
	case !sp.Known && !slices.ContainsFunc(st.Events(), func(ev event.Event) bool { return ev.Kind == event.KindReading && ev.Face == f }):
		return "not read yet"
	case !sp.Known:
		return "not read since it moved"
	case sp.Saw == event.SawHome:
		return "home, going down the hole"
	}
	at := st.Tel.TubeToDial(f, sp.At.At)
	if at.Len() < 0.05 {
		return "in the middle"
	}
	return words.ClockText(at) + ", " + words.EyesMmText(at.Len()) + " mm from the middle"
}

// whySheet is all that is known of a step, in words.
func (s *Screen) whySheet() *frame.Sheet {
	step := s.Steps[s.At]
	st := step.Last().State
	sh := &frame.Sheet{Title: "step " + strconv.Itoa(s.At+1)}
	if before := s.before(); !before.Over {
		sh.Parts = append(sh.Parts, frame.Part{Head: "asked"}, frame.Part{Text: before.Ask().Say})
	}
	sh.Parts = append(sh.Parts, frame.Part{Head: "what happened"})
	for _, line := range stepLines(step) {
		sh.Parts = append(sh.Parts, frame.Part{Text: line})
	}
	if told := st.Told(); told != nil && !st.Over {
		sh.Parts = append(sh.Parts, frame.Part{Head: "told then"}, frame.Part{Text: words.MovesWords(told.Turns())})
		if told.Why != "" {
			sh.Parts = append(sh.Parts, frame.Part{Text: align.Sentence(told.Why)})
		}
		sh.Parts = append(sh.Parts, frame.Part{Text: words.Trust(told.Trust)})
	}
	sh.Parts = append(sh.Parts, frame.Part{Head: "known then"},
		frame.Part{Mark: "primary", Role: theme.Label, Text: spotThen(st, optics.FacePrimary, st.OnPrimary())},
		frame.Part{Mark: "return ", Role: theme.Label, Text: spotThen(st, optics.FaceTarget, st.OnTarget())})
	if mm, most, ok := st.AxisError(); ok {
		sh.Parts = append(sh.Parts, frame.Part{Text: fmt.Sprintf("The axis error was thought to be %.1f mm, at most %.1f mm. %.1f mm is allowed.", mm, most, st.AllowedMM())})
	} else {
		sh.Parts = append(sh.Parts, frame.Part{Text: "No axis error was claimed: one of the two spots had not been seen since the last turn."})
	}
	if see := step.Last().See; see != "" {
		sh.Parts = append(sh.Parts, frame.Part{Head: "then to be seen"}, frame.Part{Text: see})
	}
	return sh
}
