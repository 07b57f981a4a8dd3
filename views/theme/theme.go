// Package theme says how each role on the screen is coloured: a role is what a
// mark is for, a palette is what a terminal is told for it.
//
// A palette is a value that is handed down; nothing here asks the terminal
// anything or remembers anything. Colour only repeats what shape and word have
// already said, so a palette without colour loses nothing.
package theme

import (
	"fmt"
	"io"
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

// Role is what a cell on the screen is for.
type Role uint8

// The roles. Ground is an empty cell and the zero Role.
const (
	Ground Role = iota
	Ink         // text, the hole, hour digits
	Head        // names and headings, keys in the footer: ink in bold
	Label       // small words, the rim of a drawing, the done part of the rail
	Line        // rings, rules, the part of the rail that is left
	Act         // the move, where to stop, the way there
	Act2        // the second leg of that way
	Huge        // act in big letters
	Light       // the light itself: spot and beam, and nothing else
	You         // what is being typed, as drawn
	Typed       // what is being typed, as text
	Good        // a figure that is within what is allowed
	Trail       // where the spot was before

	roles
)

// Name is a theme by name.
type Name string

// The themes. Dark leaves the terminal's own ground as it is; the others paint
// every cell.
const (
	Dark      Name = "dark"
	Night     Name = "night"
	Day       Name = "day"
	Projector Name = "projector"
)

// Names returns the themes in the order in which a key steps through them.
func Names() []Name { return []Name{Dark, Night, Day, Projector} }

// Parse returns the theme of that name.
func Parse(s string) (Name, error) {
	for _, n := range Names() {
		if strings.EqualFold(s, string(n)) {
			return n, nil
		}
	}
	return "", fmt.Errorf("theme %q is not known: choose dark, night, day or projector", s)
}

// Next returns the theme after n, round and round.
func (n Name) Next() Name {
	names := Names()
	for i, name := range names {
		if name == n {
			return names[(i+1)%len(names)]
		}
	}
	return Dark
}

// Depth says how many colours a terminal shows.
type Depth uint8

// Plain is a terminal without colour, or one asked not to use it: no escape
// sequence at all is written. It is the zero Depth.
const (
	Plain Depth = iota
	Colours16
	Colours256
)

// Palette is a theme at a depth. The zero Palette is plain.
type Palette struct {
	depth   Depth
	paints  bool // every cell has a background
	looks   [roles]look
	brushes *brushes
}

// brushes are those of each role; solid ones paint over a background of the role's
// own colour.
type brushes struct{ text, solid [roles]brush }

// renderers are of a fixed depth each: they ask the terminal nothing.
var renderers = map[Depth]*lipgloss.Renderer{
	Colours16:  rendererOf(termenv.ANSI),
	Colours256: rendererOf(termenv.ANSI256),
}

func rendererOf(profile termenv.Profile) *lipgloss.Renderer {
	r := lipgloss.NewRenderer(io.Discard, termenv.WithProfile(profile), termenv.WithUnsafe())
	r.SetColorProfile(profile)
	r.SetHasDarkBackground(true)
	return r
}

// New returns the palette of theme n at depth d. Under Plain all themes are
// one; a name that is not known is Dark.
func New(n Name, d Depth) Palette {
	if d == Plain {
		return Palette{}
	}
	t, ok := table(n)
	if !ok {
		t, _ = table(Dark)
	}
	p := Palette{depth: d, paints: t.ground.given(), looks: t.looks, brushes: &brushes{}}
	r := renderers[d]
	var ground lipgloss.TerminalColor
	if p.paints {
		ground = t.ground.colour(r.ColorProfile())
	}
	for role, l := range t.looks {
		p.brushes.text[role] = brushOf(styleOf(r, l, ground))
		p.brushes.solid[role] = brushOf(styleOf(r, l, l.colour(r.ColorProfile())))
	}
	return p
}

// Plain reports whether the palette writes no escape sequence.
func (p Palette) Plain() bool { return p.depth == Plain }

// Paints reports whether every cell is painted, empty ones too.
func (p Palette) Paints() bool { return p.paints }

// Heading returns a heading as it should be written: in capitals where there is
// no bold to set it off.
func (p Palette) Heading(s string) string {
	if p.Plain() {
		return strings.ToUpper(s)
	}
	return s
}
