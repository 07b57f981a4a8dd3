package command_test

import (
	"bytes"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// arrows are the rooms of the house, each after those that it may import: an arrow
// only ever runs up this list. A new arrow is a decision: it is made here, and shows
// in a review.
var arrows = []struct {
	room string
	may  []string
}{
	{"optics", nil},
	{"optics/adviser", []string{"optics"}},
	{"optics/camera", []string{"optics"}},
	{"optics/picture", []string{"optics"}},
	{"optics/virtual", []string{"optics"}},
	{"session/words", []string{"optics"}},
	{"session/header", nil},
	{"session/scope", []string{"optics", "session/words"}},
	{"session/event", []string{"optics", "optics/adviser", "session/scope"}},
	{"session/photo", []string{"optics", "optics/picture", "session/event", "session/words"}},
	{"session/lex", nil},
	{"session/reading", []string{"optics", "session/event", "session/lex", "session/words"}},
	{"session/journal", []string{"session/event", "session/words"}},
	{"session/mirrors", []string{"optics", "optics/adviser", "session/event", "session/scope", "session/words"}},
	{"session", []string{"optics", "optics/adviser", "session/event", "session/header", "session/mirrors", "session/words"}},
	{"session/answer", []string{"optics", "session", "session/event", "session/lex", "session/mirrors", "session/reading", "session/scope", "session/words"}},
	{"session/history", []string{"optics", "session", "session/event", "session/scope", "session/words"}},
	{"session/lesson", []string{"optics", "session", "session/event", "session/mirrors", "session/scope", "session/words"}},
	{"session/shelf", []string{"optics", "session", "session/event", "session/history", "session/journal", "session/lesson", "session/scope", "session/words"}},
	{"session/sessiontest", []string{"optics", "session", "session/event", "session/journal", "session/scope", "session/shelf"}},
	{"views/theme", nil},
	{"views/schematic", []string{"optics", "session/words", "views/theme"}},
	{"views/practice", []string{
		"optics", "optics/camera", "optics/virtual",
		"session", "session/answer", "session/event", "session/lesson", "session/mirrors", "session/words",
	}},
	{"views/desk", []string{
		"optics", "optics/picture",
		"session", "session/answer", "session/event", "session/journal", "session/photo", "session/reading", "session/scope", "session/shelf", "session/words",
		"views/practice",
	}},
	{"views/teach", []string{
		"optics", "optics/virtual",
		"session", "session/event", "session/lesson", "session/reading", "session/scope", "session/words",
		"views/desk", "views/practice",
	}},
	{"views/teach/teachtest", []string{"optics", "session", "session/lesson", "session/scope", "session/sessiontest", "session/words", "views/desk", "views/teach"}},
	{"views/feed", []string{"optics", "optics/adviser", "session", "session/answer", "session/event", "session/header", "session/reading", "session/words"}},
	{"views/paper", []string{"optics", "session", "session/event", "session/history", "session/scope", "session/words"}},
	{"views/talk", []string{
		"optics", "optics/adviser", "optics/virtual",
		"session", "session/answer", "session/event", "session/header", "session/journal", "session/lesson", "session/mirrors", "session/reading", "session/scope", "session/shelf", "session/words",
		"views/desk", "views/practice", "views/teach",
	}},
	{"views/terminal/quiet", nil},
	{"views/terminal/frame", []string{"session/reading", "views/desk", "views/schematic", "views/theme"}},
	{"views/terminal/align", []string{
		"optics", "optics/virtual",
		"session", "session/answer", "session/event", "session/header", "session/journal", "session/lex", "session/mirrors", "session/reading", "session/scope", "session/shelf", "session/words",
		"views/desk", "views/practice", "views/schematic", "views/terminal/frame", "views/theme",
	}},
	{"views/terminal/past", []string{
		"optics",
		"session", "session/event", "session/history", "session/mirrors", "session/scope", "session/shelf", "session/words",
		"views/desk", "views/schematic", "views/terminal/align", "views/terminal/frame", "views/theme",
	}},
	{"views/terminal/teach", []string{
		"optics", "optics/virtual",
		"session", "session/event", "session/lesson", "session/reading", "session/scope", "session/words",
		"views/desk", "views/practice", "views/schematic", "views/teach", "views/terminal/align", "views/terminal/frame", "views/terminal/past", "views/theme",
	}},
	{"views/terminal/home", []string{
		"optics", "optics/virtual",
		"session", "session/event", "session/history", "session/scope", "session/words",
		"views/desk", "views/schematic", "views/terminal/align", "views/terminal/frame", "views/terminal/past", "views/terminal/teach", "views/theme",
	}},
	{"views/terminal", []string{
		"session/lesson", "session/scope",
		"views/desk", "views/terminal/align", "views/terminal/frame", "views/terminal/home", "views/terminal/past", "views/terminal/quiet", "views/terminal/teach", "views/theme",
	}},
	{"views/command", []string{
		"optics", "optics/picture", "optics/virtual",
		"session", "session/event", "session/history", "session/journal", "session/lesson", "session/photo", "session/scope", "session/shelf", "session/words",
		"views/desk", "views/feed", "views/paper", "views/practice", "views/talk", "views/teach", "views/terminal", "views/terminal/teach", "views/theme",
	}},
	{".", []string{"views/command", "views/terminal/quiet"}},
}

// The most that a room holds, and a file, tests not counted: what is larger has a
// wall missing.
const (
	mostFiles     = 40
	mostLines     = 5000
	mostFileLines = 400
)

func TestRoomsImportOnlyWhatTheyMay(t *testing.T) {
	may, used := map[string][]string{}, map[string]bool{}
	for _, a := range arrows {
		for _, to := range a.may {
			_, below := may[to]
			assert.True(t, below, "%s may import %s, which is not before it in the list", a.room, to)
		}
		may[a.room] = a.may
	}
	eachImport(t, func(file, to string) {
		from := path.Dir(file)
		to, ours := strings.CutPrefix(to, "spotward/")
		if !ours || strings.HasSuffix(file, "_test.go") {
			return
		}
		if list, known := may[from]; assert.True(t, known, "%s: a room that is not in the list", from) {
			assert.Contains(t, list, to, "%s imports %s", file, to)
		}
		used[from+" "+to] = true
	})
	for from, list := range may {
		for _, to := range list {
			assert.True(t, used[from+" "+to], "%s may import %s and does not: take it off the list", from, to)
		}
	}
}

// No room grows until nobody sees from its listing what it is for.
func TestRoomsStaySmall(t *testing.T) {
	files, lines := map[string]int{}, map[string]int{}
	require.NoError(t, filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		name = strings.TrimPrefix(filepath.ToSlash(name), root+"/")
		n := bytes.Count(text, []byte("\n"))
		assert.LessOrEqual(t, n, mostFileLines, "lines of %s", name)
		files[path.Dir(name)]++
		lines[path.Dir(name)] += n
		return nil
	}))
	require.Len(t, files, len(arrows), "every room is in the list, and every one of the list is there")
	for _, a := range arrows {
		assert.LessOrEqual(t, files[a.room], mostFiles, "files of %s", a.room)
		assert.LessOrEqual(t, lines[a.room], mostLines, "lines of %s", a.room)
	}
}
