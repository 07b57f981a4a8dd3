package mirrors

import (
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/optics"
)

// A touch and an eighth all round, then a touch; a touch before them where it is
// not known what the locks pull. What is said is what is left: it never grows but
// by a round that went wrong.
func TestNipsLeft(t *testing.T) {
	quarter := [4]float64{1. / 4, 1. / 4, 1. / 4}
	for _, c := range []struct {
		eased  [4]float64
		known  bool
		nipped int
		left   int
	}{
		{eased: quarter, left: 3},
		{eased: quarter, known: true, left: 2},
		{eased: [4]float64{3. / 16, 3. / 16, 3. / 16}, nipped: 1, left: 2},
		{eased: [4]float64{1. / 16, 1. / 16, 0}, nipped: 2, left: 1},
		{eased: [4]float64{}, nipped: 3, left: 0},
		{eased: [4]float64{1. / 2, 0, 0}, known: true, left: 2},
	} {
		s := Work{Locks: Locks{Eased: c.eased, Nipped: c.nipped}, Tel: optics.Telescope{Primary: optics.Cell{Locks: 3}}}
		s.Primary.Redone = c.known
		require.Equal(t, c.left, s.NipsLeft(), "%v", c)
	}
}

// A look for each lock only where two rounds went wrong, and then an eighth at most.
func TestALockALookWhereRoundsWentWrong(t *testing.T) {
	s := Work{Locks: Locks{Eased: [4]float64{1. / 4, 1. / 4, 1. / 4}, Nipped: 2, Wrong: 2}, Tel: optics.Telescope{Primary: optics.Cell{Locks: 3}}}
	require.Equal(t, 1./8, s.nipOf(0))
	s.Locks.Wrong = 1
	require.Equal(t, 3./16, s.nipOf(0))
}
