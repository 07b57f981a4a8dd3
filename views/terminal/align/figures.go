package align

import (
	"fmt"
	"math"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// figures writes where the spot is, how far from good enough, and why this
// move; rows before from are taken.
func (s *Screen) figures(p *frame.Page, typed string, from int) {
	st := s.State()
	ask := st.Ask()
	if s.arrived() {
		r := agreeAt(p)
		if cut := from - r.Y; cut > 0 {
			r.Y, r.H = r.Y+cut, r.H-cut
		}
		s.agree(p, r, typed)
		if !p.Roomy() {
			return
		}
	}
	if marks := readings(st, ask.Face); len(marks) > 0 && known(st, ask.Face) && p.Spot.Y >= from {
		at := p.Spot
		if p.SpotWord.W > 0 {
			p.At(p.SpotWord, theme.Label, "spot")
			p.At(at, theme.Ink, lastPlace(st, ask.Face, marks[len(marks)-1].At, at.W))
		} else {
			p.At(at, theme.Head, "spot  "+lastPlace(st, ask.Face, marks[len(marks)-1].At, at.W))
		}
	}
	if p.Axis.Y >= from {
		axisRow(p, st)
	}
	at, label := p.Why, p.WhyWord
	if how := howIn(at.W, at.H, st.TurnBriefly(st.Working())); how != "" {
		p.At(label, theme.Label, "how")
		n := p.Paragraph(at, theme.Act, how)
		if at.Y, at.H, label.Y = at.Y+n, at.H-n, label.Y+n; at.H <= 0 || len(schematic.Wrap(fitting(ask.Told.Why, at.W, at.H), at.W)) > at.H {
			return // F2 has it
		}
	}
	p.At(label, theme.Label, "why")
	why := ask.Told.Why + " (" + Sure(ask.Told.Trust) + ")"
	if len(schematic.Wrap(why, at.W)) > at.H {
		why = fitting(ask.Told.Why, at.W, at.H)
	}
	p.Paragraph(at, theme.Ink, why)
}

// howIn says how a move is made in as many of its last clauses as have room.
func howIn(width, rows int, how []string) string {
	for ; len(how) > 0; how = how[1:] {
		if say := Sentence(strings.Join(how, "; ")); len(schematic.Wrap(say, width)) <= rows {
			return say
		}
	}
	return ""
}

// leastBar is the shortest bar that still says anything, columns.
const leastBar = 4

// axisRow draws the axis error as a bar with a post at what is allowed.
func axisRow(p *frame.Page, st session.State) {
	if p.Axis.W <= 0 {
		return
	}
	allowed := st.AllowedMM()
	mm, most, ok := st.AxisError()
	r := p.Axis
	p.At(p.AxisWord, theme.Label, "axis")
	if !ok {
		text := "not known until both spots are seen"
		if schematic.Width(text)+6 > r.W {
			text = "not known yet"
		}
		if p.AxisWord.W == 0 {
			text = "axis  " + text
		}
		p.At(r, theme.Label, text)
		return
	}
	text := fitting1(r.W-leastBar-1, fmt.Sprintf("%.1f mm (at most %.1f), goal %.1f", mm, most, allowed),
		fmt.Sprintf("%.1f mm, goal %.1f mm", mm, allowed), fmt.Sprintf("%.1f, goal %.1f mm", mm, allowed), fmt.Sprintf("%.1f mm", mm))
	if r.H > 1 { // the bar above its words
		p.Bar(r.X, r.Y, r.W-8, AxisBar(mm, allowed))
		p.TextMax(r.X, r.Y+1, r.W, theme.Head, "axis  "+text)
		return
	}
	bar := min(10, max(leastBar, r.W-schematic.Width(text)-1))
	p.Bar(r.X, r.Y, bar, AxisBar(mm, allowed))
	p.TextMax(r.X+bar+1, r.Y, r.W-bar-1, theme.Ink, text)
}

// AxisBar is the bar of an axis error; three times what is allowed at least
// find room.
func AxisBar(mm, allowed float64) schematic.BarSpec {
	role := theme.Ink
	if mm <= allowed {
		role = theme.Good
	}
	return schematic.BarSpec{Value: mm, Allowed: allowed, Full: math.Max(1.15*mm, 3*allowed), Role: role}
}

// Sure says a probability in words.
func Sure(trust float64) string {
	switch {
	case trust >= 0.9:
		return "almost certain"
	case trust >= 0.7:
		return "likely"
	}
	return "a try: it will tell"
}

// lastPlace says where the spot was last seen: of one that went down the hole
// nobody read how far from its middle.
func lastPlace(st session.State, f optics.Face, at optics.Dial, width int) string {
	if f == optics.FaceTarget && st.T.Saw == event.SawHome {
		return "in the hole"
	}
	return placeFitting(f, at, width)
}
