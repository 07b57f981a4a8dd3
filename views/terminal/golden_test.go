package terminal

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
	"spotward/views/desk"
)

// scene is a moment of a practice alignment, and what is typed at it.
type scene struct {
	name  string
	at    func(session.Ask) bool
	types string
	enter string // a word that is entered there
}

func scenes() []scene {
	return []scene{
		{"ready", to(session.StageReady, "", false), "", ""},
		{"laser in", to(session.StageLaserIn, "on", false), "", ""},
		{"circle", to(session.StageLaserIn, "circle", false), "1", ""},
		{"first look", to(session.StageFirstLook, "p", false), "4:30 2r", ""},
		{"secondary, move", to(session.StageSecondary, "p", true), "in 2", ""},
		{"secondary, call", to(session.StageSecondary, "p", true), "", "call"},
		{"secondary, look", to(session.StageSecondary, "p", false), "4 on", ""},
		{"secondary, return", to(session.StageSecondary, "return", false), "two 4 12", ""},
		{"rough, move", to(session.StageRough, "target", true), "half 4", ""},
		{"home, move", to(session.StageHome, "t", true), "4:30 8", ""},
		{"home, why", to(session.StageHome, "t", true), "", "why"},
		{"home, to do", to(session.StageHome, "t", true), "", "do"},
		{"home, pause", to(session.StageHome, "t", true), "", "pause"},
		{"home, look", to(session.StageHome, "t", false), "home 2", ""},
		{"retighten", to(session.StageRetighten, "", true), "", ""},
		{"swing up", to(session.StageSwing, "up", false), "", ""},
		{"swing", to(session.StageSwing, "swing", false), "", ""},
		{"tag", to(session.StagePutAway, "tag", false), "", ""},
		{"help", nil, "", "help"},
		{"end", nil, "", ""},
	}
}

func TestGoldenScreens(t *testing.T) {
	plain, night := env(), env("TERM", "xterm-256color")
	for _, c := range []struct {
		name       string
		cols, rows int
		o          Options
		env        func(string) string
	}{
		{"60x18-plain", 60, 18, Options{}, plain},
		{"60x18-night", 60, 18, Options{Theme: "night"}, night},
		{"60x18-ascii", 60, 18, Options{ASCII: true}, plain},
		{"80x24-plain", 80, 24, Options{}, plain},
		{"80x24-night", 80, 24, Options{Theme: "night"}, night},
		{"80x24-ascii", 80, 24, Options{ASCII: true}, plain},
		{"120x36-plain", 120, 36, Options{}, plain},
		{"120x36-night", 120, 36, Options{Theme: "night"}, night},
		{"120x36-projector-plain", 120, 36, Options{Projector: true}, plain},
		{"200x50-projector-plain", 200, 50, Options{Projector: true}, plain},
		{"200x50-projector-night", 200, 50, Options{Projector: true, Theme: "night"}, night},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !keptScreens[c.name] && !sessiontest.Long() {
				t.Skip("what every screen must hold is looked at with -long")
			}
			compare(t, c.name, play(t, c.cols, c.rows, c.o, c.env))
		})
	}
}

// play plays a practice alignment and returns its screens.
func play(t *testing.T, cols, rows int, o Options, env func(string) string) string {
	p := practising(t, 8, cols, rows, o, env)
	var out strings.Builder
	for _, s := range scenes() {
		if s.at != nil || s.name == "end" {
			p.plays(s.at)
		}
		if s.enter != "" {
			p.enters(s.enter)
		}
		p.types(s.types)
		view := p.View()
		requireFits(t, view, cols, rows)
		out.WriteString("-- " + s.name + "\n" + view + "\n")
		if s.enter != "" {
			p.Top().Esc(p.App)
		} else if p.align() != nil {
			p.Top().Line.Set("")
		}
	}
	return out.String()
}

func requireFits(t *testing.T, view string, cols, rows int) {
	t.Helper()
	ls := lines(view)
	require.Len(t, ls, rows)
	for _, l := range ls {
		require.LessOrEqual(t, ansi.StringWidth(l), cols, "%q", l)
	}
}

// keptScreens are the goldens: each shows what no other does. The other sizes
// and colours are held to what every screen must hold (requireFits,
// requireReds).
var keptScreens = map[string]bool{
	"60x18-plain": true, "60x18-night": true, "80x24-plain": true, "80x24-ascii": true, "120x36-plain": true,
	"120x36-projector-plain": true, "back-80x24-plain": true, "teaching-80x24-plain": true, "front": true,
}

// reds are the colours of night, and its ground.
var reds = regexp.MustCompile(`^(0|(1;|4;)*38;5;(52|88|124|160);48;5;(16|52|88|124|160)(;4)?|48;5;16)$`)

// requireReds holds a screen in night colours to them.
func requireReds(t *testing.T, view string) {
	t.Helper()
	for _, code := range regexp.MustCompile(`\x1b\[([0-9;]*)m`).FindAllStringSubmatch(view, -1) {
		require.Regexp(t, reds, code[1])
	}
}

func compare(t *testing.T, name, got string) {
	t.Helper()
	if strings.HasSuffix(name, "-night") {
		requireReds(t, got)
	}
	if !keptScreens[name] {
		return
	}
	path := filepath.Join("..", "..", "testdata", "screens", "terminal", name+".txt")
	if sessiontest.Update() {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		return
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	if string(want) == got {
		return
	}
	w, g := lines(string(want)), lines(got)
	for i := range min(len(w), len(g)) {
		require.Equal(t, w[i], g[i], "line %d; -update writes it anew", i+1)
	}
	require.Len(t, g, len(w))
}

func TestFrontPageGolden(t *testing.T) {
	dir := t.TempDir()
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	_, err = lib.Scope("../../testdata/scopes/heron.toml")
	require.NoError(t, err)
	var out strings.Builder
	for _, size := range [][2]int{{60, 18}, {80, 24}} {
		a, err := newApp(&desk.Desk{Library: lib, Now: noon}, Options{}, env())
		require.NoError(t, err)
		p := &player{t, a}
		p.size(size[0], size[1])
		for _, typed := range []string{"", "2", "records"} {
			if typed != "" {
				p.enters(typed)
			}
			requireFits(t, p.View(), size[0], size[1])
			out.WriteString("-- " + typed + "\n" + p.View() + "\n")
			for len(p.Stack) > 1 {
				p.Top().Esc(p.App)
			}
		}
	}
	compare(t, "front", out.String())
}
