package frame

import (
	"strings"

	"spotward/views/schematic"
	"spotward/views/theme"
)

// Depth returns how many colours may be used, from the environment alone: the
// terminal is never asked.
func Depth(env func(string) string) theme.Depth {
	term := env("TERM")
	switch {
	case env("NO_COLOR") != "", term == "dumb", term == "":
		return theme.Plain
	case strings.Contains(term, "256color"), env("COLORTERM") != "", strings.HasPrefix(term, "xterm-"):
		return theme.Colours256
	}
	return theme.Colours16
}

// Glyphs returns the characters that can be shown: ASCII where the locale is
// not UTF-8, and no braille on a console whose font has none.
func Glyphs(ascii bool, env func(string) string) schematic.Glyphs {
	locale := env("LC_ALL")
	for _, name := range []string{"LC_CTYPE", "LANG"} {
		if locale == "" {
			locale = env(name)
		}
	}
	locale = strings.ToLower(locale)
	switch {
	case ascii, !strings.Contains(locale, "utf-8") && !strings.Contains(locale, "utf8"):
		return schematic.ASCII
	case env("TERM") == "linux":
		return schematic.Blocks
	}
	return schematic.Braille
}
