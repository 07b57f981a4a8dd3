package shelf_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/scope"
)

func TestAnswersAreSetByName(t *testing.T) {
	f := scope.NewForm(scope.FormOf{Edits: "Dunlin", From: scope.Builtin()})
	require.NoError(t, f.Set("tube", `9 1/4"`))
	require.NoError(t, f.Set("secondary.from_primary", "about 40 in"))
	assert.InDelta(t, 4.625, f.Scope().Tube.InnerRadius.Value, 1e-9)
	assert.Contains(t, f.Scope().Estimates, "secondary.from_primary")
	require.NoError(t, f.Set("notes", "the blue tube"))
	require.NoError(t, f.Set("check_days", "60"))
	assert.Equal(t, "the blue tube", f.Scope().Notes)
	assert.Equal(t, 60, f.Scope().CheckDays)
	assert.ErrorContains(t, f.Set("check_days", "often"), "expected a whole number")
	before := f.Scope()
	for name, want := range map[string]string{"tub": "did you mean tube?", "tube": "is not taken", "name": "nothing called"} {
		err := f.Set(name, "9 m")
		if name == "tube" {
			assert.Error(t, err)
			continue
		}
		assert.ErrorContains(t, err, want)
	}
	assert.Equal(t, before, f.Scope())
}
