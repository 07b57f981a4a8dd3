package reading

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/lex"
)

// Context is what a typed line is understood against.
type Context struct {
	Tel    optics.Telescope
	Face   optics.Face    // where the spot is looked for
	Goal   optics.Goal    // what "middle" means; InsideMM 0 = nothing is asked yet
	Mirror optics.Mirror  // whose screws are in hand; "" = none
	Told   *event.Told    // moves told and not yet made, or nil
	Turned *event.Told    // the same once they were made as told, until something is seen of it
	Last   *optics.Belief // the last reading on Face, or nil
	Aside  bool           // what is looked for is no spot, and never goes down the hole
	Search bool           // whether the spot is there at all is asked

	Untouched bool // nothing was turned or told to turn since Last was read

	line string // as typed, while it is read
}

// SaidKind says what a typed line tells.
type SaidKind string

// What a line can tell. A place has coordinates, and so have those marked so.
const (
	SaidPlace     SaidKind = "place"      // coordinates
	SaidInside    SaidKind = "inside"     // somewhere inside the ring or the hole
	SaidMiddle    SaidKind = "middle"     // within what counts as there
	SaidDead      SaidKind = "dead"       // dead centre
	SaidHome      SaidKind = "home"       // seen going down the hole; coordinates
	SaidGone      SaidKind = "gone"       // not on this face
	SaidCantSee   SaidKind = "cant_see"   // too bright, too dim
	SaidMany      SaidKind = "many"       // more than one spot: which?
	SaidOffMirror SaidKind = "off_mirror" // beside the mirror; coordinates
	SaidSame      SaidKind = "same"       // where it was last time; coordinates
	SaidAsCued    SaidKind = "as_cued"    // where the cue said; coordinates
	SaidScrew     SaidKind = "screw"      // what a screw said, or what was done wrong: Is
	SaidWrong     SaidKind = "wrong"      // the screw Label was turned in place of the one told
	SaidTurned    SaidKind = "turned"     // Turned was turned, in place of what was told
	SaidWent      SaidKind = "went"       // the way At the spot set off as Label was touched
	SaidLaserDead SaidKind = "laser_dead"
	SaidLaser     SaidKind = "laser" // weak, or with a fresh cell: Is
)

// Said is a typed line, understood.
type Said struct {
	Kind SaidKind
	Text string      // as typed
	Face optics.Face // where the spot was seen: the card may be named in a reading of another face

	At     optics.Dial   // across the beam, mm
	Belief optics.Belief // the same in the tube's frame, with the error of the words

	Is    event.Says // of SaidScrew, SaidLaser
	Label string     // the screw's, or "" when only one can be meant
	Lock  bool       // the lock beside that screw

	Turned []optics.Turn

	echo string
}

// Echo returns what was understood, in words, to be said back before it counts.
func (s Said) Echo() string { return s.echo }

// HasPlace reports whether At and Belief say where the spot is.
func (s Said) HasPlace() bool {
	switch s.Kind {
	case SaidPlace, SaidInside, SaidMiddle, SaidDead, SaidHome, SaidOffMirror, SaidSame, SaidAsCued:
		return true
	}
	return false
}

// maxTyped is the longest line that is read, bytes.
const maxTyped = 200

// Parse understands what a person typed about the spot or a screw: first
// in the ways that are shown to people, then as they say it of themselves. It
// returns an *Error for everything else.
func Parse(text string, c Context) (Said, error) {
	said, err := c.parse(text)
	if err != nil {
		if !err.Advice {
			err.Examples = c.understood(err.Examples)
		}
		return Said{}, err
	}
	said.Text = strings.TrimSpace(text)
	return said, nil
}

func (c Context) parse(text string) (Said, *lex.Error) {
	line, err := typed(text)
	if err != nil {
		return Said{}, err
	}
	if keyed, ok, err := c.keypad(line); err != nil {
		return Said{}, err
	} else if ok {
		line = keyed
	}
	if c.line = line; line == "=" { // as typed: + on a number pad
		c.line = strings.TrimSpace(text)
	}
	toks, err := lex.Scan(line)
	if err != nil {
		if toks, bad := lex.Scan(strings.Map(plainSign, line)); bad == nil {
			_, err.Examples = c.ways(toks)
		}
		return Said{}, err
	}
	said, err := parseStrictly(toks, c)
	if err != nil && !err.Asks {
		said, err = parseLoosely(toks, c, err)
	}
	if err != nil && err.Examples == nil && !err.Advice {
		_, err.Examples = c.ways(toks)
	}
	if strings.HasSuffix(line, "?") || lex.Asks(toks) {
		return said, c.wondering(line, said, err)
	}
	return said, err
}

// plainSign leaves out of a line what is neither a letter, nor a figure, nor a space.
func plainSign(r rune) rune {
	if unicode.IsLetter(r) || unicode.IsDigit(r) {
		return r
	}
	return ' '
}

// parseStrictly understands the ways to say it that are shown to people.
func parseStrictly(toks []lex.Token, c Context) (Said, *lex.Error) {
	p, err := newParser(toks, c)
	if err != nil {
		return Said{}, err
	}
	for _, form := range forms {
		p.at = 0
		said, ok, err := form(p)
		if err != nil {
			return Said{}, err
		}
		if ok {
			return said, nil
		}
	}
	return Said{}, p.lost()
}

// A form is one way to say something. It reports false when the line is not
// of that form, and an error when it is, with a part that makes no sense.
type form func(*parser) (Said, bool, *lex.Error)

// forms are tried in this order.
var forms = []form{
	wentForm, sayingForm, turnedForm, screwForm, signedPairForm, wordedPairForm, bareTurnForm, distanceFirstForm, directionFirstForm,
}

// typed returns the line without its margins, refusing what nobody types by
// hand.
func typed(text string) (string, *lex.Error) {
	if len(text) > maxTyped {
		return "", &lex.Error{Why: fmt.Sprintf("more than %d letters", maxTyped)}
	}
	if !utf8.ValidString(text) {
		return "", &lex.Error{Why: "there are letters in it that cannot be read"}
	}
	for _, r := range text {
		if !unicode.IsGraphic(r) && r != '\t' {
			return "", &lex.Error{Why: "there are keys in it that write nothing"}
		}
	}
	text = strings.TrimSpace(text)
	if text == "" {
		return "", &lex.Error{Why: "nothing typed yet"}
	}
	return text, nil
}

// understood returns the examples without those that would themselves be refused
// here, and the usual ones where none is left.
func (c Context) understood(examples []string) []string {
	var kept []string
	for _, e := range examples {
		if _, err := c.parse(e); (err == nil || strings.HasPrefix(e, "skip ")) && !slices.Contains(kept, e) {
			kept = append(kept, e)
		}
	}
	if len(kept) > 0 {
		return kept
	}
	usual := c.examples()
	if _, err := c.parse(usual[0]); err != nil {
		return usual[1:] // the others are words that hold wherever they are offered
	}
	return usual
}
