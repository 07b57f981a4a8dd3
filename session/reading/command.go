package reading

import "spotward/session/lex"

// Command returns the word that is shown for a line that holds at every question,
// however it was said: "undo that!" is undo. Every other line is returned in lower
// case, without its margins.
func Command(line string) string { return lex.Command(line) }

// SaysYes reports whether a line says that what was asked is done, and nothing else.
func SaysYes(text string) bool { return lex.SaysYes(text) }
