package command

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
	"spotward/views/desk"
)

// A session that was asked other questions is not gone on with; what was said in
// it is listed.
func TestAnEarlierWayIsListedAsTold(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "data")
	l, err := shelf.Open(dir)
	require.NoError(t, err)
	d := &desk.Desk{Library: l, Now: time.Now}
	w, err := d.Align(scope.Builtin(), false)
	require.NoError(t, err)
	_, err = w.Line("routine")
	require.NoError(t, err)
	require.NoError(t, w.Send(event.Event{Kind: event.KindQuit}))
	id := w.State().ID
	_, err = w.Close()
	require.NoError(t, err)
	path := filepath.Join(dir, "journals", id+".jsonl")
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	data, err = sessiontest.Resummed(slices.Collect(bytes.Lines(bytes.Replace(data, fmt.Appendf(nil, `"way":%d`, session.Way), []byte(`"way":9999`), 1))))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, data, 0o644))

	runs := func(code int, args ...string) string {
		var out, says bytes.Buffer
		assert.Equal(t, code, Run(append(args, "--data", dir), Streams{In: strings.NewReader(""), Out: &out, Err: &says}), "%v: %s", args, says.String())
		return out.String() + says.String()
	}
	told := runs(ExitDone, "records", "replay", id)
	assert.Contains(t, told, "routine")
	assert.Contains(t, told, "ready")
	assert.Contains(t, runs(ExitFailed, "feed", "--resume"), "questions 9999")
	assert.Contains(t, runs(ExitFailed, "feed", "--resume="+id), "questions 9999")
	assert.Contains(t, runs(ExitDone, "records", "unfinished"), "no: other questions then")
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(data), string(after), "it is left as it is")
	assert.Contains(t, runs(ExitDone, "records", "drop", id), "not finished")
	assert.Contains(t, runs(ExitDone, "records"), "not finished")
}
