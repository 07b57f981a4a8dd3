package reading

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"spotward/optics"
	"spotward/session/event"
)

// ReadingContext is what a typed line is understood against.
type Context struct {
	Tel    optics.Telescope
	Face   optics.Face    // where the spot is looked for
	Goal   optics.Goal    // what "middle" means; InsideMM 0 = nothing is asked yet
	Mirror optics.Mirror  // whose screws are in hand; "" = none
	Told   *event.Told    // moves told and not yet made, or nil
	Last   *optics.Belief // the last reading on Face, or nil
	Aside  bool           // what is looked for is no spot, and never goes down the hole
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

// ReadingError says which part of a typed line was not understood. It is one
// line for the person and holds nothing that a terminal would act on.
type Error struct {
	Part     string // as typed; "" = the line as a whole
	Why      string
	Examples [2]string
}

func (e *Error) Error() string {
	why := e.Why
	if e.Part != "" {
		why = fmt.Sprintf("%q: %s", Shorten(e.Part, 24), e.Why)
	}
	if !strings.HasSuffix(why, "?") {
		why += ";"
	}
	return fmt.Sprintf("%s say %s or %s", why, e.Examples[0], e.Examples[1])
}

// Shorten cuts s to n runes.
func Shorten(s string, n int) string {
	if utf8.RuneCountInString(s) <= n {
		return s
	}
	return string([]rune(s)[:n-1]) + "…"
}

// maxTyped is the longest line that is read, bytes.
const maxTyped = 200

// ParseReading understands what a person typed about the spot or a screw:
// words first, then what was done with a screw, then a pair, then a direction
// with a distance. It returns a *ReadingError for everything else.
func Parse(text string, c Context) (Said, error) {
	said, err := parseLine(text, c)
	if err != nil {
		err.Examples = c.understood(err.Examples)
		return Said{}, err
	}
	said.Text = strings.TrimSpace(text)
	return said, nil
}

func parseLine(text string, c Context) (Said, *Error) {
	p, err := newParser(text, c)
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
type form func(*parser) (Said, bool, *Error)

// forms are tried in this order.
var forms = []form{
	sayingForm, turnedForm, screwForm, signedPairForm, wordedPairForm, bareTurnForm, distanceFirstForm, directionFirstForm,
}

// typed returns the line without its margins, refusing what nobody types by
// hand.
func typed(text string) (string, *Error) {
	if len(text) > maxTyped {
		return "", &Error{Why: fmt.Sprintf("more than %d letters", maxTyped)}
	}
	if !utf8.ValidString(text) {
		return "", &Error{Why: "there are letters in it that cannot be read"}
	}
	for _, r := range text {
		if !unicode.IsGraphic(r) && r != '\t' {
			return "", &Error{Why: "there are keys in it that write nothing"}
		}
	}
	text = strings.TrimSpace(text)
	if text == "" {
		return "", &Error{Why: "nothing typed yet"}
	}
	return text, nil
}

// understood returns the examples with those replaced that would themselves be
// refused here.
func (c Context) understood(examples [2]string) [2]string {
	usual := c.examples()
	for i, e := range examples {
		if _, err := parseLine(e, c); err != nil {
			examples[i] = usual[i]
		}
	}
	if examples[0] == examples[1] {
		return usual
	}
	return examples
}

// examples returns two lines that would be understood where the person is
// looking.
func (c Context) examples() [2]string {
	switch c.Face {
	case optics.FacePrimary:
		if c.Tel.RingOuterMM > 0 {
			return [2]string{"4:30 2r", "low right 20"}
		}
		return [2]string{"4:30 20", "4 edge"}
	case optics.FaceTarget:
		return [2]string{"4:30 8", "cannot see"}
	case optics.FaceCard:
		return [2]string{"2 50", "gone"}
	}
	return [2]string{"4:30 12", "gone"}
}

// atHour returns a line for a spot at an hour where the person is looking.
func (c Context) atHour(hour float64) string {
	place := c.examples()[0]
	if hour > 12 {
		return place
	}
	return fmt.Sprintf("%.0f:00 %s", hour, place[strings.LastIndex(place, " ")+1:])
}
