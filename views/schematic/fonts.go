package schematic

// glyph5x7 returns a letter, digit or sign of the small size, drawn for this
// program; nil where there is none.
func glyph5x7(r rune) bitmap {
	switch r {
	case 'A':
		return rows(".###. #...# #...# ##### #...# #...# #...#")
	case 'B':
		return rows("####. #...# #...# ####. #...# #...# ####.")
	case 'C':
		return rows(".###. #...# #.... #.... #.... #...# .###.")
	case 'D':
		return rows("####. #...# #...# #...# #...# #...# ####.")
	case 'E':
		return rows("##### #.... #.... ####. #.... #.... #####")
	case 'F':
		return rows("##### #.... #.... ####. #.... #.... #....")
	case 'G':
		return rows(".###. #...# #.... #.### #...# #...# .###.")
	case 'H':
		return rows("#...# #...# #...# ##### #...# #...# #...#")
	case 'I':
		return rows("### .#. .#. .#. .#. .#. ###")
	case 'J':
		return rows("..### ...#. ...#. ...#. ...#. #..#. .##..")
	case 'K':
		return rows("#...# #..#. #.#.. ##... #.#.. #..#. #...#")
	case 'L':
		return rows("#.... #.... #.... #.... #.... #.... #####")
	case 'M':
		return rows("#...# ##.## #.#.# #.#.# #...# #...# #...#")
	case 'N':
		return rows("#...# ##..# #.#.# #.#.# #..## #...# #...#")
	case 'O':
		return rows(".###. #...# #...# #...# #...# #...# .###.")
	case 'P':
		return rows("####. #...# #...# ####. #.... #.... #....")
	case 'Q':
		return rows(".###. #...# #...# #...# #.#.# #..#. .##.#")
	case 'R':
		return rows("####. #...# #...# ####. #.#.. #..#. #...#")
	case 'S':
		return rows(".#### #.... #.... .###. ....# ....# ####.")
	case 'T':
		return rows("##### ..#.. ..#.. ..#.. ..#.. ..#.. ..#..")
	case 'U':
		return rows("#...# #...# #...# #...# #...# #...# .###.")
	case 'V':
		return rows("#...# #...# #...# #...# .#.#. .#.#. ..#..")
	case 'W':
		return rows("#...# #...# #...# #.#.# #.#.# ##.## #...#")
	case 'X':
		return rows("#...# #...# .#.#. ..#.. .#.#. #...# #...#")
	case 'Y':
		return rows("#...# #...# .#.#. ..#.. ..#.. ..#.. ..#..")
	case 'Z':
		return rows("##### ....# ...#. ..#.. .#... #.... #####")
	case '0':
		return rows(".###. #...# #...# #...# #...# #...# .###.")
	case '1':
		return rows(".#. ##. .#. .#. .#. .#. ###")
	case '2':
		return rows(".###. #...# ....# ...#. ..#.. .#... #####")
	case '3':
		return rows(".###. #...# ....# ..##. ....# #...# .###.")
	case '4':
		return rows("...#. ..##. .#.#. #..#. ##### ...#. ...#.")
	case '5':
		return rows("##### #.... ####. ....# ....# #...# .###.")
	case '6':
		return rows(".###. #.... #.... ####. #...# #...# .###.")
	case '7':
		return rows("##### ....# ...#. ...#. ..#.. ..#.. ..#..")
	case '8':
		return rows(".###. #...# #...# .###. #...# #...# .###.")
	case '9':
		return rows(".###. #...# #...# .#### ....# ....# .###.")
	case '/':
		return rows("..# ..# .#. .#. .#. #.. #..")
	case ':':
		return rows(". . # . # . .")
	case '.':
		return rows(". . . . . . #")
	case '-':
		return rows("... ... ... ### ... ... ...")
	case ',':
		return rows(".. .. .. .. .. .# #.")
	case '?':
		return rows(".###. #...# ....# ...#. ..#.. ..... ..#..")
	case '\'':
		return rows("# # . . . . .")
	case '%':
		return rows("##..# ##..# ...#. ..#.. .#... #..## #..##")
	case '(':
		return rows(".# #. #. #. #. #. .#")
	case ')':
		return rows("#. .# .# .# .# .# #.")
	case 'm':
		return rows("..... ..... ####. #.#.# #.#.# #.#.# #.#.#")
	case ' ':
		return rows(".. .. .. .. .. .. ..")
	}
	return nil
}

// glyph7x10 returns a letter for a screw, its strokes two pixels wide.
func glyph7x10(r rune) bitmap {
	switch r {
	case 'A':
		return rows("..###.. .#####. ##...## ##...## ####### ####### ##...## ##...## ##...## ##...##")
	case 'B':
		return rows("######. ####### ##...## ##...## ######. ######. ##...## ##...## ####### ######.")
	case 'C':
		return rows(".#####. ####### ##...## ##..... ##..... ##..... ##..... ##...## ####### .#####.")
	case 'D':
		return rows("#####.. ######. ##...## ##...## ##...## ##...## ##...## ##...## ######. #####..")
	}
	return glyph5x7(r).stretch()
}

// glyph5x5 returns a letter, digit or sign in whole cells, for ASCII: its
// uprights two cells wide, as cells are twice as high as wide.
func glyph5x5(r rune) bitmap {
	switch r {
	case '0':
		return rows(".###. ##.## ##.## ##.## .###.")
	case '1':
		return rows(".## ### .## .## .##")
	case '2':
		return rows("####. ...## .###. ##... #####")
	case '3':
		return rows("####. ...## .###. ...## ####.")
	case '4':
		return rows("##.## ##.## ##### ...## ...##")
	case '5':
		return rows("##### ##... ####. ...## ####.")
	case '6':
		return rows(".###. ##... ####. ##.## .###.")
	case '7':
		return rows("##### ...## ..##. .##.. .##..")
	case '8':
		return rows(".###. ##.## .###. ##.## .###.")
	case '9':
		return rows(".###. ##.## .#### ...## .###.")
	case '/':
		return rows("..# ..# .#. #.. #..")
	case ':':
		return rows(". # . # .")
	case '.':
		return rows(". . . . #")
	case '-':
		return rows("... ... ### ... ...")
	case ' ':
		return rows(".. .. .. .. ..")
	}
	return shrink(glyph5x7(r))
}

// shrink returns a 5×7 bitmap in five rows, every other upright row left out.
func shrink(b bitmap) bitmap {
	if b == nil {
		return nil
	}
	lines := [5]int{0, 1, 3, 5, 6}
	return build(b.wide(), len(lines), func(x, y int) bool { return b.on(x, lines[y]) })
}
