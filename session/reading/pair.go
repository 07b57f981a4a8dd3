package reading

import (
	"spotward/optics"
	"spotward/session/lex"
	"spotward/session/words"
)

// signedPairForm reads +8.5 -8.5: right and up.
func signedPairForm(p *parser) (Said, bool, *lex.Error) {
	first := p.peek(0)
	if first.Shape == lex.ShapeWord || first.Sign == 0 && (first.Value != 0 || first.Shape == lex.ShapeClock) {
		return Said{}, false, nil
	}
	right, err := p.component()
	if err != nil {
		return Said{}, false, err
	}
	second := p.peek(0)
	if second.Shape == lex.ShapeWord {
		return Said{}, false, first.Refuse("that is how far right; and how far up?")
	}
	if first.Sign == 0 && second.Sign == 0 && second.Value != 0 {
		return Said{}, false, first.Refuse("no clock position: 12 is straight up, 3 to the right")
	}
	up, err := p.component()
	if err != nil {
		return Said{}, false, err
	}
	return p.pair(right, up, sigmaClockRad)
}

// component reads one of a pair.
func (p *parser) component() (amount, *lex.Error) {
	t := p.peek(0)
	a, ok, err := p.length()
	if err == nil && (!ok || a.printed) {
		err = t.Refuse("in a pair a distance in mm; rings are counted outward from the hole")
	}
	if t.Sign < 0 {
		a.mm = -a.mm
	}
	return a, err
}

// wordedPairForm reads "up 5 left 3", "8.5 right 8.5 down", "r8.5 d8.5".
func wordedPairForm(p *parser) (Said, bool, *lex.Error) {
	one, ok, err := p.side()
	if err != nil || !ok {
		return Said{}, false, err
	}
	if p.done() && one.letter {
		err := p.toks[0].Refuse("both are wanted: how far right or left, and how far up or down")
		side := map[string]string{"r": "right", "l": "left", "u": "up", "d": "down"}[p.toks[0].Raw]
		err.Examples = []string{side + " " + p.toks[1].Raw, "right 3 up 5"}
		return Said{}, false, err
	}
	two, ok, err := p.side()
	if err != nil || !ok {
		return Said{}, false, err
	}
	switch {
	case (one.right == 0) == (two.right == 0):
		return Said{}, false, p.toks[0].Refuse("a pair is one to the right or left and one up or down")
	case one.printed || two.printed:
		return Said{}, false, p.toks[0].Refuse("rings are counted outward from the hole; a pair is in mm")
	}
	if one.right == 0 {
		one, two = two, one
	}
	one.mm *= one.right
	two.mm *= two.up
	return p.pair(one.amount, two.amount, sigmaWordsRad)
}

// side is one of a worded pair.
type side struct {
	direction
	amount
	letter bool // r, l, u, d
}

// side reads "up 5", "5 up" or "u5".
func (p *parser) side() (side, bool, *lex.Error) {
	var s side
	d, ok := directionOf(p.peek(0))
	if !ok {
		d, ok = directionLetter(p.peek(0))
		s.letter = ok
	}
	if ok {
		p.at++
	}
	if t := p.peek(0); t.Shape == lex.ShapeWord || t.Sign != 0 {
		return s, false, nil
	}
	a, known, err := p.length()
	if err != nil || !known {
		return s, false, err
	}
	if !ok {
		if d, ok = directionOf(p.peek(0)); !ok {
			return s, false, nil
		}
		p.at++
	}
	s.direction, s.amount = d, a
	return s, true, nil
}

func directionLetter(t lex.Token) (direction, bool) {
	switch {
	case t.Is("r"):
		return direction{right: 1}, true
	case t.Is("l"):
		return direction{right: -1}, true
	case t.Is("u"):
		return direction{up: 1}, true
	case t.Is("d"):
		return direction{up: -1}, true
	}
	return direction{}, false
}

func (p *parser) pair(right, up amount, acrossRad float64) (Said, bool, *lex.Error) {
	d := optics.Dial{Right: right.mm, Up: up.mm}
	if err := p.c.tooFar(d.Len()); err != nil {
		return Said{}, false, err
	}
	if !p.done() {
		return Said{}, false, p.leftover()
	}
	frac := max(right.frac, up.frac)
	s := p.c.at(SaidPlace, d, withEyes(frac*d.Len()), acrossRad)
	s.echo = words.PlaceText(p.c.Face, d, words.MmText(d.Len()))
	return s, true, nil
}
