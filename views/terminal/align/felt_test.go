package align

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// On the smallest screen what was felt is a clause, and where the rest of it is.
func TestWhatWasFeltInOneRow(t *testing.T) {
	for felt, brief := range map[string]string{
		"A binds: it pushes against something taut, and nothing gives. Say so.": "A binds. More: F6.",
		"B: the key slipped out of the head half way. A binds.":                 "B: the key slipped out of the head half way. More: F6.",
		"Lock C: the key slipped out of the head half way.":                     "Lock C: the key slipped out of the head half way.",
		"Lock A goes stiffly, in jerks.":                                        "Lock A goes stiffly. More: F6.",
	} {
		assert.Equal(t, brief, feltBriefly(felt))
	}
}
