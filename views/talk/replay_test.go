package talk_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/sessiontest"
	"spotward/views/desk"
	"spotward/views/talk"
)

func TestReplayOfAPracticeSession(t *testing.T) {
	l := library(t)
	w := practise(t, l, 7)
	play(t, w, obedient)
	d := &desk.Desk{Library: l, Program: "test", Now: time.Now}
	frames, report, err := d.Replay(w.State().ID)
	require.NoError(t, err)
	assert.Empty(t, report.String())
	record, err := l.Record(w.State().ID)
	require.NoError(t, err)
	last := frames[len(frames)-1].State.Record()
	last.Began, last.Ended = record.Began, record.Ended
	assert.Equal(t, record, last, "the last frame is what the record says")

	var b bytes.Buffer
	require.NoError(t, talk.Replay(frames, strings.NewReader("\nback\nback\nall\n\nhop\nstatus\nhelp\nquit\nnever read\n"), &b))
	said := b.String()
	assert.Contains(t, said, "This is the beginning.")
	assert.Contains(t, said, "That was all.")
	assert.Contains(t, said, "Not accepted: Enter, back, step 1 to ")
	assert.Contains(t, said, "Truly turned: ")
	assert.Contains(t, said, "Aligned: both spots were brought home")
	assert.NotContains(t, said, "\x1b")
	assert.NotContains(t, said, "..")
	told := 0
	for _, f := range frames {
		if f.Event.Kind == event.KindAdvised {
			told++
		}
	}
	assert.Equal(t, told, strings.Count(said, "\nTold: "), "what was told then, no more and no less")
}

// One goes straight to a step, as on the drawn screens.
func TestReplayGoesStraightToAStep(t *testing.T) {
	l := library(t)
	w := practise(t, l, 7)
	play(t, w, obedient)
	d := &desk.Desk{Library: l, Program: "test", Now: time.Now}
	frames, _, err := d.Replay(w.State().ID)
	require.NoError(t, err)
	last := len(desk.Steps(frames))
	var b bytes.Buffer
	require.NoError(t, talk.Replay(frames, strings.NewReader("step 5\nback\n9\nfirst\nlast\nstep 0\nstep 999\nquit\n"), &b))
	told := regexp.MustCompile(`(?m)^Step (\d+),`).FindAllStringSubmatch(b.String(), -1)
	var at []string
	for _, m := range told {
		at = append(at, m[1])
	}
	assert.Equal(t, []string{"5", "4", "9", "1", fmt.Sprint(last)}, at)
	assert.Equal(t, 2, strings.Count(b.String(), "Not accepted"))
}

// Every kept journal is told to where it ends, the torn ones too.
func TestReplayOfKeptJournals(t *testing.T) {
	files, err := filepath.Glob("../../testdata/journals/*.jsonl")
	require.NoError(t, err)
	whole, err := filepath.Glob(fmt.Sprintf("../../testdata/journals/whole/way-%d/*.jsonl", session.Way))
	require.NoError(t, err)
	files = append(files, whole...)
	replayed := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		l := library(t)
		id := "20260301T200000Z-00aa"
		require.NoError(t, os.WriteFile(filepath.Join(l.Dir(), "journals", id+".jsonl"), data, 0o644))
		d := &desk.Desk{Library: l, Program: "test", Now: time.Now}
		frames, _, err := d.Replay(id)
		if err != nil {
			assert.NotContains(t, err.Error(), "\n", file)
			continue
		}
		replayed++
		var b bytes.Buffer
		require.NoError(t, talk.Replay(frames, strings.NewReader("all\n"), &b))
		assert.NotContains(t, b.String(), "\x1b", file)
		lines, _, err := l.ReadJournal(id)
		require.NoError(t, err)
		if r, over, err := sessiontest.Summarise(lines); err == nil && over {
			last := frames[len(frames)-1].State.Record()
			last.Began, last.Ended = r.Began, r.Ended
			last.Upshot, last.TagWhy = r.Upshot, r.TagWhy // a record of its day did not keep the one, and said the other in its words
			require.Len(t, last.FoundOut, len(r.FoundOut), file)
			for i, f := range r.FoundOut { // what was found out is the same, said in the words of its day
				last.FoundOut[i].Words = f.Words
			}
			assert.Equal(t, r, last, file)
		}
	}
	assert.Greater(t, replayed, 1)
}
