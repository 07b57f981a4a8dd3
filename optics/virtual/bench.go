package virtual

import (
	"fmt"
	"slices"
	"strings"

	"spotward/optics"
)

// Arranged is a practice telescope as somebody has set it up by hand: what a
// level leaves alone, and then what was set, in that order. It can be written
// down as text (String) and read back (ParseArranged). The zero Arranged is an
// easy telescope.
type Arranged struct {
	Level Level
	sets  []setting
}

// setting is one knob and what it was set to, spelled the one way it is
// written.
type setting struct{ knob, value string }

const (
	arrangedPrefix = "bench:"
	longestText    = 1000 // more than all knobs take
)

// IsArranged reports whether text is meant to be an arranged telescope.
func IsArranged(text string) bool { return strings.HasPrefix(text, arrangedPrefix) }

// String writes the arrangement as one word, such as
// "bench:usual,spot=20,stuck=primary.B".
func (a Arranged) String() string {
	var b strings.Builder
	b.WriteString(arrangedPrefix + string(a.level()))
	for _, s := range a.sets {
		fmt.Fprintf(&b, ",%s=%s", s.knob, s.value)
	}
	return b.String()
}

func (a Arranged) level() Level {
	if a.Level == "" {
		return Easy
	}
	return a.Level
}

// ParseArranged reads what String wrote for a telescope with t's screws.
// Anything else is an error that says which part.
func ParseArranged(t optics.Telescope, text string) (Arranged, error) {
	if len(text) > longestText || !IsArranged(text) {
		return Arranged{}, fmt.Errorf("a telescope that was set up reads %seasy,spot=20", arrangedPrefix)
	}
	parts := strings.Split(strings.TrimPrefix(text, arrangedPrefix), ",")
	level, err := ParseLevel(parts[0])
	if err != nil {
		return Arranged{}, err
	}
	a := Arranged{Level: level}
	for _, part := range parts[1:] {
		name, value, _ := strings.Cut(part, "=")
		k, ok := knobNamed(name)
		if !ok {
			return Arranged{}, fmt.Errorf("%q cannot be set up", name)
		}
		spelled, err := k.spell(t, value)
		if err != nil {
			return Arranged{}, err
		}
		if spelled != value || slices.ContainsFunc(a.sets, func(s setting) bool { return clash(s, setting{name, value}) }) {
			return Arranged{}, fmt.Errorf("%q is not how %s is written once", part, name)
		}
		a.sets = append(a.sets, setting{name, value})
	}
	return a, nil
}

// clash reports whether two settings cannot both hold: the same knob twice, or
// two ailments of one screw.
func clash(s, other setting) bool {
	k, _ := knobNamed(s.knob)
	o, _ := knobNamed(other.knob)
	switch {
	case k.ailment != "" && o.ailment != "":
		return s.value == other.value
	case k.mirror != nil:
		return s == other
	}
	return s.knob == other.knob
}

// With returns the arrangement with one knob set as somebody types it: "spot
// 20", "stuck primary B", "weak", and "spot off" to leave it to the level
// again.
func (a Arranged) With(t optics.Telescope, typed string) (Arranged, error) {
	name, rest, _ := strings.Cut(strings.ToLower(strings.Join(strings.Fields(typed), " ")), " ")
	if name == "level" {
		level, err := ParseLevel(rest)
		return Arranged{level, a.sets}, err
	}
	k, ok := knobNamed(name)
	if !ok {
		return a, fmt.Errorf("%q cannot be set up: say a number or a word of the list, as in spot 20", name)
	}
	next := Arranged{Level: a.Level}
	if rest == "off" {
		for _, s := range a.sets {
			if s.knob != name {
				next.sets = append(next.sets, s)
			}
		}
		return next, nil
	}
	value, err := k.spell(t, strings.TrimSpace(strings.TrimSuffix(rest, k.Unit)))
	if err != nil {
		return a, err
	}
	for _, s := range a.sets {
		if !clash(s, setting{name, value}) {
			next.sets = append(next.sets, s)
		}
	}
	next.sets = append(next.sets, setting{name, value})
	return next, nil
}

// IsSet reports whether a knob was set by hand, and is not left to the level.
func (a Arranged) IsSet(knob string) bool {
	return slices.ContainsFunc(a.sets, func(s setting) bool { return s.knob == knob })
}

// Set returns what was set by hand, in that order, as it is typed: "stuck primary
// B", "spot 20 mm".
func (a Arranged) Set() []string {
	var typed []string
	for _, s := range a.sets {
		k, _ := knobNamed(s.knob)
		value := strings.Replace(s.value, ".", " ", 1)
		switch {
		case k.Most > 0:
			value = s.value + " " + k.Unit
		case k.on != nil:
			value = ""
		}
		typed = append(typed, strings.TrimSpace(k.Name+" "+value))
	}
	return typed
}

// Setup returns what the arrangement means for telescope t and a seed.
func (a Arranged) Setup(t optics.Telescope, seed uint64) Setup {
	s := SetupOf(a.level(), t, seed)
	for _, set := range a.sets {
		k, _ := knobNamed(set.knob)
		k.apply(&s, t, set.value)
	}
	return s
}
