package shelf_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/event"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

// everything is the text of all files below a directory, by their paths.
func everything(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, path := range listing(t, dir) {
		out[path] = readFile(t, filepath.Join(dir, path))
	}
	return out
}

func TestForget(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	sessiontest.Stopped(t, l, sessiontest.NthID(1), "heron")
	sessiontest.Stopped(t, l, sessiontest.NthID(2), "wren")
	_, j := sessiontest.Begun(t, l, sessiontest.NthID(3), "heron") // unfinished
	require.NoError(t, j.Close())
	j, lines, _, err := l.OpenJournal(sessiontest.NthID(3), "Ada", sessiontest.Ticking())
	require.NoError(t, err)
	require.NoError(t, j.Keep(event.Event{Kind: event.KindResume, Who: "ada "},
		event.Event{Kind: event.KindChoice, Choice: "routine", Text: "Ada says no, Adam says resume", Who: "Ada"}))
	require.NoError(t, j.Close())
	require.Len(t, recordIDs(t, l), 2)
	records, errs := l.Records() // as read from their file
	require.Empty(t, errs)
	journal := filepath.Join(l.Dir(), "journals", sessiontest.NthID(2)+".jsonl")
	other := resummed(t, strings.ReplaceAll(readFile(t, journal), `"who":"Ada"`, `"who":"Adam"`))
	require.NoError(t, os.WriteFile(journal, []byte(other), 0o644))
	before := everything(t, l.Dir())

	f, errs := l.Forget("ADA")
	require.Empty(t, errs)
	assert.Equal(t, shelf.Forgotten{Records: 2, Journals: 2, Mentions: []string{sessiontest.NthID(3)}}, f)

	after := everything(t, l.Dir())
	for path, text := range before {
		want := text
		switch path {
		case "journals/" + sessiontest.NthID(2) + ".jsonl":
		case "journals/" + sessiontest.NthID(1) + ".lock", "journals/" + sessiontest.NthID(2) + ".lock", "journals/" + sessiontest.NthID(3) + ".lock":
			assert.NotContains(t, after[path], "Ada")
			continue
		case "journals/" + sessiontest.NthID(3) + ".jsonl":
			want = strings.Replace(want, `,"who":"Ada"`, "", 1)
			want = strings.Replace(want, `,"who":"ada "`, "", 1)
			want = resummed(t, want)
			assert.Contains(t, want, `"text":"Ada says no, Adam says resume"`)
		default:
			want = strings.ReplaceAll(want, `,"who":"Ada"`, "")
			if strings.HasPrefix(path, "journals/") {
				want = resummed(t, want)
			}
		}
		assert.Equal(t, want, after[path], path)
	}

	now, errs := l.Records()
	require.Empty(t, errs)
	require.Len(t, now, len(records))
	for i := range now {
		assert.Empty(t, now[i].Who)
		records[i].Who = ""
	}
	assert.Equal(t, records, now)
	again, report, err := l.ReadJournal(sessiontest.NthID(3))
	require.NoError(t, err)
	assert.Empty(t, report.String())
	assert.Len(t, again, len(lines)+2)

	// From the journals the names do not come back.
	require.NoError(t, os.Remove(sessiontest.RecordsPath(l)))
	now, _ = l.Records()
	assert.Equal(t, []string{"", "Adam"}, []string{now[0].Who, now[1].Who})

	f, errs = l.Forget("Ada")
	require.Empty(t, errs)
	assert.Zero(t, f.Records+f.Journals)
	_, errs = l.Forget(" ")
	require.Len(t, errs, 1)
}

func TestForgetDropsALineCutShort(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	_, j := sessiontest.Begun(t, l, sessiontest.NthID(1), "heron")
	require.NoError(t, j.Close())
	path := filepath.Join(l.Dir(), "journals", sessiontest.NthID(1)+".jsonl")
	whole := readFile(t, path)
	for torn, stays := range map[string]bool{
		`{"v":2,"seq":1,"t":"2026-02-14T20:30:00Z","kind":"resume","who":"Ada"}`: false,
		`{"v":2,"seq":1,"who":"ada`: false,
		`{"v":2,"seq":1,"who":"Ad`:  true,
	} {
		require.NoError(t, os.WriteFile(path, []byte(whole+torn), 0o644))
		_, errs := l.Forget("Ada")
		require.Empty(t, errs)
		after := readFile(t, path)
		assert.NotContains(t, after, "Ada")
		assert.Equal(t, stays, strings.HasSuffix(after, torn), torn)
	}
}

func TestForgetLeavesAnOpenSession(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	sessiontest.Stopped(t, l, sessiontest.NthID(1), "heron")
	_, j := sessiontest.Begun(t, l, sessiontest.NthID(2), "heron")
	path := filepath.Join(l.Dir(), "journals", sessiontest.NthID(2)+".jsonl")
	before := readFile(t, path)
	f, errs := l.Forget("Ada")
	require.Len(t, errs, 1)
	assert.ErrorContains(t, errs[0], "is open in")
	assert.Equal(t, 1, f.Journals)
	assert.Equal(t, before, readFile(t, path))
	require.NoError(t, j.Close())
	f, errs = l.Forget("Ada")
	require.Empty(t, errs)
	assert.Equal(t, 1, f.Journals)
}

func TestForgetTellsOfATrainee(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	dir, err := l.TraineeDir("Ada")
	require.NoError(t, err)
	require.NoError(t, os.MkdirAll(dir, 0o755))
	f, errs := l.Forget("Ada")
	require.Empty(t, errs)
	assert.True(t, f.Trainee)
}
