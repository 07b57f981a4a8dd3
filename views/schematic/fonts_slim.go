package schematic

// glyph3x5 returns a letter, digit or sign of the slim size, in which a whole
// question can be read from the back row; nil where there is none.
func glyph3x5(r rune) bitmap {
	if rows, ok := slim(r); ok {
		return rows
	}
	if r >= 'a' && r <= 'z' {
		return glyph3x5(r - 'a' + 'A')
	}
	return nil
}

func slim(r rune) (bitmap, bool) {
	switch r {
	case 'A':
		return rows(".#. #.# ### #.# #.#"), true
	case 'B':
		return rows("##. #.# ##. #.# ##."), true
	case 'C':
		return rows(".## #.. #.. #.. .##"), true
	case 'D':
		return rows("##. #.# #.# #.# ##."), true
	case 'E':
		return rows("### #.. ##. #.. ###"), true
	case 'F':
		return rows("### #.. ##. #.. #.."), true
	case 'G':
		return rows(".### #... #.## #..# .###"), true
	case 'H':
		return rows("#.# #.# ### #.# #.#"), true
	case 'I':
		return rows("# # # # #"), true
	case 'J':
		return rows("..# ..# ..# #.# .#."), true
	case 'K':
		return rows("#.# #.# ##. #.# #.#"), true
	case 'L':
		return rows("#.. #.. #.. #.. ###"), true
	case 'M':
		return rows("#...# ##.## #.#.# #...# #...#"), true
	case 'N':
		return rows("#..# ##.# #.## #..# #..#"), true
	case 'O':
		return rows(".##. #..# #..# #..# .##."), true
	case 'P':
		return rows("##. #.# ##. #.. #.."), true
	case 'Q':
		return rows(".##. #..# #..# #.#. .#.#"), true
	case 'R':
		return rows("##. #.# ##. #.# #.#"), true
	case 'S':
		return rows(".## #.. .#. ..# ##."), true
	case 'T':
		return rows("### .#. .#. .#. .#."), true
	case 'U':
		return rows("#.# #.# #.# #.# ###"), true
	case 'V':
		return rows("#.# #.# #.# #.# .#."), true
	case 'W':
		return rows("#...# #...# #.#.# ##.## #...#"), true
	case 'X':
		return rows("#.# #.# .#. #.# #.#"), true
	case 'Y':
		return rows("#.# #.# .#. .#. .#."), true
	case 'Z':
		return rows("### ..# .#. #.. ###"), true
	}
	return slimSign(r)
}

// slimSign returns digits and signs.
func slimSign(r rune) (bitmap, bool) {
	switch r {
	case '0':
		return rows("### #.# #.# #.# ###"), true
	case '1':
		return rows(".#. ##. .#. .#. ###"), true
	case '2':
		return rows("##. ..# .#. #.. ###"), true
	case '3':
		return rows("##. ..# .#. ..# ##."), true
	case '4':
		return rows("#.# #.# ### ..# ..#"), true
	case '5':
		return rows("### #.. ##. ..# ##."), true
	case '6':
		return rows(".## #.. ### #.# ###"), true
	case '7':
		return rows("### ..# ..# .#. .#."), true
	case '8':
		return rows("### #.# ### #.# ###"), true
	case '9':
		return rows("### #.# ### ..# ##."), true
	case '/':
		return rows("..# ..# .#. #.. #.."), true
	case ':':
		return rows(". # . # ."), true
	case ';':
		return rows(".. .# .. .# #."), true
	case '.':
		return rows(". . . . #"), true
	case ',':
		return rows(".. .. .. .# #."), true
	case '-':
		return rows("... ... ### ... ..."), true
	case '+':
		return rows("... .#. ### .#. ..."), true
	case '?':
		return rows("##. ..# .#. ... .#."), true
	case '!':
		return rows("# # # . #"), true
	case '\'':
		return rows("# # . . ."), true
	case '(':
		return rows(".# #. #. #. .#"), true
	case ')':
		return rows("#. .# .# .# #."), true
	case '%':
		return rows("#.# ..# .#. #.. #.#"), true
	case '=':
		return rows("... ### ... ### ..."), true
	case ' ':
		return rows(".. .. .. .. .."), true
	}
	return nil, false
}
