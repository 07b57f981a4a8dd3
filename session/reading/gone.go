package reading

import (
	"spotward/optics"
	"spotward/session/lex"
)

// sayGone asks back where the spot is about to go down the hole: it is gone from
// the face then too.
func sayGone(p *parser, b *bearing) (Said, *lex.Error) {
	if p.c.nearHome() {
		return Said{}, p.c.askGone("gone")
	}
	return plainly(SaidGone, "not on this face")(p, b)
}

// sayOffFace is not there where the laser's face is in question.
func sayOffFace(p *parser, b *bearing) (Said, *lex.Error) {
	if p.c.Face != optics.FaceTarget {
		return Said{}, askBack("not on the face", "and here?", p.c.examples()...)
	}
	return plainly(SaidGone, "not on this face")(p, b)
}

func (c Context) askGone(part string) *lex.Error {
	return &lex.Error{Asks: true, Part: part, Why: "down the hole, or off the face?", Examples: []string{"home", "not on the face"}}
}

// nearHomeMM is how far from the hole's rim a spot may be expected that may as
// well be down the hole. This program's own: what eyes and hands err by together.
const nearHomeMM = 2

// nearHome reports whether the return spot is expected in the hole or close to
// it: where a move was to bring it, else where it stood.
func (c Context) nearHome() bool {
	if c.Face != optics.FaceTarget || c.Aside {
		return false
	}
	at, known := optics.Tube{}, false
	if c.Last != nil {
		at, known = c.Last.At, true
	}
	if stop := c.stopOf(c.Told); stop != nil {
		at, known = c.Tel.FromSeen(c.Face, optics.Seen{Right: stop.Right, Up: stop.Up}), true
	}
	return known && at.Len() <= c.Tel.Target.HoleRadiusMM+nearHomeMM
}
