package schematic

// Glyphs is the set of characters that drawings are made of.
type Glyphs uint8

// Braille has eight dots a cell and is one column wide everywhere. Blocks has
// four, for fonts without braille. ASCII has an upper and a lower half, and
// draws marks as letters.
const (
	Braille Glyphs = iota
	Blocks
	ASCII
)

// glyphSet says how many dots a cell has and which character shows them. Dot
// (x, y) of a cell is bit x·high + y, y downward.
type glyphSet struct {
	wide, high int
	glyphs     []rune // by bits; nil = braille
}

func (g Glyphs) set() glyphSet {
	switch g {
	case Blocks:
		return glyphSet{2, 2, []rune(" ▘▖▌▝▀▞▛▗▚▄▙▐▜▟█")}
	case ASCII:
		return glyphSet{1, 2, []rune(" '.:")}
	}
	return glyphSet{wide: 2, high: 4}
}

// glyph returns the character that shows these dots.
func (s glyphSet) glyph(bits uint8) rune {
	if s.glyphs != nil {
		return s.glyphs[bits]
	}
	// Unicode numbers the lowest two dots last, since braille had six first.
	upperLeft, lowLeft := bits&0x07, bits>>3&1
	upperRight, lowRight := bits>>4&0x07, bits>>7&1
	return 0x2800 | rune(upperLeft|upperRight<<3|lowLeft<<6|lowRight<<7)
}
