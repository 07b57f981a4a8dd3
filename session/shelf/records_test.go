package shelf_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

func recordIDs(t *testing.T, l *shelf.Shelf) []string {
	t.Helper()
	records, errs := l.Records()
	require.Empty(t, errs)
	var out []string
	for _, r := range records {
		out = append(out, r.ID)
	}
	return out
}

func readFile(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(data)
}

// resummed makes the sums of a journal anew, as after a change that is meant.
func resummed(t *testing.T, text string) string {
	t.Helper()
	out, err := sessiontest.Resummed(slices.Collect(bytes.Lines([]byte(text))))
	require.NoError(t, err)
	return string(out)
}

func TestRecordsFollowFromTheJournals(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	assert.Empty(t, recordIDs(t, l))
	for n := range 3 {
		sessiontest.Stopped(t, l, sessiontest.NthID(n), "heron")
	}
	want := []string{sessiontest.NthID(0), sessiontest.NthID(1), sessiontest.NthID(2)}
	assert.Equal(t, want, recordIDs(t, l))
	file := readFile(t, sessiontest.RecordsPath(l))
	assert.Equal(t, 3, strings.Count(file, "\n"))

	r, err := l.Record(sessiontest.NthID(1))
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
		require.NoError(t, os.WriteFile(sessiontest.RecordsPath(l), []byte(damaged), 0o644))
		assert.Equal(t, want, recordIDs(t, l), name)
		mended := readFile(t, sessiontest.RecordsPath(l))
		for _, line := range lines {
			assert.Contains(t, mended, line, name)
		}
		assert.Len(t, mended, len(file), name)
	}
	require.NoError(t, os.Remove(sessiontest.RecordsPath(l)))
	assert.Equal(t, want, recordIDs(t, l))
}

// unsummed are the lines of a records' file as they were before they had sums.
func unsummed(file string) string {
	return regexp.MustCompile(`,"sum":"[0-9a-f]{8}"}\n`).ReplaceAllString(file, "}\n")
}

// Whichever bit flips in the records' file, no record is another than it was: its
// journal is summed up again. What was there before lines had sums is read as it is.
func TestAFlippedBitChangesNoRecord(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	sessiontest.Stopped(t, l, sessiontest.NthID(1), "heron")
	sessiontest.Stopped(t, l, sessiontest.NthID(2), "wren")
	want, errs := l.Records()
	require.Empty(t, errs)
	require.Len(t, want, 2)
	file := []byte(readFile(t, sessiontest.RecordsPath(l)))
	step, said := sessiontest.Of(211, 97, 4), 0
	for bit := 0; bit < 8*len(file); bit += step {
		flipped := bytes.Clone(file)
		flipped[bit/8] ^= 1 << (bit % 8)
		require.NoError(t, os.WriteFile(sessiontest.RecordsPath(l), flipped, 0o644))
		got, errs := l.Records()
		require.Equal(t, want, got, "bit %d", bit)
		said += len(errs)
	}
	assert.Greater(t, said, 8*len(file)/step*9/10, "what was damaged is said")
	require.NoError(t, os.WriteFile(sessiontest.RecordsPath(l), []byte(unsummed(string(file))), 0o644))
	got, errs := l.Records()
	require.Empty(t, errs)
	require.Equal(t, want, got)
}

func TestRecordOutlivesItsJournal(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	sessiontest.Stopped(t, l, sessiontest.NthID(1), "heron")
	sessiontest.Stopped(t, l, sessiontest.NthID(2), "heron")
	require.Len(t, recordIDs(t, l), 2)
	require.NoError(t, os.Remove(filepath.Join(l.Dir(), "journals", sessiontest.NthID(1)+".jsonl")))

	// What only a newer program knows of a record stays in its line.
	newer := strings.Replace(unsummed(readFile(t, sessiontest.RecordsPath(l))), `{"v":1,`, `{"v":1,"weather":"fair",`, 1)
	require.NoError(t, os.WriteFile(sessiontest.RecordsPath(l), []byte("damaged\n"+newer), 0o644))
	sessiontest.Stopped(t, l, sessiontest.NthID(3), "wren")
	assert.Equal(t, []string{sessiontest.NthID(1), sessiontest.NthID(2), sessiontest.NthID(3)}, recordIDs(t, l))
	assert.Contains(t, readFile(t, sessiontest.RecordsPath(l)), `"weather":"fair"`)
	assert.NotContains(t, readFile(t, sessiontest.RecordsPath(l)), "damaged")
}

func TestUnfinishedSessions(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	sessiontest.Stopped(t, l, sessiontest.NthID(1), "heron")
	for i, scope := range []string{"heron", "wren", "heron"} {
		_, j := sessiontest.Begun(t, l, sessiontest.NthID(i+2), scope)
		require.NoError(t, j.Close())
	}
	j, err := l.CreateJournal(sessiontest.NthID(5), "", sessiontest.Ticking())
	require.NoError(t, err)
	require.NoError(t, j.Close(), "nothing was written to it")

	var ids []string
	open, errs := l.Unfinished("HERON")
	require.Empty(t, errs)
	for _, u := range open {
		ids = append(ids, u.ID)
	}
	assert.Equal(t, []string{sessiontest.NthID(4), sessiontest.NthID(2)}, ids, "newest first")
	assert.Equal(t, "Ada", open[0].Who)
	assert.Equal(t, "Heron", open[0].Scope)
	assert.Nil(t, open[0].World)

	all, _ := l.Unfinished("")
	assert.Len(t, all, 3)
	_, err = l.Record(sessiontest.NthID(4))
	assert.EqualError(t, err, fmt.Sprintf("session %s is not finished: go on with it by --resume %s", sessiontest.NthID(4), sessiontest.NthID(4)))
}

func TestUnfinishedSessionIsTakenUp(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	_, j := sessiontest.Begun(t, l, sessiontest.NthID(1), "heron")
	require.NoError(t, j.Close())
	j, lines, _, err := l.OpenJournal(sessiontest.NthID(1), "Ben", sessiontest.Ticking())
	require.NoError(t, err)
	events, err := session.Events(lines)
	require.NoError(t, err)
	_, err = session.TakeUp(events, j, nil)
	require.NoError(t, err)
	require.NoError(t, j.Close())
	again, _, err := l.ReadJournal(sessiontest.NthID(1))
	require.NoError(t, err)
	assert.Equal(t, string(event.KindResume), again[len(lines)].Kind)
}

func TestJournalsThatCannotBeSummedUp(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	sessiontest.Stopped(t, l, sessiontest.NthID(1), "heron")
	good := readFile(t, filepath.Join(l.Dir(), "journals", sessiontest.NthID(1)+".jsonl"))
	put := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(l.Dir(), "journals", name), []byte(text), 0o644))
	}
	put(sessiontest.NthID(2)+".jsonl", good) // of another session
	put(sessiontest.NthID(3)+".jsonl", "hello\n")
	put(sessiontest.NthID(4)+".jsonl", resummed(t, strings.Replace(good, `"aperture_mm":250`, `"aperture_mm":-1`, 1)))
	put("notes.jsonl", "hello\n")
	put("../outside.jsonl", good)

	records, errs := l.Records()
	require.Len(t, records, 1)
	require.Len(t, errs, 3)
	for i, want := range []string{
		sessiontest.NthID(2) + ".jsonl: line 1 is of session \"" + sessiontest.NthID(1) + "\": expected the one of the file's name, and a scope",
		sessiontest.NthID(3) + ".jsonl: line 1: it has no checksum: this is no journal, or it was changed by hand",
		sessiontest.NthID(4) + ".jsonl: line 1: scope: aperture_mm = -1: expected a number of mm from 50 to 1500",
	} {
		assert.EqualError(t, errs[i], want)
	}
	_, err := l.Record(sessiontest.NthID(3))
	assert.EqualError(t, err, errs[1].Error(), "the reason why there is none")
	for _, bad := range []string{"../outside", "", "notes", "\x1b[2J"} {
		_, _, err := l.ReadJournal(bad)
		require.Error(t, err)
		sessiontest.AssertPlain(t, err)
		_, _, _, err = l.OpenJournal(bad, "", sessiontest.Ticking())
		require.Error(t, err)
		_, err = l.Record(bad)
		require.Error(t, err)
		sessiontest.AssertPlain(t, err)
	}
}

// keepRecord adds a record to those that are kept.
func keepRecord(t *testing.T, l *shelf.Shelf, r session.Record) {
	t.Helper()
	line, err := json.Marshal(r)
	require.NoError(t, err)
	f, err := os.OpenFile(sessiontest.RecordsPath(l), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	require.NoError(t, err)
	defer f.Close()
	_, err = f.Write(append(line, '\n'))
	require.NoError(t, err)
}

func TestTornRecordIsMended(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	keepRecord(t, l, session.Record{V: 1, ID: sessiontest.NthID(1)})
	keepRecord(t, l, session.Record{V: 1, ID: sessiontest.NthID(1)})
	recordIDs(t, l) // one is enough
	whole := readFile(t, sessiontest.RecordsPath(l))
	for cut := range len(whole) {
		require.NoError(t, os.WriteFile(sessiontest.RecordsPath(l), []byte(whole+whole[:cut]), 0o644))
		require.Equal(t, []string{sessiontest.NthID(1)}, recordIDs(t, l))
		require.Equal(t, whole, readFile(t, sessiontest.RecordsPath(l)))
	}
}

func TestRecordThatIsMeant(t *testing.T) {
	l := sessiontest.OpenShelf(t)
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
		sessiontest.AssertPlain(t, err)
	}
}
