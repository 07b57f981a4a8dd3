package session_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
)

func TestSpotWords(t *testing.T) {
	tel := readScope(t, "heron").Telescope() // its focuser is seen at 2:00 from the sky end
	for want, m := range map[string]*session.Mark{
		"not read": nil,
		"2 o'clock, 12 mm from the ring's centre":  {Saw: session.SawPlace, Up: 12},
		"5 o'clock, 1.5 mm from the ring's centre": {Saw: session.SawPlace, Right: 1.4},
		"at the ring's centre":                     {Saw: session.SawPlace},
		"not on this face":                         {Saw: session.SawGone},
		"could not be seen":                        {Saw: session.SawCantSee},
		"somewhere inside the ring":                {Saw: session.SawInRing},
		"8 o'clock, beside the mirror":             {Saw: session.SawOffGlass, Up: -130},
		"inside what counts as there":              {Saw: session.SawWithin},
		"home, seen going down the hole":           {Saw: session.SawHome},
	} {
		assert.Equal(t, want, session.SpotWords(tel, optics.FacePrimary, m))
	}
}

func TestScopeUsed(t *testing.T) {
	l := openLibrary(t)
	stopped(t, l, id(1), "heron")
	r, err := l.Record(id(1))
	require.NoError(t, err)
	changed := readScope(t, "heron")
	changed.Secondary.Circle = session.MM(16)
	require.NoError(t, l.SaveScope(changed))

	used, err := l.ScopeUsed(r)
	require.NoError(t, err)
	assert.Equal(t, readScope(t, "heron"), used, "as it was then")

	require.NoError(t, os.Remove(filepath.Join(l.Dir(), "journals", id(1)+".jsonl")))
	used, err = l.ScopeUsed(r)
	require.NoError(t, err)
	assert.Equal(t, changed, used)
	require.NoError(t, l.RetireScope("Heron"))
	used, err = l.ScopeUsed(r)
	require.NoError(t, err)
	assert.Equal(t, changed, used)

	_, err = l.ScopeUsed(session.Record{ID: id(9), Scope: "Wren"})
	require.Error(t, err)
	assertPlain(t, err)
}
