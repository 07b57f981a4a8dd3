package thrift

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// glass is a terminal that shows what it is sent: each place as its character
// and how it looks. It knows only what a terminal of the simplest kind does.
type glass struct {
	cols, rows, x, y int
	look             map[string]bool
	front, back      string
	shown            []string
	sent             int
}

func newGlass(cols, rows int) *glass {
	return &glass{cols: cols, rows: rows, look: map[string]bool{}, shown: make([]string, cols*rows)}
}

func (g *glass) Read([]byte) (int, error) { return 0, io.EOF }
func (g *glass) Close() error             { return nil }
func (g *glass) Fd() uintptr              { return 0 }

func (g *glass) style() string {
	var on []string
	for _, m := range []string{"1", "2", "4", "7"} {
		if g.look[m] {
			on = append(on, m)
		}
	}
	return g.front + "/" + g.back + "/" + strings.Join(on, "")
}

func (g *glass) Write(p []byte) (int, error) {
	g.sent += len(p)
	text := []rune(string(p))
	for i := 0; i < len(text); i++ {
		switch r := text[i]; r {
		case '\r':
			g.x = 0
		case '\n':
			g.y++
		case '\x1b':
			from := i + 2
			for i = from; !(text[i] >= '@' && text[i] <= '~'); i++ {
			}
			g.obey(string(text[from:i]), text[i])
		default:
			look := g.style()
			if r == ' ' && g.back == "" && !g.look["4"] && !g.look["7"] {
				look = "//" // nothing is seen of the rest
			}
			g.shown[g.y*g.cols+g.x] = string(r) + " " + look
			g.x++
		}
	}
	return len(p), nil
}

func (g *glass) obey(args string, final rune) {
	if strings.HasPrefix(args, "?") {
		return
	}
	var ns []int
	for _, a := range strings.Split(args, ";") {
		n, _ := strconv.Atoi(a)
		ns = append(ns, n)
	}
	switch final {
	case 'H':
		g.y, g.x = max(1, ns[0])-1, 0
		if len(ns) > 1 {
			g.x = max(1, ns[1]) - 1
		}
	case 'C':
		g.x += max(1, ns[0])
	case 'K':
		for x := g.x; x < g.cols; x++ {
			g.shown[g.y*g.cols+x] = "  //"
		}
	case 'J':
		for i := range g.shown {
			g.shown[i] = "  //"
		}
	case 'm':
		for i := 0; i < len(ns); i++ {
			switch n := ns[i]; {
			case n == 0:
				g.front, g.back, g.look = "", "", map[string]bool{}
			case n == 38 || n == 48:
				colour := fmt.Sprint(ns[i+2])
				if i += 2; n == 38 {
					g.front = colour
				} else {
					g.back = colour
				}
			case n == 22:
				g.look["1"], g.look["2"] = false, false
			case n == 27:
				g.look["7"] = false
			default:
				g.look[strconv.Itoa(n)] = true
			}
		}
	default:
		panic("a glass does not know " + string(final))
	}
}

// frame draws lines as the library does: from the top, a line that has not
// changed stepped over, the others whole.
func frame(was, is []string) string {
	var b strings.Builder
	b.WriteString("\x1b[H")
	for y, line := range is {
		if y > 0 {
			b.WriteString("\r\n")
		}
		if was == nil || was[y] != line {
			b.WriteString(line + "\x1b[m\x1b[K")
		}
	}
	fmt.Fprintf(&b, "\x1b[%d;H", len(is))
	return b.String()
}

const enter = "\x1b[?1049h\x1b[2J\x1b[H\x1b[?25l"

// drawLine draws a line of styled pieces.
func drawLine(t *rapid.T, cols int) string {
	line, left := "", cols
	for range rapid.IntRange(0, 6).Draw(t, "pieces") {
		text := rapid.StringOfN(rapid.SampledFrom([]rune("   ab⠉⣀━┿9")), 0, left, -1).Draw(t, "text")
		left -= len([]rune(text))
		line += rapid.SampledFrom([]string{"", "\x1b[38;5;246m", "\x1b[1;38;5;252m", "\x1b[22;38;5;240m", "\x1b[7m", "\x1b[27m", "\x1b[2m", "\x1b[4m", "\x1b[m", "\x1b[48;5;17m"}).Draw(t, "style") + text
	}
	return line
}

// Whatever is drawn, the terminal shows the same with thrift as without.
func TestSameScreenWithThrift(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cols, rows := rapid.IntRange(2, 30).Draw(t, "cols"), rapid.IntRange(2, 6).Draw(t, "rows")
		plain, thin := newGlass(cols, rows), newGlass(cols, rows)
		thrifty := New(thin, func() (int, int) { return cols, rows })
		both := func(s string) {
			_, _ = plain.Write([]byte(s))
			n, err := thrifty.Write([]byte(s))
			require.NoError(t, err)
			require.Len(t, s, n)
			require.Equal(t, plain.shown, thin.shown, "%q", s)
		}
		both(enter)
		var was []string
		for range rapid.IntRange(1, 8).Draw(t, "frames") {
			is := make([]string, rows)
			for y := range is {
				if was != nil && rapid.Bool().Draw(t, "same") {
					is[y] = was[y]
				} else {
					is[y] = drawLine(t, cols)
				}
			}
			both(frame(was, is))
			if was = is; rapid.IntRange(0, 5).Draw(t, "mode") == 0 {
				both("\x1b[?1002h") // and a mode in between
			}
		}
	})
}

func TestWhatIsThereIsNotSentAgain(t *testing.T) {
	g := newGlass(20, 2)
	thrifty := New(g, func() (int, int) { return 20, 2 })
	for _, s := range []string{enter, frame(nil, []string{"one word here", "below"})} {
		_, err := thrifty.WriteString(s)
		require.NoError(t, err)
	}
	before := g.sent
	_, err := thrifty.WriteString(frame([]string{"one word here", "below"}, []string{"one ward here", "below"}))
	require.NoError(t, err)
	assert.LessOrEqual(t, g.sent-before, len("\x1b[1;1Hone ward here"))
	before = g.sent
	_, err = thrifty.WriteString(frame(nil, []string{"one ward here", "below"}))
	require.NoError(t, err)
	assert.Zero(t, g.sent-before)
	// Unless the screen was cleared for it: something else may have written there.
	before = g.sent
	for _, s := range []string{"\x1b[2J", "\x1b[H", frame(nil, []string{"one ward here", "below"})} {
		_, err = thrifty.WriteString(s)
		require.NoError(t, err)
	}
	assert.Greater(t, g.sent-before, len("one ward here")+len("below"))
}

// What is not understood, and all that is written elsewhere than on the drawn
// screen, goes through as it is.
func TestTheRestGoesThrough(t *testing.T) {
	var got bytes.Buffer
	thrifty := New(through{&got}, func() (int, int) { return 20, 2 })
	for _, s := range []string{"hello\r\n", enter, "\x1b]2;title\a", "\x1b[H日本", "\x1b[?1049l\x1b[?25h", "bye\n"} {
		got.Reset()
		_, err := thrifty.WriteString(s)
		require.NoError(t, err)
		assert.True(t, strings.HasSuffix(got.String(), s), "%q as %q", s, got.String())
	}
	// A window that is larger is drawn afresh.
	size := 20
	thrifty = New(through{&got}, func() (int, int) { return size, 2 })
	lines := []string{"one", "two"}
	for _, s := range []string{enter, frame(nil, lines)} {
		_, _ = thrifty.WriteString(s)
	}
	size, got = 30, bytes.Buffer{}
	_, _ = thrifty.WriteString(frame(nil, lines))
	assert.Contains(t, got.String(), "one")
	assert.Contains(t, got.String(), "two")
}

type through struct{ *bytes.Buffer }

func (through) Close() error { return nil }
func (through) Fd() uintptr  { return 0 }

func FuzzWrite(f *testing.F) {
	f.Add(enter, frame(nil, []string{"a", "b"}), "\x1b[H\x1b[38;5m")
	f.Add(enter, "\x1b[H\x1b[999999999999H\x1b[-1C", "\x1b[HÀ\xff\x1b[")
	f.Fuzz(func(t *testing.T, a, b, c string) {
		var got bytes.Buffer
		thrifty := New(through{&got}, func() (int, int) { return 7, 3 })
		for _, s := range []string{enter, a, b, c} {
			n, err := thrifty.WriteString(s)
			require.NoError(t, err)
			require.Len(t, s, n)
		}
	})
}
