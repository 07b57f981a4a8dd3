package practice

import "spotward/optics"

// Before says what was to be seen before the last turn, in words; "" before
// any.
func (b *Bench) Before() string {
	if b.turned == "" {
		return ""
	}
	return seenWords(b.real, b.before)
}

// Went returns which way the last turn took its spot, and how far, mm.
func (b *Bench) Went() optics.Dial {
	if b.turned == "" {
		return optics.Dial{}
	}
	was, is := b.real.ToDial(b.turned, b.before.Seen), b.real.ToDial(b.turned, b.world.Sight(b.turned).Seen)
	return optics.Dial{Right: is.Right - was.Right, Up: is.Up - was.Up}
}
