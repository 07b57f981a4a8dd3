package optics

import (
	"encoding/csv"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The marks of a row of testdata/published, from the one that lets a reader
// conclude most.
const (
	markPublished = "published" // the text named says so
	markTraced    = "traced"    // found another way than by what is checked
	markComputed  = "computed"  // by the formula that is checked: holds the typing alone
)

const publishedDir = "../testdata/published/"

// allColumns reads testdata/published/NAME: rows of fields, without comments. The
// last two say what of this package the row checks, and its mark.
func allColumns(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(publishedDir + name)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	r.FieldsPerRecord = -1
	r.TrimLeadingSpace = true
	rows, err := r.ReadAll()
	require.NoError(t, err)
	require.NotEmpty(t, rows)
	return rows
}

// published reads testdata/published/NAME without those two columns.
func published(t *testing.T, name string) (rows [][]string) {
	t.Helper()
	for _, row := range allColumns(t, name) {
		require.Greater(t, len(row), 2, "%s %v", name, row)
		rows = append(rows, row[:len(row)-2])
	}
	return rows
}

// markOf returns the mark of a row with all its columns.
func markOf(row []string) string { return row[len(row)-1] }

// number reads a field of a published table.
func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	require.NoError(t, err)
	return v
}

// numbers reads a row of nothing but numbers.
func numbers(t *testing.T, row []string) []float64 {
	t.Helper()
	v := make([]float64, len(row))
	for i, s := range row {
		v[i] = number(t, s)
	}
	return v
}

// A row that was computed by the formula it checks holds its typing and nothing
// else. So for all that such rows check there is a row that is published or traced.
func TestAComputedRowIsNeverTheOnlyCheck(t *testing.T) {
	files, err := filepath.Glob(publishedDir + "*.csv")
	require.NoError(t, err)
	marks := map[string]map[string]int{} // of a name that is checked, how many rows with a mark
	declared, used := names(t)
	for _, path := range files {
		file := filepath.Base(path)
		if strings.HasSuffix(file, ".in.csv") {
			continue // what a ray tracer reads
		}
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Contains(t, string(text), "# What a mark lets one conclude. published:", file)
		for _, row := range allColumns(t, file) {
			require.Greater(t, len(row), 2, "%s %v", file, row)
			mark, checks := markOf(row), strings.Fields(row[len(row)-2])
			assert.Contains(t, []string{markPublished, markTraced, markComputed}, mark, "%s %v", file, row)
			assert.NotEmpty(t, checks, "%s %v", file, row)
			for _, name := range checks {
				assert.True(t, declared[name], "%s: %s is nothing of these packages", file, name)
				assert.True(t, used[file][name], "no test that reads %s uses %s", file, name)
				if marks[name] == nil {
					marks[name] = map[string]int{}
				}
				marks[name][mark]++
			}
		}
	}
	for name, of := range marks {
		assert.Positive(t, of[markPublished]+of[markTraced], "%s: %v", name, of)
	}
	assert.Greater(t, len(marks), 20)
}

// names returns what this package and picture declare, and for each file of published rows
// what is used by the test files that read it.
func names(t *testing.T) (declared map[string]bool, used map[string]map[string]bool) {
	t.Helper()
	declared, used = map[string]bool{}, map[string]map[string]bool{}
	sources, err := filepath.Glob("*.go")
	require.NoError(t, err)
	more, err := filepath.Glob("picture/*.go") // the circle fits
	require.NoError(t, err)
	sources = append(sources, more...)
	for _, source := range sources {
		parsed, err := parser.ParseFile(token.NewFileSet(), source, nil, 0)
		require.NoError(t, err)
		if !strings.HasSuffix(source, "_test.go") {
			for _, d := range parsed.Decls {
				if f, ok := d.(*ast.FuncDecl); ok {
					declared[f.Name.Name] = true
				}
			}
			continue
		}
		uses, reads := map[string]bool{}, []string{}
		ast.Inspect(parsed, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.Ident:
				uses[n.Name] = true
			case *ast.BasicLit:
				if s, err := strconv.Unquote(n.Value); err == nil && strings.HasSuffix(s, ".csv") {
					reads = append(reads, s)
				}
			}
			return true
		})
		for _, file := range reads {
			if used[file] == nil {
				used[file] = map[string]bool{}
			}
			for name := range uses {
				used[file][name] = true
			}
		}
	}
	return declared, used
}
