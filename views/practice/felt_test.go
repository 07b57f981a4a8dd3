package practice

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is felt at every go of a move is said once.
func TestWhatWasFeltIsSaidOnce(t *testing.T) {
	b := &Bench{felt: []string{"B is stuck.", "C binds.", "B is stuck.", "C binds."}}
	assert.Equal(t, "B is stuck. C binds.", b.Felt())
}
