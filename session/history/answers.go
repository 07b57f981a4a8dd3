package history

import (
	"fmt"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/words"
)

// Answer is what a record says to one question of whoever reads it: a line each.
type Answer struct {
	Name  string
	Lines []string
}

// Answers returns what was found, done and left, what is known of it and what is
// not, and what comes next. Settling are the looks that would settle whether the
// scope is good enough, as State.Settling has them.
func Answers(r session.Record, tel optics.Telescope, m optics.Method, settling []optics.Look) []Answer {
	return []Answer{
		{"found", momentLines(r, tel, r.Found)},
		{"done", doneLines(r)},
		{"left", leftLines(r, tel)},
		{"known", knownLines(r)},
		{"not known", openLines(r, tel, m)},
		{"next", nextLines(r, settling)},
	}
}

func momentLines(r session.Record, tel optics.Telescope, m session.Moment) []string {
	return []string{
		"spot on the primary: " + SpotWords(tel, optics.FacePrimary, m.P),
		"return spot: " + SpotWords(tel, optics.FaceTarget, m.T),
		MomentWords(r, m),
	}
}

// leftLines are those of the end. A spot that was read before the last turn is not
// known any more.
func leftLines(r session.Record, tel optics.Telescope) []string {
	lines := momentLines(r, tel, r.Left)
	if r.Left.P == nil {
		lines[0] = "spot on the primary: not known at the end"
	}
	if r.Left.T == nil {
		lines[1] = "return spot: not known at the end"
	}
	return lines
}

func doneLines(r session.Record) []string {
	var lines []string
	switch r.Verdict {
	case "":
	case session.VerdictBoth:
		lines = append(lines, "decided: both mirrors")
	default:
		lines = append(lines, "decided: "+words.ID(r.Verdict))
	}
	lines = append(lines, words.OneLine(words.Outcome(r.Outcome))+toldMark(r), WorkWords(r))
	if turned := NetTurnsWords(r); len(turned) > 0 {
		lines = append(lines, "turns in all, + is tighten: "+strings.Join(turned, ", "))
	}
	return lines
}

func knownLines(r session.Record) []string {
	var lines []string
	if m := r.Left; m.Claimed {
		lines = append(lines, fmt.Sprintf("%s within the %.1f mm that is allowed", words.Chance(m.Within), r.AllowedMM))
	}
	for _, f := range r.Finer {
		lines = append(lines, words.OneLine(f.Words))
	}
	switch {
	case r.SwingMM == nil:
	case *r.SwingMM < 0.05:
		lines = append(lines, "the return spot stayed where it was in the swing")
	default:
		lines = append(lines, fmt.Sprintf("the swing moved the return spot by %.1f mm", *r.SwingMM))
	}
	if r.CircleMM != nil {
		lines = append(lines, "laser turned round: "+CircleWords(*r.CircleMM))
	}
	if r.SeatMM > 0 {
		lines = append(lines, fmt.Sprintf("laser put back: %.1f mm from where it was", r.SeatMM))
	}
	for _, t := range r.Trouble {
		lines = append(lines, words.OneLine(t))
	}
	return lines
}

func openLines(r session.Record, tel optics.Telescope, m optics.Method) []string {
	var lines []string
	if !r.Left.Claimed {
		lines = append(lines, "how far the axis is off now")
	} else if r.BudgetMM > 0 && !tel.LensInside {
		lines = append(lines, fmt.Sprintf("anything finer than %.1f mm of axis error: this method cannot see it", r.BudgetMM))
	}
	if r.SwingMM == nil {
		lines = append(lines, "whether it holds: the return spot was not read both before and after a swing")
	}
	if r.CircleMM == nil {
		lines = append(lines, "whether the laser is straight in its holder: it was not turned round")
	}
	if m.RingPlacedMM == nil {
		lines = append(lines, "how far the ring is off the primary's middle: not measured")
	}
	if m.LaserOffsetMM == nil {
		lines = append(lines, "how far the beam is off the middle of its barrel: not measured")
	}
	return lines
}

func nextLines(r session.Record, settling []optics.Look) []string {
	var lines []string
	if len(r.Trouble) > 0 {
		lines = append(lines, "see to: "+words.OneLine(strings.Join(r.Trouble, "; ")))
	}
	switch tag := r.Tag; {
	case r.Practice: // nobody borrows that one
	case tag == session.TagHoldBack:
		lines = append(lines, "hold it back: do not lend it")
	case tag == session.TagLowPower:
		lines = append(lines, "lend it for low power")
	case tag == session.TagReady:
		lines = append(lines, "lend it")
	case tag == session.TagWithNote:
		lines = append(lines, "lend it with a note of this")
	}
	if len(settling) > 0 {
		lines = append(lines, "to settle whether it is good enough: "+words.Looks(settling))
	}
	return lines
}
