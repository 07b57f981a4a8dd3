package journal_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/event"
	"spotward/session/journal"
	"spotward/session/sessiontest"
)

// Cut anywhere, a journal holds the lines that were whole, says how much was
// dropped, and can be gone on with.
func TestJournalCutAtEveryByte(t *testing.T) {
	data, err := os.ReadFile(written(t, 5))
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), sessiontest.ID+".jsonl")
	for cut := range len(data) + 1 {
		require.NoError(t, os.WriteFile(path, data[:cut], 0o644))
		whole := bytes.Count(data[:cut], []byte("\n"))
		size := bytes.LastIndexByte(data[:cut], '\n') + 1

		lines, report, err := journal.Read(path)
		require.NoError(t, err)
		require.Len(t, lines, whole)
		require.Equal(t, journal.Report{Size: int64(size), TornBytes: cut - size}, report)
		require.Equal(t, cut != size, report.String() != "")

		j, again, report, err := journal.OpenFile(path, "", sessiontest.Ticking())
		require.NoError(t, err)
		require.Equal(t, lines, again)
		require.Equal(t, cut-size, report.TornBytes)
		kind := "resume"
		if whole == 0 {
			kind = "begin"
		}
		require.NoError(t, j.Append(kind, nil))
		require.NoError(t, j.Close())

		lines, report, err = journal.Read(path)
		require.NoError(t, err)
		require.Zero(t, report.TornBytes)
		require.Len(t, lines, whole+1)
		require.Equal(t, kind, lines[whole].Kind)
	}
	t.Logf("%d cuts", len(data)+1)
}

// A power cut can leave the length of a line without its content.
func TestJournalWithZeros(t *testing.T) {
	path := written(t, 2)
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	for _, tail := range []string{"\x00\x00\x00", "\x00\x00\x00\n", "\x00\x00\"kind\":\"note\"}\n"} {
		require.NoError(t, os.WriteFile(path, append(bytes.Clone(data), tail...), 0o644))
		lines, report, err := journal.Read(path)
		require.NoError(t, err)
		assert.Len(t, lines, 3)
		assert.Equal(t, len(tail), report.TornBytes)
	}
	inside := append([]byte("\x00\x00\n"), data...)
	require.NoError(t, os.WriteFile(path, inside, 0o644))
	_, _, err = journal.Read(path)
	assert.Error(t, err, "only the last line can have been cut short")
}

func TestBadJournals(t *testing.T) {
	const begin = `{"v":1,"seq":0,"t":"2026-02-14T20:30:01Z","kind":"begin"}`
	line := func(seq int, more string) string {
		return fmt.Sprintf(`{"v":1,"seq":%d,"t":"2026-02-14T20:30:02Z","kind":"note"%s}`, seq, more)
	}
	for _, c := range []struct {
		name  string
		lines []string
		want  string
		good  int // lines before the bad one
	}{
		{"gap", []string{begin, line(1, ""), line(3, "")}, "line 3: seq is 3, expected 2: lines are missing or mixed", 2},
		{"twice", []string{begin, line(1, ""), line(1, "")}, "line 3: seq is 1, expected 2: lines are missing or mixed", 2},
		{"no start", []string{line(1, "")}, "line 1: seq is 1, expected 0: lines are missing or mixed", 0},
		{"no begin", []string{line(0, "")}, `line 1: kind is "note", expected begin: this is no journal`, 0},
		{"no JSON", []string{begin, "hello", line(2, "")}, "line 2: not a JSON object with v, seq, t and kind", 1},
		{"no JSON at the end", []string{begin, "hello"}, "line 2: not a JSON object with v, seq, t and kind", 1},
		{"empty line", []string{begin, "", line(1, "")}, "line 2: not a JSON object with v, seq, t and kind", 1},
		{"no kind", []string{begin, `{"v":1,"seq":1,"t":"2026-02-14T20:30:02Z"}`}, "line 2: expected v, seq, t and kind", 1},
		{"no time", []string{begin, `{"v":1,"seq":1,"t":"yesterday","kind":"note"}`}, "line 2: not a JSON object with v, seq, t and kind", 1},
		{"version 0", []string{begin, `{"v":0,"seq":1,"t":"2026-02-14T20:30:02Z","kind":"note"}`}, "line 2: expected v, seq, t and kind", 1},
		{"half a number", []string{begin, `{"v":1,"seq":1.5,"t":"2026-02-14T20:30:02Z","kind":"note"}`}, "line 2: not a JSON object with v, seq, t and kind", 1},
		{"long line", []string{begin, line(1, `,"text":"`+strings.Repeat("x", 1<<20)+`"`)}, "line 2: longer than 1024 KB: this is no journal", 1},
		{"control characters", []string{`{"v":1,"seq":0,"t":"2026-02-14T20:30:01Z","kind":"\u001b[2J"}`}, `line 1: kind is "\x1b[2J", expected begin: this is no journal`, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), sessiontest.ID+".jsonl")
			require.NoError(t, os.WriteFile(path, []byte(strings.Join(c.lines, "\n")+"\n"), 0o644))
			lines, _, err := journal.Read(path)
			require.Error(t, err)
			assert.Equal(t, sessiontest.ID+".jsonl: "+c.want, err.Error())
			assert.Len(t, lines, c.good)

			before, _ := os.ReadFile(path)
			_, _, _, err = journal.OpenFile(path, "", sessiontest.Ticking())
			assert.Error(t, err)
			after, _ := os.ReadFile(path)
			assert.Equal(t, before, after, "what cannot be read is left as it is")
		})
	}
}

func TestJournalOfANewerProgram(t *testing.T) {
	path := filepath.Join(t.TempDir(), sessiontest.ID+".jsonl")
	text := `{"v":1,"seq":0,"t":"2026-02-14T20:30:01Z","kind":"begin"}
{"v":3,"seq":1,"t":"2026-02-14T20:30:02Z","kind":"hummed","tune":[1,2]}
`
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	lines, report, err := journal.Read(path)
	require.NoError(t, err)
	require.Len(t, lines, 2)
	assert.Equal(t, "hummed", lines[1].Kind)
	assert.JSONEq(t, `{"v":3,"seq":1,"t":"2026-02-14T20:30:02Z","kind":"hummed","tune":[1,2]}`, string(lines[1].Raw))
	assert.Equal(t, "written by a newer program (version 3): what this one does not know is passed over", report.String())
	_, _, _, err = journal.OpenFile(path, "", sessiontest.Ticking())
	assert.ErrorContains(t, err, "was written by a newer program (version 3)")
}

func TestJournalIsNoPlainFile(t *testing.T) {
	dir := t.TempDir()
	elsewhere := filepath.Join(t.TempDir(), "elsewhere")
	require.NoError(t, os.WriteFile(elsewhere, nil, 0o644))
	link := filepath.Join(dir, sessiontest.ID+".jsonl")
	require.NoError(t, os.Symlink(elsewhere, link))
	folder := filepath.Join(dir, "20260214T203000Z-0000.jsonl")
	require.NoError(t, os.Mkdir(folder, 0o755))
	for _, path := range []string{link, folder, filepath.Join(dir, "20260214T203000Z-0001.jsonl")} {
		_, _, err := journal.Read(path)
		require.Error(t, err)
		sessiontest.AssertPlain(t, err)
		_, _, _, err = journal.OpenFile(path, "", sessiontest.Ticking())
		require.Error(t, err)
	}
	_, err := journal.Create(dir, sessiontest.ID, "", sessiontest.Ticking())
	assert.Error(t, err, "a link in its place")
}

func TestLongJournal(t *testing.T) { readsLong(t, 50_000) }

// A million lines take 100 MB and seconds.
func BenchmarkMillionLineJournal(b *testing.B) {
	for b.Loop() {
		readsLong(b, 1_000_000)
	}
}

// readsLong writes a journal of n lines and holds it to being read whole.
func readsLong(t testing.TB, n int) {
	t.Helper()
	path := filepath.Join(t.TempDir(), sessiontest.ID+".jsonl")
	f, err := os.Create(path)
	require.NoError(t, err)
	var b bytes.Buffer
	b.WriteString(`{"v":1,"seq":0,"t":"2026-02-14T20:30:01Z","kind":"begin"}` + "\n")
	for i := 1; i < n; i++ {
		fmt.Fprintf(&b, `{"v":1,"seq":%d,"t":"2026-02-14T20:30:02Z","kind":"reading","right":1.5}`+"\n", i)
		if b.Len() > 1<<20 || i == n-1 {
			_, err := b.WriteTo(f)
			require.NoError(t, err)
		}
	}
	require.NoError(t, f.Close())
	count := 0
	_, err = journal.Scan(path, func(event.Line) error { count++; return nil })
	require.NoError(t, err)
	assert.Equal(t, n, count)
}

// The kept journals stay readable, whatever the program learns.
func TestKeptJournals(t *testing.T) {
	files, err := filepath.Glob("../../testdata/journals/*.jsonl")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	var all strings.Builder
	for _, path := range files {
		lines, report, err := journal.Read(path)
		fmt.Fprintf(&all, "%s: %d lines", filepath.Base(path), len(lines))
		for _, l := range lines {
			all.WriteString(" " + l.Kind)
		}
		if report.String() != "" {
			all.WriteString("\n\t" + report.String())
		}
		if err != nil {
			sessiontest.AssertPlain(t, err)
			all.WriteString("\n\t" + err.Error())
		}
		all.WriteString("\n")
	}
	sessiontest.Golden(t, "../../testdata/journals/reports.golden", all.String())
}
