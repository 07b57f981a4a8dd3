package desk_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/views/desk"
)

const keptJournals = "../../testdata/journals"

var wholeOnes = fmt.Sprintf("%s/whole/way-%d", keptJournals, session.Way)

// keptSessions are whole sessions on the practice telescope, as somebody who
// does as told and sees as people see types them.
var keptSessions = []struct {
	name  string
	world event.World
	plays func(t *testing.T, d *desk.Desk, w *desk.Work) *desk.Work
}{
	{"both-mirrors", event.World{Seed: 3, Level: "easy"}, nil},
	{"left-alone", event.World{Seed: 5, Level: "lesson-good"}, nil},
	{"secondary-stuck", event.World{Seed: 11, Level: "usual"}, func(t *testing.T, _ *desk.Desk, w *desk.Work) *desk.Work {
		plays(t, w, func(ask session.Ask) bool { return ask.Stage.ID == session.StageSecondary })
		typed(t, w, session.VerdictSecondary)
		plays(t, w, func(ask session.Ask) bool { return ask.Stage.ID == session.StageSecondary && ask.Told != nil })
		typed(t, w, "stuck "+w.State().Told().Moves[0].Screw)
		moves := w.State().Moves
		plays(t, w, func(session.Ask) bool { return w.State().Moves > moves+4 })
		typed(t, w, "stop safely")
		return w
	}},
	{"taken-up-again", event.World{Seed: 4, Level: "easy"}, func(t *testing.T, d *desk.Desk, w *desk.Work) *desk.Work {
		plays(t, w, func(ask session.Ask) bool { return ask.Stage.ID == session.StageHome && ask.Told != nil })
		require.NoError(t, w.Send(event.Event{Kind: event.KindQuit}))
		id := w.State().ID
		_, err := w.Close()
		require.NoError(t, err)
		again, err := d.TakeUp(id)
		require.NoError(t, err)
		typed(t, again, "no")
		return again
	}},
	{"usual", event.World{Seed: 8, Level: "hard"}, nil},
	{"undone", event.World{Seed: 6, Level: "easy"}, func(t *testing.T, _ *desk.Desk, w *desk.Work) *desk.Work {
		plays(t, w, func(ask session.Ask) bool {
			return ask.Stage.ID == session.StageSecondary && ask.Want == session.WantReading && ask.Told == nil
		})
		typed(t, w, "9:30 40", "undo")
		return w
	}},
}

// typed types lines.
func typed(t *testing.T, w *desk.Work, lines ...string) {
	t.Helper()
	for _, line := range lines {
		_, err := w.Line(line)
		require.NoError(t, err, line)
	}
}

// plays types what is asked until it has come that far.
func plays(t *testing.T, w *desk.Work, far func(session.Ask) bool) {
	t.Helper()
	for range 200 {
		if w.Over() || far(w.State().Ask()) {
			require.False(t, w.Over(), "it never came that far")
			return
		}
		typeNext(t, w)
	}
	t.Fatal("it never comes that far")
}

// The kept journals were written by the program of their day, a set for each
// table of questions. One that is there is never written again: it has to stay
// readable.
func TestWriteKeptJournals(t *testing.T) {
	if !sessiontest.Update() {
		t.Skip("-update writes those that are missing")
	}
	require.NoError(t, os.MkdirAll(wholeOnes, 0o755))
	for i, k := range keptSessions {
		path := filepath.Join(wholeOnes, k.name+".jsonl")
		if _, err := os.Stat(path); err == nil {
			continue
		}
		d := newDesk(t)
		d.Program = "1"
		require.NoError(t, os.WriteFile(filepath.Join(d.Library.Dir(), "directory.json"), fmt.Appendf(nil, `{"dir":"00000000000000aa","count":%d}`, i+1), 0o644))
		began := time.Date(2026, 3, 1+i, 19, 30, 0, 0, time.UTC)
		d.Now = func() time.Time {
			began = began.Add(9 * time.Second)
			return began
		}
		w, err := d.Practice(scope.Builtin(), k.world)
		require.NoError(t, err)
		if k.plays != nil {
			w = k.plays(t, d, w)
		}
		finish(t, w)
		id, err := w.Close()
		require.NoError(t, err)
		data, err := os.ReadFile(filepath.Join(d.Library.Dir(), "journals", id+".jsonl"))
		require.NoError(t, err)
		fixed := regexp.MustCompile(`-[0-9a-f]{4}$`).ReplaceAllString(id, fmt.Sprintf("-%04x", 0xd0+i))
		data, err = sessiontest.Resummed(slices.Collect(bytes.Lines(bytes.ReplaceAll(data, []byte(id), []byte(fixed)))))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(path, data, 0o644))
	}
}

// kept returns the kept journals that tell a session: some of the others are
// there for the reader of lines alone, and name no scope.
func kept(t *testing.T) map[string][]event.Line { return journalsIn(t, keptJournals, wholeOnes) }

func journalsIn(t *testing.T, dirs ...string) map[string][]event.Line {
	out := map[string][]event.Line{}
	for _, dir := range dirs {
		files, err := filepath.Glob(dir + "/*.jsonl")
		require.NoError(t, err)
		for _, file := range files {
			lines, _, err := journal.Read(file)
			if err != nil || len(lines) == 0 {
				continue
			}
			events, err := session.Events(lines)
			require.NoError(t, err)
			if events[0].Scope != nil {
				out[strings.TrimSuffix(filepath.Base(file), ".jsonl")] = lines
			}
		}
	}
	return out
}

// A replay ends where the record ends, and tells all that stands in the
// journal, each event once and in its order.
func TestReplayEndsInTheStateOfTheRecord(t *testing.T) {
	over := 0
	for name, all := range kept(t) {
		lines := all
		frames, err := desk.FramesOf(lines, "test")
		if way := new(session.WayError); errors.As(err, &way) {
			continue // an earlier way is not folded
		}
		require.NoError(t, err, name)
		if lines[len(lines)-1].Kind == string(event.KindRecord) {
			lines = lines[:len(lines)-1]
		}
		require.Len(t, frames, len(lines), name)
		told := 1
		for _, s := range desk.Steps(frames) {
			assert.True(t, slices.ContainsFunc(s.Frames, func(f desk.Frame) bool {
				return f.Event.Kind != event.KindHand && f.Event.Kind != event.KindAdvised && !f.Event.Implied
			}), "%s: a step is what a person did", name)
			for _, f := range s.Frames {
				assert.Equal(t, frames[told], f, "%s: event %d", name, told)
				told++
			}
		}
		assert.Equal(t, len(frames), told, name)
		r, done, err := sessiontest.Summarise(all)
		require.NoError(t, err, name)
		last := frames[len(frames)-1].State
		assert.Equal(t, done, last.Over, name)
		if done {
			over++
			end := last.Record()
			end.Began, end.Ended = all[0].T, all[len(all)-1].T
			require.Len(t, end.FoundOut, len(r.FoundOut), name)
			require.Equal(t, r.TagWhy == "", end.TagWhy == "", name)
			end.TagWhy = r.TagWhy // the same, said in the words of its day
			for i, f := range r.FoundOut {
				end.FoundOut[i].Words = f.Words
			}
			assertSays(t, r, end, name)
		}
		looks, _ := desk.Looks(frames)
		assert.Len(t, looks, last.Looks, name) // where red shows is no look at a spot
	}
	assert.GreaterOrEqual(t, over, len(keptSessions))
}

// assertSays holds a record that was kept to what the session comes to now: all
// that it says is said still. What records have learnt to say since is new.
func assertSays(t *testing.T, kept, now session.Record, name string) {
	t.Helper()
	fields := func(r session.Record) (out map[string]any) {
		data, err := json.Marshal(r)
		require.NoError(t, err)
		require.NoError(t, json.Unmarshal(data, &out))
		return out
	}
	says := fields(now)
	for field, value := range fields(kept) {
		assert.Equal(t, value, says[field], "%s: %s", name, field)
	}
}

// What was to be seen, and what the hand felt, is told by the program that made
// the telescope, once each, and by no other.
func TestWhatWasToBeSeenIsToldByItsOwnProgram(t *testing.T) {
	d := newDesk(t)
	w, err := d.Practice(scope.Builtin(), event.World{Seed: 7, Level: "usual"})
	require.NoError(t, err)
	finish(t, w)
	id, err := w.Close()
	require.NoError(t, err)
	frames, _, err := d.Replay(id)
	require.NoError(t, err)
	seen, felt := 0, 0
	for _, f := range frames {
		if f.See != "" {
			seen++
		}
		if f.Felt != "" {
			felt++
			assert.LessOrEqual(t, strings.Count(f.Felt, "binds"), 1, f.Felt)
		}
	}
	assert.Greater(t, seen, 10)
	assert.Positive(t, felt, "a screw binds in it")
	d.Program = "another"
	frames, _, err = d.Replay(id)
	require.NoError(t, err)
	for _, f := range frames {
		assert.Empty(t, f.See)
		assert.Empty(t, f.Felt)
	}
}

// The records of the kept journals, as they were when they were kept: whatever
// the program learns, what was done stays what was done. So it is of every way that
// is still folded.
func TestKeptJournalsSayWhatTheySaid(t *testing.T) {
	for way := range session.Way + 1 {
		if !session.Folds(way) {
			continue
		}
		dir := fmt.Sprintf("%s/whole/way-%d", keptJournals, way)
		var all strings.Builder
		journals := journalsIn(t, dir)
		for _, k := range keptSessions {
			lines := journals[k.name]
			require.NotEmpty(t, lines, "%s: go test ./views/desk -run Kept -update writes it", k.name)
			r, over, err := sessiontest.Summarise(lines)
			require.NoError(t, err)
			require.True(t, over, k.name)
			fmt.Fprintf(&all, "%s: %s %s, %s; tag %s; found %.1f, left %.1f of %.1f mm; %d looks, %d moves, %d rounds; turned %s; noted %q\n", k.name, r.Scope,
				r.Verdict, r.Outcome, r.Tag, r.Found.AxisErrorMM, r.Left.AxisErrorMM, r.AllowedMM, r.Looks, r.Moves, r.Nips, strings.Join(history.NetTurnsWords(r), ", "), r.Trouble)
		}
		path := filepath.Join(dir, "records.golden")
		if sessiontest.Update() && way == session.Way {
			require.NoError(t, os.WriteFile(path, []byte(all.String()), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, string(want), all.String())
		for name, lines := range journals { // and is folded again, event by event
			frames, err := desk.FramesOf(lines, "test")
			require.NoError(t, err, name)
			assert.Equal(t, way, frames[len(frames)-1].State.Way, name)
		}
	}
}

// Each of the whole sessions shows what it was kept for.
func TestKeptSessionsAreWhatTheyAreKeptFor(t *testing.T) {
	journals := kept(t)
	has := func(name string, want func(desk.Frame) bool) {
		frames, err := desk.FramesOf(journals[name], "test")
		require.NoError(t, err)
		for _, f := range frames {
			if want(f) {
				return
			}
		}
		assert.Fail(t, "it is not in there", name)
	}
	kind := func(k event.Kind) func(desk.Frame) bool {
		return func(f desk.Frame) bool { return f.Event.Kind == k }
	}
	verdict := func(v string) func(desk.Frame) bool {
		return func(f desk.Frame) bool { return f.State.Over && f.State.Verdict == v }
	}
	has("both-mirrors", func(f desk.Frame) bool { return f.State.Outcome == session.OutcomeAligned })
	has("both-mirrors", verdict(session.VerdictBoth))
	has("both-mirrors", func(f desk.Frame) bool {
		return f.Event.Kind == event.KindReading && f.Event.Face == optics.FaceTarget
	})
	has("left-alone", verdict(session.VerdictLeave))
	has("secondary-stuck", verdict(session.VerdictSecondary))
	has("secondary-stuck", func(f desk.Frame) bool { return f.Event.Is == event.SaysStuck })
	has("taken-up-again", kind(event.KindResume))
	has("undone", kind(event.KindUndo))
}
