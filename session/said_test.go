package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/scope"
)

func TestWhatAScrewSaidIsAnsweredWithWhatToDo(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "4 12").at(session.StageSecondary, "p")
	for said, says := range map[string]string{
		"stuck B": "don't force it, leave it as it is", "free B": "all three are made snug", "end B": "back off", "stripped B": "leave it alone", "sticky B": "smaller turns",
	} {
		typed, err := answer.Line(p.State(), said)
		require.NoError(t, err)
		assert.Contains(t, typed.Echo, says)
	}
	p.line("stuck B")
	for range 6 {
		for _, m := range p.State().Told().Moves {
			assert.NotEqual(t, "B", m.Screw)
		}
		p.line("4 9")
		if p.State().Told() == nil {
			break
		}
	}
}

func TestAStuckScrewBesideATightLock(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "dead", "2 11", "primary")
	for p.State().Stage().ID != session.StageHome {
		p.line(map[session.Want]string{session.WantConfirm: "yes", session.WantReading: "2 11"}[p.State().Ask().Want])
	}
	s := p.State()
	for _, m := range s.Told().Moves {
		if m.Lock != "" {
			continue
		}
		typed, err := answer.Line(s, "screw "+m.Screw+" stuck")
		require.NoError(t, err)
		if back := m.Turns > 0 == s.Tel.Primary.ClockwisePulls; back {
			assert.Contains(t, typed.Echo, "the lock beside it")
		} else {
			assert.Contains(t, typed.Echo, "leave it as it is")
		}
	}
}

// A screw that its lock holds up is told again that way once the lock was eased. A
// lock that does not ease either is told no more, nor its screw onto it.
func TestALockThatIsStuckToo(t *testing.T) {
	for _, eases := range []bool{true, false} {
		p, screw := toHome(t, "2 11"), ""
		for _, m := range p.State().Told().Moves {
			if m.Lock == "" && m.Turns > 0 {
				screw = m.Screw
			}
		}
		require.NotEmpty(t, screw)
		p.line("screw " + screw + " stuck")
		require.Len(t, p.State().Told().Moves, 1)
		require.Equal(t, screw, p.State().Told().Moves[0].Lock)
		if !eases {
			p.line("stuck " + screw)
		}
		again := false
		for n := 0; n < 5 && p.State().Told() != nil && p.State().Stage().ID == session.StageHome; n++ {
			for _, m := range p.State().Told().Moves {
				assert.False(t, !eases && m.Lock == screw, "its lock is told again")
				again = again || m.Screw == screw && m.Turns > 0
			}
			p.line("2 11")
		}
		assert.Equal(t, eases, again)
	}
}

func TestAWeakLaserIsNotHome(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "4 12").at(session.StageSecondary, "p")
	p.line("weak laser").at(session.StageSecondary, "p")
	assert.Contains(t, p.State().Ask().Beware[0]+p.State().Ask().Beware[1], "dim is not home")
	assert.Contains(t, p.State().Record().Trouble, "the laser is weak")
	p.line("fresh cell")
	s := p.State()
	assert.Empty(t, s.Record().Trouble)
	assert.False(t, s.OnPrimary().Known, "the laser was out: the spot is looked for again")
	assert.Equal(t, session.WantReading, s.Ask().Want)
	require.ErrorContains(t, p.Do(event.Event{Kind: event.KindLaser, Is: "hot"}), "weak, fresh")
}

func TestTheFirstBiteIsSmall(t *testing.T) {
	p := play(t, nothingTold()).line("routine", "none", "still", "4 40", "1", "1").at(session.StageSecondary, "p")
	for _, m := range p.State().Told().Moves {
		assert.LessOrEqual(t, m.Turns*m.Turns, 0.125*0.125, "an eighth while nothing is known of the secondary's screws")
	}
}

func TestStoppedIsLeftAsItStands(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "4 3", "2 5", "both").at(session.StageSecondary, "p")
	p.line("4 1", "stop safely", "yes")
	s := p.State()
	require.True(t, s.Left.P.Known)
	assert.Less(t, s.Left.P.At.At.Len(), s.Found.P.At.At.Len(), "the last look, not the first")
	assert.False(t, s.Left.ErrKnown, "the return spot has moved with the secondary and was not looked at again")
	assert.True(t, s.Found.ErrKnown)
}

func TestASkippedSwingIsLeftAsItStands(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "dead", "2 11", "primary")
	for p.State().Stage().ID != session.StageSwing {
		ask := p.State().Ask()
		p.line(map[session.Want]string{session.WantConfirm: "yes", session.WantReading: "home"}[ask.Want])
	}
	p.line("skip no room")
	assert.Equal(t, event.SawHome, p.State().Left.T.Saw)
	assert.NotEqual(t, p.State().Found.T, p.State().Left.T)
}

func TestTakenUpWithTheLaserOnTheCardComesFirst(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "4 12")
	require.NoError(t, p.Do(event.Event{Kind: event.KindResume}))
	assert.Contains(t, p.State().Ask().Say, "card over the open end")
	var off optics.Face
	assert.Equal(t, off, p.State().Ask().Face)
}

func TestAReadingAfterAToldMoveSaysThatItWasMade(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "4 20").at(session.StageSecondary, "p")
	before := p.State()
	typed, err := answer.Line(before, "4 12")
	require.NoError(t, err)
	assert.Contains(t, typed.Echo, "turned as told")
	typed, err = answer.Line(before, "4 20")
	require.NoError(t, err)
	assert.Contains(t, typed.Echo, "say not turned, or stuck")
	p.refuses("not turned", "nothing counted as turned")
	p.line("4 20")
	require.Equal(t, before.Moves+1, p.State().Moves)
	p.line("not turned")
	s := p.State()
	assert.Equal(t, before.Moves, s.Moves)
	for i := range s.Tel.Secondary.Screws {
		assert.Zero(t, s.Tracker(optics.Secondary).Travel(i))
	}
	assert.InDelta(t, 20, s.Tracker(optics.Secondary).Spot().At.Len(), 2)
	assert.NotNil(t, s.Told(), "told anew")
	p.refuses("not turned", "nothing counted as turned")
}

func TestEasedLocksAreSnugBeforeTheSwing(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "dead", "2 11", "primary")
	for p.State().Stage().ID != session.StageRetighten {
		p.line(map[session.Want]string{session.WantConfirm: "yes", session.WantReading: "home"}[p.State().Ask().Want])
	}
	p.line("skip no time").at(session.StageSwing, "up")
	assert.Contains(t, p.State().Ask().Say, "First snug each")
}

func TestALockThatWasEasedIsNotAskedForAgain(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "dead", "2 11", "primary").at(session.StageLocks, "ease")
	assert.Contains(t, p.State().Ask().Say, "Ease the locks")
	p.line("lock A -1/4").at(session.StageLocks, "ease")
	assert.NotContains(t, p.State().Ask().Say, "Ease the locks", "it is eased")
}

// Why an earlier stage is done again is said once, with the first question of it.
func TestAStepBackSaysWhyOnce(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "dead", "2 11", "primary")
	for p.State().Stage().ID != session.StageSwing {
		p.line(map[session.Want]string{session.WantConfirm: "yes", session.WantReading: "home"}[p.State().Ask().Want])
	}
	for p.State().Stage().ID == session.StageSwing {
		said := "2 9"
		if p.State().Ask().Face == optics.FacePrimary {
			said = "dead"
		}
		p.line(said)
	}
	const why = "The return spot moved 9 mm in the swing. So the primary is set again. "
	assert.Contains(t, p.State().Ask().Say, why)
	assert.NotContains(t, p.State().Ask().Question, why)
	events, err := session.Events(p.keep.lines)
	require.NoError(t, err)
	again, err := session.TakeUp(events, nil, nil)
	require.NoError(t, err)
	stays(t, again)
	assert.Contains(t, again.State().Ask().Say, why, "taken up again, it has not been said yet")
	p.line("2 9")
	assert.NotContains(t, p.State().Ask().Say, "in the swing")
}
