package talk_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
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
	"spotward/views/desk"
	"spotward/views/feed"
	"spotward/views/talk"
)

// trainee types a line whenever one is waited for: reading is asking.
type trainee struct {
	work       *desk.Work
	next       func(*desk.Work) (line string, ok bool)
	transcript *bytes.Buffer
	lines      int
}

func (tr *trainee) Read(p []byte) (int, error) {
	line, ok := tr.next(tr.work)
	tr.lines++
	if !ok || tr.lines > 200 {
		return 0, io.EOF
	}
	fmt.Fprintf(tr.transcript, "> %s\n", line)
	return copy(p, line+"\n"), nil
}

// scripted types the lines one after the other.
func scripted(lines ...string) func(*desk.Work) (string, bool) {
	return func(*desk.Work) (string, bool) {
		if len(lines) == 0 {
			return "", false
		}
		line := lines[0]
		lines = lines[1:]
		return line, true
	}
}

// obedient turns what is told and types what these eyes read.
func obedient(w *desk.Work) (string, bool) {
	ask := w.State().Ask()
	switch {
	case ask.Want == session.WantConfirm:
		return "yes", true
	case ask.Want == session.WantChoice, ask.Told != nil:
		return "", true
	}
	return w.Bench.World().Eyes(ask.Face).String(), true
}

func practise(t *testing.T, l *shelf.Shelf, seed uint64) *desk.Work {
	t.Helper()
	d := &desk.Desk{Library: l, Program: "test", Now: func() time.Time { return time.Date(2026, 3, 1, 20, 0, 0, 0, time.UTC) }}
	w, err := d.Practice(scope.Builtin(), event.World{Seed: seed, Level: string(virtual.Easy)})
	require.NoError(t, err)
	return w
}

// play plays a session by typed lines and returns what was said and typed.
func play(t *testing.T, w *desk.Work, next func(*desk.Work) (string, bool)) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, talk.Run(w, &trainee{work: w, next: next, transcript: &b}, &b))
	return b.String()
}

func library(t *testing.T) *shelf.Shelf {
	t.Helper()
	l, err := shelf.Open(t.TempDir())
	require.NoError(t, err)
	return l
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("..", "..", "testdata", "screens", "talk-"+name+".txt")
	if sessiontest.Update() {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got, "the transcript differs from %s: read it, then run with -update", file)
}

func TestWholeAlignmentByTypedLines(t *testing.T) {
	l := library(t)
	w := practise(t, l, 8)
	said := play(t, w, obedient)
	assert.Equal(t, session.OutcomeAligned, w.State().Outcome)
	assert.LessOrEqual(t, w.Bench.World().Truth().ErrorMM, w.State().AllowedMM())
	assert.Contains(t, said, "Aligned: both spots were brought home")
	records, errs := l.Records()
	assert.Empty(t, errs)
	require.Len(t, records, 1)
	assert.True(t, records[0].Practice)
	golden(t, "practice", strings.ReplaceAll(said, w.State().ID, "ID"))
}

// Whoever listens must not hear a control code, and not a cautions's text
// twice.
func TestItReadsWellAloud(t *testing.T) {
	said := play(t, practise(t, nil, 7), obedient)
	cautions := map[string]int{}
	for line := range strings.Lines(said) {
		line = strings.TrimSuffix(line, "\n")
		assert.NotContains(t, line, "\x1b")
		assert.NotContains(t, line, "..")
		for _, r := range line {
			assert.True(t, r >= ' ' && r < 0x7f, "%q in %q", r, line)
		}
		assert.LessOrEqual(t, len(line), 230, line)
		if strings.HasPrefix(line, "Caution: ") {
			cautions[line]++
		}
	}
	assert.NotEmpty(t, cautions)
	for line, n := range cautions {
		assert.Equal(t, 1, n, line)
	}
}

// asTyped gives what comes over the feed the errors and the text that the
// typed words had: the lines of the feed have no words for them.
type asTyped struct {
	*desk.Work
	typed []event.Event
}

func (a *asTyped) Send(events ...event.Event) error {
	for i := range events {
		typed := a.typed[0]
		a.typed = a.typed[1:]
		events[i].Text, events[i].Cov, events[i].Cued, events[i].Snug, events[i].Watched = typed.Text, typed.Cov, typed.Cued, typed.Snug, typed.Watched
		if events[i].Saw == event.SawHome { // over the feed it has no side that is brighter
			events[i].Right, events[i].Up = typed.Right, typed.Up
		}
	}
	return a.Work.Send(events...)
}

// overFeed puts a typed event into the words of the feed.
func overFeed(ev event.Event) map[string]any {
	switch ev.Kind {
	case event.KindConfirm:
		return map[string]any{"confirm": true}
	case event.KindChoice:
		return map[string]any{"choice": ev.Choice}
	case event.KindTurned:
		return map[string]any{"turned": ev.Turned}
	}
	switch {
	case ev.Glow == event.GlowEven:
		return map[string]any{"hole": "even"}
	case ev.Glow == event.GlowSide:
		return map[string]any{"hole": "side", "clock": optics.Dial{Right: ev.Right, Up: ev.Up}.Hour()}
	case ev.All:
		return map[string]any{"gone": true, "all": true}
	}
	switch ev.Saw {
	case event.SawGone, event.SawCantSee, event.SawHome, event.SawInRing:
		return map[string]any{string(ev.Saw): true}
	case event.SawWithin:
		return map[string]any{"within": true}
	}
	return map[string]any{"reading": map[string]any{"face": ev.Face, "right": ev.Right, "up": ev.Up}}
}

func TestTheSameEventsAsOverFeed(t *testing.T) {
	w := practise(t, nil, 7)
	play(t, w, obedient)
	var typed []event.Event
	var lines bytes.Buffer
	for _, ev := range w.State().Events() {
		if ev.Kind == event.KindBegin || ev.Kind == event.KindAdvised || ev.Kind == event.KindHand || ev.Implied {
			continue
		}
		typed = append(typed, ev)
		require.NoError(t, json.NewEncoder(&lines).Encode(overFeed(ev)))
	}
	again := &asTyped{practise(t, nil, 7), typed}
	var out bytes.Buffer
	ended, err := feed.Run(again, &lines, &out, func() (string, error) { return "", nil })
	require.NoError(t, err)
	require.True(t, ended, out.String())
	assert.Equal(t, history(t, w), history(t, again.Work))
	assert.Equal(t, w.Bench.World().Truth().Spots, again.Bench.World().Truth().Spots)
}

// history returns a session's events as they would be kept, without what
// differs from one session to the next.
func history(t *testing.T, w *desk.Work) []string {
	var out []string
	for _, ev := range w.State().Events() {
		ev.ID = ""
		b, err := json.Marshal(ev)
		require.NoError(t, err)
		out = append(out, string(ev.Kind)+" "+string(b))
	}
	return out
}

func TestWords(t *testing.T) {
	w := practise(t, nil, 7)
	said := play(t, w, scripted(
		"nonsense", "4:30 12", "status", "why", "", "", "", "see", "help", "half 4 12", "4:30 1r", "undo", "4:30 1r", "9 5", "",
		"why", "by amount", "call", "where", "help", "A -1/8", "same", "", "redo", "undo", "cautions", "skip", "stop safely", "yes",
	))
	assert.Equal(t, session.OutcomeStopped, w.State().Outcome)
	golden(t, "words", strings.ReplaceAll(said, w.State().ID, "ID"))
}

func TestAnErrorIsOneLineAndKeepsThePlace(t *testing.T) {
	for _, line := range []string{"nonsense", "4:30 12", "\x1b[2J", "\xff\xfe", strings.Repeat("a", 1<<16), "skip it", "undo"} {
		w := practise(t, nil, 7)
		var b bytes.Buffer
		require.NoError(t, talk.Run(w, strings.NewReader(line+"\n"), &b))
		_, after, found := strings.Cut(b.String(), "taken apart.\n")
		require.True(t, found)
		lines := strings.Split(after, "\n")
		assert.True(t, strings.HasPrefix(lines[0], "Not accepted: "), "%q: %q", line[:min(20, len(line))], lines[0])
		assert.True(t, strings.HasPrefix(lines[1], "The lines have ended"), lines[1])
		assert.NotContains(t, after, "\x1b")
		assert.Equal(t, session.StageReady, w.State().Ask().Stage.ID)
	}
}

func TestTakenUpAgainItStandsBeforeTheSameTelescope(t *testing.T) {
	whole := practise(t, nil, 3)
	play(t, whole, obedient)

	l := library(t)
	w := practise(t, l, 3)
	d := &desk.Desk{Library: l, Program: "test", Now: time.Now}
	for n := 0; !w.State().Over; n++ {
		require.Less(t, n, 60)
		left := 4
		play(t, w, func(w *desk.Work) (string, bool) {
			if left--; left < 0 {
				return "quit", true
			}
			return obedient(w)
		})
		if w.State().Over {
			break
		}
		before := w.Bench.World().Truth()
		var err error
		w, err = d.TakeUp(w.State().ID)
		require.NoError(t, err)
		assert.Equal(t, before, w.Bench.World().Truth())
		assert.Empty(t, w.Felt())
		for _, f := range []optics.Face{optics.FacePrimary, optics.FaceTarget} {
			assert.NotEmpty(t, w.Bench.Look(f).Words)
		}
	}
	assert.Equal(t, session.OutcomeAligned, w.State().Outcome)
	assert.Equal(t, whole.State().Outcome, w.State().Outcome)
}

func TestTheFront(t *testing.T) {
	d := &desk.Desk{Library: library(t), Program: "test", Now: time.Now}
	data, err := os.ReadFile("../../testdata/scopes/heron.toml")
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "heron.toml")
	require.NoError(t, os.WriteFile(path, data, 0o644))
	_, err = d.Library.Scope(path)
	require.NoError(t, err)

	tests := []struct {
		name, typed string
		scope       string // "": nothing was begun
		practice    bool
		check       bool
	}{
		{"practice", "1\n3\n", "Dunlin", true, false},
		{"left", "quit\n", "", false, false},
		{"ended", "", "", false, false},
		{"left at the level", "1\nq\n", "", false, false},
		{"left at the lessons", "2\nq\n", "", false, false},
		{"a slip first", "nine\n99\n1\n1\n", "Dunlin", true, false},
		{"align", "9\n", "Heron", false, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var b bytes.Buffer
			typed := tt.typed
			if tt.name == "align" { // after the unfinished ones of the cases before
				typed = "5\n"
			}
			w, err := talk.Front(d, strings.NewReader(typed), &b)
			require.NoError(t, err)
			if tt.scope == "" {
				assert.Nil(t, w)
				return
			}
			require.NotNil(t, w, b.String())
			assert.Equal(t, tt.scope, w.State().Scope.Name)
			assert.Equal(t, tt.practice, w.Bench != nil)
			assert.Equal(t, tt.check, w.State().Check)
		})
	}
}
