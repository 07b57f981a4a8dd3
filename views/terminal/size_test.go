package terminal

import (
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/sessiontest"
	"spotward/views/terminal/frame"
)

// stages are moments that are drawn differently.
func stages() []func(session.Ask) bool {
	return []func(session.Ask) bool{
		to(session.StageReady, "", false), to(session.StageLaserIn, "circle", false),
		to(session.StageFirstLook, "p", false), to(session.StageSecondary, "p", true),
		to(session.StageRough, "target", true), to(session.StageHome, "t", true), to(session.StagePutAway, "tag", false),
	}
}

func TestEverySizeOfOneStage(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	p.plays(to(session.StageHome, "t", true))
	p.types("4:30 8")
	for cols := 0; cols <= 125; cols += sizeStep() {
		for _, rows := range []int{0, 1, 17, 18, 23, 24, 36} {
			p.size(cols, rows)
			fits(t, p, cols, rows)
		}
	}
	for rows := 0; rows <= 60; rows += sizeStep() {
		for _, cols := range []int{1, 60, 79, 80, 120, 200} {
			p.size(cols, rows)
			fits(t, p, cols, rows)
		}
	}
}

func TestSomeSizesOfAllStages(t *testing.T) {
	sessiontest.Whole(t)
	for _, o := range []Options{{}, {ASCII: true, Projector: true}, {Projector: true}}[:sessiontest.Of(1, 2, 3)] {
		p := practising(t, 8, 80, 24, o, env("TERM", "xterm-256color"))
		for _, at := range stages() {
			p.plays(at)
			sweep(t, p)
			if p.align().State().Stage().ID != session.StageHome {
				continue
			}
			for _, word := range []string{"help", "why", "do", "call", "pause"} {
				p.enters(word)
				sweep(t, p)
				p.Top().Esc(p.App)
			}
		}
	}
}

// sizeStep is how far one size tried is from the next: with -long every one is.
func sizeStep() int { return sessiontest.Of(17, 7, 1) }

func sweep(t *testing.T, p *player) {
	n := sessiontest.Of(3, 4, 7)
	for _, cols := range []int{60, 80, 0, 120, 200, 69, 1}[:n] {
		for _, rows := range []int{18, 0, 24, 50, 36, 23, 1}[:n] {
			p.size(cols, rows)
			fits(t, p, cols, rows)
		}
	}
	p.size(80, 24)
}

// fits holds a view to exactly the terminal's size, and to being drawn without
// a fault.
func fits(t *testing.T, p *player, cols, rows int) {
	t.Helper()
	view := p.View()
	require.False(t, p.Bad, "%d x %d: %s", cols, rows, p.Note)
	if cols == 0 || rows == 0 {
		require.Empty(t, view)
		return
	}
	requireFits(t, view, cols, rows)
}

func TestTooSmallSaysSo(t *testing.T) {
	p := practising(t, 5, frame.LeastCols-1, frame.LeastRows, Options{}, env())
	require.Contains(t, p.View(), "needs 60 x 18, has 59 x 18")
	p.size(frame.LeastCols, frame.LeastRows)
	require.Contains(t, p.View(), "Dunlin")
}

func TestNothingBeforeTheFirstSize(t *testing.T) {
	p := practising(t, 5, 0, 0, Options{}, env())
	require.Empty(t, p.View())
}

// A wide reading of ambiguous characters must not change a single cell.
func TestCJKLocaleDrawsTheSame(t *testing.T) {
	draw := func(locale string) string {
		p := practising(t, 5, 80, 24, Options{}, env("LC_ALL", locale))
		p.plays(to(session.StageHome, "t", true))
		return p.View()
	}
	require.Equal(t, draw("en_US.UTF-8"), draw("zh_CN.UTF-8"))
}

func BenchmarkFrame(b *testing.B) {
	p := practising(b, 3, 120, 36, Options{}, env("TERM", "xterm-256color"))
	p.plays(to(session.StageHome, "t", true))
	b.Run("memoised", func(b *testing.B) {
		for b.Loop() {
			p.View()
		}
	})
	b.Run("drawn", func(b *testing.B) {
		for b.Loop() {
			p.Version++
			p.View()
		}
	})
}
