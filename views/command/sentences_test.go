package command

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// mostWords is how many words a sentence has at most that a person reads.
const mostWords = 20

// typedByPeople are what holds lists of words that people type, and nobody reads: the
// calls that are given them, and the names they stand under.
var typedByPeople = map[string]bool{
	"WordSet": true, "Fields": true, "lexicon": true, "commandTable": true, "patternOf": true, "only": true, "onlyRaw": true, "has": true, "MustCompile": true,
	"needs": true, "mays": true, "answerWords": true, "madeWords": true, "endings": true,
}

// sentenceEnds parts a text into its sentences; an indented line is one of its own, as
// the examples of the help have it.
var sentenceEnds = regexp.MustCompile(`[.?!]["')]*(\s|$)|\n\n|\n  `)

// Every text in the program's source, in one listing (-v prints it): help, errors,
// lessons, paper and all that the steps say. No sentence has more words than one takes
// in at a telescope.
func TestEverySentenceIsShort(t *testing.T) {
	root, n := filepath.Join("..", ".."), 0
	for _, floor := range []string{"optics", "session", "views"} {
		require.NoError(t, filepath.WalkDir(filepath.Join(root, floor), func(path string, _ fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
			if err != nil {
				return err
			}
			for _, text := range texts(file) {
				if len(wordsOf(text)) < 2 {
					continue
				}
				n++
				t.Logf("%s: %s", filepath.Base(path), text)
				for _, s := range sentenceEnds.Split(text, -1) {
					assert.LessOrEqual(t, len(wordsOf(s)), mostWords, "%s: %s", path, s)
				}
			}
			return nil
		}))
	}
	assert.Greater(t, n, 2000, "the listing has lost most of what is said")
}

// wordsOf returns the words of a text: what has a letter or a figure in it.
func wordsOf(text string) []string {
	var words []string
	for _, w := range strings.Fields(text) {
		if strings.ContainsFunc(w, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) {
			words = append(words, w)
		}
	}
	return words
}

// texts returns the texts of a file, those that are put together in one.
func texts(file *ast.File) (all []string) {
	ast.Inspect(file, func(n ast.Node) bool {
		switch x := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.Field:
			return x.Tag == nil
		case *ast.CallExpr:
			switch f := x.Fun.(type) {
			case *ast.Ident:
				return !typedByPeople[f.Name]
			case *ast.SelectorExpr:
				return !typedByPeople[f.Sel.Name]
			}
		case *ast.KeyValueExpr:
			key, ok := x.Key.(*ast.Ident)
			return !ok || !typedByPeople[key.Name]
		case *ast.ValueSpec:
			return !typedByPeople[x.Names[0].Name]
		case ast.Expr:
			if text, ok := textOf(x); ok {
				all = append(all, text)
				return false
			}
		}
		return true
	})
	return all
}

// textOf returns a text, or one that is put together of some; what is not known
// before the program runs counts as a word.
func textOf(e ast.Expr) (string, bool) {
	switch x := e.(type) {
	case *ast.BasicLit:
		text, err := strconv.Unquote(x.Value)
		return text, err == nil && x.Kind == token.STRING
	case *ast.ParenExpr:
		return textOf(x.X)
	case *ast.BinaryExpr:
		if x.Op != token.ADD {
			return "", false
		}
		left, is := textOf(x.X)
		right, too := textOf(x.Y)
		if !is {
			left = "X"
		}
		if !too {
			right = "X"
		}
		return left + right, is || too
	}
	return "", false
}
