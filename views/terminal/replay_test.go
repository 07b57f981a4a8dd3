package terminal

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/journal"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/terminal/align"
	"spotward/views/terminal/past"
)

// keptShelf returns a desk on a shelf of the whole sessions that are kept, and
// their ids by name.
func keptShelf(t testing.TB) (*desk.Desk, map[string]string) {
	dir := kept.copied(t, fillKept)
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	ids := map[string]string{}
	for _, file := range keptFiles(t) {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		var begun struct{ ID string }
		require.NoError(t, json.NewDecoder(bytes.NewReader(data)).Decode(&begun))
		ids[strings.TrimSuffix(filepath.Base(file), ".jsonl")] = begun.ID
	}
	return &desk.Desk{Library: lib, Program: "test", Now: noon}, ids
}

// fillKept lays the kept sessions on a shelf and has them summed up.
func fillKept(t testing.TB, dir string) {
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	for _, file := range keptFiles(t) {
		lines, _, err := journal.Read(file)
		require.NoError(t, err)
		events, err := session.Events(lines)
		require.NoError(t, err)
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(dir, "journals", events[0].ID+".jsonl"), data, 0o644))
	}
	_, errs := lib.Records()
	require.Empty(t, errs)
}

func keptFiles(t testing.TB) []string {
	files, err := filepath.Glob(fmt.Sprintf("../../testdata/journals/whole/way-%d/*.jsonl", session.Way))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	return files
}

// lookingBack opens kept sessions by their names: one is replayed, two are
// compared.
func lookingBack(t testing.TB, cols, rows int, o Options, env func(string) string, names ...string) *player {
	inUTC(t)
	d, ids := keptShelf(t)
	o.Start = StartRecords
	for _, n := range names {
		require.Contains(t, ids, n)
		o.Records = append(o.Records, ids[n])
	}
	a, err := newApp(d, o, env)
	require.NoError(t, err)
	a.Crash.Dir = t.TempDir()
	p := &player{t, a}
	p.size(cols, rows)
	return p
}

// inUTC has the times of day on the screens be the same everywhere.
func inUTC(t testing.TB) {
	local := time.Local
	time.Local = time.UTC
	t.Cleanup(func() { time.Local = local })
}

func (p *player) past() *past.Screen {
	s, ok := p.Top().Screen.(*past.Screen)
	require.True(p.t, ok, "%T", p.Top().Screen)
	return s
}

// What is shown of a step does not hang on the way one came to it.
func TestForwardAndBackAreTheSame(t *testing.T) {
	sessiontest.Whole(t)
	for _, size := range [][2]int{{60, 18}, {80, 24}, {120, 36}}[:sessiontest.Of(1, 1, 3)] {
		for _, name := range []string{"usual", "taken-up-again", "undone"} {
			p := lookingBack(t, size[0], size[1], Options{}, env(), name)
			var forward []string
			for {
				forward = append(forward, p.View())
				last := len(forward)
				p.press(tea.KeyRight)
				if p.View() == forward[last-1] {
					break
				}
			}
			require.True(t, p.past().Over())
			require.Greater(t, len(forward), len(p.past().Steps), "the steps and the record after them")
			for i := len(forward) - 1; i >= 0; i-- {
				require.Equal(t, forward[i], p.View(), "%s: page %d", name, i)
				p.press(tea.KeyLeft)
			}
			require.Equal(t, forward[0], p.View(), "before the first is nothing")
		}
	}
}

// The record in the list of records is the last frame of the replay.
func TestTheRecordIsTheLastFrame(t *testing.T) {
	sessiontest.Whole(t)
	p := lookingBack(t, 80, 24, Options{}, env(), "usual")
	p.press(tea.KeyEnd)
	last := p.View()
	d := p.Desk
	a, err := newApp(d, Options{}, env())
	require.NoError(t, err)
	q := &player{t, a}
	q.size(80, 24)
	q.enters("records")
	records, errs := d.Library.Records()
	require.Empty(t, errs)
	n := 0
	for i := range records {
		if records[i].ID == p.past().R.ID {
			n = len(records) - i
		}
	}
	q.enters(fmt.Sprint(n))
	require.Equal(t, last, q.View())
	q.enters("first")
	p.press(tea.KeyHome)
	require.Equal(t, p.View(), q.View())
}

func TestWordsOfAReplay(t *testing.T) {
	sessiontest.Whole(t)
	p := lookingBack(t, 80, 24, Options{}, env(), "usual")
	steps := len(p.past().Steps)
	for _, c := range []struct {
		typed string
		at    int
	}{
		{"", 1}, {"next", 2}, {"back", 1}, {"step 12", 11}, {"7", 6}, {"step7", 6}, {"STEP 9", 8}, {"b", 7}, {"last", steps},
		{"back", steps - 1}, {"first", 0}, {"back", 0}, {fmt.Sprint(steps), steps - 1}, {"record", steps},
	} {
		p.enters(c.typed)
		require.False(t, p.Bad, "%q: %s", c.typed, p.Note)
		require.Equal(t, c.at, p.past().At, c.typed)
		require.Empty(t, p.Top().Line.String(), c.typed)
	}
	for typed, says := range map[string]string{
		"step 0": "there are steps 1 to", "step 999": "there are steps 1 to", "step": "say: next, back", "hop": "say: next, back",
		"play 0": "is no pace", "play soon": "is no pace", "play 0.01": "is no pace", "play 1e9": "is no pace", "play nan": "is no pace",
	} {
		before := p.past().At
		p.enters(typed)
		require.True(t, p.Bad, typed)
		require.Contains(t, p.Note, says, typed)
		require.NotContains(t, p.Note, "\n")
		require.Equal(t, before, p.past().At, typed)
		require.Equal(t, typed, p.Top().Line.String(), "what was not taken stays")
		p.Top().Line.Set("")
	}
	p.enters("last")
	first := p.View()
	p.press(tea.KeyRight)
	require.NotEqual(t, first, p.View())
	p.enters("first")
	p.enters("last")
	require.Equal(t, first, p.View(), "the record begins at its first page")
	p.enters("step 17")
	p.enters("why")
	require.Contains(t, p.View(), "TOLD THEN")
	p.press(tea.KeyEsc)
	require.Equal(t, 16, p.past().At)
	p.types("x")
	p.press(tea.KeyLeft)
	require.Equal(t, 16, p.past().At, "with something typed the arrows are the line's")
	_, cmd := p.Update(tea.KeyMsg{Type: tea.KeyEsc})
	require.NotNil(t, cmd)
	require.True(t, p.Quitting)
}

// What the adviser told at a step is what the journal says, and so is what was
// known.
func TestAStepShowsWhatWasKnown(t *testing.T) {
	sessiontest.Whole(t)
	p := lookingBack(t, 120, 36, Options{}, env(), "usual")
	told, claimed := 0, 0
	for i, step := range p.past().Steps {
		p.enters(fmt.Sprint(i + 1))
		view := strings.Join(strings.Fields(p.View()), " ")
		st := step.Last().State
		require.Contains(t, view, fmt.Sprintf("step %d of %d", i+1, len(p.past().Steps)))
		if st.Over {
			continue
		}
		if move := st.Told(); move != nil {
			told++
			require.Contains(t, view, "TOLD")
			require.Contains(t, p.View(), words.TurnsText(move.Moves[0].Turns))
			for _, word := range strings.Fields("(" + align.Sure(move.Trust) + ")") { // it may go on in the next row, beside a drawing
				require.Contains(t, view, word)
			}
		} else {
			require.NotContains(t, view, "TOLD")
		}
		if mm, _, ok := st.AxisError(); ok {
			claimed++
			require.Contains(t, view, fmt.Sprintf("%.1f mm, at most", mm))
		} else {
			require.Contains(t, view, "not known, both must be seen")
		}
	}
	require.Greater(t, told, 5)
	require.Greater(t, claimed, 5)
}

// It goes on by itself only while it is told to: each tick asks for the next,
// and a tick of a run that was stopped does nothing.
func TestPlaying(t *testing.T) {
	p := lookingBack(t, 80, 24, Options{}, env(), "both-mirrors")
	enter := func(text string) tea.Cmd {
		p.types(text)
		return p.press(tea.KeyEnter)
	}
	tick := func() tea.Cmd {
		_, cmd := p.Update(past.TickMsg{Of: p.past(), Run: p.past().Runs})
		return cmd
	}
	require.Nil(t, enter("next"), "nothing is due while it stands still")
	require.Nil(t, tick())
	require.Equal(t, 1, p.past().At)
	require.NotNil(t, enter("play 0.5"))
	require.Equal(t, 500*time.Millisecond, p.past().Pace)
	require.NotNil(t, tick())
	require.NotNil(t, tick())
	require.Equal(t, 3, p.past().At)
	require.Contains(t, p.View(), "playing")
	old := past.TickMsg{Of: p.past(), Run: p.past().Runs}
	require.Nil(t, enter("pause"))
	require.Nil(t, tick())
	require.NotNil(t, enter("play"))
	require.Equal(t, 2*time.Second, p.past().Pace)
	_, cmd := p.Update(old)
	require.Nil(t, cmd, "a tick of the run before")
	require.Equal(t, 3, p.past().At)

	require.Nil(t, enter("help"))
	_, cmd = p.Update(past.TickMsg{Of: p.Stack[0].Screen.(*past.Screen), Run: p.Stack[0].Screen.(*past.Screen).Runs})
	require.Nil(t, cmd, "nothing goes on below another page")
	p.press(tea.KeyEsc)
	require.Zero(t, p.past().Pace)

	enter("play")
	p.press(tea.KeyLeft)
	require.Nil(t, tick(), "a key of one's own stops it")
	enter("play 0.2")
	for range p.past().Steps {
		tick()
	}
	require.True(t, p.past().Over())
	require.Zero(t, p.past().Pace, "at the record it stops")
	require.NotNil(t, enter("play"))
	require.Equal(t, 0, p.past().At, "from there it begins anew")
}

// A tick is asked for once while it plays, and the screen is not looked over
// any more often than it changes.
func TestATickComesAtThePace(t *testing.T) {
	p := lookingBack(t, 80, 24, Options{}, env(), "left-alone")
	p.types("play 0.2")
	cmd := p.press(tea.KeyEnter)
	began := time.Now()
	msg := cmd()
	require.GreaterOrEqual(t, time.Since(began), 200*time.Millisecond)
	require.Equal(t, past.TickMsg{Of: p.past(), Run: 1}, msg)
}

func TestLookBackRefuses(t *testing.T) {
	d, ids := keptShelf(t)
	for _, c := range [][]string{{"nonsense"}, {"20200101T000000Z-0000"}, {ids["usual"], "20200101T000000Z-0000"}} {
		_, err := newApp(d, Options{Start: StartRecords, Records: c}, env())
		require.Error(t, err, "%v", c)
		require.NotContains(t, err.Error(), "\n")
	}
	_, err := newApp(&desk.Desk{Now: noon}, Options{Start: StartRecords, Records: []string{ids["usual"]}}, env())
	require.ErrorIs(t, err, past.ErrNoRecords)
}

// A session that was left in the middle can be looked back at like the others.
func TestReplayOfAnUnfinishedSession(t *testing.T) {
	lib, err := shelf.Open(t.TempDir())
	require.NoError(t, err)
	kept, ids := keptShelf(t)
	name := filepath.Join("journals", ids["both-mirrors"]+".jsonl")
	data, err := os.ReadFile(filepath.Join(kept.Library.Dir(), name))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(lib.Dir(), name), data[:len(data)*2/3], 0o644))
	d := &desk.Desk{Library: lib, Program: "test", Now: noon}
	a, err := newApp(d, Options{Start: StartRecords, Records: []string{ids["both-mirrors"]}}, env())
	require.NoError(t, err)
	p := &player{t, a}
	p.size(80, 24)
	p.press(tea.KeyEnd)
	require.Contains(t, p.View(), "unfinished")
	all := p.View()
	for p.past().Album.More() {
		p.press(tea.KeyRight)
		all += p.View()
	}
	require.Contains(t, all, "was cut short")
}

func TestCompareTwoRecords(t *testing.T) {
	sessiontest.Whole(t)
	p := lookingBack(t, 80, 24, Options{}, env(), "undone", "usual")
	first := p.View()
	require.Contains(t, first, "5 Mar 26, then 6 Mar 26", "the older one first")
	q := lookingBack(t, 80, 24, Options{}, env(), "usual", "undone")
	require.Equal(t, first, q.View())
	p.press(tea.KeyEnter)
	said := strings.Join(strings.Fields(p.View()), " ")
	require.Contains(t, said, "aligned: both spots were brought home, and read again after the swing")
	require.Regexp(t, `(hold back|ready, with a note|ready for low power): [^|]+ \| ready`, said)
	p.press(tea.KeyLeft)
	require.Equal(t, first, p.View())

	a, err := newApp(p.Desk, Options{}, env())
	require.NoError(t, err)
	l := &player{t, a}
	l.size(80, 24)
	l.enters("records")
	list := l.Top().Screen.(*past.RecordList)
	for _, typed := range []string{"compare", "compare 1", "compare 1 99", "compare 1 x", "compare 1 2 3", "replay", "replay 0", "1 2"} {
		l.enters(typed)
		require.True(t, l.Bad, typed)
		require.Same(t, list, l.Top().Screen)
		l.Top().Line.Set("")
	}
	l.enters("compare 1 2")
	require.Equal(t, first, l.View())
	l.press(tea.KeyEsc)
	l.enters("replay 2")
	require.Equal(t, 0, l.past().At)
}
