package terminal

import (
	"strings"
	"testing"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/sessiontest"
)

// Every size of what looks back: neither a fault, nor a line too wide, nor a
// row too many.
func TestSizesOfLookingBack(t *testing.T) {
	sessiontest.Whole(t)
	for _, o := range []Options{{}, {Projector: true}, {ASCII: true}}[:sessiontest.Of(1, 1, 3)] {
		p := lookingBack(t, 80, 24, o, env("TERM", "xterm-256color"), "usual")
		for _, at := range []string{"first", "14", "30", "last"} {
			p.enters(at)
			sweep(t, p)
		}
		p = lookingBack(t, 80, 24, o, env("TERM", "xterm-256color"), "usual", "undone")
		sweep(t, p)
	}
	p := lookingBack(t, 80, 24, Options{}, env(), "usual")
	p.press(tea.KeyEnd)
	for cols := 0; cols <= 200; cols += sizeStep() {
		for _, rows := range []int{0, 18, 23, 24, 36, 60} {
			p.size(cols, rows)
			fits(t, p, cols, rows)
		}
	}
	for rows := 0; rows <= 60; rows += sizeStep() {
		for _, cols := range []int{60, 79, 80, 120, 200} {
			p.size(cols, rows)
			fits(t, p, cols, rows)
		}
	}
}

// Every page of an album can be come to, at every size, and the first and the
// last word of each of its texts are there.
func TestNoWordOfARecordIsLost(t *testing.T) {
	sessiontest.Whole(t)
	for _, size := range [][2]int{{60, 18}, {61, 21}, {80, 24}, {100, 30}, {120, 36}, {160, 40}, {200, 50}} {
		p := lookingBack(t, size[0], size[1], Options{}, env(), "both-mirrors")
		p.press(tea.KeyEnd)
		p.View()
		all := p.View()
		for p.past().Album.More() {
			p.press(tea.KeyEnter)
			all += p.View()
		}
		for _, text := range p.past().Album.Parts {
			words := strings.Fields(text.Text)
			if len(words) == 0 {
				continue
			}
			assert.Contains(t, all, words[0], "%v", size)
			assert.Contains(t, all, words[len(words)-1], "%v: %s", size, text.Text)
		}
	}
}

// At the smallest size the pictures take all the room there is.
func TestPicturesFillTheirPage(t *testing.T) {
	sessiontest.Whole(t)
	p := lookingBack(t, 60, 18, Options{}, env(), "usual")
	p.press(tea.KeyEnd)
	for range 2 {
		ls := lines(p.View())
		require.Contains(t, ls[1], "found")
		require.Regexp(t, "mm|there|home", ls[13], "the words of both")
		p.press(tea.KeyRight)
	}
}

func BenchmarkRecordFrame(b *testing.B) {
	p := lookingBack(b, 120, 36, Options{}, env("TERM", "xterm-256color"), "usual")
	for _, at := range []string{"14", "last"} {
		p.enters(at)
		b.Run(at, func(b *testing.B) {
			for b.Loop() {
				p.Version++
				p.View()
			}
		})
	}
}
