package shelf_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

func packOf(t testing.TB, l *shelf.Shelf) []byte {
	t.Helper()
	var out bytes.Buffer
	p, err := l.Pack(&out, "test", time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC))
	require.NoError(t, err)
	require.Empty(t, p.Unread)
	return out.Bytes()
}

func take(t testing.TB, l *shelf.Shelf, pack []byte) shelf.Taken {
	t.Helper()
	taken, err := l.Take(bytes.NewReader(pack), int64(len(pack)))
	require.NoError(t, err)
	return taken
}

// zipOf is an archive of so many entries, name and content by turns.
func zipOf(t testing.TB, entries ...string) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for i := 0; i < len(entries); i += 2 {
		w, err := z.Create(entries[i])
		require.NoError(t, err)
		_, err = io.WriteString(w, entries[i+1])
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return out.Bytes()
}

const packNote = "spotward-pack.json"

func TestPackAndTake(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	fillShelf(t, l, 6, 30)
	require.NoError(t, l.RetireScope("Heron 005"))
	_, j := sessiontest.Begun(t, l, sessiontest.NthID(1), "heron") // unfinished, and open
	defer j.Close()
	pack := packOf(t, l)

	empty := sessiontest.OpenShelf(t)
	taken := take(t, empty, pack)
	assert.Equal(t, shelf.Taken{Scopes: 6, Kits: 5, Journals: 31}, taken)
	assert.Equal(t, fleetOf(t, l), fleetOf(t, empty))
	retired, _ := empty.RetiredScopes()
	assert.Equal(t, []string{"Heron 005"}, scopeNames(retired))
	open, _ := empty.Unfinished("")
	require.Len(t, open, 1)

	before := everything(t, empty.Dir())
	assert.Equal(t, shelf.Taken{Known: 42}, take(t, empty, pack))
	assert.Equal(t, before, everything(t, empty.Dir()))

	// Records that are not in the pack, or not of its journals, are summed up.
	require.NoError(t, os.Remove(sessiontest.RecordsPath(l)))
	require.NoError(t, os.WriteFile(sessiontest.RecordsPath(l), []byte(`{"v":1,"id":"`+sessiontest.NthID(1)+`","scope":"Wren"}`+"\n"), 0o644))
	again := sessiontest.OpenShelf(t)
	taken = take(t, again, packOf(t, l))
	assert.Empty(t, taken.Refused)
	require.NoError(t, j.Close())
	records, errs := again.Records()
	require.Empty(t, errs)
	assert.Len(t, records, 30)
}

// What stands against what is here is refused by name, and the rest taken.
func TestTakeRefusesByName(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	sessiontest.Stopped(t, l, sessiontest.NthID(1), "heron")
	sessiontest.Stopped(t, l, sessiontest.NthID(4), "heron")
	_, err := l.Scope(sessiontest.ScopesDir + "/heron.toml")
	require.NoError(t, err)
	require.NoError(t, l.SaveKit(scope.Kit{Name: "Loan 1", Laser: scope.Laser{Class: "2"}}))
	other := sessiontest.OpenShelf(t)
	sessiontest.Stopped(t, other, sessiontest.NthID(2), "wren")
	heron, err := os.ReadFile(sessiontest.ScopesDir + "/heron.toml")
	require.NoError(t, err)
	wren, err := os.ReadFile(sessiontest.ScopesDir + "/wren.toml")
	require.NoError(t, err)
	journal := func(l *shelf.Shelf, n int) string {
		return readFile(t, filepath.Join(l.Dir(), "journals", sessiontest.NthID(n)+".jsonl"))
	}
	changed := resummed(t, strings.Replace(journal(l, 4), sessiontest.NthID(4), sessiontest.NthID(1), 1))
	require.NotEqual(t, journal(l, 1), changed)

	refused := []string{
		"scopes/HERON.toml", strings.Replace(string(heron), "circle_radius_mm = 14", "circle_radius_mm = 16", 1),
		`another scope "Heron" is here, with other content`,
		"scopes/bad.toml", "aperture_mm = -1", "expected",
		"scopes/long.toml", strings.Repeat("# more\n", 1<<17), "too long",
		"kits/Loan 1.toml", `class = "1"`, `another kit "Loan 1" is here`,
		"kits/con.toml", `class = "1"`, "reserved",
		"kits/a:b.toml", `class = "1"`, "letters, digits",
		"journals/" + sessiontest.NthID(1) + ".jsonl", changed, "went on differently here",
		"journals/" + sessiontest.NthID(3) + ".jsonl", journal(l, 1), "line 1 is of session",
		"journals/" + sessiontest.NthID(5) + ".jsonl", "hello\n", "no checksum",
		"journals/" + sessiontest.NthID(6) + ".jsonl", "", "there is no line in it",
		"journals/notes.jsonl", journal(other, 2), "no session's id",
		"../outside.toml", string(wren), "no file of a data directory",
		"scopes/../../outside.toml", string(wren), "no file of a data directory",
		`scopes\..\..\outside.toml`, string(wren), "no file of a data directory",
		"/etc/outside", "x", "no file of a data directory",
		"scopes/retired/../../x.toml", string(wren), "no file of a data directory",
		"journals/../" + sessiontest.NthID(2) + ".jsonl", journal(other, 2), "no file of a data directory",
		"trainees/Ada/x.toml", "x", "no file of a data directory",
		"readme.txt", "x", "no file of a data directory",
		"SCOPES/Wren.TOML", string(wren), "no file of a data directory",
	}
	entries := []string{packNote, `{"v":1}`}
	for i := 0; i < len(refused); i += 3 {
		entries = append(entries, refused[i], refused[i+1])
	}
	entries = append(entries, "scopes/Wren.toml", string(wren), "scopes/second.toml", string(wren), "scopes/", "", "journals/"+sessiontest.NthID(2)+".jsonl", journal(other, 2))
	before := everything(t, l.Dir())
	taken := take(t, l, zipOf(t, entries...))

	assert.Equal(t, 1, taken.Scopes)
	assert.Equal(t, 1, taken.Journals)
	assert.Equal(t, 1, taken.Known, "the same again")
	require.Len(t, taken.Refused, len(refused)/3)
	for i := 0; i < len(refused)/3; i++ {
		sessiontest.AssertPlain(t, taken.Refused[i])
		assert.ErrorContains(t, taken.Refused[i], refused[3*i+2], refused[3*i])
		assert.ErrorContains(t, taken.Refused[i], fmt.Sprintf("%.20q", refused[3*i])[:8])
	}
	after := everything(t, l.Dir())
	delete(after, "journals/"+sessiontest.NthID(2)+".jsonl")
	delete(after, "scopes/Wren.toml")
	for _, kept := range []string{"records.jsonl", "records.lock"} {
		delete(before, kept)
		delete(after, kept)
	}
	assert.Equal(t, before, after, "nothing that was here has changed, and nothing else came in")
}

func TestTakeGoesOnWithASessionThatWentOnElsewhere(t *testing.T) {
	here, there := sessiontest.OpenShelf(t), sessiontest.OpenShelf(t)
	s, j := sessiontest.Begun(t, there, sessiontest.NthID(1), "heron")
	take(t, here, packOf(t, there))
	f, errs := here.Forget("Ada")
	require.Empty(t, errs)
	assert.Equal(t, 1, f.Journals)

	require.NoError(t, s.Do(event.Event{Kind: event.KindStop}))
	require.NoError(t, s.Do(event.Event{Kind: event.KindConfirm}))
	require.True(t, s.State().Over)
	require.NoError(t, j.Close())
	longer := packOf(t, there)
	held, lines, _, err := here.OpenJournal(sessiontest.NthID(1), "Ben", sessiontest.Ticking())
	require.NoError(t, err)
	taken := take(t, here, longer)
	require.Len(t, taken.Refused, 1)
	assert.ErrorContains(t, taken.Refused[0], "is open in")
	require.NoError(t, held.Close())

	assert.Equal(t, shelf.Taken{Longer: 1}, take(t, here, longer))
	now, report, err := here.ReadJournal(sessiontest.NthID(1))
	require.NoError(t, err)
	assert.Empty(t, report.String())
	assert.Greater(t, len(now), len(lines))
	r, err := here.Record(sessiontest.NthID(1))
	require.NoError(t, err)
	assert.Equal(t, session.OutcomeStopped, r.Outcome)
	assert.NotContains(t, readFile(t, filepath.Join(here.Dir(), "journals", sessiontest.NthID(1)+".jsonl")), "Ada")

	assert.Equal(t, shelf.Taken{Known: 1}, take(t, here, longer))
	assert.Equal(t, shelf.Taken{Known: 1}, take(t, there, packOf(t, here)), "the shorter one is known there")
}

func TestNoPacks(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	for name, c := range map[string]struct {
		data []byte
		says string
	}{
		"nothing":       {nil, "this is no pack"},
		"a text":        {[]byte("hello"), "this is no pack"},
		"another zip":   {zipOf(t, "a.txt", "x"), "there is no spotward-pack.json"},
		"a broken note": {zipOf(t, packNote, "x"), "cannot be read"},
		"a long note":   {zipOf(t, packNote, strings.Repeat(" ", 1<<20)), "too long"},
		"a newer one":   {zipOf(t, packNote, `{"v":2}`, "scopes/x.toml", "x"), "newer program (version 2)"},
		"cut short":     {packOf(t, l)[:20], "this is no pack"},
	} {
		_, err := l.Take(bytes.NewReader(c.data), int64(len(c.data)))
		require.ErrorContains(t, err, c.says, name)
		sessiontest.AssertPlain(t, err)
	}
}

func TestLinksInPacksAreRefused(t *testing.T) {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	w, err := z.Create(packNote)
	require.NoError(t, err)
	_, err = io.WriteString(w, `{"v":1}`)
	require.NoError(t, err)
	h := &zip.FileHeader{Name: "scopes/Wren.toml"}
	h.SetMode(fs.ModeSymlink | 0o777)
	w, err = z.CreateHeader(h)
	require.NoError(t, err)
	_, err = io.WriteString(w, "/etc/passwd")
	require.NoError(t, err)
	require.NoError(t, z.Close())
	taken := take(t, sessiontest.OpenShelf(t), out.Bytes())
	require.Len(t, taken.Refused, 1)
	assert.ErrorContains(t, taken.Refused[0], "not a plain file")
}

// takeAnything takes a pack twice: nothing that is here changes, nothing lands
// outside, and the second time brings nothing.
func takeAnything(t *testing.T, pack []byte) {
	top := t.TempDir()
	l, err := shelf.Open(filepath.Join(top, "data"))
	require.NoError(t, err)
	kit := filepath.Join(l.Dir(), "kits", "Loan 1.toml")
	require.NoError(t, os.WriteFile(kit, []byte("class = \"1\"\n"), 0o644))
	taken, err := l.Take(bytes.NewReader(pack), int64(len(pack)))
	for _, err := range append(taken.Refused, err) {
		if err != nil {
			sessiontest.AssertPlain(t, err)
		}
	}
	after := everything(t, top)
	require.Equal(t, "class = \"1\"\n", after["data/kits/Loan 1.toml"])
	for path := range after {
		require.Regexp(t, `^data/(scopes/(retired/)?|kits/)[^/]+\.toml$|^data/journals/[0-9TZa-f-]+\.jsonl$|^data/records\.(jsonl|lock)$`, path)
	}
	again, second := l.Take(bytes.NewReader(pack), int64(len(pack)))
	require.Equal(t, err == nil, second == nil)
	require.Zero(t, again.Scopes+again.Kits+again.Journals+again.Longer)
	require.Equal(t, after, everything(t, top))
}

func FuzzTake(f *testing.F) {
	good := zipOf(f, packNote, `{"v":1}`, "kits/a.toml", `class="2"`)
	f.Add(good)
	f.Add(good[:len(good)-30])
	f.Add(zipOf(f, packNote, `{"v":1}`, "scopes/../x.toml", "x", "journals/x", "y"))
	f.Fuzz(func(t *testing.T, pack []byte) { takeAnything(t, pack) })
}

func FuzzTakeEntry(f *testing.F) {
	l, err := shelf.Open(f.TempDir())
	require.NoError(f, err)
	fillShelf(f, l, 1, 1)
	for path, text := range map[string]string{
		"kits/a.toml": `class="2"`, "scopes/../x.toml": "x", "records.jsonl": `{"id":"` + sessiontest.NthID(1) + `"}`,
		"scopes/Wren.toml": "name = \"Wren\"\nformat = 1\naperture_mm = 200\nfocal_length_mm = 1000\n",
	} {
		f.Add(path, []byte(text), path, []byte(text))
	}
	ids, err := os.ReadDir(filepath.Join(l.Dir(), "journals"))
	require.NoError(f, err)
	first := ids[0].Name()
	journal, err := os.ReadFile(filepath.Join(l.Dir(), "journals", first))
	require.NoError(f, err)
	f.Add("journals/"+first, journal, "journals/"+first, journal[:len(journal)/2])
	f.Fuzz(func(t *testing.T, name string, data []byte, second string, more []byte) {
		var out bytes.Buffer
		z := zip.NewWriter(&out)
		for _, e := range []struct {
			name string
			data []byte
		}{{packNote, []byte(`{"v":1}`)}, {name, data}, {second, more}} {
			w, err := z.Create(e.name)
			if err != nil {
				t.Skip()
			}
			_, err = w.Write(e.data)
			if err != nil {
				t.Skip() // a folder
			}
		}
		require.NoError(t, z.Close())
		takeAnything(t, out.Bytes())
	})
}
