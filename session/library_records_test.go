package session_test

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
)

// begun starts a session on a scope of testdata and returns it with its
// journal.
func begun(t *testing.T, l *session.Library, id, scope string) (*session.Session, *session.Journal) {
	t.Helper()
	sc := readScope(t, scope)
	j, err := l.CreateJournal(id, "Ada", ticking())
	require.NoError(t, err)
	s, err := session.Start(session.Event{ID: id, Scope: &sc, Who: "Ada"}, j)
	require.NoError(t, err)
	return s, j
}

// stopped leaves a session that was begun and made safe.
func stopped(t *testing.T, l *session.Library, id, scope string) {
	t.Helper()
	s, j := begun(t, l, id, scope)
	require.NoError(t, s.Do(session.Event{Kind: session.KindStop}))
	for i := 0; !s.State().Over; i++ {
		require.Less(t, i, 50, "a session that is made safe comes to an end")
		ev := session.Event{Kind: session.KindConfirm}
		if ask := s.State().Ask(); ask.Want == session.WantChoice {
			ev = session.Event{Kind: session.KindChoice, Choice: ask.Options[0].ID}
		}
		require.NoError(t, s.Do(ev))
	}
	require.NoError(t, j.Close())
}

func id(n int) string {
	return session.NewID(time.Date(2026, 2, 14, 20, 30, n, 0, time.UTC), uint16(n))
}

func recordIDs(t *testing.T, l *session.Library) []string {
	t.Helper()
	records, errs := l.Records()
	require.Empty(t, errs)
	var out []string
	for _, r := range records {
		out = append(out, r.ID)
	}
	return out
}

func recordsPath(l *session.Library) string { return filepath.Join(l.Dir(), "records.jsonl") }

func readFile(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(data)
}

func TestRecordsFollowFromTheJournals(t *testing.T) {
	l := openLibrary(t)
	assert.Empty(t, recordIDs(t, l))
	for n := range 3 {
		stopped(t, l, id(n), "heron")
	}
	want := []string{id(0), id(1), id(2)}
	assert.Equal(t, want, recordIDs(t, l))
	file := readFile(t, recordsPath(l))
	assert.Equal(t, 3, strings.Count(file, "\n"))

	r, err := l.Record(id(1))
	require.NoError(t, err)
	assert.Equal(t, "Heron", r.Scope)
	assert.Equal(t, session.OutcomeStopped, r.Outcome)
	assert.True(t, r.Ended.After(r.Began))

	lines := strings.SplitAfter(file, "\n")
	for name, damaged := range map[string]string{
		"missing":        "",
		"last line torn": file[:len(file)-9],
		"torn early":     lines[0][:20],
		"line damaged":   lines[0] + "hello\n" + lines[2],
		"line missing":   lines[0] + lines[2],
		"line twice":     lines[0] + lines[1] + lines[1] + lines[2],
		"zeros":          lines[0] + strings.Repeat("\x00", 40),
		"no record":      "{}\n[]\n3\n",
	} {
		require.NoError(t, os.WriteFile(recordsPath(l), []byte(damaged), 0o644))
		assert.Equal(t, want, recordIDs(t, l), name)
		mended := readFile(t, recordsPath(l))
		for _, line := range lines {
			assert.Contains(t, mended, line, name)
		}
		assert.Len(t, mended, len(file), name)
	}
	require.NoError(t, os.Remove(recordsPath(l)))
	assert.Equal(t, want, recordIDs(t, l))
}

func TestRecordOutlivesItsJournal(t *testing.T) {
	l := openLibrary(t)
	stopped(t, l, id(1), "heron")
	stopped(t, l, id(2), "heron")
	require.Len(t, recordIDs(t, l), 2)
	require.NoError(t, os.Remove(filepath.Join(l.Dir(), "journals", id(1)+".jsonl")))

	// What only a newer program knows of a record stays in its line.
	newer := strings.Replace(readFile(t, recordsPath(l)), `{"v":1,`, `{"v":1,"weather":"fair",`, 1)
	require.NoError(t, os.WriteFile(recordsPath(l), []byte("damaged\n"+newer), 0o644))
	stopped(t, l, id(3), "wren")
	assert.Equal(t, []string{id(1), id(2), id(3)}, recordIDs(t, l))
	assert.Contains(t, readFile(t, recordsPath(l)), `"weather":"fair"`)
	assert.NotContains(t, readFile(t, recordsPath(l)), "damaged")
}

func TestUnfinishedSessions(t *testing.T) {
	l := openLibrary(t)
	stopped(t, l, id(1), "heron")
	for n, scope := range map[int]string{2: "heron", 3: "wren", 4: "heron"} {
		_, j := begun(t, l, id(n), scope)
		require.NoError(t, j.Close())
	}
	j, err := l.CreateJournal(id(5), "", ticking())
	require.NoError(t, err)
	require.NoError(t, j.Close(), "nothing was written to it")

	var ids []string
	open, errs := l.Unfinished("HERON")
	require.Empty(t, errs)
	for _, u := range open {
		ids = append(ids, u.ID)
	}
	assert.Equal(t, []string{id(4), id(2)}, ids, "newest first")
	assert.Equal(t, "Ada", open[0].Who)
	assert.Equal(t, "Heron", open[0].Scope)
	assert.Nil(t, open[0].World)

	all, _ := l.Unfinished("")
	assert.Len(t, all, 3)
	_, err = l.Record(id(4))
	assert.EqualError(t, err, fmt.Sprintf("session %s is not finished: go on with it by --resume %s", id(4), id(4)))
}

func TestUnfinishedSessionIsTakenUp(t *testing.T) {
	l := openLibrary(t)
	_, j := begun(t, l, id(1), "heron")
	require.NoError(t, j.Close())
	j, lines, _, err := l.OpenJournal(id(1), "Ben", ticking())
	require.NoError(t, err)
	events, err := session.Events(lines)
	require.NoError(t, err)
	_, err = session.TakeUp(events, j)
	require.NoError(t, err)
	require.NoError(t, j.Close())
	again, _, err := l.ReadJournal(id(1))
	require.NoError(t, err)
	assert.Equal(t, string(session.KindResume), again[len(lines)].Kind)
}

func TestJournalsThatCannotBeSummedUp(t *testing.T) {
	l := openLibrary(t)
	stopped(t, l, id(1), "heron")
	good := readFile(t, filepath.Join(l.Dir(), "journals", id(1)+".jsonl"))
	put := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(l.Dir(), "journals", name), []byte(text), 0o644))
	}
	put(id(2)+".jsonl", good) // of another session
	put(id(3)+".jsonl", "hello\n")
	put(id(4)+".jsonl", strings.Replace(good, `"aperture_mm":250`, `"aperture_mm":-1`, 1))
	put("notes.jsonl", "hello\n")
	put("../outside.jsonl", good)

	records, errs := l.Records()
	require.Len(t, records, 1)
	require.Len(t, errs, 3)
	for i, want := range []string{
		id(2) + ".jsonl: line 1 is of session \"" + id(1) + "\": expected the one of the file's name, and a scope",
		id(3) + ".jsonl: line 1: not a JSON object with v, seq, t and kind",
		id(4) + ".jsonl: line 1: scope: aperture_mm = -1: expected a number of mm from 50 to 1500",
	} {
		assert.EqualError(t, errs[i], want)
	}
	_, err := l.Record(id(3))
	assert.EqualError(t, err, errs[1].Error(), "the reason why there is none")
	for _, bad := range []string{"../outside", "", "notes", "\x1b[2J"} {
		_, _, err := l.ReadJournal(bad)
		require.Error(t, err)
		assertPlain(t, err)
		_, _, _, err = l.OpenJournal(bad, "", ticking())
		require.Error(t, err)
		_, err = l.Record(bad)
		require.Error(t, err)
		assertPlain(t, err)
	}
}

// keepRecord adds a record to those that are kept.
func keepRecord(t *testing.T, l *session.Library, r session.Record) {
	t.Helper()
	line, err := json.Marshal(r)
	require.NoError(t, err)
	f, err := os.OpenFile(recordsPath(l), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	require.NoError(t, err)
	defer f.Close()
	_, err = f.Write(append(line, '\n'))
	require.NoError(t, err)
}

func TestTornRecordIsMended(t *testing.T) {
	l := openLibrary(t)
	keepRecord(t, l, session.Record{V: 1, ID: id(1)})
	whole := readFile(t, recordsPath(l))
	for cut := range len(whole) {
		require.NoError(t, os.WriteFile(recordsPath(l), []byte(whole+whole[:cut]), 0o644))
		require.Equal(t, []string{id(1)}, recordIDs(t, l))
		require.Equal(t, whole, readFile(t, recordsPath(l)))
	}
}

func TestRecordThatIsMeant(t *testing.T) {
	l := openLibrary(t)
	for _, r := range []session.Record{
		{ID: "20260301T190000Z-00a1", Scope: "Heron"}, {ID: "20260302T190000Z-10b2", Scope: "Heron"},
		{ID: "20260303T190000Z-00a1", Scope: "Wren"}, {ID: "20260304T190000Z-10a1", Scope: "Wren"},
	} {
		r.V, r.Outcome = 1, "aligned"
		keepRecord(t, l, r)
	}
	for _, c := range []struct{ meant, id, says string }{
		{"20260301T190000Z-00a1", "20260301T190000Z-00a1", ""},
		{"10b2", "20260302T190000Z-10b2", ""},
		{"heron", "20260302T190000Z-10b2", ""},
		{"WREN", "20260304T190000Z-10a1", ""},
		{"00a1", "", "2 records end in"},
		{"0a1", "", "no record"},
		{"", "", "no record"},
	} {
		r, err := l.Record(c.meant)
		assert.Equal(t, c.id, r.ID, c.meant)
		if c.says == "" {
			assert.NoError(t, err)
			continue
		}
		require.ErrorContains(t, err, c.says)
		assertPlain(t, err)
	}
}
