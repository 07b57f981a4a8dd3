package reading

import (
	"math"
	"strconv"

	"spotward/optics"
	"spotward/session/lex"
	"spotward/session/words"
)

// How far from the middle a spot may be read that is on what is looked at, as
// part of how far that reaches: eyes read too much by a quarter, and less is known
// of a laser's face than of a mirror. Of two spots on the secondary one is read
// from the other. This program's own.
const (
	overPrimary   = 1.25
	overTarget    = 2
	overCard      = 1.5
	overSecondary = 2.5
	farUnknownMM  = 100 // where it is not known how far it reaches
)

// farthestMM returns the distance beyond which a number is a slip of the hand.
func (c Context) farthestMM() float64 {
	over := map[optics.Face]float64{
		optics.FacePrimary: overPrimary, optics.FaceTarget: overTarget, optics.FaceCard: overCard, optics.FaceSecondary: overSecondary,
	}[c.Face]
	if r := over * c.rimMM(); r > 0 {
		return r
	}
	return farUnknownMM
}

// tooFar asks about a distance that is off what is looked at.
func (c Context) tooFar(mm float64) *lex.Error {
	if mm <= c.farthestMM() {
		return nil
	}
	off, where := "off the face", "not there"
	switch c.Face {
	case optics.FacePrimary:
		off, where = "off the mirror", "wall 4"
	case optics.FaceCard:
		off = "beyond the tube"
	case optics.FaceSecondary:
		off = "off the secondary"
	}
	why := off
	if r := c.rimMM(); r > 0 {
		why += ", which ends " + words.MmText(r) + " mm from its middle"
	}
	return &lex.Error{Part: words.MmText(mm) + " mm", Why: why, Examples: []string{where, c.examples()[0]}}
}

// possible asks about a place that cannot be: off what is looked at, or ten times
// as far as where it stood when nobody has touched anything since. A decimal point
// is lost more often than a spot. An amount with its unit says that it is meant.
func (c Context) possible(b bearing, a amount, mm float64) *lex.Error {
	at := clockFigures(b.unit.Hour()) + " "
	tenth := strconv.FormatFloat(math.Round(10*a.count)/100, 'f', -1, 64)
	if err := c.tooFar(mm); err != nil {
		err.Examples[1] = at + tenth + a.unit
		if err.Examples[0] == "wall 4" {
			err.Examples[0] = "wall " + clockFigures(b.unit.Hour())
		}
		if mm/10 <= c.rimMM() && a.count > 0 {
			err.Asks, err.Why = true, err.Why+": "+tenth+unitText(a.unit)+"?"
			err.Examples = []string{at + tenth + a.unit, err.Examples[0]}
		}
		return err
	}
	if !c.Untouched || c.Last == nil || a.sureUnit || c.Aside {
		return nil
	}
	was := c.Tel.TubeToDial(c.Face, c.Last.At)
	if ratio := mm / was.Len(); was.Len() < slipLeastMM || ratio < 10/slipRatio || ratio > 10*slipRatio {
		return nil
	}
	return askBack(words.MmText(mm)+" mm", "it stood at "+words.MmText(was.Len())+" mm, and nothing was turned since: "+tenth+unitText(a.unit)+"?",
		at+tenth+a.unit, at+words.MmText(mm)+" mm")
}

// What is taken for a lost decimal point: a distance ten times another, give or
// take what eyes differ by; one that says something at all. This program's own.
const (
	slipRatio   = 1.35
	slipLeastMM = 1
)

func unitText(unit string) string {
	if unit == "" {
		return " mm"
	}
	return unit
}
