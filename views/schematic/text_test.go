package schematic

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/views/theme"
)

func TestTextIsCutNeverWrapped(t *testing.T) {
	for _, c := range []struct {
		name, text string
		col, width int
		want       string
		next       int
	}{
		{"fits", "Heron", 1, 8, " Heron", 6},
		{"cut", "Great Heron", 1, 8, " Great...", 9},
		{"cut short", "Great Heron", 1, 6, " Great", 7},
		{"cut at the edge", "Heron", 8, 8, "        He", 10},
		{"no room", "Heron", 1, 0, "", 1},
		{"no room at all", "Heron", 1, -3, "", 1},
		{"off to the left", "Heron", -2, 9, "ron", 3},
		{"wide", "名前", 1, 8, " 名前", 5},
		{"wide, cut in half", "名前", 1, 3, " 名", 3},
		{"wide at the edge", "名前", 7, 8, "       名", 9},
		{"accent of its own", "He\u0301ron", 1, 8, " He\u0301ron", 6},
		{"escape sequences", "\x1b[31mHe\x1b]0;title\aron\x1b", 1, 8, "  [31m...", 9},
		{"controls", "H\x00e\x7fr\u009bo\rn", 1, 8, " H e r...", 9},
		{"line feed", "He\nron", 1, 8, " He ron", 7},
		{"turned around", "He\u202eron\u200b", 1, 8, " He ron", 8},
		{"not UTF-8", "He\xffron", 1, 8, " He\uFFFDron", 7},
	} {
		t.Run(c.name, func(t *testing.T) {
			canvas := New(10, 1, Options{})
			next := canvas.TextMax(c.col, 0, c.width, theme.Ink, c.text)
			assert.Equal(t, c.want, canvas.String(theme.Palette{}))
			if c.col+Width(c.text) <= 10 {
				assert.Equal(t, c.next, next)
			}
		})
	}
}

func TestASCIIShowsNothingElse(t *testing.T) {
	c := New(20, 1, Options{Glyphs: ASCII})
	c.Text(0, 0, theme.Ink, "Müller 名")
	assert.Equal(t, "M?ller ??", c.String(theme.Palette{}))
}

func TestOverwritingHalfOfAWideCharacter(t *testing.T) {
	c := New(6, 1, Options{})
	c.Text(0, 0, theme.Ink, "名前名")
	c.Text(1, 0, theme.Ink, "x")
	c.Text(4, 0, theme.Ink, "y")
	assert.Equal(t, " x前y", c.String(theme.Palette{}))
}

func TestTextRightAndParagraph(t *testing.T) {
	c := New(20, 3, Options{})
	assert.Equal(t, 15, c.TextRight(20, 0, theme.Ink, "Heron"))
	assert.Equal(t, 0, c.TextRight(3, 1, theme.Ink, "Heron"))
	assert.Equal(t, "               Heron\nHer\n", c.String(theme.Palette{}))

	c = New(20, 3, Options{})
	assert.Equal(t, 3, c.Paragraph(Rect{2, 0, 9, 3}, theme.Ink, "nose up, held, nothing leans on it"))
	assert.Equal(t, "  nose up,\n  held,\n  nothi...", c.String(theme.Palette{}), "what does not fit is cut")
	assert.Empty(t, Wrap("words", 0))
}

func FuzzText(f *testing.F) {
	for _, s := range []string{"Heron", "\x1b[2J", "\x1b]52;c;aGk=\a", "名\u0301\u200d👩‍👩‍👧 \u202e", "\xff\xfe", "\u009b31m", strings.Repeat("é", 50)} {
		f.Add(s, 3)
	}
	f.Fuzz(func(t *testing.T, s string, col int) {
		for _, g := range []Glyphs{Braille, ASCII} {
			c := New(20, 2, Options{Glyphs: g})
			c.Text(col%30, 0, theme.Ink, s)
			c.Text(col%7, 0, theme.Typed, s)
			c.Paragraph(Rect{0, 1, 20, 1}, theme.Ink, s)
			checkLines(t, c, 20, 2, theme.Palette{})
			checkLines(t, c, 20, 2, theme.New(theme.Night, theme.Colours16))
		}
	})
}

// Whatever the width, what can be typed stands in one row, and nothing is lost.
func TestWhatCanBeTypedIsNotBroken(t *testing.T) {
	for _, typed := range []string{
		"B 1/8", "lock B -1/4", "screw C 1 1/2", "A +1/8", "re-seat", "home 7", "two 9 12", "mouth 4 20", "card 2 50", "wall 12",
		"4:30 2r", "4:30 12", "10:30 4 rings", "4 1/2", "4 on", "4 2r", "in 4", "stuck B", "end A", "focuser 3", "focuser 9:30", "16 mm", "went 7",
		"cant see", "home even", "not done", "stop safely", "fresh battery",
	} {
		for _, text := range []string{
			"Say what you see or did, go by the ring, or type: " + typed + ".",
			"Say where the spot is now, as in 4:30 8, home, " + typed + ", and so on from there.",
		} {
			for width := 22; width < 60; width++ {
				lines := Wrap(text, width)
				require.Contains(t, strings.Join(lines, "\n"), typed, "%d columns", width)
				require.Equal(t, text, strings.Join(lines, " "), "%d columns", width)
			}
		}
	}
}
