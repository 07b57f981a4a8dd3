package schematic

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/views/theme"
)

func TestEveryLetterIsOfItsSize(t *testing.T) {
	for _, r := range "0123456789/:.-m ABCDEFGHIJKLMNOPQRSTUVWXYZ" {
		for _, s := range []struct {
			b    bitmap
			high int
		}{{glyph5x7(r), 7}, {glyph5x5(r), 5}} {
			assert.Len(t, s.b, s.high, "%q", r)
			for _, row := range s.b {
				assert.Len(t, row, s.b.wide(), "%q", r)
			}
		}
		if r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			b := glyph7x10(r)
			assert.Len(t, b, 10, "%q", r)
			assert.Equal(t, 7, b.wide(), "%q", r)
		}
	}
	assert.Empty(t, glyph5x7('ß'))
	assert.Empty(t, glyph7x10('ß'))
}

func TestLettersDiffer(t *testing.T) {
	// Only O and 0 are drawn alike.
	for _, glyph := range []func(rune) bitmap{glyph5x7, glyph5x5} {
		seen := map[string]rune{}
		for _, r := range "123456789/ABCDEFGHIJKLMNOPQRSTUVWXYZ" {
			key := fmt.Sprint(glyph(r))
			assert.NotContains(t, seen, key, "%q looks like %q", r, seen[key])
			seen[key] = r
		}
	}
}

func TestLargerLettersKeepTheirShape(t *testing.T) {
	for _, r := range "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ" {
		b := glyph5x7(r)
		triple := b.scale3x()
		assert.Equal(t, 2*b.wide(), b.scale2x().wide())
		assert.Equal(t, 3*b.high(), triple.high())
		for y := range b.high() {
			for x := range b.wide() {
				assert.Equal(t, b.on(x, y), triple.on(3*x+1, 3*y+1), "the middle of a pixel of %q", r)
			}
		}
	}
	// A corner is rounded, a straight edge is not (the Scale2x rule).
	assert.Equal(t, bitmap{".##.", "####", "####", ".##."}, bitmap{"##", "##"}.scale2x())
}

func TestLowLettersStartHalfARowLower(t *testing.T) {
	high, low := New(5, 5, Options{}), New(5, 5, Options{})
	high.Big(0, 0, BigSpec{Text: "L", Role: theme.Huge})
	low.Big(0, 0, BigSpec{Text: "L", Role: theme.Huge, Low: true})
	assert.Equal(t, "█\n█\n█\n▀▀▀▀▀\n", high.String(theme.Palette{}))
	assert.Equal(t, "▄\n█\n█\n█▄▄▄▄\n", low.String(theme.Palette{}))
}

func TestFullBlocksHaveTheirOwnColourBehindThem(t *testing.T) {
	c := New(1, 1, Options{})
	c.Big(0, 0, BigSpec{Text: "I", Role: theme.Huge})
	assert.Equal(t, "\x1b[38;5;221m▀\x1b[0m", c.String(theme.New(theme.Dark, theme.Colours256)))
	c = New(5, 1, Options{})
	c.Big(0, 0, BigSpec{Text: "L", Role: theme.Huge})
	assert.Equal(t, "\x1b[38;5;221;48;5;221m█\x1b[0m", c.String(theme.New(theme.Dark, theme.Colours256)))
	assert.Equal(t, "\x1b[93;103m█\x1b[0m", c.String(theme.New(theme.Dark, theme.Colours16)))
}

func TestBigFitTakesTheNextSmallerLetter(t *testing.T) {
	c := New(0, 0, Options{})
	assert.Equal(t, SmallDouble, c.BigFit("CLOCKWISE", 127, SmallDouble, Small))
	assert.Equal(t, Small, c.BigFit("ANTICLOCKWISE", 127, SmallDouble, Small))
	assert.Equal(t, Small, c.BigFit("ANTICLOCKWISE", 10, SmallDouble, Small), "the last, whatever its width")
}

func TestBar(t *testing.T) {
	for _, c := range []struct {
		name           string
		s              BarSpec
		braille, ascii string
	}{
		{"half", BarSpec{Value: 5, Full: 10}, "━━━━━─────", "=====-----"},
		{"past its post", BarSpec{Value: 8, Allowed: 3, Full: 10}, "━━━┿━━━━──", "===|====--"},
		{"inside", BarSpec{Value: 2, Allowed: 3, Full: 10}, "━━─┼──────", "==-|------"},
		{"over full", BarSpec{Value: 80, Allowed: 99, Full: 10}, "━━━━━━━━━┿", "=========|"},
		{"a spread", BarSpec{Value: 5, Full: 10, Loose: true}, "╍╍╍╍╍─────", "~~~~~-----"},
		{"nothing", BarSpec{}, "──────────", "----------"},
	} {
		for _, term := range terminals {
			canvas := New(10, 1, term.o)
			canvas.Bar(0, 0, 10, c.s)
			want := c.braille
			if canvas.ASCII() {
				want = c.ascii
			}
			assert.Equal(t, want, canvas.String(theme.Palette{}), "%s in %s", c.name, term.name)
		}
	}
}

func TestRail(t *testing.T) {
	s := RailSpec{Now: "home", Groups: [][]StageMark{{StageDone, StageSkipped}, {StageNow, StageDone}}}
	for _, c := range []struct {
		width          int
		braille, ascii string
	}{
		{24, "━━━━━ ╌╌×╌╌  home  ━━━━━", "=== .x.  [ home ]  ==="},
		{14, "━ ×  home  ━", "[ home ]"},
		{6, "home", "[ home"},
		{0, "", ""},
	} {
		for _, term := range terminals {
			canvas := New(30, 1, term.o)
			canvas.Rail(0, 0, c.width, s)
			want := c.braille
			if canvas.ASCII() {
				want = c.ascii
			}
			assert.Equal(t, want, canvas.String(theme.Palette{}), "%d in %s", c.width, term.name)
		}
	}
	s.Names = []string{"sky", "behind"}
	canvas := New(40, 1, Options{})
	canvas.Rail(0, 0, 36, s)
	assert.Equal(t, "sky ━━━━━ ╌╌×╌╌  behind home  ━━━━━", canvas.String(theme.Palette{}))
}

// A whole question has its form in slim letters, and no two of them are alike.
func TestSlimLetters(t *testing.T) {
	seen := map[string]rune{}
	for _, r := range "123456789/ABCDEFGHIJKLMNOPQRSTUVWXYZ.,:;?!'()-+=%" {
		b := glyph3x5(r)
		assert.Len(t, b, 5, "%q", r)
		for _, row := range b {
			assert.Len(t, row, b.wide(), "%q", r)
		}
		key := fmt.Sprint(b)
		assert.NotContains(t, seen, key, "%q looks like %q", r, seen[key])
		seen[key] = r
	}
	c := New(80, 24, Options{})
	lines, ok := c.BigWrap("Where is the spot, measured from the ring's centre?", 60, Slim)
	assert.True(t, ok)
	assert.Equal(t, "WHERE IS THE", lines[0])
	for _, l := range lines {
		assert.LessOrEqual(t, c.BigWidth(l, Slim), 60, l)
	}
	_, ok = c.BigWrap("ß", 60, Slim)
	assert.False(t, ok, "it has no such letter")
	_, ok = c.BigWrap("anticlockwise", 20, Small)
	assert.False(t, ok, "no word is broken")
}
