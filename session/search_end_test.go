package session_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
)

// A search that has nothing more to turn ends with the same answer: the face is
// looked at, and what is due there is told at once.
func TestTheMoveAfterASearchIsToldAtOnce(t *testing.T) {
	s := start(t, nil)
	answer := func(choice string) {
		t.Helper()
		require.NoError(t, s.Do(event.Event{Kind: event.KindChoice, Choice: choice}))
	}
	read := func(saw event.Sight, right, up float64) {
		t.Helper()
		require.NoError(t, s.Do(event.Event{Kind: event.KindReading, Face: s.State().Ask().Face, Saw: saw, Right: right, Up: up}))
		_, due := s.State().Advise()
		require.False(t, due, "told at once")
	}
	answer("routine")
	read(event.SawGone, 0, 0)
	answer(session.CircleStill)
	read(event.SawPlace, 0.5, 1)
	read(event.SawPlace, 1, 0.5)
	answer(session.VerdictBoth)
	require.NoError(t, s.Do(event.Event{Kind: event.KindBack}))
	answer(session.VerdictBoth)
	read(event.SawPlace, 1, 1)
	read(event.SawPlace, 1, 1)
	read(event.SawGone, 0, 0)
	read(event.SawGone, 0, 0)
	require.NoError(t, s.Do(event.Event{Kind: event.KindUndo}))
	require.NoError(t, s.Do(event.Event{Kind: event.KindRedo}))
	read(event.SawPlace, 1, 1)
	require.Equal(t, optics.FaceTarget, s.State().Ask().Face, "the face alone can tell")
}

// A return spot that a turn has lost is fetched back by that turn; where it is nowhere
// all the same, it is offered to stop, and then the session stops.
func TestASpotThatATurnHasLost(t *testing.T) {
	s := start(t, nil)
	do := func(ev event.Event) {
		t.Helper()
		require.NoError(t, s.Do(ev))
	}
	place := func(right, up float64) {
		t.Helper()
		do(event.Event{Kind: event.KindReading, Face: s.State().Ask().Face, Saw: event.SawPlace, Right: right, Up: up})
	}
	nowhere := func() {
		t.Helper()
		for rounds := s.State().Search.Rounds; s.State().Search.Rounds == rounds && !s.State().Over; {
			ask := s.State().Ask()
			require.Equal(t, session.WantReading, ask.Want, ask.Stage.ID)
			do(event.Event{Kind: event.KindReading, Face: ask.Face, Saw: event.SawGone, All: len(ask.Faces) > 1})
			if s.State().Stage().ID == session.StageStopping {
				return
			}
		}
	}
	do(event.Event{Kind: event.KindChoice, Choice: "routine"})
	do(event.Event{Kind: event.KindReading, Face: s.State().Ask().Face, Saw: event.SawGone})
	do(event.Event{Kind: event.KindChoice, Choice: session.CircleStill})
	for told := s.State().Told(); told == nil || told.Moves[len(told.Moves)-1].Screw == ""; told = s.State().Told() {
		switch ask := s.State().Ask(); {
		case ask.Want == session.WantChoice:
			do(event.Event{Kind: event.KindChoice, Choice: ask.Options[0].ID})
		case ask.Want == session.WantConfirm:
			do(event.Event{Kind: event.KindConfirm})
		case ask.Face == optics.FacePrimary:
			place(0.2, 0.2)
		default:
			place(7, 3)
		}
	}
	told := s.State().Told().Turns()
	turn := func() { do(event.Event{Kind: event.KindTurned, Turned: s.State().Told().Turns()}) }
	require.Equal(t, optics.Primary, told[0].Mirror)
	turn()
	nowhere()
	back := s.State().Told()
	require.NotNil(t, back, "the turn is to be taken back")
	var turned []optics.Turn
	for _, m := range told {
		if m.Screw != "" {
			turned = append([]optics.Turn{{Mirror: m.Mirror, Screw: m.Screw, Turns: -m.Turns}}, turned...)
		}
	}
	require.Equal(t, turned, back.Turns())
	turn()
	nowhere()
	require.Nil(t, s.State().Told(), "it has not helped, and is not turned to and fro")
	require.Contains(t, s.State().Ask().Say, "stop safely")
	nowhere()
	require.NotEqual(t, session.StageStopping, s.State().Stage().ID)
	nowhere()
	require.Equal(t, session.StageStopping, s.State().Stage().ID)
	require.Contains(t, s.State().HoldBack, "nowhere")
}

// Where no light is seen any more it is asked whether the laser shines, and then the
// session stops, and says that.
func TestNoLightIsNoFaultOfScrews(t *testing.T) {
	s := start(t, nil)
	require.NoError(t, s.Do(event.Event{Kind: event.KindChoice, Choice: "routine"}))
	require.NoError(t, s.Do(event.Event{Kind: event.KindReading, Face: s.State().Ask().Face, Saw: event.SawGone}))
	require.NoError(t, s.Do(event.Event{Kind: event.KindChoice, Choice: session.CircleStill}))
	for n := 1; n < 9; n++ {
		ask := s.State().Ask()
		require.Equal(t, session.WantReading, ask.Want)
		require.NoError(t, s.Do(event.Event{Kind: event.KindReading, Face: ask.Face, Saw: event.SawCantSee}))
		if s.State().Ask().Want == session.WantChoice { // the letters
			require.NoError(t, s.Do(event.Event{Kind: event.KindChoice, Choice: s.State().Ask().Options[0].ID}))
		}
		if n%3 == 0 {
			require.Contains(t, s.State().Ask().Say, "Does the laser shine?", n)
		}
	}
	require.NoError(t, s.Do(event.Event{Kind: event.KindReading, Face: s.State().Ask().Face, Saw: event.SawCantSee}))
	require.Equal(t, session.StageStopping, s.State().Stage().ID)
	require.Contains(t, s.State().HoldBack, "the laser may be dead")
}
