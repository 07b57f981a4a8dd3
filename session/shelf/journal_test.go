package shelf_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/session/event"
	"spotward/session/journal"
	"spotward/session/sessiontest"
)

type note struct {
	Text string `json:"text"`
}

// written makes a journal of a begin line and n notes and returns its path.
func written(t *testing.T, n int) string {
	t.Helper()
	j, err := journal.Create(t.TempDir(), sessiontest.ID, "Ada", sessiontest.Ticking())
	require.NoError(t, err)
	require.NoError(t, j.Append(journal.Entry{Kind: "begin", Payload: map[string]any{"id": sessiontest.ID}}))
	for i := range n {
		require.NoError(t, j.Append(journal.Entry{Kind: "note", Payload: note{fmt.Sprint("line ", i, " <ü>\n")}}))
	}
	require.NoError(t, j.Close())
	return j.Path()
}

func TestJournalLinesAreFlatObjects(t *testing.T) {
	data, err := os.ReadFile(written(t, 1))
	require.NoError(t, err)
	assert.Equal(t, `{"v":2,"seq":0,"t":"2026-02-14T20:30:01Z","kind":"begin","id":"20260214T203000Z-9f3a","sum":"803b4cc2"}
{"v":2,"seq":1,"t":"2026-02-14T20:30:02Z","kind":"note","text":"line 0 \u003cü\u003e\n","sum":"0b7cdae2"}
`, string(data))
}

func TestJournalTimesAreUTC(t *testing.T) {
	var times []time.Time
	local := time.Date(2026, 2, 14, 21, 30, 0, 123456789, time.FixedZone("east", 3600))
	times = append(times, local, local.Add(-time.Hour)) // the clock was put back
	i := -1
	j, err := journal.Create(t.TempDir(), sessiontest.ID, "", func() time.Time { i++; return times[i] })
	require.NoError(t, err)
	require.NoError(t, j.Append(journal.Entry{Kind: "begin", Payload: nil}))
	require.NoError(t, j.Append(journal.Entry{Kind: "note", Payload: struct{}{}}))
	require.NoError(t, j.Close())
	lines, _, err := journal.Read(j.Path())
	require.NoError(t, err)
	require.Len(t, lines, 2)
	assert.Equal(t, "2026-02-14T20:30:00.123Z", lines[0].T.Format(time.RFC3339Nano))
	assert.Equal(t, "2026-02-14T19:30:00.123Z", lines[1].T.Format(time.RFC3339Nano))
	assert.Equal(t, time.UTC, lines[0].T.Location())
	assert.Contains(t, string(lines[0].Raw), `"t":"2026-02-14T20:30:00.123Z"`)
}

func TestJournalRefusesWhatIsNoEvent(t *testing.T) {
	j, err := journal.Create(t.TempDir(), sessiontest.ID, "", sessiontest.Ticking())
	require.NoError(t, err)
	defer j.Close()
	require.NoError(t, j.Append(journal.Entry{Kind: "begin", Payload: nil}))
	for name, payload := range map[string]any{
		"a number": 4, "a list": []int{1}, "no JSON": func() {}, "a field of the line": map[string]int{"seq": 7}, "a sum of its own": map[string]int{"sum": 7},
		"too long": note{strings.Repeat("x", 1<<20)},
	} {
		assert.Error(t, j.Append(journal.Entry{Kind: "note", Payload: payload}), name)
	}
	require.NoError(t, j.Append(journal.Entry{Kind: "note", Payload: note{"still good"}}))
	lines, _, err := journal.Read(j.Path())
	require.NoError(t, err)
	assert.Len(t, lines, 2, "nothing of the refused ones is in the file")
}

func TestJournalIDs(t *testing.T) {
	assert.Equal(t, sessiontest.ID, journal.NewID(time.Date(2026, 2, 14, 21, 30, 0, 0, time.FixedZone("east", 3600)), 0x9f3a))
	assert.Equal(t, "20260214T203000Z-000b", journal.NewID(time.Date(2026, 2, 14, 20, 30, 0, 0, time.UTC), 11))
	dir := t.TempDir()
	for _, id := range []string{"", "../x", "20260214T203000Z", "20260214T203000Z-9F3A", "20260214T203000Z-9f3", "20261314T203000Z-9f3a",
		"20260214T203000Z-9f3a/../../x", "20260214T203000Z-+f3a", "\x1b[2J"} {
		_, err := journal.Create(dir, id, "", sessiontest.Ticking())
		require.Error(t, err, id)
		sessiontest.AssertPlain(t, err)
	}
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, entries)
}

func TestJournalIsMadeOnce(t *testing.T) {
	path := written(t, 3)
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	_, err = journal.Create(filepath.Dir(path), sessiontest.ID, "", sessiontest.Ticking())
	require.Error(t, err)
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, before, after)
}

func TestScanJournalStopsWhereItIsTold(t *testing.T) {
	enough := errors.New("enough")
	count := 0
	_, err := journal.Scan(written(t, 9), func(event.Line) error {
		count++
		if count == 4 {
			return enough
		}
		return nil
	})
	assert.Equal(t, enough, err)
	assert.Equal(t, 4, count)
}

func TestJournalRoundTrips(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		payloads := rapid.SliceOfN(rapid.MapOf(rapid.StringMatching(`[a-z_]{5,8}`), rapid.String()), 0, 8).Draw(rt, "payloads")
		j, err := journal.Create(t.TempDir(), sessiontest.ID, rapid.String().Draw(rt, "who"), sessiontest.Ticking())
		require.NoError(rt, err)
		require.NoError(rt, j.Append(journal.Entry{Kind: "begin", Payload: nil}))
		for _, p := range payloads {
			require.NoError(rt, j.Append(journal.Entry{Kind: "note", Payload: p}))
		}
		require.NoError(rt, j.Close())
		lines, report, err := journal.Read(j.Path())
		require.NoError(rt, err)
		require.Zero(rt, report.TornBytes)
		require.Len(rt, lines, len(payloads)+1)
		for i, p := range payloads {
			var got map[string]any
			require.NoError(rt, json.Unmarshal(lines[i+1].Raw, &got))
			require.Len(rt, got, len(p)+5)
			for k, v := range p {
				require.Equal(rt, strings.ToValidUTF8(v, "\ufffd"), got[k])
			}
		}
	})
}

func FuzzJournalLine(f *testing.F) {
	files, err := filepath.Glob("../../testdata/journals/*.jsonl")
	require.NoError(f, err)
	for _, path := range files {
		data, err := os.ReadFile(path)
		require.NoError(f, err)
		f.Add(data)
	}
	f.Add([]byte(`{"v":1,"seq":0,"t":"2026-02-14T20:30:01Z","kind":"begin"}` + "\n\x00\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		path := filepath.Join(t.TempDir(), sessiontest.ID+".jsonl")
		require.NoError(t, os.WriteFile(path, data, 0o644))
		lines, report, err := journal.Read(path)
		if err != nil {
			sessiontest.AssertPlain(t, err)
			return
		}
		if report.Damaged > 0 {
			require.Equal(t, len(lines)+1, report.Damaged)
			require.NotEmpty(t, report.String())
		} else {
			require.Equal(t, int64(len(data)), report.Size+int64(report.TornBytes))
		}
		size := 0
		for i, l := range lines {
			require.Equal(t, i, l.Seq)
			size += len(l.Raw) + 1
		}
		require.Equal(t, report.Size, int64(size))
		if report.Newer > 0 || report.Damaged > 0 {
			return
		}
		j, _, _, err := journal.OpenFile(path, "", sessiontest.Ticking())
		require.NoError(t, err)
		kind := "resume"
		if len(lines) == 0 {
			kind = "begin"
		}
		require.NoError(t, j.Append(journal.Entry{Kind: kind, Payload: nil}))
		require.NoError(t, j.Close())
		again, _, err := journal.Read(path)
		require.NoError(t, err)
		require.Len(t, again, len(lines)+1)
	})
}
