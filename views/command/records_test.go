package command_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
	"spotward/session/words"
	"spotward/views/command"
	"spotward/views/desk"
)

// keeper looks after one scope over the years.
type keeper struct {
	t     *testing.T
	desk  *desk.Desk
	scope scope.Scope
	world *virtual.World
	now   time.Time
}

func newKeeper(t *testing.T, dir string) *keeper {
	t.Helper()
	l, err := shelf.Open(dir)
	require.NoError(t, err)
	scope, err := l.Scope(root + "/testdata/scopes/heron.toml")
	require.NoError(t, err)
	k := &keeper{t: t, scope: scope, world: virtual.New(scope.Telescope(), virtual.Easy, 5), now: time.Date(2026, 4, 1, 19, 0, 0, 0, time.UTC)}
	k.desk = &desk.Desk{Library: l, Who: "Ada", Program: "test", Now: func() time.Time {
		k.now = k.now.Add(20 * time.Second)
		return k.now
	}}
	return k
}

// align plays a whole session: what is told is turned, what is seen is typed.
func (k *keeper) align() string {
	k.t.Helper()
	w, err := k.desk.Align(k.scope, false)
	require.NoError(k.t, err)
	k.world.LaserOn(true)
	k.world.Card(true)
	for n := 0; !w.Over(); n++ {
		require.Less(k.t, n, 200, "no end in sight at %s", w.State().Stage().ID)
		ask := w.State().Ask()
		if ask.Told != nil {
			k.turn(ask.Told.Moves)
		}
		line := ""
		switch {
		case ask.Want == session.WantReading:
			if ask.Stage.ID == session.StageSecondary && ask.Told == nil {
				k.world.Snug(optics.Secondary)
			}
			line = k.world.Eyes(ask.Face).String()
		case ask.Want == session.WantConfirm && ask.Stage.ID == session.StageSwing:
			k.world.Swing()
		}
		_, err := w.Line(line)
		require.NoError(k.t, err, "%q at %s", line, ask.Stage.ID)
	}
	id, err := w.Close()
	require.NoError(k.t, err)
	return id
}

func (k *keeper) turn(moves []event.ToldMove) {
	for _, m := range moves {
		for i, label := range k.scope.Telescope().Cell(m.Mirror).Labels {
			switch label {
			case m.Screw:
				k.world.Turn(m.Mirror, i, m.Turns)
			case m.Lock:
				k.world.TurnLock(i, m.Turns)
			}
		}
	}
}

// lend takes the scope out of the shed for some weeks, in which one of the
// secondary's screws works loose and another takes up.
func (k *keeper) lend(weeks, screw int) {
	k.now = k.now.AddDate(0, 0, 7*weeks)
	k.world.TurnExactly(optics.Secondary, screw%3, -0.22)
	k.world.TurnExactly(optics.Secondary, (screw+1)%3, 0.22)
}

// run runs the command line and returns what it said.
func run(t *testing.T, exit int, args ...string) (out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	require.Equal(t, exit, command.Run(args, command.Streams{In: strings.NewReader(""), Out: &o, Err: &e}), "%s\n%s", o.String(), e.String())
	return o.String(), e.String()
}

// Three seasons of a scope whose secondary works loose, as its keeper sees
// them: list, fleet, drift, pages, another laptop, and a name taken out.
func TestThreeSeasonsOfALooseSecondary(t *testing.T) {
	sessiontest.Whole(t)
	t.Setenv("TERM", "xterm")
	dir, out := filepath.Join(t.TempDir(), "data"), t.TempDir()
	k := newKeeper(t, dir)
	ids := []string{k.align()}
	for season := range 3 {
		for visit := range 2 {
			k.lend(5+visit, season+visit)
			ids = append(ids, k.align())
		}
		k.now = k.now.AddDate(0, 8, 0)
	}
	data := "--data=" + dir

	list, _ := run(t, 0, "records", "HERON", data)
	assert.Equal(t, len(ids)+1, strings.Count(list, "\n"))
	list, _ = run(t, 0, "records", data, "--since", "2027", "--until", "2027", "--who", "ada")
	assert.Equal(t, 1+strings.Count(strings.Join(ids, " "), " 2027"), strings.Count(list, "\n"), list)
	_, errs := run(t, 2, "records", data, "--since", "spring")
	assert.Contains(t, errs, "expected one like 2026-03-01")

	drift, _ := run(t, 0, "records", "drift", "heron", data)
	t.Log(drift)
	assert.Contains(t, drift, "Secondary works loose (")
	assert.Contains(t, drift, "leave the primary")
	fleet, _ := run(t, 0, "records", "fleet", data, "--ascii")
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	last, err := lib.Record(ids[len(ids)-1])
	require.NoError(t, err)
	tag := words.Tag(last.Tag)
	assert.Regexp(t, `Heron +`+tag+` .*secondary works loose.*the secondary's screws`, fleet, "with the tag that was put on last")
	assertASCII(t, fleet)

	full, _ := run(t, 0, "records", "show", ids[1], data)
	for _, want := range []string{"Ada", "on the primary", "return spot", "in all records", "a turn moves the spot", "Strehl"} {
		assert.Contains(t, full, want)
	}
	latest, _ := run(t, 0, "records", "show", "heron", data)
	assert.Contains(t, latest, ids[len(ids)-1], "by the scope's name, its last")
	again, _ := run(t, 0, "records", "show", ids[1][len(ids[1])-6:], data)
	assert.Equal(t, full, again, "by the end of its id")
	told, _ := run(t, 0, "records", "replay", "heron", "--plain", data)
	assert.Contains(t, told, "Heron")
	both, _ := run(t, 0, "records", "compare", ids[2], ids[1], data)
	assert.Less(t, strings.Index(both, ids[1]), strings.Index(both, ids[2]), "the older one first")
	assert.Contains(t, both, "That points to:")
	both, _ = run(t, 0, "records", "compare", ids[1], ids[4], data)
	assert.Contains(t, both, "Of 2 sessions in between")

	page := filepath.Join(out, "heron.html")
	said, _ := run(t, 0, "records", "print", ids[1], "--to", page, data)
	assert.Contains(t, said, "a page of Heron")
	text, err := os.ReadFile(page)
	require.NoError(t, err)
	assert.Contains(t, string(text), ids[1])
	run(t, 0, "records", "print", ids[1], "--to", page, "--label", data)
	_, errs = run(t, 1, "records", "print", ids[1], "--to", filepath.Join(dir, "scopes", "Heron.toml"), data)
	assert.Contains(t, errs, "in the data directory")
	run(t, 2, "records", "print", ids[1], data)

	table, _ := run(t, 0, "records", "export", "heron", "--to", "-", data)
	lines, err := csv.NewReader(strings.NewReader(table)).ReadAll()
	require.NoError(t, err)
	assert.Len(t, lines, len(ids)+1)
	file := filepath.Join(out, "all.json")
	run(t, 0, "records", "export", "--to", file, data)
	text, err = os.ReadFile(file)
	require.NoError(t, err)
	assert.True(t, json.Valid(text))
	run(t, 2, "records", "export", "--to", "-", "--format", "xml", data)

	pack, other := filepath.Join(out, "shed.zip"), "--data="+filepath.Join(t.TempDir(), "data")
	said, _ = run(t, 0, "records", "pack", "--to", pack, data)
	assert.Contains(t, said, fmt.Sprintf("1 scope, 0 kits, %d sessions", len(ids)))
	said, _ = run(t, 0, "records", "take", pack, other)
	assert.Contains(t, said, fmt.Sprintf("Taken: 1 scope, 0 kits, %d sessions. Here already: 0. Refused: 0.", len(ids)))
	there, _ := run(t, 0, "records", "fleet", other, "--ascii")
	assert.Equal(t, fleet, there)
	said, _ = run(t, 0, "records", "take", pack, other)
	assert.Contains(t, said, fmt.Sprintf("Taken: 0 scopes, 0 kits, 0 sessions. Here already: %d.", len(ids)+1))
	_, errs = run(t, 1, "records", "take", page, other)
	assert.Contains(t, errs, "this is no pack")

	said, _ = run(t, 0, "records", "forget", "ada", data)
	assert.Contains(t, said, fmt.Sprintf("out of %d records and %d journals", len(ids), len(ids)))
	list, _ = run(t, 0, "records", data)
	assert.NotContains(t, list, "Ada")
	still, _ := run(t, 0, "records", "drift", "heron", data)
	assert.Equal(t, drift, still)
}

func TestScopesCopy(t *testing.T) {
	data := "--data=" + t.TempDir()
	said, _ := run(t, 0, "scopes", "copy", "dunlin", "Dunlin 2", data)
	assert.Contains(t, said, "Dunlin 2 is saved.")
	list, _ := run(t, 0, "scopes", data)
	assert.Contains(t, list, "Dunlin 2")
	_, errs := run(t, 1, "scopes", "copy", "dunlin", "dunlin 2", data)
	assert.Contains(t, errs, "known here already")
	_, errs = run(t, 1, "scopes", "copy", "dunlin", "../x", data)
	assert.Contains(t, errs, "letters, digits")
}

func TestEmptyShelf(t *testing.T) {
	data := "--data=" + t.TempDir()
	out, _ := run(t, 0, "records", "fleet", data)
	assert.Contains(t, out, "No scopes yet")
	_, errs := run(t, 1, "records", "drift", "heron", data)
	assert.Contains(t, errs, "no records of heron")
	_, errs = run(t, 1, "records", "show", "x", data)
	assert.Contains(t, errs, "spotward records lists them")
}

func assertASCII(t *testing.T, text string) {
	t.Helper()
	for _, r := range text {
		require.Less(t, r, rune(0x80), "%q", text)
	}
}
