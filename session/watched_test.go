package session_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
)

// watching plays on to the secondary's first move, with the spot to be watched.
func watching(t *testing.T, sc scope.Scope, p string) player {
	t.Helper()
	return play(t, sc).line("watching", "routine", "none", "still", p).at(session.StageSecondary, "p")
}

// Nothing is told of the screws: what a turn does is a guess.
func nothingTold() scope.Scope {
	sc := scope.Builtin()
	sc.Secondary.CellPart, sc.Primary.CellPart = scope.CellPart{}, scope.CellPart{}
	return sc
}

func TestWhatIsWatchedEndsAtItsCue(t *testing.T) {
	told := watching(t, scope.Builtin(), "4 20").State().Told()
	require.True(t, told.Watch)
	last := told.Moves[len(told.Moves)-1]
	require.NotNil(t, last.Stop)
	require.NotNil(t, last.Toward)
	assert.InDelta(t, 1, math.Hypot(last.Toward.Right, last.Toward.Up), 0.01)
	assert.False(t, last.Touch, "the way is known")

	assert.False(t, play(t, scope.Builtin()).line("routine", "none", "still", "4 20").State().Told().Watch, "unless somebody watches")
	small := scope.Builtin()
	small.Aperture, small.FocalLength = scope.MM(114), scope.MM(900)
	small.Secondary.FromPrimary, small.Tube.InnerRadius, small.Tube.SkyEnd, small.Laser.HoleFromAxis = scope.MM(740), scope.MM(70), scope.MM(900), scope.MM(165)
	assert.False(t, watching(t, small, "4 8").State().Told().Watch, "a hand fills the view")
	strong := scope.Builtin()
	strong.Laser.Class = "3R"
	assert.False(t, watching(t, strong, "4 20").State().Told().Watch, "a laser beyond class 2 is looked at through a camera")
}

// What was stopped by eye says where the spot stands and hardly by how much the
// screw was turned.
func TestAWatchedLookTeachesNoAmount(t *testing.T) {
	spread := func(watched bool) float64 {
		p := watching(t, scope.Builtin(), "4 20")
		told := p.State().Told()
		i, err := p.State().Index(told.Moves[1].Turn)
		require.NoError(t, err)
		stop := told.Moves[1].Stop
		require.NoError(t, p.Do(event.Event{Kind: event.KindReading, Face: optics.FacePrimary, Saw: event.SawPlace, Right: stop.Right, Up: stop.Up, Watched: watched}))
		return p.State().Tracker(optics.Secondary).PerTurn(i).Cov.Sigma()
	}
	assert.Greater(t, spread(true), spread(false))
}

// A guess begins with a touch; where it was wrong, that is said at once, costs no
// look and no move, and the next move is another.
func TestWhichWayItSetOff(t *testing.T) {
	p := play(t, nothingTold()).line("watching", "routine", "none", "still", "4 20", "1", "1").at(session.StageSecondary, "p")
	told := p.State().Told()
	require.True(t, told.Watch)
	last := told.Moves[len(told.Moves)-1]
	require.True(t, last.Touch)
	looks, moves := p.State().Looks, p.State().Moves
	way := optics.Seen{Right: -last.Toward.Right, Up: -last.Toward.Up}
	require.NoError(t, p.Do(event.Event{Kind: event.KindWent, Screw: last.Screw, Right: way.Right, Up: way.Up}))
	assert.NotContains(t, p.State().Ask().Say, "not on the primary", "nobody has seen that")
	s := p.State()
	assert.Equal(t, looks, s.Looks)
	assert.Equal(t, moves, s.Moves)
	next := s.Told()
	require.NotNil(t, next)
	assert.NotEqual(t, told.Moves, next.Moves)

	touch := []adviser.Move{{Mirror: optics.Secondary, Screw: index(t, s, told.Moves[0]), Turns: -1. / 16}, {Mirror: optics.Secondary, Screw: index(t, s, last), Turns: 1. / 16}}
	seen := s.Tel.ToSeen(optics.FacePrimary, s.Tracker(optics.Secondary).Likely(touch))
	assert.Positive(t, seen.Right*way.Right+seen.Up*way.Up, "that is what is believed now")

	assert.Error(t, p.Do(event.Event{Kind: event.KindWent, Screw: "Z", Right: 1}))
	assert.Error(t, p.Do(event.Event{Kind: event.KindWent, Screw: last.Screw}), "toward nowhere")
}

func index(t *testing.T, s session.State, m event.ToldMove) int {
	t.Helper()
	i, err := s.Index(m.Turn)
	require.NoError(t, err)
	return i
}

// A move is as long as it must be, in goes no longer than hands should turn a
// screw at once.
func TestALongMoveIsInGoes(t *testing.T) {
	told := play(t, scope.Builtin()).line("routine", "none", "still", "4 50").at(session.StageSecondary, "p").State().Told()
	for _, m := range told.Moves {
		require.Greater(t, m.Goes, 1)
		part := math.Abs(m.Turns) / float64(m.Goes)
		assert.LessOrEqual(t, part, 1./8+1e-9)
		assert.InDelta(t, math.Round(part*32), part*32, 1e-9, "an amount that hands can make")
	}
	first := play(t, nothingTold()).line("routine", "none", "still", "4 50").line("1", "1").at(session.StageSecondary, "p").State().Told()
	for _, m := range first.Moves {
		assert.LessOrEqual(t, math.Abs(m.Turns), 1./8+1e-9, "what is a guess is turned by little")
	}
}
