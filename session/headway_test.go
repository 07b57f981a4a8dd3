package session_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/scope"
)

func toSecondary(t *testing.T) player {
	return play(t, scope.Builtin()).line("routine", "none", "still", "4 20").at(session.StageSecondary, "p")
}

func TestTheSecondaryIsMadeSnugBetweenWhiles(t *testing.T) {
	p := toSecondary(t)
	moves := 0
	for ; p.State().Ask().Step == "p"; moves++ {
		require.Less(t, moves, 6)
		if p.State().Told().Snug {
			break
		}
		p.line("4 19")
	}
	assert.Equal(t, 3, p.State().Moves, "with the fourth, in the same answer")
	assert.Contains(t, p.State().Ask().Deeds, session.DeedSnugSecondary)
	p.line("5 24").at(session.StageSecondary, "p")
	assert.False(t, p.State().Ask().Again, "taking all of them up may move the spot")

	free := toSecondary(t).line("free B").at(session.StageSecondary, "snug")
	assert.Nil(t, free.State().Told(), "nothing is turned before that")
	free.line("4 28").at(session.StageSecondary, "p")
	assert.NotNil(t, free.State().Told())
	assert.Empty(t, free.State().Trouble(), "no fault of the screw")
}

func TestAMoveAfterWhichNothingIsSeenIsTakenBack(t *testing.T) {
	p := toSecondary(t)
	before := p.State().Told().Moves
	p.line("gone")
	told := p.State().Told()
	require.NotNil(t, told)
	require.Len(t, told.Moves, len(before))
	for i, m := range told.Moves {
		was := before[len(before)-1-i]
		assert.Equal(t, was.Screw, m.Screw)
		assert.Equal(t, -was.Turns, m.Turns)
	}
	p.line("gone")
	assert.Nil(t, p.State().Told())
	assert.Contains(t, p.State().Ask().Say, "wall 4")
}

func TestMovesThatBringNothing(t *testing.T) {
	p := toSecondary(t)
	for n := 0; len(p.State().Trouble()) == 0; n++ {
		require.Less(t, n, 40)
		p.line([]string{"4 20", "5 20", "3 20", "4 21"}[n%4])
	}
	s := p.State()
	assert.Contains(t, s.Trouble()[0], "learnt again")
	assert.Equal(t, optics.Guessed, s.Tel.Secondary.PlacesKnown, "from the geometry, not from nothing")
	if s.Told() == nil { // the screws are made snug first
		p.line("4 20")
	}
	require.NotNil(t, p.State().Told())
	assert.Contains(t, p.State().Told().Why, "so carry on")
	assert.NotZero(t, s.Tracker(optics.Secondary).Travel(0)+s.Tracker(optics.Secondary).Travel(1), "how far they went is not forgotten")
	for n := 0; ; n++ {
		require.Less(t, n, 60, "it is never said that it is no work for a volunteer")
		if told := p.State().Told(); told != nil && strings.Contains(told.Ask, "trained hands") {
			break
		}
		p.line([]string{"4 20", "5 20", "3 20", "4 21"}[n%4])
	}
}

func TestAReadingIsDoubtedTwiceAtTheMost(t *testing.T) {
	p := toSecondary(t)
	for i, far := range []string{"11 60", "8 75", "1 65"} {
		p.line(far)
		assert.Equal(t, i < 2, p.State().Ask().Again, far)
	}
}

func TestAStuckScrewOfTheSecondaryIsNoEndlessWork(t *testing.T) {
	p := toSecondary(t).line("stuck B")
	for n := 0; ; n++ {
		require.Less(t, n, 12, "the other two go back and forth")
		if told := p.State().Told(); told != nil && strings.Contains(told.Ask, "trained hands") {
			assert.Contains(t, told.Ask, "B moves nothing", "which one it is")
			break
		}
		p.line([]string{"4 18", "6 19", "3 18"}[n%3])
	}
}
