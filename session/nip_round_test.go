package session

import (
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/optics"
)

func TestNipRound(t *testing.T) {
	for _, c := range []struct {
		eased [4]float64
		n, of int
		due   bool
	}{
		{[4]float64{1. / 4, 1. / 4, 1. / 4}, 1, 3, true}, // a touch, an eighth, a touch
		{[4]float64{3. / 16, 3. / 16, 3. / 16}, 2, 3, true},
		{[4]float64{1. / 16, 1. / 16, 0}, 3, 3, true},
		{[4]float64{}, 4, 3, false},
		{[4]float64{1. / 2, 0, 0}, 1, 3, true}, // one was eased more: beyond the quarter it stands off, and is taken back at once
	} {
		s := State{locks: locks{eased: c.eased}, Tel: optics.Telescope{Primary: optics.Cell{Locks: 3}}}
		n, of, due := s.NipRound()
		require.Equal(t, c.due, due, "%v", c.eased)
		require.Equal(t, c.n, n, "%v", c.eased)
		require.Equal(t, c.of, of, "%v", c.eased)
	}
}
