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
