package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics/virtual"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/views/practice"
)

func TestEachFaultIsThere(t *testing.T) {
	there := map[string]func(virtual.Faults) bool{
		"laser":   func(f virtual.Faults) bool { return f.LaserOffsetMM > 0.5 },
		"ring":    func(f virtual.Faults) bool { return f.RingOffMM == 2 },
		"slipped": func(f virtual.Faults) bool { return f.SecondarySlipMM == 3 },
		"turned":  func(f virtual.Faults) bool { return f.SecondaryTurnedDeg == 3 },
	}
	require.Len(t, practice.Faults(), len(there))
	for _, fault := range practice.Faults() {
		b, err := practice.New(scope.Builtin().Telescope(), event.World{Seed: 1, Level: practice.FaultLevel(fault)})
		require.NoError(t, err)
		assert.True(t, there[fault](b.World().Truth().Faults), fault)
	}
	_, err := practice.New(scope.Builtin().Telescope(), event.World{Level: practice.FaultLevel("moon")})
	assert.ErrorIs(t, err, practice.ErrLevel)
}
