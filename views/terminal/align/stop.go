package align

import (
	"fmt"
	"math"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/reading"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// lastStop is where the last of the moves is to stop.
func lastStop(st session.State, told *event.Told, f optics.Face) (event.ToldStop, optics.Dial, bool) {
	for i := len(told.Moves) - 1; i >= 0; i-- {
		if m := told.Moves[i]; m.Stop != nil && m.Mirror.SpotFace() == f {
			return *m.Stop, st.Tel.ToDial(f, optics.Seen{Right: m.Stop.Right, Up: m.Stop.Up}), true
		}
	}
	return event.ToldStop{}, optics.Dial{}, false
}

// cueWord names where the spot should come to: where one stops, if it is watched.
func cueWord(told *event.Told) string {
	if told.Watch {
		return "stop"
	}
	return "aim"
}

// row is a row of text in a role.
type row struct {
	role theme.Role
	text string
}

// stopLines say where to stop, in millimetres and by the rings that are there
// to be seen.
// Each has the width that there is for it from a row on.
func stopLines(sz frame.Sizes, t optics.Telescope, f optics.Face, at optics.Dial, as optics.StopKind, watch bool, width func(line int) int) []row {
	stands, nearest := "when the spot stands at", "when the spot is nearest"
	if !watch {
		stands, nearest = "the spot should come to", "the spot comes nearest"
	}
	switch as {
	case optics.StopBearing:
		hour := words.HourWords(at)
		if sz.Narrow() {
			hour = words.ClockText(at)
		}
		return []row{{theme.Ink, stands}, {theme.Act, fitting1(width(1), hour+" from "+middle(f), hour)}}
	case optics.StopClosest:
		return []row{{theme.Ink, fitting1(width(0), nearest, shorter(nearest))}, {theme.Act, "to " + middle(f)}}
	}
	by := ByRings(t, f, at)
	if at.Len() < nearMM {
		by = ""
	}
	switch {
	case sz.Narrow() && at.Len() >= nearMM && by != "":
		return []row{{theme.Act, "spot at " + words.ClockText(at) + ", " + words.EyesMmText(at.Len()) + " mm out"}, {theme.Ink, by}}
	case sz.Narrow():
		return []row{{theme.Ink, stands}, {theme.Act, placeFitting(f, at, width(1))}}
	}
	lines := []row{{theme.Ink, fitting1(width(0), stands, shorter(stands))}, {theme.Act, placeFitting(f, at, width(1))}}
	if by != "" {
		lines = append(lines, row{theme.Ink, by})
	}
	return lines
}

// shorter says the same of the spot in a narrow row.
func shorter(said string) string { return strings.Replace(said, "the spot", "it", 1) }

// ByRings says how far out a place is by the rings that are there to be seen:
// on the primary in widths of its ring, on the laser's face in printed rings.
// It is "" where there are none.
func ByRings(t optics.Telescope, f optics.Face, at optics.Dial) string {
	mm := at.Len()
	switch {
	case f == optics.FacePrimary && t.RingOuterMM > 0:
		switch {
		case mm < t.RingInnerMM:
			return "inside the ring"
		case mm <= t.RingOuterMM:
			return "on the ring"
		}
		return ringWidths(mm / reading.RingWidthMM(t))
	case f == optics.FaceTarget && t.Target.RingStepMM > 0:
		return byPrinted(t, (t.ToRings(t.FromDial(f, at)).Len()-t.Target.HoleRadiusMM)/t.Target.RingStepMM)
	}
	return ""
}

// byPrinted says where a place is by the printed rings: n of them out from the
// hole's rim.
func byPrinted(t optics.Telescope, n float64) string {
	const on = 0.2 // of a ring's step is as near as eyes can tell
	ring := math.Max(1, math.Round(n))
	switch {
	case n < -0.25:
		return "rim brighter there"
	case n < 0.25:
		return "at the hole's rim"
	case t.Target.RingCount > 0 && n > float64(t.Target.RingCount)+on:
		return "past the last ring"
	case n < ring-on:
		return fmt.Sprintf("inside printed ring %.0f", ring)
	case n > ring+on:
		return fmt.Sprintf("past printed ring %.0f", ring)
	}
	return fmt.Sprintf("on printed ring %.0f", ring)
}

// ringWidths says a number of ring widths, to the next quarter.
func ringWidths(n float64) string {
	words := quarters(n)
	switch {
	case math.Round(4*n) < 4:
		return words + " of a ring width"
	case words == "1":
		return words + " ring width"
	}
	return words + " ring widths"
}

// quarters says a number to the next quarter: "3/4", "1 1/2", "2".
func quarters(v float64) string {
	n := max(1, int(math.Round(4*v)))
	part := [4]string{"", "1/4", "1/2", "3/4"}[n%4]
	switch {
	case n < 4:
		return part
	case part == "":
		return fmt.Sprint(n / 4)
	}
	return fmt.Sprintf("%d %s", n/4, part)
}

// nearMM is as near to the middle as eyes can tell.
const nearMM = 0.25

// placeText says a place briefly: "4:30, 9 mm from the hole".
func placeText(f optics.Face, at optics.Dial) string {
	if at.Len() < nearMM {
		return deadCentre(f)
	}
	return fmt.Sprintf("%s, %s mm from %s", words.ClockText(at), words.EyesMmText(at.Len()), middle(f))
}

// deadCentre says that a place is the middle itself.
func deadCentre(f optics.Face) string {
	switch f {
	case optics.FaceTarget:
		return "dead centre of the hole"
	case optics.FaceSecondary:
		return "on top of the other"
	}
	return "dead centre"
}

// placeFitting says a place in the most words that have room.
func placeFitting(f optics.Face, at optics.Dial, width int) string {
	full := placeText(f, at)
	if at.Len() < nearMM {
		return fitting1(width, full, "dead centre")
	}
	return fitting1(width, full, strings.Replace(full, "from the ", "from ", 1), words.ClockText(at)+", "+words.EyesMmText(at.Len())+" mm out")
}

// fitting1 returns the first of the wordings that has room in a row, or the last.
func fitting1(width int, wordings ...string) string {
	for _, w := range wordings {
		if schematic.Width(w) <= width {
			return w
		}
	}
	return wordings[len(wordings)-1]
}

// besidePlate is how wide a row from x on may be: up to the plate where that
// stands there, else to the margin.
func besidePlate(p *frame.Page, x, y int) int {
	if r := p.Sizes.Plate; y >= r.Y && y < r.Y+r.H && x < r.X {
		return r.X - 1 - x
	}
	return p.Cols - 1 - x
}

// middle is what readings on a face are measured from, briefly.
func middle(f optics.Face) string {
	switch f {
	case optics.FaceTarget:
		return "the hole"
	case optics.FaceSecondary:
		return "the other spot"
	}
	return "the middle"
}

// bigStop writes where to stop in big letters.
func bigStop(p *frame.Page, t optics.Telescope, f optics.Face, at optics.Dial, as optics.StopKind, watch bool) {
	clock, rest := words.ClockText(at), "from "+middle(f)
	dead := as == optics.StopPoint && at.Len() < nearMM
	label, nearest, less := "stop when the spot stands at", "stop where the spot comes", "stop where it comes"
	brief := "stop at"
	if !watch {
		label, nearest, less, brief = "then the spot should come to", "then the spot should come", "then it comes", "comes to"
	}
	switch as {
	case optics.StopClosest:
		p.Paragraph(p.StopWord, theme.Label, fitsOr(p.StopWord, nearest, less))
		p.TextMax(p.StopBig.X, p.StopBig.Y+1, p.Cols-1-p.StopBig.X, theme.Act, "nearest to "+middle(f))
		return
	case optics.StopPoint:
		rest = words.EyesMmText(at.Len()) + " mm " + rest
		if p.Projector {
			clock, rest = clock+" "+words.EyesMmText(at.Len())+" mm", "from "+middle(f)
		}
	}
	p.Paragraph(p.StopWord, theme.Label, fitsOr(p.StopWord, label, brief))
	if dead {
		const centre = "CENTRE"
		if p.BigWidth(centre, schematic.Small) > p.StopBig.W {
			p.TextMax(p.StopBig.X, p.StopBig.Y+1, p.Cols-1-p.StopBig.X, theme.Act, deadCentre(f))
			return
		}
		clock, rest = centre, deadCentre(f)
	}
	size := p.BigFit(clock, p.StopBig.W, bigFor(p.StopBig.H), schematic.Small)
	p.Big(p.StopBig.X, p.StopBig.Y, schematic.BigSpec{Text: clock, Size: size, Role: theme.Huge, Low: p.StopWord.H > 1})
	rings := ""
	if as == optics.StopPoint && !dead {
		rings = ByRings(t, f, at)
	}
	if p.Projector { // under the letters, in a row
		p.At(p.StopMM, theme.Act, fitting1(p.StopMM.W, strings.TrimSuffix(rest+", "+rings, ", "), rest))
		return
	}
	p.At(p.StopMM, theme.Act, rest)
	p.At(schematic.Rect{X: p.StopBig.X, Y: p.StopMM.Y + 1, W: p.Cols - 1 - p.StopBig.X, H: 1}, theme.Label, rings)
}

// fitsOr returns words, or where they do not fit a block others that say the
// same in less.
func fitsOr(r schematic.Rect, words, less string) string {
	if len(schematic.Wrap(words, r.W)) > r.H {
		return less
	}
	return words
}

// bigFor is the letter size that a block of that height holds.
func bigFor(rows int) schematic.BigSize {
	if rows >= 7 {
		return schematic.SmallDouble
	}
	return schematic.Small
}
