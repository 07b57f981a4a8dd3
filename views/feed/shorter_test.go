package feed_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/header"
	"spotward/session/scope"
	"spotward/session/sessiontest"
)

// What a session asks of people: answers and walks round the tube, of a few
// telescopes the median. DEVELOPERS.md has the figures of many.
func TestAnswersAndWalks(t *testing.T) {
	if testing.Short() {
		t.Skip("of fewer sessions nothing can be told")
	}
	for name, most := range map[string][2]int{"told": {21, 4}, "second session": {15, 2}, "nothing told": {27, 4}} {
		if name == "nothing told" && !sessiontest.Long() {
			continue // the longest sessions
		}
		s := rowNamed(name).play(0, sessiontest.Of(0, 16, 32))
		assert.LessOrEqual(t, at(s.answers, 0.5), most[0], name)
		assert.LessOrEqual(t, at(s.walks, 0.5), most[1], name)
	}
}

// The card question is the confirmation; where nobody looked it is asked again
// before anybody leans in.
func TestTheCardIsAskedOnTheWire(t *testing.T) {
	to := func() wire {
		w := onWire(t, scope.Builtin())
		w.read()
		o := w.say(`{"choice":"routine"}`)
		assert.Equal(t, []session.Deed{session.DeedLaserIn, session.DeedCardWhole, session.DeedLaserOn}, o.Do)
		assert.Equal(t, session.WantReading, o.Want)
		assert.Equal(t, optics.FaceCard, o.Face)
		return w
	}
	assert.Equal(t, session.WantChoice, to().say(`{"reading":{"clock":4}}`).Want, "the hour alone will do here")
	assert.Equal(t, session.WantChoice, to().say(`{"gone":true}`).Want)
	w := to()
	again := w.say(`{"confirm":true}`)
	assert.Equal(t, optics.FaceCard, again.Face)
	assert.Equal(t, header.StandSky, again.Stand)
	circle := w.say(`{"gone":true}`)
	assert.Equal(t, []string{"still", "quarter", "half", "wide", "unknown"}, circle.Options)
	p := w.say(`{"choice":"small"}`)
	require.Empty(t, p.Error, "what half was called")
	assert.Equal(t, optics.FacePrimary, p.Face)
	assert.Contains(t, w.say(`{"reading":{"clock":4}}`).Error, "a reading is", "and nowhere else")
	assert.True(t, w.say(`{"reading":{"clock":4,"mm":300}}`).Again, "off the mirror")
	assert.False(t, w.say(`{"reading":{"clock":4,"mm":110}}`).Again, "as eyes may have it near the edge")
}

// A verdict may be said at any question before the first turn.
func TestAVerdictIsSaidAtAnyQuestion(t *testing.T) {
	first := func() wire {
		w := onWire(t, scope.Builtin())
		w.read()
		for _, line := range []string{`{"choice":"routine"}`, `{"gone":true}`, `{"choice":"still"}`} {
			require.Empty(t, w.say(line).Error)
		}
		return w
	}
	w := first()
	assert.Contains(t, w.say(`{"choice":"leave"}`).Error, "first read where the spot on the primary is")
	assert.Contains(t, w.say(`{"choice":"primary"}`).Error, "first read where the spot on the primary is")
	o := w.say(`{"reading":{"clock":4,"mm":12}}`)
	assert.Equal(t, session.StageSecondary, o.Stage, "told, not asked")
	assert.NotNil(t, o.Advice)
	assert.Contains(t, w.say(`{"choice":"primary"}`).Error, "leaves 6.0 mm of axis error")
	assert.Equal(t, session.StagePutAway, w.say(`{"choice":"leave"}`).Stage)
	assert.Equal(t, session.StagePutAway, first().say(`{"choice":"not_today"}`).Stage)
}

// Each place is named among those that are seen from where one stands.
func TestPlacesAndTheHoleOnTheWire(t *testing.T) {
	w := onWire(t, scope.Builtin())
	w.read()
	for _, line := range []string{`{"choice":"routine"}`, `{"gone":true}`, `{"choice":"still"}`} {
		require.Empty(t, w.say(line).Error)
	}
	assert.Contains(t, w.say(`{"hole":"even"}`).Error, "no hole is looked at")
	assert.Contains(t, w.say(`{"reading":{"face":"mouth","right":3,"up":1}}`).Error, "one of")
	o := w.say(`{"reading":{"right":0,"up":0}}`)
	require.Equal(t, optics.FaceTarget, o.Face, "at its goal: the walk can change what is done")
	assert.Equal(t, header.StandBehind, o.Stand)
	assert.Empty(t, o.Faces, "behind there is the face alone")
	assert.Contains(t, w.say(`{"hole":"side"}`).Error, "which hour")
	o = w.say(`{"gone":true}`)
	require.Equal(t, session.StageVerdict, o.Stage)
	o = w.say(`{"choice":"primary"}`)
	require.Equal(t, []optics.Face{optics.FaceSecondary, optics.FaceMouth, optics.FaceCard}, o.Faces)
	next := w.say(`{"gone":true}`)
	assert.Equal(t, []optics.Face{optics.FaceMouth, optics.FaceCard}, next.Faces, "the next of them")
	assert.Contains(t, w.say(`{"reading":{"face":"secondary","right":3,"up":1}}`).Error, "was looked at")
	found := w.say(`{"reading":{"face":"card","right":3,"up":60}}`)
	require.Empty(t, found.Error)
	assert.Contains(t, found.Do, session.DeedEaseLocks, "with the first move, in the same answer")
	locks := 0
	for _, m := range found.Advice.Moves {
		if m.Lock != "" {
			locks++
		}
	}
	assert.Less(t, locks, 3, "the quarter of each is not repeated in the moves; what a long move needs beyond it is there")
}
