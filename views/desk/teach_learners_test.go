package desk_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/lesson"
	"spotward/session/sessiontest"
	"spotward/views/desk"
	"spotward/views/teach"
	"spotward/views/teach/teachtest"
)

// takes has a trainee take a lesson that is drawn from seed.
func takes(t testing.TB, l lesson.Lesson, seed uint64, typed teachtest.Trainee, lines int) lesson.Result {
	t.Helper()
	now := classDesk(t).Now
	c, err := teach.Begin(&desk.Desk{Now: now}, l.Drawn(seed))
	require.NoError(t, err, "%s, seed %d", l.ID, seed)
	r, err := teachtest.Take(c, typed, lines)
	require.NoError(t, err, "%s, seed %d", l.ID, seed)
	return r
}

// many is more lines than anybody types in a lesson.
const many = 400

// draws are how many of each lesson are tried: with -short, usually and with -long.
func draws(short, usual, many int) uint64 { return uint64(sessiontest.Of(short, usual, many)) }

func TestEnterPassesNoLesson(t *testing.T) {
	for _, l := range lesson.All() {
		for seed := range draws(1, 1, 8) {
			assert.False(t, takes(t, l, seed, teachtest.Enter(), 120).Passed, "%s, seed %d", l.ID, seed)
			assert.False(t, takes(t, l, seed, teachtest.EnterAndOne(), 120).Passed, "%s, seed %d, and a word by rote", l.ID, seed)
		}
	}
}

func TestWhoReadsWellPasses(t *testing.T) {
	for _, l := range lesson.All() {
		if l.ID == lesson.Exam {
			continue // see TestTheExam
		}
		for seed := range draws(1, 1, 12) {
			r := takes(t, l, seed, teachtest.Good(), many)
			assert.True(t, r.Passed, "%s, seed %d: %+v", l.ID, seed, r)
		}
	}
}

// Where screws are turned to bring a spot somewhere, turning them the other way
// does not pass, however well the spot is read.
func TestWhoTurnsTheWrongWayFails(t *testing.T) {
	sessiontest.Whole(t)
	for _, id := range []string{"ring", "hole", "locks", "first", "whole", "hard", "exam"} {
		l, err := lesson.ByName(id)
		require.NoError(t, err)
		for seed := range draws(1, 1, 6) {
			assert.False(t, takes(t, l, seed, teachtest.WrongWay(), 120).Passed, "%s, seed %d", id, seed)
		}
	}
}

// Who reads every spot as it is and turns what the program would have told comes
// to the tag on each telescope. The program sees no more; but what is told after
// a lock that is eased by itself is not told as it would have been with it, so
// that now and then it takes too many moves.
func TestTheExam(t *testing.T) {
	sessiontest.Whole(t)
	l, err := lesson.ByName(lesson.Exam)
	require.NoError(t, err)
	n, passed := draws(1, 2, 24), 0
	for seed := range n {
		r := takes(t, l, seed, teachtest.Good(), 900)
		assert.Zero(t, r.Wrong, "seed %d: %+v", seed, r)
		assert.Positive(t, r.Program)
		assert.Equal(t, r.Moves <= lesson.MayMove(r.Program), r.Passed, "seed %d: %+v", seed, r)
		if r.Passed {
			passed++
		}
	}
	assert.GreaterOrEqual(t, 4*passed, int(3*n))
	assert.Equal(t, 10, lesson.MayMove(8))
	assert.Equal(t, 11, lesson.MayMove(9))
}

// oneIn is how seldom guessing may pass a lesson.
const oneIn = 20

func TestGuessingSeldomPasses(t *testing.T) {
	if !sessiontest.Long() {
		t.Skip("of a few nothing can be told")
	}
	for _, l := range lesson.All() {
		n, passed := uint64(40), 0
		for seed := range n {
			if takes(t, l, seed, teachtest.Guess(seed), 120).Passed {
				passed++
			}
		}
		// With one in twenty, seven of forty is less than one in 100.
		assert.Less(t, passed, int(2+n/8), l.ID)
	}
}

// BenchmarkGuessing counts how often guessing passes each lesson.
func BenchmarkGuessing(b *testing.B) {
	n := uint64(600)
	if testing.Short() {
		n = 60
	}
	for _, l := range lesson.All() {
		passed := 0
		for seed := range n {
			if takes(b, l, seed, teachtest.Guess(seed), 120).Passed {
				passed++
			}
		}
		fmt.Printf("%-8s %4d of %d\n", l.ID, passed, n)
		if passed*oneIn > int(n) {
			b.Errorf("%s: guessing passes %d of %d, more than one in %d", l.ID, passed, n, oneIn)
		}
	}
}
