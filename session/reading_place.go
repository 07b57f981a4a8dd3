package session

import (
	"fmt"
	"math"

	"spotward/optics"
)

// Errors of a distance, 1σ, by the form of words: a part of it, and at the
// least what no eye can tell from dead centre. Common practice: mm at the far
// end of a tube are judged to a fifth or a quarter, ring widths a little
// better, parts of the mirror better still.
const (
	sigmaMMFrac    = 0.22
	sigmaRingsFrac = 0.20
	sigmaRimFrac   = 0.15
	sigmaDeadMM    = 0.7
	sigmaOutMM     = 1.0
)

// Errors of a reading in figures whose writer states none (1σ): what a trained
// eye does with some margin. Common practice.
const (
	sigmaFiguresMM   = 0.5
	sigmaFiguresFrac = 0.12
)

// SigmaOf returns the error, 1σ in mm each way, of a reading in figures at mm
// from the goal when none came with it.
func SigmaOf(mm float64) float64 { return sigmaFiguresMM + sigmaFiguresFrac*math.Abs(mm) }

const mmPerInch = 25.4

// amount is a distance as typed.
type amount struct {
	mm      float64
	frac    float64 // 1σ as a part of mm
	words   string  // as said back, without mm
	printed bool    // mm as printed on the target's face, not yet across the beam
	marked  bool    // with its unit: it cannot be taken for a clock
}

// amount reads a distance: 12, 12 mm, 0.5", 2r, edge, 1/2 of the way to it.
func (p *parser) amount() (amount, bool, *ReadingError) {
	if t := p.peek(0); t.sign != 0 {
		return amount{}, false, t.refuse("a distance has no sign; in a pair both have one, right and up")
	}
	return p.length()
}

// length reads a distance whatever its sign.
func (p *parser) length() (amount, bool, *ReadingError) {
	if p.words("edge") || p.words("rim") || p.words("at edge") || p.words("at rim") {
		return p.partOfRim(1, "at the edge")
	}
	t := p.peek(0)
	if t.shape == shapeWord || t.shape == shapeClock {
		return amount{}, false, nil
	}
	p.at++
	v := math.Abs(t.value)
	if next := p.peek(0); t.shape == shapeWhole && next.shape == shapeFraction && next.sign == 0 {
		v += next.value
		t.shape = shapeMixed
		p.at++
	}
	switch {
	case p.words("mm"):
		return amount{mm: v, frac: sigmaMMFrac, marked: true}, true, nil
	case p.words("cm"):
		return amount{mm: 10 * v, frac: sigmaMMFrac, marked: true}, true, nil
	case p.words(`"`):
		return amount{mm: mmPerInch * v, frac: sigmaMMFrac, marked: true}, true, nil
	case p.peek(0).is("in", "inch", "inches", "m", "ft"):
		return amount{}, false, p.peek(0).refuse(`mm are wanted; inches are written as 0.5"`)
	case p.ringUnit():
		return p.rings(t, v)
	case t.shape == shapeFraction:
		return p.partOfRim(v, t.raw+" of the way to the edge")
	}
	return amount{mm: v, frac: sigmaMMFrac}, true, nil
}

func (p *parser) ringUnit() bool {
	p.words("printed")
	if !p.words("r") && !p.words("ring") && !p.words("rings") {
		return p.words("rw") || p.words("ringwidths")
	}
	_ = p.words("width") || p.words("widths")
	return true
}

// rings turns a number of rings into mm: whole ring widths on the primary,
// printed rings counted outward from the hole on the target's face.
func (p *parser) rings(t token, n float64) (amount, bool, *ReadingError) {
	a := amount{frac: sigmaRingsFrac, marked: true}
	tel := p.c.Tel
	switch {
	case p.c.Face == optics.FacePrimary && tel.RingOuterMM > 0:
		a.mm, a.words = n*RingWidthMM(tel), countWords(n, "ring width")
	case p.c.Face == optics.FaceTarget && tel.Target.RingStepMM > 0:
		a.mm, a.words, a.printed = PrintedRingMM(tel.Target, n), countWords(n, "printed ring"), true
	default:
		return a, false, t.refuse("no ring is noted there: a distance in mm")
	}
	return a, true, nil
}

// RingWidthMM returns the ruler that ring widths are told by: the whole centre
// ring from edge to edge, mm.
func RingWidthMM(t optics.Telescope) float64 { return 2 * t.RingOuterMM }

// PrintedRingMM returns the radius, mm as printed, of ring n of the target's
// face, counted outward from the hole's rim.
func PrintedRingMM(t optics.Target, n float64) float64 { return t.HoleRadiusMM + n*t.RingStepMM }

func countWords(n float64, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%.4g %s", n, what)
}

func (p *parser) partOfRim(part float64, words string) (amount, bool, *ReadingError) {
	r := p.c.rimMM()
	if r <= 0 {
		return amount{}, false, &ReadingError{Why: "how far it is to the edge there is not known: a distance in mm"}
	}
	return amount{mm: part * r, frac: sigmaRimFrac, words: words, marked: true}, true, nil
}

// rimMM returns the radius of what is looked at, or 0 when it is not known.
func (c ReadingContext) rimMM() float64 {
	switch c.Face {
	case optics.FacePrimary:
		return c.Tel.ApertureMM / 2
	case optics.FaceSecondary:
		return c.Tel.MinorAxisMM / 2
	case optics.FaceTarget:
		return c.Tel.Target.FaceRadiusMM
	case optics.FaceCard:
		return c.Tel.InnerRadiusMM
	}
	return 0
}

// farthestMM returns the distance beyond which a number is a slip of the hand,
// with room for eyes that read too much and for files that know too little.
func (c ReadingContext) farthestMM() float64 {
	if c.Face == optics.FacePrimary {
		return 0.75 * c.Tel.ApertureMM
	}
	return max(100, 3*c.rimMM())
}

// place is a spot seen in a direction at a distance.
func (p *parser) place(b bearing, a amount) (Said, *ReadingError) {
	mm := a.mm
	if a.printed {
		// as seen along the tube the direction is true, and rings that are
		// circles on the slope look narrower up and down it
		mm /= p.c.Tel.ToRings(p.c.Tel.FromDial(optics.FaceTarget, b.unit)).Len()
	}
	if err := p.c.tooFar(mm); err != nil {
		return Said{}, err
	}
	s := p.c.at(SaidPlace, scaled(b.unit, mm), withEyes(a.frac*mm), b.sigmaRad)
	s.echo = b.words + ", " + a.said(mm) + " " + fromWords(p.c.Face)
	return s, nil
}

func (c ReadingContext) tooFar(mm float64) *ReadingError {
	if mm <= c.farthestMM() {
		return nil
	}
	e := &ReadingError{Part: mmText(mm) + " mm", Why: "that is off this face"}
	if c.Face == optics.FacePrimary {
		e.Why = fmt.Sprintf("the primary ends %s mm from its middle", mmText(c.rimMM()))
		e.Examples = [2]string{"4 edge", "wall 4"}
	}
	return e
}

// said returns the distance in words, with the rings it was told in.
func (a amount) said(mm float64) string {
	if a.words == "" {
		return mmText(mm) + " mm"
	}
	return fmt.Sprintf("%s, %s mm", a.words, mmText(mm))
}

func scaled(d optics.Dial, k float64) optics.Dial {
	return optics.Dial{Right: k * d.Right, Up: k * d.Up}
}

// withEyes adds to an error of sigmaMM what no eye can tell from dead centre.
func withEyes(sigmaMM float64) float64 { return math.Hypot(sigmaMM, sigmaDeadMM) }

// at returns a reading at d, its distance known to alongMM and its direction
// to acrossRad (1σ).
func (c ReadingContext) at(kind SaidKind, d optics.Dial, alongMM, acrossRad float64) Said {
	v := c.Tel.DialToTube(c.Face, d)
	across := withEyes(acrossRad * d.Len())
	return Said{Kind: kind, Face: c.Face, At: d, Belief: optics.Belief{At: v, Cov: optics.Polar(v, alongMM, across)}}
}

// around returns a reading known to sigmaMM every way.
func (c ReadingContext) around(kind SaidKind, d optics.Dial, sigmaMM float64) Said {
	return Said{Kind: kind, Face: c.Face, At: d, Belief: optics.Belief{At: c.Tel.DialToTube(c.Face, d), Cov: optics.Round(sigmaMM)}}
}

// placeForm reads a direction and a distance, in either order.
func placeForm(p *parser) (Said, bool, *ReadingError) {
	said, ok, err := p.distanceFirst()
	if ok || err != nil {
		return said, ok, err
	}
	said, err = p.directionFirst()
	if err == nil {
		return said, true, nil
	}
	if err.Why == "" {
		return Said{}, false, nil
	}
	return Said{}, false, err
}

// directionFirst returns an error without a reason when the line is nothing of
// the kind.
func (p *parser) directionFirst() (Said, *ReadingError) {
	p.at = 0
	p.words("at")
	b, ok, err := p.bearing()
	if err != nil {
		return Said{}, err
	}
	if !ok {
		return Said{}, p.noBearing()
	}
	if p.done() {
		return Said{}, &ReadingError{Part: p.toks[len(p.toks)-1].raw, Why: "and how far from the middle?"}
	}
	p.words("at")
	a, ok, err := p.amount()
	if err != nil {
		return Said{}, err
	}
	if !ok || !p.done() {
		return Said{}, p.leftoverOr(ok)
	}
	return p.place(b, a)
}

func (p *parser) leftoverOr(understood bool) *ReadingError {
	if understood {
		return p.leftover()
	}
	return p.peek(0).refuse("not a distance")
}

// noBearing says what is wrong with a line that does not begin with a
// direction.
func (p *parser) noBearing() *ReadingError {
	t := p.peek(0)
	if t.shape == shapeWord {
		return &ReadingError{}
	}
	if a, ok, _ := p.amount(); ok && a.marked && p.done() {
		return &ReadingError{Part: p.toks[0].raw, Why: "and in which direction?"}
	}
	return t.refuse("no clock position: 12 is straight up, 3 to the right")
}

// distanceFirst reads "8 at 4", "2r 4:30", "8 low right": a distance that the
// line does not leave to be taken for a clock.
func (p *parser) distanceFirst() (Said, bool, *ReadingError) {
	p.at = 0
	a, ok, err := p.amount()
	if !ok || err != nil {
		return Said{}, false, nil
	}
	marked := p.words("at") || a.marked
	b, ok, err := p.bearing()
	if !ok || err != nil || !p.done() || !marked && b.bare {
		return Said{}, false, nil
	}
	said, err := p.place(b, a)
	return said, err == nil, err
}

// ParseWidth understands a distance alone, such as how wide a circle the spot
// made: "2 rings", "5 mm". It returns mm across the beam, or a *ReadingError.
func ParseWidth(text string, c ReadingContext) (float64, error) {
	p, err := newParser(text, c)
	if err == nil {
		a, ok, e := p.amount()
		switch {
		case e != nil:
			err = e
		case !ok || !p.done():
			err = p.lost()
		default:
			if err = p.c.tooFar(a.mm); err == nil {
				return a.mm, nil
			}
		}
	}
	err.Examples = [2]string{"2r", "8 mm"}
	return 0, err
}
