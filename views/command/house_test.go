package command_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// root is the top of the tree, from here.
const root = "../.."

// floors are the floors of the house, from the roof down. A package imports
// only from its own floor and from those below it.
var floors = []string{"", "views", "session", "optics"}

func floorOf(path string) int {
	top, _, _ := strings.Cut(path, "/")
	for i, f := range floors[1:] {
		if top == f {
			return i + 1
		}
	}
	return 0
}

// kept are packages that only some floors may use, and which.
var kept = map[string]string{
	"math/rand/v2": "optics/virtual", // all randomness of the telescope is there, behind a seed
	"time":         "",               // no clock in optics
	"os":           "",
}

func TestArrowsRunDown(t *testing.T) {
	eachImport(t, func(file, path string) {
		inner, ours := strings.CutPrefix(path, "spotward/")
		if ours {
			assert.LessOrEqual(t, floorOf(file), floorOf(inner), "%s imports %s: arrows only run down", file, path)
		}
		if strings.HasPrefix(file, "views/theme/") || strings.HasPrefix(file, "views/schematic/") {
			session := ours && strings.HasPrefix(inner, "session") && inner != "session/words" // which knows none itself
			assert.False(t, session, "%s imports %s: drawing knows no session", file, path)
		}
	})
}

func TestOpticsKnowsNoWorld(t *testing.T) {
	eachImport(t, func(file, path string) {
		if floorOf(file) != 3 || strings.HasSuffix(file, "_test.go") {
			return
		}
		home, is := kept[path]
		assert.False(t, is && (home == "" || !strings.HasPrefix(file, home)), "%s imports %s", file, path)
		assert.False(t, strings.HasPrefix(path, "net") || strings.HasPrefix(path, "github.com/charmbracelet"), "%s imports %s", file, path)
	})
}

func TestSessionKnowsNoTerminal(t *testing.T) {
	eachImport(t, func(file, path string) {
		if floorOf(file) == 2 && !strings.HasSuffix(file, "_test.go") {
			assert.False(t, strings.HasPrefix(path, "github.com/charmbracelet") || strings.HasPrefix(path, "net/") || path == "net" || path == "os/exec",
				"%s imports %s", file, path)
		}
	})
}

func TestNothingCallsOut(t *testing.T) {
	eachImport(t, func(file, path string) {
		if !strings.HasSuffix(file, "_test.go") {
			assert.NotContains(t, []string{"net", "net/http", "os/exec"}, path, file)
		}
	})
}

func eachImport(t *testing.T, do func(file, path string)) {
	t.Helper()
	seen := 0
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, i := range f.Imports {
			name, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return err
			}
			do(strings.TrimPrefix(filepath.ToSlash(path), root+"/"), name)
			seen++
		}
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, seen, 100)
}
