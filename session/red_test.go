package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/scope"
)

// Until somebody can know where red shows, the card covers the whole end and the
// words ask for it; the half that is open then lies across from it.
func TestWhereRedShowsIsAskedBeforeAnybodyLooksIn(t *testing.T) {
	s := start(t, nil)
	do := func(ev event.Event) {
		t.Helper()
		require.NoError(t, s.Do(ev))
	}
	_, known := s.State().RedAt()
	assert.False(t, known)
	for s.State().Ask().Step != "circle" {
		if ask := s.State().Ask(); ask.Want == session.WantChoice {
			do(event.Event{Kind: event.KindChoice, Choice: ask.Options[0].ID})
		} else {
			do(event.Event{Kind: event.KindConfirm}) // the laser is on, and nobody looked
			require.Equal(t, session.StepRed, s.State().Ask().Step)
			assert.Equal(t, header.CardWhole, s.State().Ask().Header.Card)
			do(event.Event{Kind: event.KindReading, Face: optics.FaceCard, Saw: event.SawGone})
		}
	}
	ask := s.State().Ask()
	assert.Equal(t, header.CardHalf, ask.Header.Card, "no red: either half may come off")
	assert.Contains(t, ask.Say, "Red past the card later? Hands off, cover it all")
	do(event.Event{Kind: event.KindChoice, Choice: session.CircleStill})
	assert.Contains(t, s.State().Ask().Say, "Look in past the card")
	assert.NotContains(t, s.State().Ask().Say, "the red", "there was none on the card")
	_, known = s.State().RedAt()
	assert.False(t, known)

	tel := s.State().Tel
	at := tel.FromSeen(optics.FacePrimary, optics.Seen{Right: -60, Up: 60})
	do(event.Event{Kind: event.KindReading, Face: optics.FacePrimary, Saw: event.SawPlace, Right: -60, Up: 60})
	red, known := s.State().RedAt()
	require.True(t, known)
	assert.InDelta(t, 0, hoursApart(tel.TubeToDial(optics.FacePrimary, at).Hour(), red.Hour()), 1.5, "about where the spot is")
}

// Taken up again the card comes first: the scope may have been moved.
func TestTakenUpAgainTheCardIsWhole(t *testing.T) {
	s := start(t, nil)
	for s.State().Ask().Step != "p" {
		if ask := s.State().Ask(); ask.Want == session.WantChoice {
			require.NoError(t, s.Do(event.Event{Kind: event.KindChoice, Choice: ask.Options[0].ID}))
		} else {
			require.NoError(t, s.Do(event.Event{Kind: event.KindReading, Face: optics.FaceCard, Saw: event.SawGone}))
		}
	}
	require.NoError(t, s.Do(event.Event{Kind: event.KindReading, Face: optics.FacePrimary, Saw: event.SawWithin}))
	require.Equal(t, header.CardHalf, s.State().Stage().Header.Card)
	require.NoError(t, s.Do(event.Event{Kind: event.KindResume}))
	require.Contains(t, s.State().Ask().Say, "moved")
	assert.Equal(t, header.CardWhole, s.State().Ask().Header.Card)
}

func hoursApart(a, b float64) float64 {
	for a-b > 6 {
		a -= 12
	}
	for b-a > 6 {
		b -= 12
	}
	return a - b
}

// Whatever is answered, no question that has one stand before the open end says
// that half of it is covered before it is known which.
func TestHalfTheCardOnlyWhereRedIsKnown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := start(t, nil)
		for range rapid.IntRange(1, 40).Draw(t, "events") {
			_ = s.Do(anyEvent(t, s.State()))
			ask := s.State().Ask()
			if _, known := s.State().RedAt(); !known && !s.State().Red.Gone && ask.Face == "" && ask.Header.Card == header.CardHalf {
				t.Fatalf("half the card at %s", ask.Step)
			}
		}
	})
}

// Where red was read on the card is where the card stays, and nobody looks in from
// there, whatever the spot on the primary says of the beam.
func TestTheCardStaysWhereRedWasRead(t *testing.T) {
	for _, spot := range []string{"4 35", "1 60", "10 35"} {
		s := play(t, scope.Builtin()).line("routine", "card 10 40", "still", spot).State()
		assert.Contains(t, s.Ask().Beam, "about 10 o'clock. Look in from the side of 4 o'clock", spot)
	}
}
