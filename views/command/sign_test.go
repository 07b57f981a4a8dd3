package command_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/lesson"
	"spotward/session/shelf"
)

// allShown are results that show all that is signed off.
func allShown(on time.Time) []lesson.Result {
	r := func(id string) lesson.Result {
		return lesson.Result{V: 3, T: on, Lesson: id, Passed: true, On: []string{"usual 4"}}
	}
	dial, safe, ring := r("dial"), r("safe"), r("ring")
	dial.Readings, dial.Good = 10, 9
	safe.Lit, safe.Carded, safe.Stopped, safe.StopSec = 1, 1, true, 60
	ring.Moves, ring.Possible = 3, 2
	return []lesson.Result{dial, safe, r(lesson.Leave), ring, r(lesson.Swing), r(lesson.Exam)}
}

func TestSignedOffPrintedPackedAndForgotten(t *testing.T) {
	here, there := t.TempDir(), t.TempDir()
	at := func(dir string, exit int, args ...string) (out, errs string) {
		return run(t, exit, append(args, "--data="+dir)...)
	}
	l, err := shelf.Open(here)
	require.NoError(t, err)
	now := time.Now()
	results := allShown(now)
	for _, r := range results[:len(results)-1] {
		require.NoError(t, l.AddLesson("Ann", r))
	}
	_, errs := at(here, 1, "practice", "sign", "Ann", "--by", "Ida")
	assert.Contains(t, errs, "not shown yet: three scopes nobody had seen")
	require.NoError(t, l.AddLesson("Ann", results[len(results)-1]))
	_, errs = at(here, 1, "practice", "sign", "Ann", "--by", "ann")
	assert.Contains(t, errs, "another person signs")
	_, errs = at(here, 1, "practice", "sign", "Nobody", "--by", "Ida")
	assert.Contains(t, errs, "no lessons of")

	out, _ := at(here, 0, "practice", "sign", "Ann", "--by", "Ida", "--for", "365")
	assert.Contains(t, out, "Signed off by Ida on "+now.Format("2006-01-02")+", until "+now.AddDate(1, 0, 0).Format("2006"))
	page := filepath.Join(t.TempDir(), "ann.html")
	at(here, 0, "practice", "sign", "Ann", "--to", page)
	html, err := os.ReadFile(page)
	require.NoError(t, err)
	for _, word := range []string{"Ann may align alone", "Ida", "usual 4", "a loose screw found"} {
		assert.Contains(t, string(html), word)
	}

	pack := filepath.Join(t.TempDir(), "shed.zip")
	out, _ = at(here, 0, "records", "pack", "--to", pack)
	assert.Contains(t, out, "1 trainee")
	for range 2 { // again: nothing twice
		at(there, 0, "records", "take", pack)
	}
	l, err = shelf.Open(there)
	require.NoError(t, err)
	signed, err := l.SignedOf("Ann")
	require.NoError(t, err)
	require.Len(t, signed, 1)
	assert.Equal(t, "Ida", signed[0].By)
	taken, err := l.LessonsOf("Ann")
	require.NoError(t, err)
	assert.Len(t, taken, len(results))

	out, _ = at(there, 0, "records", "people", "--json")
	var list struct {
		People []struct {
			Name, May, By string
			Passed        int
			RanOut        bool `json:"ran_out"`
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &list))
	require.Len(t, list.People, 1)
	assert.Equal(t, "align", list.People[0].May)
	assert.Equal(t, "Ida", list.People[0].By)
	assert.Equal(t, len(results), list.People[0].Passed)
	require.NoError(t, l.AddSigned("Ann", lesson.Signed{V: 1, T: now.AddDate(-2, 0, 0), By: "Ida", Until: now.AddDate(-1, 0, 0)}))
	out, _ = at(there, 0, "records", "people")
	assert.Contains(t, out, "learns", "what has run out holds no longer")
	assert.Contains(t, out, "it ran out on ")
	out, _ = at(there, 0, "records", "todo")
	assert.Regexp(t, `(?m)^! Ann +sign off again`, out)
	out, _ = at(here, 0, "records", "todo")
	assert.NotContains(t, out, "sign off", "it holds for a year yet")
	out, _ = at(here, 0, "practice", "sign", "Ann", "--by", "Ida")
	assert.Contains(t, out, "until "+now.AddDate(1, 0, 0).Format("2006"), "as long as the one before")

	at(there, 0, "records", "forget", "Ida")
	signed, err = l.SignedOf("Ann")
	require.NoError(t, err)
	assert.Empty(t, signed[0].By)
	at(there, 0, "records", "forget", "Ann")
	signed, err = l.SignedOf("Ann")
	require.NoError(t, err)
	assert.Empty(t, signed)
}
