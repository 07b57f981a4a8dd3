package shelf_test

import (
	"bytes"
	"fmt"
	"hash/crc32"
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
	step := sessiontest.Of(7, 3, 1)
	for cut := 0; cut <= len(data); cut += step {
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
		require.NoError(t, j.Append(journal.Entry{Kind: kind, Payload: nil}))
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

// summed ends each line with its sum.
func summed(lines ...string) string {
	var out, before []byte
	for _, open := range lines {
		before = journal.Summed(before, []byte(strings.TrimSuffix(open, "}")))
		out = append(out, before...)
	}
	return string(out)
}

const beginLine = `{"v":2,"seq":0,"t":"2026-02-14T20:30:01Z","kind":"begin"}`

// A line that does not fit ends the reading, and it is said; what stands before
// it is read, and the file stays as it is.
func TestBadJournals(t *testing.T) {
	line := func(seq int, more string) string {
		return fmt.Sprintf(`{"v":2,"seq":%d,"t":"2026-02-14T20:30:02Z","kind":"note"%s}`, seq, more)
	}
	good := summed(beginLine, line(1, ""), line(2, ""))
	for _, c := range []struct {
		name, text, want string
		good             int // lines before the bad one
	}{
		{"gap", summed(beginLine, line(1, ""), line(3, "")), "seq is 3, expected 2: lines are missing or mixed", 2},
		{"twice", summed(beginLine, line(1, ""), line(1, "")), "seq is 1, expected 2: lines are missing or mixed", 2},
		{"no start", summed(line(1, "")), "seq is 1, expected 0: lines are missing or mixed", 0},
		{"no JSON", summed(beginLine, "hello", line(2, "")), "not a JSON object with v, seq, t and kind", 1},
		{"no JSON at the end", summed(beginLine, "hello"), "not a JSON object with v, seq, t and kind", 1},
		{"no checksum", summed(beginLine) + line(1, "") + "\n", "it has no checksum: this is no journal, or it was changed by hand", 1},
		{"empty line", summed(beginLine) + "\n" + line(1, ""), "it has no checksum: this is no journal, or it was changed by hand", 1},
		{"a line taken out", summed(beginLine) + strings.SplitAfter(good, "\n")[2], "its checksum differs: it was damaged or changed", 1},
		{"another word", strings.Replace(good, "note", "nota", 1), "its checksum differs: it was damaged or changed", 1},
		{"another word at the end", good[:len(good)-40] + strings.Replace(good[len(good)-40:], "note", "nota", 1), "its checksum differs: it was damaged or changed", 2},
		{"no kind", summed(beginLine, `{"v":2,"seq":1,"t":"2026-02-14T20:30:02Z"}`), "expected v, seq, t and kind", 1},
		{"no time", summed(beginLine, `{"v":2,"seq":1,"t":"yesterday","kind":"note"}`), "not a JSON object with v, seq, t and kind", 1},
		{"version 0", summed(beginLine, `{"v":0,"seq":1,"t":"2026-02-14T20:30:02Z","kind":"note"}`), "expected v, seq, t and kind", 1},
		{"half a number", summed(beginLine, `{"v":2,"seq":1.5,"t":"2026-02-14T20:30:02Z","kind":"note"}`), "not a JSON object with v, seq, t and kind", 1},
		{"long line", summed(beginLine, line(1, `,"text":"`+strings.Repeat("x", 1<<20)+`"`)), "longer than 1024 KB: this is no journal", 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), sessiontest.ID+".jsonl")
			require.NoError(t, os.WriteFile(path, []byte(c.text), 0o644))
			lines, report, err := journal.Read(path)
			if c.good == 0 {
				require.EqualError(t, err, sessiontest.ID+".jsonl: line 1: "+c.want)
			} else {
				require.NoError(t, err)
				assert.Equal(t, c.good+1, report.Damaged)
				assert.Equal(t, fmt.Sprintf("line %d does not fit (%s): the lines before it are read, the file is left as it is", c.good+1, c.want), report.String())
			}
			assert.Len(t, lines, c.good)

			_, _, _, err = journal.OpenFile(path, "", sessiontest.Ticking())
			require.Error(t, err)
			sessiontest.AssertPlain(t, err)
			after, _ := os.ReadFile(path)
			assert.Equal(t, c.text, string(after), "what cannot be read is left as it is")
		})
	}
}

// Whichever bit flips, the lines before it are read as they were and no line is
// read otherwise.
func TestAFlippedBitEndsTheReading(t *testing.T) {
	path := written(t, 4)
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	want, _, err := journal.Read(path)
	require.NoError(t, err)
	step := sessiontest.Of(41, 13, 1)
	for bit := 0; bit < 8*len(data); bit += step {
		flipped := bytes.Clone(data)
		flipped[bit/8] ^= 1 << (bit % 8)
		require.NoError(t, os.WriteFile(path, flipped, 0o644))
		at := bytes.Count(data[:bit/8], []byte("\n"))
		lines, report, err := journal.Read(path)
		require.Equal(t, want[:at], append([]event.Line{}, lines...), "bit %d", bit)
		require.True(t, err != nil || report.String() != "", "bit %d: it is said", bit)
		ends, err := journal.ReadEnds(path)
		require.True(t, err != nil || ends.Report.String() != "", "bit %d: it is said", bit)
		require.Equal(t, at, ends.Lines, "bit %d", bit)
	}
}

// A blank line at the end, as an editor leaves it, loses nothing.
func TestBlankLineAtTheEnd(t *testing.T) {
	path := written(t, 2)
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	for _, tail := range []string{"\n", " ", "\r\n"} {
		require.NoError(t, os.WriteFile(path, append(bytes.Clone(data), tail...), 0o644))
		j, lines, _, err := journal.OpenFile(path, "", sessiontest.Ticking())
		require.NoError(t, err, "%q", tail)
		require.Len(t, lines, 3)
		require.NoError(t, j.Append(journal.Entry{Kind: "note"}))
		require.NoError(t, j.Close())
		lines, report, err := journal.Read(path)
		require.NoError(t, err)
		assert.Len(t, lines, 4)
		assert.Empty(t, report.String())
	}
}

// The sum is what the comment says it is: CRC-32C of the line before and of
// this one up to the sum.
func TestTheSumIsWhatItIsSaidToBe(t *testing.T) {
	data, err := os.ReadFile(written(t, 1))
	require.NoError(t, err)
	lines := strings.SplitAfter(string(data), "\n")
	table := crc32.MakeTable(crc32.Castagnoli)
	before := ""
	for _, line := range lines[:2] {
		open, sum, found := strings.Cut(line, `,"sum":`)
		require.True(t, found)
		assert.Equal(t, fmt.Sprintf("\"%08x\"}\n", crc32.Checksum([]byte(before+open), table)), sum)
		before = line
	}
	// The polynomial's own check value, RFC 3720 B.4: 32 bytes of zeros.
	assert.Equal(t, uint32(0x8a9136aa), crc32.Checksum(make([]byte, 32), table))
}

func TestJournalOfANewerProgram(t *testing.T) {
	path := filepath.Join(t.TempDir(), sessiontest.ID+".jsonl")
	text := summed(beginLine, `{"v":3,"seq":1,"t":"2026-02-14T20:30:02Z","kind":"hummed","tune":[1,2]}`)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	lines, report, err := journal.Read(path)
	require.NoError(t, err)
	require.Len(t, lines, 2)
	assert.Equal(t, "hummed", lines[1].Kind)
	assert.Equal(t, "written by a newer program (version 3): what this one does not know is left out", report.String())
	_, _, _, err = journal.OpenFile(path, "", sessiontest.Ticking())
	assert.ErrorContains(t, err, "was written by a newer program (version 3)")

	require.NoError(t, os.WriteFile(path, []byte(`{"v":3,"seal":"otherwise"}`+"\n"), 0o644))
	_, _, err = journal.Read(path)
	assert.ErrorContains(t, err, "was written by a newer program (version 3)")
}

// What was written before the first release is not read, and not touched.
func TestJournalOfVersionOne(t *testing.T) {
	path := filepath.Join(t.TempDir(), sessiontest.ID+".jsonl")
	text := `{"v":1,"seq":0,"t":"2026-02-14T20:30:01Z","kind":"begin","id":"20260214T203000Z-9f3a"}` + "\n"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	_, _, err := journal.Read(path)
	var old *journal.TooOldError
	require.ErrorAs(t, err, &old)
	assert.EqualError(t, err, sessiontest.ID+".jsonl is too old (version 1, this program reads 2 on): it is left as it is")
	_, _, _, err = journal.OpenFile(path, "", sessiontest.Ticking())
	require.ErrorAs(t, err, &old)
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, text, string(after))
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
	before := journal.Summed(nil, []byte(strings.TrimSuffix(beginLine, "}")))
	b.Write(before)
	for i := 1; i < n; i++ {
		before = journal.Summed(before, fmt.Appendf(nil, `{"v":2,"seq":%d,"t":"2026-02-14T20:30:02Z","kind":"reading","right":1.5`, i))
		b.Write(before)
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
