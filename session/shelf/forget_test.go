package shelf_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
	"spotward/session/words"
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
		if path == "records.jsonl" {
			assert.Equal(t, unsummed(want), unsummed(after[path]), path)
			continue
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
	assert.Equal(t, []string{"Ada"}, f.Trainees)
	assert.Empty(t, f.Files)
}

// However the name was typed, it goes; where it cannot, it is said.
func TestForgettingIsCompleteOrSaysWhatIsLeft(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	begin := func(n int, who, where string) {
		j, err := l.CreateJournal(sessiontest.NthID(n), who, sessiontest.Ticking())
		require.NoError(t, err)
		h := sessiontest.ReadScope(t, "heron")
		s, err := session.Start(event.Event{ID: sessiontest.NthID(n), Scope: &h, Who: who, Where: where}, j)
		require.NoError(t, err)
		require.NoError(t, s.Do(event.Event{Kind: event.KindStop}))
		require.NoError(t, s.Do(event.Event{Kind: event.KindConfirm}))
		require.NoError(t, j.Close())
		_, err = l.Record(sessiontest.NthID(n))
		require.NoError(t, err)
	}
	begin(1, "Jose\u0301  Wren", "the shed")
	begin(2, "Ben & josé wren", "José Wren's garden")
	begin(3, "José Wrentham", "the shed")
	for path, text := range map[string]string{
		"crash.log":                  "align: nil at José Wren",
		"drafts/scope x.json":        `{"name":"JOSÉ WREN"}`,
		"trainees/JOSÉ WREN/a.jsonl": "{}",
		"trainees/Ben/a.jsonl":       "{}",
	} {
		require.NoError(t, os.MkdirAll(filepath.Dir(filepath.Join(l.Dir(), path)), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(l.Dir(), path), []byte(text), 0o644))
	}
	f, errs := l.Forget("José Wren")
	require.Empty(t, errs)
	assert.Equal(t, shelf.Forgotten{Records: 2, Journals: 2, Trainees: []string{"JOSÉ WREN"}, Files: []string{"crash.log", "drafts/scope x.json"}}, f)
	left := words.PersonOf("José Wren")
	for path, text := range everything(t, l.Dir()) {
		if !strings.HasPrefix(path, "crash") && !strings.HasPrefix(path, "drafts") {
			assert.False(t, left.In(text), path)
		}
	}
	records, errs := l.Records()
	require.Empty(t, errs)
	assert.Equal(t, []string{"", "Ben", "José Wrentham"}, []string{records[0].Who, records[1].Who, records[2].Who})
	assert.Equal(t, []string{"the shed", "", "the shed"}, []string{records[0].Where, records[1].Where, records[2].Where})

	// One name in two spellings is made one, in the journals as well.
	_, errs = l.RenamePerson("josé  wrentham", "ben")
	require.Empty(t, errs)
	require.NoError(t, os.Remove(sessiontest.RecordsPath(l)))
	records, errs = l.Records()
	require.Empty(t, errs)
	assert.Equal(t, []string{"", "Ben", "ben"}, []string{records[0].Who, records[1].Who, records[2].Who})
	_, errs = l.RenamePerson("ben", "a\nb")
	require.Len(t, errs, 1)
}
