package shelf_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/history"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

func journalPath(l *shelf.Shelf, n int) string {
	return filepath.Join(l.Dir(), "journals", sessiontest.NthID(n)+".jsonl")
}

// A pack's record is not believed: what a session came to is summed up here. One
// that was asked other questions is shown as it is told, marked, and teaches
// nothing; also when the records are made anew.
func TestAForgedRecordIsNotBelieved(t *testing.T) {
	there, here := sessiontest.OpenShelf(t), sessiontest.OpenShelf(t)
	sessiontest.Stopped(t, there, sessiontest.NthID(1), "heron")
	sessiontest.Stopped(t, there, sessiontest.NthID(2), "heron")
	forged := func(n int) string {
		text := readFile(t, journalPath(there, n))
		text = strings.Replace(text, `"outcome":"stopped","tag":"hold_back"`, `"outcome":"aligned","tag":"ready"`, 1)
		require.Contains(t, text, `"aligned"`)
		return text
	}
	earlier := strings.Replace(forged(2), fmt.Sprintf(`"way":%d`, session.Way), `"way":9999`, 1)
	pack := zipOf(t, packNote, `{"v":1}`,
		"journals/"+sessiontest.NthID(1)+".jsonl", resummed(t, forged(1)), "journals/"+sessiontest.NthID(2)+".jsonl", resummed(t, earlier),
		"records.jsonl", `{"v":1,"id":"`+sessiontest.NthID(1)+`","scope":"Heron","outcome":"aligned","tag":"ready"}`+"\n")
	require.Empty(t, take(t, here, pack).Refused)
	require.NoError(t, here.SaveScope(sessiontest.ReadScope(t, "heron")))
	for _, when := range []string{"as taken", "made anew"} {
		records, errs := here.Records()
		require.Empty(t, errs)
		require.Len(t, records, 2)
		assert.Equal(t, session.OutcomeStopped, records[0].Outcome, when)
		assert.False(t, records[0].Told, when)
		assert.Equal(t, session.OutcomeAligned, records[1].Outcome, when)
		assert.True(t, records[1].Told, when)
		assert.False(t, history.Counts(records[1]), when)
		assert.Equal(t, "aligned, as told", history.OutcomeWords(records[1]), when)
		// The fleet, too, goes by the one that was summed up here alone.
		stock, _ := here.Shelf()
		require.NotEmpty(t, stock.Scopes, when)
		row := stock.FleetAt(records[1].Began).Scopes[0]
		assert.Equal(t, session.TagHoldBack, row.Tag, when)
		assert.Len(t, row.Series, 1, when)
		assert.Empty(t, row.Drift.Intervals, when)
		require.NoError(t, os.Remove(sessiontest.RecordsPath(here)))
	}
}

// Within a data directory the order is the counter's, whatever the clock says.
func TestTheNewestIsTheNewestWithAClockPutBack(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	for _, n := range []int{5, 3, 9, 1} {
		sessiontest.Stopped(t, l, sessiontest.NthID(n), "heron")
	}
	_, j := sessiontest.Begun(t, l, sessiontest.NthID(8), "heron")
	require.NoError(t, j.Close())
	_, j = sessiontest.Begun(t, l, sessiontest.NthID(2), "heron")
	require.NoError(t, j.Close())
	want := []string{sessiontest.NthID(5), sessiontest.NthID(3), sessiontest.NthID(9), sessiontest.NthID(1)}
	assert.Equal(t, want, recordIDs(t, l))
	assert.Equal(t, want, recordIDs(t, l), "as read from their file")
	r, err := l.Record("Heron")
	require.NoError(t, err)
	assert.Equal(t, sessiontest.NthID(1), r.ID)
	open, errs := l.Unfinished("heron")
	require.Empty(t, errs)
	require.Len(t, open, 2)
	assert.Equal(t, sessiontest.NthID(2), open[0].ID)
}

func TestDropAnUnfinishedSession(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	_, j := sessiontest.Begun(t, l, sessiontest.NthID(1), "heron")
	_, err := l.Drop(sessiontest.NthID(1), sessiontest.Ticking())
	require.ErrorContains(t, err, "is open in", "somebody works in it")
	require.NoError(t, j.Close())
	earlier := strings.Replace(readFile(t, journalPath(l, 1)), fmt.Sprintf(`"way":%d`, session.Way), `"way":9998`, 1)
	require.NoError(t, os.WriteFile(journalPath(l, 1), []byte(resummed(t, earlier)), 0o644))
	before := readFile(t, journalPath(l, 1))
	r, err := l.Drop(sessiontest.NthID(1), sessiontest.Ticking())
	require.NoError(t, err)
	assert.Equal(t, session.OutcomeDropped, r.Outcome)
	assert.False(t, history.Counts(r))
	open, errs := l.Unfinished("")
	require.Empty(t, errs)
	assert.Empty(t, open)
	assert.True(t, strings.HasPrefix(readFile(t, journalPath(l, 1)), before), "what was done stays")
	_, err = l.Drop(sessiontest.NthID(1), sessiontest.Ticking())
	require.ErrorContains(t, err, "no unfinished session")
}

// What a program that died has left half written is gone at the next start; what
// one is writing just now stays.
func TestHalfWrittenFilesAreSwept(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	left := filepath.Join(l.Dir(), "journals", ".new-dead")
	require.NoError(t, os.WriteFile(left, []byte("x"), 0o644))
	_, err := shelf.Open(l.Dir())
	require.NoError(t, err)
	assert.NoFileExists(t, left)
}

// A damaged session is named, and is neither finished nor unfinished.
func TestADamagedSessionIsNamed(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	sessiontest.Stopped(t, l, sessiontest.NthID(1), "heron")
	text := strings.Replace(readFile(t, journalPath(l, 1)), `"tag":"hold_back"`, `"tag":"hold_bacj"`, 1)
	require.NoError(t, os.WriteFile(journalPath(l, 1), []byte(text), 0o644))
	records, errs := l.Records()
	assert.Empty(t, records)
	require.Len(t, errs, 1)
	assert.ErrorContains(t, errs[0], "does not fit")
	open, _ := l.Unfinished("")
	assert.Empty(t, open)
}

// The records of 20,000 sessions are made anew from the last lines.
func BenchmarkRecordsMadeAnew(b *testing.B) {
	l, err := shelf.Open(filepath.Join(b.TempDir(), "data"))
	require.NoError(b, err)
	fillShelf(b, l, 300, 20000)
	for b.Loop() {
		require.NoError(b, os.Remove(sessiontest.RecordsPath(l)))
		records, errs := l.Records()
		require.Empty(b, errs)
		require.Len(b, records, 19800)
	}
}
