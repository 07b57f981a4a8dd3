package shelf_test

import (
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

// Two programs that describe a new scope each have a draft of their own; one that
// was left is gone on with.
func TestTwoFormsHaveADraftEach(t *testing.T) {
	one := sessiontest.OpenShelf(t)
	other, err := shelf.Open(one.Dir())
	require.NoError(t, err)
	describe := func(l *shelf.Shelf) *scope.Form {
		f, err := l.DescribeScope("")
		require.NoError(t, err)
		return f
	}
	say := func(l *shelf.Shelf, f *scope.Form, text string) {
		_, err := f.Take(text)
		require.NoError(t, err)
		require.NoError(t, l.KeepDraft(f))
	}
	a, b := describe(one), describe(other)
	say(one, a, "Avocet")
	say(other, b, "Bittern")
	assert.Equal(t, "Avocet", describe(one).Title(), "the program's own")
	assert.Equal(t, "Bittern", describe(other).Title())

	one.LeaveDrafts()
	assert.Equal(t, "Avocet", describe(one).Title(), "left, and gone on with")
	third, err := shelf.Open(one.Dir())
	require.NoError(t, err)
	require.False(t, describe(third).Continued, "both are worked on")
	require.NoError(t, one.DropDraft(a))
	require.False(t, describe(one).Continued, "it is done")
	runtime.KeepAlive(other) // or its lock is let go of
}
