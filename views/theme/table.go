package theme

import (
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

// look is a colour in both depths and what goes with it. The zero look is the
// terminal's own.
type look struct {
	c256, c16   int16 // index of 256; SGR code of 16
	bold, under bool
}

func (l look) given() bool { return l.c256 != 0 }

// colour returns the look's colour at a terminal's profile.
func (l look) colour(profile termenv.Profile) lipgloss.TerminalColor {
	if profile == termenv.ANSI256 {
		return lipgloss.ANSIColor(l.c256)
	}
	switch c := l.c16; {
	case c >= 100: // a bright background
		return lipgloss.ANSIColor(c - 100 + 8)
	case c >= 90:
		return lipgloss.ANSIColor(c - 90 + 8)
	case c >= 40:
		return lipgloss.ANSIColor(c - 40)
	default:
		return lipgloss.ANSIColor(c - 30)
	}
}

type palette struct {
	ground look
	looks  [roles]look
}

func bold(c256, c16 int16) look  { return look{c256: c256, c16: c16, bold: true} }
func plain(c256, c16 int16) look { return look{c256: c256, c16: c16} }
func typed(c256, c16 int16) look { return look{c256, c16, true, true} }

// table returns the colours of a theme. Night has reds only, and the larger a
// shape the darker it may be: it is there to keep eyes used to the dark. Day
// uses blue for act, since amber cannot be read on white. The projector's wall is
// never black: its rings are light enough for a room with a lamp on.
func table(n Name) (palette, bool) {
	switch n {
	case Dark:
		return palette{looks: [roles]look{
			Ink: plain(252, 97), Head: bold(252, 97), Label: plain(246, 37), Line: plain(240, 90),
			Act: bold(221, 93), Act2: plain(136, 33), Huge: plain(221, 93), Light: plain(203, 91),
			You: plain(231, 97), Typed: typed(231, 97), Good: plain(114, 92), Trail: plain(246, 37),
		}}, true
	case Night:
		return palette{ground: ground(16, 40), looks: [roles]look{
			Ink: plain(160, 31), Head: bold(160, 31), Label: plain(124, 31), Line: plain(52, 31),
			Act: bold(160, 31), Act2: plain(124, 31), Huge: plain(124, 31), Light: plain(160, 31),
			You: plain(160, 31), Typed: typed(160, 31), Good: plain(160, 31), Trail: plain(88, 31),
		}}, true
	case Day:
		return palette{ground: ground(231, 107), looks: [roles]look{
			Ink: plain(16, 30), Head: bold(16, 30), Label: plain(238, 30), Line: plain(244, 90),
			Act: bold(18, 34), Act2: plain(61, 34), Huge: plain(18, 34), Light: plain(160, 31),
			You: plain(16, 30), Typed: typed(16, 30), Good: plain(22, 32), Trail: plain(238, 30),
		}}, true
	case Projector:
		return palette{ground: ground(16, 40), looks: [roles]look{
			Ink: plain(231, 97), Head: bold(231, 97), Label: plain(252, 37), Line: plain(248, 37),
			Act: bold(220, 93), Act2: plain(178, 33), Huge: plain(220, 93), Light: plain(203, 91),
			You: plain(231, 97), Typed: typed(231, 97), Good: plain(120, 92), Trail: plain(252, 37),
		}}, true
	}
	return palette{}, false
}

// ground is a background: an index of 256, or the SGR code that sets it of 16.
func ground(c256, c16 int16) look { return look{c256: c256, c16: c16} }
