package command

import (
	"bytes"
	"errors"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/event"
	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/views/desk"
)

// full is a device on which there is no room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

// Whatever only prints says it in one line where that cannot be written, and
// fails.
func TestOutputsFailLoudly(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "data")
	l, err := shelf.Open(dir)
	require.NoError(t, err)
	d := &desk.Desk{Library: l, Now: time.Now, Who: "Ada"}
	w, err := d.Practice(scope.Builtin(), event.World{Seed: 5, Level: "lesson-good"})
	require.NoError(t, err)
	require.NoError(t, w.Send(event.Event{Kind: event.KindStop}))
	for !w.Over() {
		require.NoError(t, w.Send(event.Event{Kind: event.KindConfirm}))
	}
	id, err := w.Close()
	require.NoError(t, err)
	require.True(t, journal.ValidID(id))
	for _, args := range [][]string{
		{"records"}, {"records", "show", id}, {"records", "fleet"}, {"records", "unfinished"}, {"records", "drift", "dunlin"}, {"scopes"}, {"scopes", "show", "dunlin"}, {"kits"},
		{"records", "pack", "--to", "-"}, {"records", "export", "--to", "-"}, {"records", "todo"}, {"practice", "lessons"}, {"--help"}, {"--version"},
	} {
		var says bytes.Buffer
		code := Run(append(args, "--data", dir), Streams{Out: full{}, Err: &says})
		assert.Equal(t, ExitFailed, code, "%v", args)
		assert.Equal(t, 1, bytes.Count(says.Bytes(), []byte("\n")), "%v: %s", args, says.String())
		assert.Contains(t, says.String(), "no space left on device", "%v", args)
	}
}
