package reading

import (
	"fmt"
	"math"

	"spotward/optics"
	"spotward/session/lex"
	"spotward/session/words"
)

// Errors of a distance, 1σ, by the form of words: a part of it, and at the
// least what no eye can tell from dead centre. This program's own: mm at the far
// end of a tube are judged to a fifth or a quarter, ring widths a little
// better, parts of the mirror better still.
const (
	sigmaMMFrac    = 0.22
	sigmaRingsFrac = 0.20
	sigmaRimFrac   = 0.15
	sigmaDeadMM    = optics.EyesMM
	SigmaHomeMM    = 1.25
	sigmaOutMM     = 1.0
)

// Errors of a reading in figures whose writer states none (1σ): what a trained
// eye does with some margin, the half of a millimetre that is typed among it. The two
// are independent. This program's own.
const (
	sigmaFiguresMM   = 0.55
	sigmaFiguresFrac = 0.12
)

// SigmaOf returns the error, 1σ in mm each way, of a reading in figures at mm
// from the goal when none came with it.
func SigmaOf(mm float64) float64 { return math.Hypot(sigmaFiguresMM, sigmaFiguresFrac*mm) }

// place is a spot seen in a direction at a distance.
func (p *parser) place(b bearing, a amount) (Said, *lex.Error) {
	mm := a.mm
	if a.printed {
		// as seen along the tube the direction is true, and rings that are
		// circles on the slope look narrower up and down it
		mm /= p.c.Tel.ToRings(p.c.Tel.FromDial(optics.FaceTarget, b.unit)).Len()
	}
	if err := p.c.possible(b, a, mm); err != nil {
		return Said{}, err
	}
	s := p.c.at(SaidPlace, scaled(b.unit, mm), withEyes(a.frac*mm), b.sigmaRad)
	s.echo = b.words + ", " + a.said(mm) + " " + words.FromWords(p.c.Face)
	return s, nil
}

// said returns the distance in words, with the rings it was told in.
func (a amount) said(mm float64) string {
	if a.words == "" {
		return words.MmText(mm) + " mm"
	}
	return fmt.Sprintf("%s, %s mm", a.words, words.MmText(mm))
}

func scaled(d optics.Dial, k float64) optics.Dial {
	return optics.Dial{Right: k * d.Right, Up: k * d.Up}
}

// withEyes adds to an error of sigmaMM what no eye can tell from dead centre.
func withEyes(sigmaMM float64) float64 { return math.Hypot(sigmaMM, sigmaDeadMM) }

// at returns a reading at d, its distance known to alongMM and its direction
// to acrossRad (1σ).
func (c Context) at(kind SaidKind, d optics.Dial, alongMM, acrossRad float64) Said {
	v := c.Tel.DialToTube(c.Face, d)
	across := withEyes(acrossRad * d.Len())
	return Said{Kind: kind, Face: c.Face, At: d, Belief: optics.Belief{At: v, Cov: optics.Polar(v, alongMM, across)}}
}

// around returns a reading known to sigmaMM every way.
func (c Context) around(kind SaidKind, d optics.Dial, sigmaMM float64) Said {
	return Said{Kind: kind, Face: c.Face, At: d, Belief: optics.Belief{At: c.Tel.DialToTube(c.Face, d), Cov: optics.Round(sigmaMM)}}
}

// distanceFirstForm reads "8 at 4", "2r 4:30", "8 low right": a distance that
// the line does not leave to be taken for a clock.
func distanceFirstForm(p *parser) (Said, bool, *lex.Error) {
	_, _, clock := hoursOf(p.peek(0))
	a, ok, err := p.amount()
	if !ok || err != nil {
		return Said{}, false, nil
	}
	at := p.words("at")
	marked := at || a.marked || !clock
	b, ok, err := p.bearing()
	if err != nil && err.Asks {
		return Said{}, false, err
	}
	if !ok || err != nil || !p.done() || !marked && b.bare {
		return Said{}, false, nil
	}
	if n := p.peek(-1); a.printed && !at && b.bare && a.count > 1 && n.Raw != "" && p.peek(-2).Is("ring") && !n.Part {
		return Said{}, false, askBack(p.c.line, "which of them is the ring?", p.toks[0].Raw+" "+n.Raw+"r", n.Raw+" "+p.toks[0].Raw+"r")
	}
	if clock && !a.marked && p.c.tooFar(a.mm) != nil {
		return Said{}, false, nil // 430 at 12
	}
	return said(p.place(b, a))
}

// directionFirstForm reads "4:30 12", "low right 8".
func directionFirstForm(p *parser) (Said, bool, *lex.Error) {
	p.words("at")
	b, ok, err := p.bearing()
	if err != nil || !ok {
		return Said{}, false, p.noBearing(err)
	}
	if p.done() {
		return Said{}, false, p.toks[p.at-1].Refuse(askFar)
	}
	p.words("at")
	a, ok, err := p.amount()
	switch {
	case ok && p.done():
		return said(p.place(b, a))
	case p.onlyAmount():
		return Said{}, false, p.noDirection()
	case err == nil && !ok:
		err = p.peek(0).Refuse(notDistance)
	case err == nil:
		err = p.leftover()
	}
	return Said{}, false, err
}

// noBearing says what is wrong with a number at the beginning of the line that
// is no direction.
func (p *parser) noBearing(err *lex.Error) *lex.Error {
	t := p.peek(0)
	switch {
	case err != nil || t.Shape == lex.ShapeWord:
		return err
	case p.onlyAmount():
		return p.noDirection()
	}
	return t.Refuse("no clock position: 12 is straight up, 3 to the right")
}

// noDirection asks for the direction of an amount, quoted with its unit.
func (p *parser) noDirection() *lex.Error {
	return &lex.Error{Part: p.c.line, Why: "and in which direction?"}
}

// onlyAmount reports whether the whole line is a distance and no more.
func (p *parser) onlyAmount() bool {
	q := parser{toks: p.toks, c: p.c}
	_, ok, err := q.amount()
	return ok && err == nil && q.done()
}
