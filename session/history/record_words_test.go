package history_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/scope"
	"spotward/session/sessiontest"
)

func TestSpotWords(t *testing.T) {
	tel := sessiontest.ReadScope(t, "heron").Telescope() // its focuser is seen at 2:00 from the sky end
	for want, m := range map[string]*session.Mark{
		"not read": nil,
		"2 o'clock, 12 mm from the ring's centre":  {Saw: event.SawPlace, Up: 12},
		"5 o'clock, 1.5 mm from the ring's centre": {Saw: event.SawPlace, Right: 1.4},
		"at the ring's centre":                     {Saw: event.SawPlace},
		"not on this face":                         {Saw: event.SawGone},
		"could not be seen":                        {Saw: event.SawCantSee},
		"somewhere inside the ring":                {Saw: event.SawInRing},
		"8 o'clock, beside the mirror":             {Saw: event.SawOffGlass, Up: -130},
		"inside what counts as there":              {Saw: event.SawWithin},
		"home, seen going down the hole":           {Saw: event.SawHome},
	} {
		assert.Equal(t, want, history.SpotWords(tel, optics.FacePrimary, m))
	}
}

func TestScopeUsed(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	sessiontest.Stopped(t, l, sessiontest.NthID(1), "heron")
	r, err := l.Record(sessiontest.NthID(1))
	require.NoError(t, err)
	changed := sessiontest.ReadScope(t, "heron")
	changed.Secondary.Circle = scope.MM(16)
	require.NoError(t, l.SaveScope(changed))

	used, err := l.ScopeUsed(r)
	require.NoError(t, err)
	assert.Equal(t, sessiontest.ReadScope(t, "heron"), used, "as it was then")

	require.NoError(t, os.Remove(filepath.Join(l.Dir(), "journals", sessiontest.NthID(1)+".jsonl")))
	used, err = l.ScopeUsed(r)
	require.NoError(t, err)
	assert.Equal(t, changed, used)
	require.NoError(t, l.RetireScope("Heron"))
	used, err = l.ScopeUsed(r)
	require.NoError(t, err)
	assert.Equal(t, changed, used)

	_, err = l.ScopeUsed(session.Record{ID: sessiontest.NthID(9), Scope: "Wren"})
	require.Error(t, err)
	sessiontest.AssertPlain(t, err)
}
