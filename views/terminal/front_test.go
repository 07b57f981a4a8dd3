package terminal

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/views/terminal/home"
)

// The front page is walked by its arrow keys: they type a line's number, from the
// first to the last, and what it means is said beside it.
func TestArrowsWalkTheFrontPage(t *testing.T) {
	p, _ := atFront(t, 80, 24)
	front := p.Top().Screen.(*home.Front)
	for n := range 12 {
		p.press(tea.KeyDown)
		said, ok := front.Echo(p.Top().Line.String())
		require.True(t, ok)
		assert.NotEmpty(t, said, "%d down: %q", n+1, p.Top().Line.String())
		assert.Contains(t, p.View(), said)
	}
	last := p.Top().Line.String()
	p.press(tea.KeyUp)
	assert.NotEqual(t, last, p.Top().Line.String())
	for range 12 {
		p.press(tea.KeyUp)
	}
	assert.Equal(t, "1", p.Top().Line.String())
	p.press(tea.KeyEnter)
	assert.NotSame(t, front, p.Top().Screen, "Enter takes it")
}
