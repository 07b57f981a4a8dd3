package feed_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
)

// finerScript stands at the telescope as answerer does, and asks for finer
// checks at the stages of which it wants them.
type finerScript struct {
	answerer
	state func() session.State
	asks  session.StageID
	asked bool
	seen  map[session.StepID]bool // steps that were answered
}

func (f *finerScript) reply(o said) map[string]any {
	if !f.asked && o.Stage == f.asks {
		f.asked = true
		return map[string]any{"finer": true}
	}
	step := f.state().Ask().Step
	f.seen[step] = true
	choose := func(id string) map[string]any { return map[string]any{"choice": id} }
	waves, focus := f.state().StarWaves()
	if (step == "sides" || step == "finger") && o.Focus != focus {
		panic("the feed asks on another side of focus than the session")
	}
	switch step {
	case "shadow":
		r := f.world.ShadowEyes()
		return map[string]any{"reading": map[string]any{"right": r.Seen.Right, "up": r.Seen.Up, "sigma_mm": 0.5}}
	case "sides":
		return choose(session.SideOf(f.world.StarEyes(waves, focus).Thin))
	case "finger":
		at := f.world.StarEyes(waves, focus).Seen
		return map[string]any{"reading": map[string]any{"right": at.Right, "up": at.Up}}
	case "outline":
		return choose(sessiontest.OutlineOf(f.world.Place().AlongMM))
	case "picture":
		return choose(sessiontest.PictureOf(f.state().Tel, f.world.Place().Picture))
	}
	return f.answer(o)
}

func playFiner(t *testing.T, scope scope.Scope, f virtual.Faults, seed uint64, asks session.StageID) (session.State, *finerScript, said) {
	t.Helper()
	tel := scope.Telescope()
	setup := virtual.SetupOf(virtual.Easy, tel, seed)
	setup.Faults.RingOffMM, setup.Faults.SecondarySlipMM, setup.Faults.SecondaryTurnedDeg = f.RingOffMM, f.SecondarySlipMM, f.SecondaryTurnedDeg
	s, err := session.Start(event.Event{ID: "test", Scope: &scope}, nil)
	require.NoError(t, err)
	script := &finerScript{
		answerer: answerer{world: virtual.NewWith(tel, setup, seed), tel: tel},
		state:    s.State, asks: asks, seen: map[session.StepID]bool{},
	}
	last := playBy(t, s, script.answerer, script.reply)
	return s.State(), script, last
}

func finding(s session.State, check session.StageID) session.Finer {
	for _, f := range s.Record().Finer {
		if f.Check == check {
			return f
		}
	}
	return session.Finer{}
}

func TestShadowAndStarOverTheFeed(t *testing.T) {
	s, script, last := playFiner(t, scopeOf(t, "heron"), virtual.Faults{RingOffMM: 2}, 4, session.StagePutAway)
	truth := script.world.Truth().ErrorMM
	shadow, star := finding(s, session.StageShadow), finding(s, session.StageStar)
	t.Logf("true %.2f; %s | %s | %s %s", truth, shadow.Words, star.Words, last.Outcome, last.Tag)
	assert.NotEmpty(t, shadow.Words)
	assert.Contains(t, star.Words, "A star shows both")
	for _, step := range []session.StepID{"lens", "shadow", "star", "rings", "sides", "finger", "after", "ease", "turn", "nip"} {
		assert.True(t, script.seen[step], "never asked: %s", step)
	}
	require.NotNil(t, last.AxisErrorMaxMM)
	assert.Equal(t, star.AxisErrorMaxMM, *last.AxisErrorMaxMM, "the last line claims what the star has shown")
	assert.LessOrEqual(t, truth, *last.AxisErrorMaxMM+0.2)
	assert.Equal(t, session.TagWithNote, last.Tag)
}

func TestTheSecondarysPlaceOverTheFeed(t *testing.T) {
	for _, c := range []struct {
		faults  virtual.Faults
		says    string
		outcome string
	}{
		{virtual.Faults{}, "in its place", session.OutcomeAligned},
		{virtual.Faults{SecondarySlipMM: 3}, "slipped along its stalk", session.OutcomeAligned},
		{virtual.Faults{SecondaryTurnedDeg: 3}, "turned about the tube", session.OutcomeNotToday},
	} {
		s, script, last := playFiner(t, scope.Builtin(), c.faults, 3, session.StageReady)
		assert.True(t, script.seen["outline"] && script.seen["picture"])
		assert.Contains(t, finding(s, session.StagePlace).Words, c.says)
		assert.Equal(t, c.outcome, last.Outcome, c.says)
	}
}

func TestFinerIsNotAskedOfAnybody(t *testing.T) {
	s, err := session.Start(event.Event{ID: "test", Scope: ptr(scope.Builtin())}, nil)
	require.NoError(t, err)
	plan, _ := s.State().Plan()
	for _, id := range []session.StageID{session.StagePlace, session.StageShadow, session.StageStar} {
		assert.NotContains(t, plan, id)
	}
}

func ptr[T any](v T) *T { return &v }
