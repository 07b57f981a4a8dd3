package terminal

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// moments are what the frames are measured at.
func moments() []func(session.Ask) bool {
	return []func(session.Ask) bool{
		to(session.StageReady, "", false), to(session.StageFirstLook, "p", false), to(session.StageSecondary, "p", true),
		to(session.StageRough, "target", true), to(session.StageHome, "t", true), to(session.StageSwing, "swing", false), to(session.StagePutAway, "tag", false),
	}
}

// Every frame of every size and theme stands still, leaves nothing out, and is
// drawn to scale.
func TestFrames(t *testing.T) {
	p := practisingAt(t, "hard", 5, 80, 24, Options{}, env("TERM", "xterm-256color"))
	seen := map[string]int{}
	for _, at := range moments() {
		p.plays(func(ask session.Ask) bool { // what lies between, at the two smallest
			for _, size := range [][2]int{{60, 18}, {80, 24}} {
				p.Theme = theme.Dark
				p.size(size[0], size[1])
				f := frameOf(p, size)
				f.stands(t)
				f.isToScale(t, seen)
			}
			return at(ask)
		})
		for i, size := range [][2]int{{60, 18}, {80, 24}, {100, 30}, {120, 36}, {200, 50}} {
			p.size(size[0], size[1])
			depth := p.Depth
			p.Theme = theme.Dark
			f := frameOf(p, size)
			f.stands(t)
			f.isToScale(t, seen)
			if i%2 == 1 {
				p.Theme = theme.Night
			} else {
				p.Depth = theme.Plain
			}
			frameOf(p, size).stands(t)
			p.Depth = depth
			if p.Top().Line.String() == "" {
				p.types("zzz")
				typed := frameOf(p, size)
				typed.stands(t) // with what is typed
				p.press(tea.KeyEnter)
				frameOf(p, size).standsAs(t, typed) // and refused
				p.Top().Line.Set("")
				p.press(tea.KeyCtrlU)
			}
		}
	}
	for _, what := range []string{"rim", "ring", "place", "cue"} {
		assert.Positive(t, seen[what], what)
	}
}

// drawnFrame is what stands on the screen: text alone, and the colour of each cell.
type drawnFrame struct {
	p      *player
	sz     frame.Sizes
	text   [][]rune
	colour [][]string
}

func frameOf(p *player, size [2]int) *drawnFrame {
	view := lines(p.View())
	f := &drawnFrame{p: p}
	f.sz, _ = frame.SizesFor(size[0], size[1], false, false)
	for _, l := range view {
		var text []rune
		var colours []string
		colour := ""
		for l != "" {
			if seq, rest, ok := strings.Cut(strings.TrimPrefix(l, "\x1b["), "m"); ok && strings.HasPrefix(l, "\x1b[") {
				colour, l = seq, rest
				continue
			}
			r := []rune(l)[0]
			text, colours, l = append(text, r), append(colours, colour), l[len(string(r)):]
		}
		f.text, f.colour = append(f.text, text), append(f.colour, colours)
	}
	return f
}

func (f *drawnFrame) String() string {
	rows := make([]string, len(f.text))
	for i, r := range f.text {
		rows[i] = string(r)
	}
	return strings.Join(rows, "\n")
}

// from returns the text of a row from a column on.
func (f *drawnFrame) from(col, row int) string {
	if row >= len(f.text) || col > len(f.text[row]) {
		return ""
	}
	return string(f.text[row][col:])
}

// stands holds a frame to the columns of its heading and the rows of its foot,
// and to leaving no text out.
func (f *drawnFrame) stands(t *testing.T) {
	t.Helper()
	at := fmt.Sprintf("%dx%d %s\n%s", f.sz.Cols, f.sz.Rows, f.p.Theme, f)
	h := f.p.align().State().Ask().Heading
	facts := [][]align.HeadFact{{{Label: "stand", Said: h.Stand}, {Label: "tool", Said: h.Tool}}, {{Label: "tube", Said: h.Tube}, {Label: "laser", Said: h.Laser}}}
	if len(f.sz.Facts) == 1 {
		facts = [][]align.HeadFact{{{Said: h.Tool}, {Label: "tube", Said: h.Tube}, {Label: "laser", Said: h.Laser}}}
		require.Contains(t, f.from(f.sz.RailAt.X, f.sz.RailAt.Y), " stand "+h.Stand.Short, at)
	}
	for i, row := range facts {
		for j, fact := range row {
			said := f.from(f.sz.FactCols[j], f.sz.Facts[i].Y)
			require.True(t, strings.HasPrefix(said, strings.TrimSpace(fact.Label+" "+fact.Said.Long)) || strings.HasPrefix(said, strings.TrimSpace(fact.Label+" "+fact.Said.Short)), "%q at %q: %s", fact, said, at)
		}
	}
	require.Regexp(t, `^─`, f.from(f.sz.Rule.X, f.sz.Rule.Y), at)
	require.Regexp(t, `^[a-z ]+[?:]`, f.from(f.sz.Input.X, f.sz.Input.Y), at)
	keys := f.from(0, f.sz.Rows-1)
	for _, key := range []string{"enter ", "F1 ", "F8 undo", "F10 ", "esc "} {
		require.Contains(t, keys, key, at)
	}
	if said := flat(f.String()); f.p.align().State().Ask().Told == nil { // of a move the words are its sentence
		for _, word := range strings.Fields(f.p.align().State().Ask().Say) {
			require.Contains(t, said, word, at)
		}
	}
	f.holdsTogether(t, at)
	if st := f.p.align().State(); st.Told() != nil { // and the last of how it is turned, which must not be missed
		typed := !regexp.MustCompile(`\? +_`).MatchString(f.String()) // what is typed may have that row
		if how := st.TurnBriefly(st.Working()); len(how) > 0 && !typed {
			for _, word := range strings.Fields(how[len(how)-1])[1:] {
				require.Contains(t, flat(f.String()), word, at)
			}
		}
	}
	for _, row := range f.text[:f.sz.Rule.Y] { // what was felt may be more than a small foot holds: dots say so
		require.NotContains(t, string(row), "...", at)
	}
}

// together is two of the labels that stand about the drawings, with nothing
// between them.
var together = regexp.MustCompile(`^(?:\d+ ?)?(ground|lock|focuser|away|tube|mm|mirror|face|circle|stop|now|typed|red|turn|outgoing|return)(ground|lock|focuser|away|tube|mm|mirror|face|circle|stop|now|typed|red|turn|outgoing|return|axis|spot)$`)

// holdsTogether finds no two labels run together, and nothing that can be typed
// parted.
func (f *drawnFrame) holdsTogether(t *testing.T, at string) {
	t.Helper()
	for _, word := range strings.Fields(flat(strings.Join(strings.Split(f.String(), "\n")[:f.sz.Rule.Y], "\n"))) {
		require.NotRegexp(t, together, word, at)
	}
	ask := f.p.align().State().Ask()
	if ask.Told != nil {
		return
	}
	for _, word := range strings.Fields(words.Unbroken(ask.Say)) {
		require.Contains(t, f.String(), words.Plain(word), at)
	}
}

// standsAs finds a frame to be as it was but for the rows that say what was not
// understood.
func (f *drawnFrame) standsAs(t *testing.T, was *drawnFrame) {
	t.Helper()
	at := fmt.Sprintf("%dx%d %s\n%s\n%s", f.sz.Cols, f.sz.Rows, f.p.Theme, was, f)
	require.True(t, f.p.Bad, at)
	require.Contains(t, f.String(), "?", at)
	for row := range f.text {
		switch {
		case row >= f.sz.Rule.Y && row <= f.sz.Input.Y, row == f.sz.Understood.Y:
		default:
			require.Equal(t, strings.TrimRight(string(was.text[row]), " "), strings.TrimRight(string(f.text[row]), " "), at)
		}
	}
	require.Regexp(t, `^[a-z ]+[?:]`, f.from(f.sz.Input.X, f.sz.Input.Y), at)
	if strings.TrimSpace(was.from(f.sz.Caution.X, f.sz.Caution.Y)) != "" {
		require.Contains(t, strings.Join(strings.Split(f.String(), "\n")[f.sz.Caution.Y:f.sz.Input.Y], "\n"), "! ", "the caution is still there: %s", at)
	}
}

// dots returns the dots of a frame for which holds says yes, from the middle of
// its face, in dots across and up.
func (f *drawnFrame) dots(holds func(x, y float64, colour string) bool) [][2]float64 {
	var out [][2]float64
	x0, y0 := 2*float64(f.sz.Face.Col)+0.5, 4*float64(f.sz.Face.Row)+1.5
	for row, runes := range f.text {
		for col, r := range runes {
			if r < 0x2800 || r > 0x28ff {
				continue
			}
			for bit, at := range [8][2]int{{0, 0}, {0, 1}, {0, 2}, {1, 0}, {1, 1}, {1, 2}, {0, 3}, {1, 3}} {
				x, y := float64(2*col+at[0])-x0, y0-float64(4*row+at[1])
				if (r-0x2800)>>bit&1 == 1 && holds(x, y, f.colour[row][col]) {
					out = append(out, [2]float64{x, y})
				}
			}
		}
	}
	return out
}

// The colours of light and of the move in the theme that is measured.
const light, act = "38;5;203", "38;5;221"

// isToScale holds the rim, the primary's ring, a spot that is seen and the cue to
// where they are, within half a dot.
func (f *drawnFrame) isToScale(t *testing.T, seen map[string]int) {
	t.Helper()
	s := f.p.align()
	st := s.State()
	face := st.Ask().Face
	if face == "" {
		return
	}
	spec := s.FaceSpec(f.sz, "")
	view, looks := s.Work.Look(face)
	looks = looks && s.Looking()
	if looks {
		spec = align.SightOf(st.Tel, face, view, f.sz)
	}
	k := 2 * f.sz.Face.R / spec.RimMM // dots a mm
	at := fmt.Sprintf("%dx%d, rim %v mm\n%s", f.sz.Cols, f.sz.Rows, spec.RimMM, f)
	if face == optics.FacePrimary {
		most := 0.0
		for _, d := range f.dots(func(x, y float64, _ string) bool { return x < 0 && math.Abs(y) < 3 && x > -2*f.sz.Face.R-2 }) {
			most = math.Max(most, -d[0])
		}
		require.InDelta(t, 2*f.sz.Face.R, most, 0.5+1e-9, "the rim: %s", at)
		seen["rim"]++
	}
	if ring := k * st.Tel.RingOuterMM; looks && face == optics.FacePrimary && k*spec.Now.At.Len() > 2*ring+8 {
		across, up := 0.0, 0.0
		for _, d := range f.dots(func(x, y float64, colour string) bool { return math.Hypot(x, y) < ring+4 && colour != light }) {
			across, up = math.Max(across, math.Abs(d[0])), math.Max(up, math.Abs(d[1]))
		}
		const edge = 0.3 // of a dot, by which one measures
		require.InDelta(t, ring, across+edge, 0.5+1e-9, "the ring: %s", at)
		require.InDelta(t, ring, up+edge, 0.5+1e-9, "the ring: %s", at)
		seen["ring"]++
	}
	if looks && spec.Now != nil && face == optics.FacePrimary {
		f.near(t, light, spec.Now, k, 9, "the spot: "+at)
		seen["place"]++
	}
	if spec.Cue != nil && k*spec.Cue.At.Len() < 2*f.sz.Face.R-6 {
		col, row := f.sz.Face.Col+int(math.Floor((k*spec.Cue.At.Right+1)/2)), f.sz.Face.Row-int(math.Floor((k*spec.Cue.At.Up+2)/4))
		require.Contains(t, f.colour[row][col], act, "the cue is on top: %s", at)
		seen["cue"]++
	}
}

// near holds the middle of a mark's dots to where it is.
func (f *drawnFrame) near(t *testing.T, colour string, m *schematic.Mark, k, reach float64, at string) {
	t.Helper()
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, d := range f.dots(func(x, y float64, c string) bool {
		return strings.HasPrefix(c, colour) && math.Hypot(x-k*m.At.Right, y-k*m.At.Up) < reach
	}) {
		x0, x1, y0, y1 = math.Min(x0, d[0]), math.Max(x1, d[0]), math.Min(y0, d[1]), math.Max(y1, d[1])
	}
	require.InDelta(t, k*m.At.Right, (x0+x1)/2, 0.5+1e-9, at)
	require.InDelta(t, k*m.At.Up, (y0+y1)/2, 0.5+1e-9, at)
}

// Locks that are eased before a screw is turned are all told, on the projector too.
func TestEveryMoveThatIsToldIsSaid(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	w, err := (&desk.Desk{Now: noon}).Practice(scopeNamed(t, "heron"), event.World{Seed: 7, Level: "usual"})
	require.NoError(t, err)
	p.align().Work = w
	p.plays(to(session.StageRough, "target", true))
	moves := w.Shown().Told().Moves
	require.Len(t, moves, 4)
	for _, large := range []bool{false, true} {
		p.Large = large
		for _, size := range [][2]int{{60, 18}, {80, 24}, {100, 30}, {120, 36}, {200, 50}} {
			p.size(size[0], size[1])
			for _, m := range moves[1:] {
				require.Contains(t, flat(p.View()), m.Screw+m.Lock+" "+words.TurnsText(m.Turns), "%v %v", size, large)
			}
		}
	}
}
