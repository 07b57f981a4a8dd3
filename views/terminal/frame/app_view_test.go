package frame

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What was turned is said whole, or it can be seen that it was not.
func TestAListThatIsCutEndsInDots(t *testing.T) {
	const turned = "turned, primary: lock A tighten 3/8, lock B tighten 1/8, lock C tighten 1/4"
	assert.Equal(t, turned, shortened(turned, len(turned)))
	assert.Equal(t, "turned, primary: lock A tighten 3/8, lock B tighten 1/8...", shortened(turned, len(turned)-1))
	assert.Equal(t, "turned, primary: lock A tighten 3/8...", shortened(turned, len("turned, primary: lock A tighten 3/8, lock B tighten 1/8")), "the dots have to fit too")
	assert.Equal(t, "4 o'clock, 8 mm; turned as told", shortened("4 o'clock, 8 mm from the ring's centre; turned as told", 40), "what is always the same goes first")
}

// However few rows there are, a refusal shows what may be typed instead.
func TestARefusalShowsAWayInOneRow(t *testing.T) {
	a := &App{Bad: true, Note: `"gizmo": I don't know that word. What was done with the screw? say C +1/8, C -1/8, other way, stuck C or not done`}
	assert.Equal(t, []string{`"gizmo": I don't know that word; say C +1/8, C -1/8`}, a.badLines(54, 1))
	assert.Equal(t, []string{`"gizmo": say C +1/8, C -1/8`}, a.badLines(30, 1))
	assert.Len(t, a.badLines(80, 2), 2)
	a.Note = "nothing typed yet"
	assert.Equal(t, []string{a.Note}, a.badLines(54, 1))
}
