package session_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/scope"
)

// "It hardly moved" is said only where what was read cannot be told from no move
// at all.
func TestItHardlyMoved(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "4 30").at(session.StageSecondary, "p")
	for line, hardly := range map[string]bool{"4 30": true, "4 29": true, "4 14": false, "10 5": false, "1 30": false} {
		typed, err := answer.Line(p.State(), line)
		require.NoError(t, err)
		assert.Equal(t, hardly, strings.Contains(typed.Echo, "hardly"), "%s: %s", line, typed.Echo)
	}
	near := play(t, scope.Builtin()).line("routine", "none", "still", "4 8").at(session.StageSecondary, "p")
	typed, err := answer.Line(near.State(), "6 8") // 8 mm from there
	require.NoError(t, err)
	assert.NotContains(t, typed.Echo, "hardly")
}

// A first turn is one only as long as the screw was not turned.
func TestAFirstTurnIsTheFirst(t *testing.T) {
	p := play(t, nothingTold()).line("routine", "none", "still", "4 30", "1", "1").at(session.StageSecondary, "p")
	turned, said := map[string]bool{}, 0
	for n := range 12 {
		told := p.State().Told()
		if told == nil {
			p.line("4 25")
			continue
		}
		for _, m := range told.Moves {
			if strings.Contains(told.Why, "a first turn of "+m.Screw+",") {
				said++
				assert.False(t, turned[m.Screw], "move %d: %s", n, told.Why)
			}
		}
		for _, m := range told.Moves {
			turned[m.Screw] = true
		}
		p.line([]string{"3 30", "5 26", "4 31"}[n%3])
	}
	assert.Positive(t, said)
}

// A turn that was typed by mistake and taken back leaves no trace in the net
// turns; one that was told and made stays.
func TestAMistypedTurnIsTakenBack(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "4 20").at(session.StageSecondary, "p")
	told := p.State().Told()
	p.line("B -1/2", "u")
	assert.Zero(t, p.State().Tracker(optics.Secondary).Travel(1))
	assert.Equal(t, told, p.State().Told(), "it stands as it stood")
	for key := range p.State().Record().NetTurns {
		t.Error("net turns of", key)
	}
}

// After sixty answers without an end in sight it is offered to stop safely, with
// what is thought to be wrong. Where nothing comes nearer the session stops by itself,
// and sooner.
func TestAfterSixtyAnswersAnEndIsOffered(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "4 40").at(session.StageSecondary, "p")
	offered, mm := 0, 40.0
	for n := 0; offered == 0 && n < 100; n++ {
		if n%5 == 4 {
			mm *= 0.8 // it does come nearer
		}
		p.line(fmt.Sprintf("%d %.1f", 3+n%3, mm))
		if strings.Contains(p.State().Ask().Say, "no end in sight") {
			offered = n
			assert.Contains(t, p.State().Ask().Say, "stop safely")
			assert.Contains(t, p.State().Ask().Say, "secondary's")
		}
	}
	assert.InDelta(t, 54, offered, 3)
	n := 0
	for ; p.State().Stage().ID != session.StageStopping; n++ {
		require.Less(t, n, 35, "who goes on is stopped in the end")
		p.line([]string{"4 20", "5 20", "3 20", "4 21"}[n%4])
	}
	assert.Contains(t, p.State().Ask().Say, "No end in sight after ")
	assert.Contains(t, p.State().Ask().Say, "the secondary's")
	safe := p.State()
	p.line("u")
	assert.Equal(t, session.StageSecondary, p.State().Stage().ID, "an undo goes on")
	p.line("4 20").at(session.StageSecondary, p.State().Ask().Step)
	next, err := session.Apply(safe, event.Event{Kind: event.KindConfirm})
	require.NoError(t, err)
	assert.Equal(t, session.OutcomeStopped, next.Outcome)
	assert.Contains(t, next.Record().Upshot.Words(), "no end in sight")
}

// What is remembered of a scope comes from long moves: readings near the middle,
// of which half is error, do not change it. An evening that does not fit makes it
// less sure, and says so.
func TestWhatIsRemembered(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "4 30").at(session.StageSecondary, "p")
	stop := func() string {
		s := p.State()
		m := s.Told().Moves
		at := s.Tel.ToDial(optics.FacePrimary, optics.Seen{Right: m[len(m)-1].Stop.Right, Up: m[len(m)-1].Stop.Up})
		return fmt.Sprintf("%.1f %.0f", max(1, at.Hour()), at.Len()+3)
	}
	p.line(stop(), "in 4")
	before := *p.State().Learnt(optics.Secondary)
	for n := 0; n < 6 && p.State().Told() != nil; n++ {
		p.line([]string{"in 4", "in 10", "in 7"}[n%3])
	}
	assert.Equal(t, before, *p.State().Learnt(optics.Secondary))

	// A second evening on other screws than were remembered.
	other := before
	other.PerTurn = append([]optics.Tube(nil), before.PerTurn...)
	other.Spread = append([]optics.Cov(nil), before.Spread...)
	for i := range other.PerTurn {
		other.PerTurn[i], other.Spread[i] = other.PerTurn[i].Scale(0.6), other.Spread[i].Scale(0.1)
	}
	now, changed := before.Beside(&other)
	assert.NotEmpty(t, changed)
	for _, i := range changed {
		assert.Greater(t, now.Spread[i].Sigma(), before.Spread[i].Sigma())
	}
	same, changed := before.Beside(&before)
	assert.Empty(t, changed)
	assert.Equal(t, before, same)
}
