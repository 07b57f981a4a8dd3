package command_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
	"spotward/views/desk"
)

// orders returns the orders in which n things can be done.
func orders(n int) [][]int {
	if n == 0 {
		return [][]int{nil}
	}
	var out [][]int
	for _, before := range orders(n - 1) {
		for at := range n {
			order := append(append(append([]int{}, before[:at]...), n-1), before[at:]...)
			out = append(out, order)
		}
	}
	return out
}

// Of several unfinished sessions the one in which something was last done is
// gone on with, whenever each was begun.
func TestResumeTakesTheNewest(t *testing.T) {
	sessiontest.Whole(t)
	for _, order := range orders(4) {
		t.Run(fmt.Sprint(order), func(t *testing.T) {
			dir := t.TempDir()
			library, err := shelf.Open(dir)
			require.NoError(t, err)
			now := time.Date(2026, 4, 1, 19, 0, 0, 0, time.UTC)
			d := &desk.Desk{Library: library, Program: "test", Now: func() time.Time {
				now = now.Add(time.Minute)
				return now
			}}
			var all []*desk.Work
			for range order {
				w, err := d.Align(scope.Builtin(), false)
				require.NoError(t, err)
				all = append(all, w)
			}
			for _, i := range order {
				_, err := all[i].Line("routine")
				require.NoError(t, err)
				_, err = all[i].Close()
				require.NoError(t, err)
			}
			lines := func(w *desk.Work) int {
				got, _, err := library.ReadJournal(w.State().ID)
				require.NoError(t, err)
				return len(got)
			}
			before := map[int]int{}
			for i, w := range all {
				before[i] = lines(w)
			}

			run(t, 1, "feed", "--resume", "--data="+dir) // and left at once
			var goneOn []int
			for i, w := range all {
				if lines(w) > before[i] {
					goneOn = append(goneOn, i)
				}
			}
			assert.Equal(t, order[len(order)-1:], goneOn)
		})
	}
}
