package session_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/sessiontest"
)

// longSession is a session of many events that comes to no end: readings at
// random, a turn that was made otherwise, answers taken back.
func longSession(t testing.TB, events int, seed uint64) *memory {
	keep := &memory{}
	s := start(t, keep)
	dice := rand.New(rand.NewPCG(seed, 3))
	for len(keep.lines) < events {
		require.False(t, s.State().Over)
		ask := s.State().Ask()
		ev := event.Event{Kind: event.KindConfirm}
		switch ask.Want {
		case session.WantChoice:
			ev = event.Event{Kind: event.KindChoice, Choice: ask.Options[0].ID}
		case session.WantReading:
			ev = event.Event{Kind: event.KindReading, Face: ask.Face, Saw: event.SawPlace, Right: 16*dice.Float64() - 8, Up: 16*dice.Float64() - 8}
		}
		if dice.IntN(10) == 0 {
			ev = event.Event{Kind: event.KindUndo}
		}
		switch ask.Stage.ID {
		case session.StagePutAway:
			ev = event.Event{Kind: event.KindBack}
		case session.StageStopping:
			ev = event.Event{Kind: event.KindUndo}
		}
		if err := s.Do(ev); err != nil {
			require.NoError(t, s.Do(event.Event{Kind: event.KindUndo}), fmt.Sprint(ask.Stage.ID, err))
		}
	}
	return keep
}

// heap returns the bytes that are in use.
func heap() uint64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// roomOf returns how many bytes a session takes that is taken up from events.
func roomOf(t *testing.T, events []event.Event) float64 {
	before := heap()
	s, err := session.TakeUp(events, nil, nil)
	require.NoError(t, err)
	after := heap()
	runtime.KeepAlive(s)
	runtime.KeepAlive(events)
	return float64(after) - float64(before)
}

// A session of thousands of lines takes a few kB a line more than one of
// hundreds when it is taken up: with -long on the average of three, since what is believed
// where one stands takes now more, now less.
func TestALongSessionTakesLittleRoom(t *testing.T) {
	if testing.Short() {
		t.Skip("a session of 1,200 lines takes a second to play")
	}
	seeds, mean := []uint64{1, 0, 2}[:sessiontest.Of(0, 1, 3)], 0.0
	for _, seed := range seeds {
		events, err := session.Events(longSession(t, sessiontest.Of(0, 500, 1200), seed).lines)
		require.NoError(t, err)
		half, whole := roomOf(t, events[:len(events)/2]), roomOf(t, events)
		aLine := (whole - half) / float64(len(events)/2)
		t.Logf("%d lines take %.1f MB, the later ones %.1f kB a line", len(events), whole/1e6, aLine/1e3)
		require.Less(t, whole, 40e6)
		mean += aLine / float64(len(seeds))
	}
	require.Less(t, mean, 5e3)
}

// What was let go of is found again: taken back one by one, a long session is at
// each answer as it was.
func TestALongSessionIsUndoneToItsStart(t *testing.T) {
	sessiontest.Whole(t)
	events, err := session.Events(longSession(t, sessiontest.Of(0, 80, 200), 3).lines)
	require.NoError(t, err)
	s, err := session.Fold(events)
	require.NoError(t, err)
	past := s.Past()
	require.Len(t, past, len(s.Events()))
	undone := 0
	for i := len(past) - 1; i > 0; i-- {
		if i%50 == 0 {
			folded, err := session.Fold(s.Events()[:i])
			require.NoError(t, err)
			require.Equal(t, shown(folded), shown(past[i].Before))
		}
	}
	for {
		next, err := session.Apply(s, event.Event{Kind: event.KindUndo})
		if errors.Is(err, session.ErrNoUndo) {
			break
		}
		require.NoError(t, err)
		s = next
		undone++
		if undone%30 == 0 {
			folded, err := session.Fold(s.Events())
			require.NoError(t, err)
			require.Equal(t, shown(folded), shown(s))
		}
	}
	require.Greater(t, undone, 30)
}
