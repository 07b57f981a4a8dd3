package terminal

import (
	"fmt"
	"math"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/terminal/theme"
)

// lastStop is where the last of the moves is to stop.
func lastStop(st session.State, told *session.Told, f optics.Face) (session.ToldStop, optics.Dial, bool) {
	for i := len(told.Moves) - 1; i >= 0; i-- {
		if m := told.Moves[i]; m.Stop != nil && m.Mirror.SpotFace() == f {
			return *m.Stop, st.Tel.ToDial(f, optics.Seen{Right: m.Stop.Right, Up: m.Stop.Up}), true
		}
	}
	return session.ToldStop{}, optics.Dial{}, false
}

// stopWords says where to stop in two parts, the second the one that counts.
func stopWords(f optics.Face, at optics.Dial, as optics.StopKind) (before, place string) {
	switch as {
	case optics.StopBearing:
		return "when the spot stands at", session.HourWords(at) + " from " + middle(f)
	case optics.StopClosest:
		return "where the spot comes nearest", "to " + middle(f)
	}
	return "when the spot stands at", placeText(f, at)
}

// placeText says a place briefly: "4:30, 9 mm from the hole".
func placeText(f optics.Face, at optics.Dial) string {
	if at.Len() < 0.25 {
		return "at " + middle(f)
	}
	return fmt.Sprintf("%s, %s mm from %s", session.ClockText(at), mmText(at.Len()), middle(f))
}

// mmText rounds a length to what eyes can use.
func mmText(mm float64) string {
	if mm < 9.5 {
		return strings.TrimSuffix(fmt.Sprintf("%.1f", math.Round(2*mm)/2), ".0")
	}
	return fmt.Sprintf("%.0f", mm)
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
func bigStop(p *page, f optics.Face, at optics.Dial, as optics.StopKind) {
	clock, rest := session.ClockText(at), "from "+middle(f)
	label := "stop when the spot stands at"
	switch as {
	case optics.StopClosest:
		p.Paragraph(p.StopWord, theme.Label, "stop where the spot comes")
		p.TextMax(p.StopBig.X, p.StopBig.Y+1, p.Cols-1-p.StopBig.X, theme.Act, "nearest to "+middle(f))
		return
	case optics.StopPoint:
		rest = mmText(at.Len()) + " mm " + rest
		if p.Projector {
			clock, rest = clock+" "+mmText(at.Len())+" mm", "from "+middle(f)
		}
	}
	p.Paragraph(p.StopWord, theme.Label, label)
	size := p.BigFit(clock, p.StopBig.W, bigFor(p.StopBig.H), schematic.Small)
	end := p.Big(p.StopBig.X, p.StopBig.Y, schematic.BigSpec{Text: clock, Size: size, Role: theme.Huge, Low: p.StopWord.H > 1})
	mm := p.StopMM
	if p.Projector {
		mm.X = end + 2
		mm.W = p.Cols - 1 - mm.X
	}
	p.at(mm, theme.Act, rest)
}

// bigFor is the letter size that a block of that height holds.
func bigFor(rows int) schematic.BigSize {
	if rows >= 7 {
		return schematic.SmallDouble
	}
	return schematic.Small
}
