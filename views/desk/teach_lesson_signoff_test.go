package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/session/lesson"
)

func TestSignOff(t *testing.T) {
	const dial, card, alone, moves, loose, stop = 0, 1, 2, 3, 4, 5
	reads := lesson.Result{V: 2, Lesson: "dial", Readings: 10, Good: 9}
	ring := lesson.Result{V: 2, Lesson: "ring", Passed: true, Moves: 3, Possible: 2}
	left := lesson.Result{V: 2, Lesson: lesson.Leave, Passed: true}
	swing := lesson.Result{V: 2, Lesson: lesson.Swing, Passed: true}
	tests := []struct {
		name    string
		results []lesson.Result
		met     []int
	}{
		{"nothing yet", nil, nil},
		{"the dial", []lesson.Result{reads}, []int{dial}},
		{"eight of ten", []lesson.Result{{Lesson: "dial", Readings: 10, Good: 8}}, nil},
		{"too few readings", []lesson.Result{{Lesson: "dial", Readings: 9, Good: 9}}, nil},
		{"the newest count", []lesson.Result{{Lesson: "dial", Readings: 10}, reads}, []int{dial}},
		{"the newest count, for the worse", []lesson.Result{reads, {Lesson: "dial", Readings: 10}}, nil},

		{"questions answered are no deed", []lesson.Result{{V: 1, Lesson: "safe", Passed: true, Stopped: true}}, nil},
		{"card first", []lesson.Result{{V: 2, Lesson: "safe", Lit: 1, Carded: 1}}, []int{card}},
		{"once without it", []lesson.Result{{V: 2, Lesson: "lies", Lit: 3, Carded: 2}}, nil},
		{"without it the last time", []lesson.Result{{V: 2, Lit: 1, Carded: 1}, {V: 2, Lit: 1}}, nil},
		{"a lesson with no laser says nothing of it", []lesson.Result{{V: 2, Lit: 1, Carded: 1}, {V: 2}}, []int{card}},

		{"left alone", []lesson.Result{left}, []int{alone}},
		{"left alone once, not the last time", []lesson.Result{left, {Lesson: lesson.Leave}}, nil},

		{"three moves for two", []lesson.Result{ring}, []int{moves}},
		{"two moves for one", []lesson.Result{{Lesson: "ring", Passed: true, Moves: 2, Possible: 1}}, []int{moves}},
		{"four moves for two", []lesson.Result{{Lesson: "ring", Passed: true, Moves: 4, Possible: 2}}, nil},
		{"few moves, but not there", []lesson.Result{{Lesson: "ring", Moves: 1, Possible: 2}}, nil},
		{"one telescope does not decide", []lesson.Result{ring, {Lesson: "hole", Passed: true, Moves: 2, Possible: 1}, {Lesson: "locks", Passed: true, Moves: 1, Possible: 1}}, []int{moves}},
		{"of each lesson the newest", []lesson.Result{{Lesson: "ring", Passed: true, Moves: 1, Possible: 9}, {Lesson: "ring", Passed: true, Moves: 4, Possible: 2}}, nil},

		{"loose screw", []lesson.Result{swing}, []int{loose}},
		{"loose screw not found", []lesson.Result{swing, {Lesson: lesson.Swing}}, nil},

		{"made safe", []lesson.Result{{V: 2, Lesson: "safe", Stopped: true, StopSec: 120}}, []int{stop}},
		{"made safe too late", []lesson.Result{{V: 2, Lesson: "safe", Stopped: true, StopSec: 121}}, nil},
		{"nobody took the time", []lesson.Result{{V: 1, Lesson: "safe", Stopped: true}}, nil},
	}
	for _, tt := range tests {
		var met []int
		for i, c := range lesson.SignOff(tt.results) {
			assert.NotEmpty(t, c.Words)
			if c.Met {
				met = append(met, i)
			}
		}
		assert.Equal(t, tt.met, met, tt.name)
	}
}

func TestBites(t *testing.T) {
	tests := []struct {
		m     optics.Mirror
		turns float64
		first bool
		want  int
	}{
		{optics.Primary, 0, true, 0},
		{optics.Primary, 1. / 4, true, 1},
		{optics.Primary, -1. / 2, true, 1},
		{optics.Primary, 3. / 4, true, 2},
		{optics.Primary, 1, true, 2},
		{optics.Primary, 1. / 2, false, 1},
		{optics.Primary, -5. / 8, false, 1},
		{optics.Secondary, 1. / 4, true, 2},
		{optics.Secondary, 1. / 8, true, 1},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, lesson.Bites(tt.m, tt.turns, tt.first), "%+v", tt)
	}
}
