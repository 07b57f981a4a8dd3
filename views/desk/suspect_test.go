package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/scope"
)

// What the shelf's records hold against a kit stands in the next begin line: then
// the laser is turned once more.
func TestASessionBeginsKnowingASuspectedKit(t *testing.T) {
	d := newDesk(t)
	sc := scope.Builtin()
	require.NoError(t, d.Library.SaveKit(scope.Kit{Name: "club laser", Laser: sc.Laser}))
	sc.Kit = "club laser"
	for n := range 3 {
		w, err := d.Align(sc, false)
		require.NoError(t, err)
		assert.Equal(t, n == 2, w.State().Knew.Suspect != "", "after %d circles far too wide", n)
		for _, line := range []string{"routine", "none"} {
			_, err = w.Line(line)
			require.NoError(t, err, line)
		}
		require.Equal(t, session.StepCircle, w.State().Ask().Step)
		for _, line := range []string{"40 mm", "stop safely", "yes", "yes", "yes"} {
			if w.State().Over {
				break
			}
			_, err = w.Line(line)
			require.NoError(t, err, "%s at %s", line, w.State().Ask().Step)
		}
		require.True(t, w.State().Over)
		w.Close()
	}
}
