package desk_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/lesson"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/views/practice"
)

// The same seed is the same telescope on every machine, before and after it was
// worked at: figures to a hundredth, so that no machine's last digit counts.
func TestTheLessonsTelescopes(t *testing.T) {
	const file = "../../testdata/telescopes.txt"
	var b strings.Builder
	seen := map[event.World]bool{}
	for _, l := range lesson.All() {
		for _, task := range l.Tasks {
			if task.World == nil || seen[*task.World] {
				continue
			}
			if len(task.Seeds) > 0 {
				assert.Contains(t, task.Seeds, task.World.Seed, l.ID)
			}
			seen[*task.World] = true
			bench, err := practice.New(scope.Builtin().Telescope(), *task.World)
			require.NoError(t, err)
			w := bench.World()
			fmt.Fprintf(&b, "%s %d\n", task.World.Level, task.World.Seed)
			line := func(what string) {
				s := w.Truth().Spots
				fmt.Fprintf(&b, "  %-10s spot %6.2f %6.2f  return %6.2f %6.2f\n", what, s.P.X+0, s.P.Y+0, s.T.X+0, s.T.Y+0)
			}
			line("found")
			w.Turn(optics.Primary, 0, -0.25)
			w.Turn(optics.Secondary, 1, -0.125)
			w.TurnLock(2, -0.25)
			line("turned")
			w.Swing()
			w.Reseat()
			line("swung")
		}
	}
	if sessiontest.Update() {
		require.NoError(t, os.WriteFile(file, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), b.String())
}
