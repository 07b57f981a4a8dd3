package terminal

import (
	"hash/fnv"
	"math/rand/v2"
	"regexp"
	"testing"
	"unicode"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/sessiontest"
	"spotward/views/desk"
)

// gibberish puts other letters into a text, the same for the same text: as long,
// with the same stops and capitals, and with no word of it left.
func gibberish(seed uint64) func(string) string {
	return func(text string) string {
		h := fnv.New64a()
		h.Write([]byte(text))
		rnd := rand.New(rand.NewPCG(seed, h.Sum64()))
		out := []rune(text)
		for i, r := range out {
			switch other := 'a' + rnd.Int32N(26); {
			case unicode.IsUpper(r):
				out[i] = unicode.ToUpper(other)
			case unicode.IsLetter(r):
				out[i] = other
			}
		}
		return string(out)
	}
}

var anyLetter = regexp.MustCompile(`[A-Za-z]`)

// marks is a view with every letter alike: what is drawn, in its colours, and
// where texts stand.
func (p *player) marks() (marks, view string) {
	p.Version++ // drawn anew
	view = p.View()
	return anyLetter.ReplaceAllString(view, "x"), view
}

// No picture takes a fact out of a sentence: with every sentence of every stage
// put into other letters, everything else on every screen is as it was.
func TestPicturesDoNotHangOnWords(t *testing.T) {
	sessiontest.Whole(t)
	seen, changed := map[session.StageID]bool{}, 0
	sizes := [][2]int{{80, 24}, {60, 18}, {120, 36}}[:sessiontest.Of(1, 1, 3)]
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	compare := func(p *player, w *desk.Work, what string) {
		want, plain := p.marks()
		w.Session.Reword(gibberish(seed))
		got, other := p.marks()
		w.Session.Reword(nil)
		require.Equal(t, want, got, what)
		if plain != other {
			changed++
		}
	}
	for _, c := range []struct {
		level, scope string
		seed         uint64
		lines        map[session.StepID]string // what is typed at a step, beside the ordinary
	}{
		{"finer-ring", "heron", 4, map[session.StepID]string{session.StepWhy: session.WhyPoor, session.StepCircle: session.CircleHalf}},
		{"hard", "wren", 11, nil},
		{"lesson-good", "dunlin", 5, nil},
		{"lesson-return", "dunlin", 9, nil},
		{"usual", "dunlin", 2, map[session.StepID]string{session.StepNip: "stop safely"}},
	} {
		p := practising(t, c.seed, 80, 24, Options{}, env("COLORTERM", "truecolor", "TERM", "xterm-256color"))
		w, err := (&desk.Desk{Now: noon}).Practice(scopeNamed(t, c.scope), event.World{Seed: c.seed, Level: c.level})
		require.NoError(t, err)
		p.align().Work = w
		p.enters("finer")
		asked := map[session.StepID]bool{}
		for n := 0; p.align() != nil && n < 200; n++ {
			ask := p.align().State().Ask()
			seen[ask.Stage.ID] = true
			for _, size := range sizes {
				p.size(size[0], size[1])
				compare(p, w, string(ask.Stage.ID)+" "+string(ask.Step))
			}
			p.size(80, 24)
			if step := session.StepID(ask.Stage.ID) + ask.Step; !asked[step] {
				asked[step] = true
				for _, page := range []string{"do", "why", "call"} {
					p.enters(page)
					compare(p, w, page)
					p.press(tea.KeyEsc)
				}
			}
			line := c.lines[ask.Step]
			if line == "" {
				line = finerAnswer(p)
			}
			p.enters(line)
		}
	}
	for _, id := range stageIDs() {
		require.True(t, seen[id], "never come to: %s", id)
	}
	require.Greater(t, changed, 100*len(sizes), "and the words were others")
}
