package shelf_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/scope"
	"spotward/session/sessiontest"
)

// A short tube with a lens built in is taken for what it is: by its length, or by
// how near its mirrors stand. Its laser's hole is as near as any.
func TestAShortTubeHasALensInIt(t *testing.T) {
	s := sessiontest.ReadScope(t, "reed")
	assert.True(t, s.LensInside())
	tel := s.Telescope()
	assert.True(t, tel.LensInside)
	assert.Equal(t, 340.0, tel.FromPrimaryMM)
	assert.Equal(t, 140.0, tel.HoleFromAxisMM)

	mm := scope.MM
	for _, c := range []struct {
		name           string
		d, f           float64
		long, apart    float64 // 0: not said
		lens, may      bool
		from, to, hole float64 // what is taken where nothing is said
	}{
		{"the tube's length alone", 114, 1000, 500, 0, true, false, 300, 400, 152},
		{"the mirrors alone", 114, 1000, 0, 350, true, false, 350, 350, 152},
		{"nothing said", 114, 1000, 0, 0, false, true, 840, 845, 177},
		{"nothing said of a wider one", 200, 1200, 0, 0, false, false, 1000, 1000, 220},
		{"a long one", 114, 1000, 900, 0, false, false, 840, 845, 177},
		{"a short, fast one", 76, 300, 280, 0, false, false, 160, 165, 158},
		{"a wide one with a tall focuser", 400, 1600, 1500, 1180, false, false, 1180, 1180, 440},
		{"6 inches in a short tube", 150, 1400, 560, 0, true, false, 330, 400, 170},
	} {
		s := scope.Scope{Format: 1, Name: "x", Aperture: mm(c.d), FocalLength: mm(c.f)}
		if c.long > 0 {
			s.Tube.SkyEnd = mm(c.long)
		}
		if c.apart > 0 {
			s.Secondary.FromPrimary = mm(c.apart)
		}
		require.NoError(t, s.Check(), c.name)
		assert.Equal(t, c.lens, s.LensInside(), c.name)
		assert.Equal(t, c.may, s.MayHaveLens(), c.name)
		tel := s.Telescope()
		assert.GreaterOrEqual(t, tel.FromPrimaryMM, c.from, c.name)
		assert.LessOrEqual(t, tel.FromPrimaryMM, c.to, c.name)
		assert.InDelta(t, c.hole, tel.HoleFromAxisMM, 3, c.name)
	}
}

// Whoever measures a short tube is asked whether a lens is in it, once.
func TestTheFormAsksForTheLens(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	f, err := l.DescribeScope("")
	require.NoError(t, err)
	answers := map[string][]string{
		"name": {"Reed"}, "aperture": {"114"}, "focal length": {"1000"},
		"mirrors apart": {"340", "yes"}, "tube's length": {"470"}, "laser's face": {"140"},
	}
	doubts := 0
	for {
		q, _, _, ok := f.Asked()
		if !ok {
			break
		}
		said := append(answers[q.Name], "")
		_, err := f.Take(said[0])
		var doubt *scope.DoubtError
		if errors.As(err, &doubt) {
			doubts++
			assert.ErrorContains(t, err, "340 mm is short for a focal length of 1000 mm. Is a lens built into the tube? Say yes if so")
			_, err = f.Take(said[1])
		}
		require.NoError(t, err, q.Name)
	}
	assert.Equal(t, 1, doubts)
	require.NoError(t, l.KeepForm(f))
	s, err := l.Scope("reed")
	require.NoError(t, err)
	assert.True(t, s.LensInside())
	assert.Equal(t, scope.MM(140), s.Laser.HoleFromAxis)
}
