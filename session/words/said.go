package words

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"spotward/optics"
)

// ID returns an id of a file or of the wire as it is read: "not today".
func ID(id string) string { return strings.ReplaceAll(id, "_", " ") }

// Outcome returns what a session came to, by its outcome's id.
func Outcome(id string) string {
	switch id {
	case "aligned":
		return "aligned: both spots were brought home, and read again after the swing"
	case "left":
		return "left alone: it is good enough as it is"
	case "stopped":
		return "stopped and made safe, unfinished"
	case "not_today":
		return "not today: nothing was turned"
	case "partly":
		return "done in part"
	case "":
		return "unfinished: this is how it stands"
	}
	return ID(id)
}

// Tag returns a tag by its id.
func Tag(id string) string {
	switch id {
	case "ready_low_power":
		return "ready for low power"
	case "with_note":
		return "ready, with a note"
	}
	return ID(id)
}

// Face returns the name of what is looked at.
func Face(f optics.Face) string {
	switch f {
	case optics.FacePrimary:
		return "primary"
	case optics.FaceTarget:
		return "laser's face"
	case optics.FaceSecondary:
		return "two spots on the secondary"
	case optics.FaceMouth:
		return "mouth of the drawtube"
	case optics.FaceCard:
		return "card over the open end"
	}
	return ID(string(f))
}

// Chance returns a chance, 0 to 1, in words.
func Chance(p float64) string {
	switch {
	case p >= 0.97:
		return "almost certain"
	case p >= 0.9:
		return "very likely"
	case p >= 0.7:
		return "likely"
	case p >= 0.45:
		return "as likely as not"
	}
	return "unlikely"
}

// Trust says how likely a move brings the spot nearer: a whole sentence.
func Trust(p float64) string {
	if p < 0.45 {
		return "Nobody can tell yet whether it brings the spot nearer."
	}
	return "It is " + Chance(p) + " to bring the spot nearer."
}

// Sentence makes a sentence of a phrase: a capital before it, a full stop after
// it where it has no end yet.
func Sentence(phrase string) string {
	if phrase == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(phrase)
	s := string(unicode.ToUpper(first)) + phrase[size:]
	if strings.ContainsRune(".?!", rune(s[len(s)-1])) {
		return s
	}
	return s + "."
}
