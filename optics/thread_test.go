package optics

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPublishedThreads(t *testing.T) {
	for _, row := range published(t, "threads.csv") {
		got, err := ParseThread(row[0])
		require.NoError(t, err)
		assert.Equal(t, row[0], got.Name)
		assert.InDelta(t, number(t, row[1]), got.MajorMM, 1e-3, row)
		assert.InDelta(t, number(t, row[2]), got.LeadMM, 1e-5, row)
	}
}

// What an eighth of a turn of each thread does to the axis and to the return.
func TestPublishedTurnsByThread(t *testing.T) {
	scope := Telescope{ApertureMM: 240, FocalLengthMM: 1200, FromPrimaryMM: 1000, HoleFromAxisMM: 200}
	for _, row := range published(t, "thread_turn.csv") {
		thread, err := ParseThread(row[0])
		require.NoError(t, err)
		assert.InDelta(t, number(t, row[1]), thread.LeadMM, 1e-5, row)
		scope.Primary = Cell{Screws: 3, CircleMM: 80, LeadMM: thread.LeadMM}
		tilt := scope.Primary.Tilt(Primary, []float64{1. / 8, 0, 0})
		assert.InDelta(t, number(t, row[2]), 1000*tilt.Grad.Len(), 6e-5, row)
		s := traced(t, scope, Pose{Primary: tilt})
		assert.InDelta(t, number(t, row[3]), s.E.Len(), 1e-4, row)
		assert.InDelta(t, number(t, row[4]), s.T.Len(), 2e-4, row)
	}
}

func TestThreadsAsPeopleWriteThem(t *testing.T) {
	for in, want := range map[string]string{
		"m5": "M5", " M 5 × 0.50 ": "M5x0.5", "M5X.5": "M5x0.5", "# 8 - 32": "#8-32", "1/4 -20": "1/4-20",
	} {
		got, err := ParseThread(in)
		require.NoError(t, err, in)
		assert.Equal(t, want, got.Name, in)
	}
}

func TestThreadsThatAreNone(t *testing.T) {
	for _, in := range []string{
		"", "M", "M7.3", "M5x", "M5x0", "M5x3", "M5x-0.5", "M5x1e2", "M5x5e-1", "M5xNaN", "M5x0.5.5", "#8", "#8-", "#8-0", "#8--32",
		"#8-1e3", "#7-32", "1/4", "1/4-7", "#8-500", "#2-20", "1/3-20", "20", "coarse", "M5x\x1b[31m",
	} {
		_, err := ParseThread(in)
		require.Error(t, err, in)
		assert.Contains(t, err.Error(), "write M5, M5x0.5, #8-32 or 1/4-20", in)
		assert.NotContains(t, err.Error(), "\x1b", in)
		assert.Equal(t, 0, strings.Count(err.Error(), "\n"), in)
	}
}

// Whatever is accepted has a name that is understood as the same thread.
func FuzzParseThread(f *testing.F) {
	for _, s := range []string{"M5", "M5x0.5", "#8-32", "1/4-20", "m6 × .75", "#10 - 024"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got, err := ParseThread(s)
		if err != nil {
			return
		}
		assert.Greater(t, got.LeadMM, 0.0)
		assert.LessOrEqual(t, got.LeadMM, got.MajorMM/2)
		again, err := ParseThread(got.Name)
		require.NoError(t, err)
		assert.Equal(t, got, again)
	})
}
