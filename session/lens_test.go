package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
)

// Where a lens is built in, the return spot is never asked for, no axis error is
// claimed, the primary is not offered, and a star is.
func TestAScopeWithALensInIt(t *testing.T) {
	reed := sessiontest.ReadScope(t, "reed")
	p := play(t, reed)
	assert.Contains(t, p.State().Ask().Note, "its return is not to be trusted")
	p.line("routine", "none", "still").at(session.StageFirstLook, "p")
	p.line("4 20").at(session.StageVerdict, "verdict")
	ask := p.State().Ask()
	assert.Contains(t, ask.Say, "the secondary is out")
	assert.Contains(t, ask.Say, "its return is not to be trusted")
	assert.NotContains(t, ask.Say, "The axis error is")
	var ids []string
	for _, o := range ask.Options {
		ids = append(ids, o.ID)
	}
	assert.Equal(t, []string{"secondary", "leave", "not_today"}, ids)
	_, _, claimed := p.State().AxisError()
	assert.False(t, claimed)

	p.line("leave").at(session.StageStar, "star")
	p.line("no").at(session.StagePutAway, "tag")
	assert.Contains(t, p.State().Ask().Say, "The secondary is out, and was left as it is")
	p.line("")
	r := p.State().Record()
	assert.Equal(t, session.TagWithNote, r.Tag)
	assert.Zero(t, r.Left.AxisErrorMM)
	assert.False(t, r.Left.Claimed)
}

func TestAStarWhereALensIsBuiltIn(t *testing.T) {
	reed := sessiontest.ReadScope(t, "reed")
	to := func(lines ...string) player {
		p := play(t, reed).line("routine", "none", "still", "dead", "leave", "yes")
		for _, o := range p.State().Ask().Options {
			assert.NotContains(t, o.Words, "axis error")
		}
		return p.line("5").line(lines...)
	}
	even := to("even", "even").at(session.StagePutAway, "tag")
	assert.Contains(t, even.State().Ask().Note, "as good as eyes can tell")
	assert.Equal(t, session.TagReady, even.State().Ask().Options[0].ID)
	assert.Contains(t, finding(even.State(), session.StageStar).Words, "as good as eyes can tell")

	unlooked := play(t, reed).line("routine", "none", "still", "dead", "leave", "no")
	assert.Contains(t, unlooked.State().Ask().Say, "The primary was not checked")
	assert.Equal(t, session.TagWithNote, unlooked.State().Ask().Options[0].ID)

	thin := to("half", "4 50", "half", "10 50").at(session.StagePutAway, "tag")
	f := finding(thin.State(), session.StageStar)
	assert.True(t, f.Off)
	assert.Contains(t, f.Words, "toward 4 o'clock as seen from the sky end")
	assert.Contains(t, f.Words, "nobody can say which way to turn the primary")
	assert.Zero(t, f.AxisErrorMM)
	assert.Equal(t, session.TagWithNote, thin.State().Ask().Options[0].ID)

	// what changes sides at focus is the secondary, and not coma
	glass := to("half", "4 50", "half", "4 50").at(session.StagePutAway, "tag")
	assert.False(t, finding(glass.State(), session.StageStar).Off)
}

// The secondary is worked on with nothing said of the primary, whatever comes; it
// always ends.
func TestLensWalks(t *testing.T) {
	reed := sessiontest.ReadScope(t, "reed")
	rapid.Check(t, func(rt *rapid.T) {
		s, err := session.Start(event.Event{ID: "20260101T000000Z-0001", Scope: &reed}, &memory{})
		require.NoError(rt, err)
		walk(rt, s, func(_ event.Event, _ session.State, _ error) {
			st := s.State()
			require.NotContains(rt, []session.StageID{session.StageLocks, session.StageRough, session.StageHome, session.StageShadow}, st.Stage().ID)
			if ask := st.Ask(); ask.Want == session.WantReading {
				require.NotEqual(rt, optics.FaceTarget, ask.Face, ask.Step)
			}
			_, _, claimed := st.AxisError()
			require.False(rt, claimed)
			require.False(rt, st.Record().Left.Claimed)
		})
	})
}

// A small scope of long focal length whose file does not say how long the tube is:
// its length is asked for.
func TestTheTubesLengthIsAskedFor(t *testing.T) {
	quiet := scope.Scope{Format: 1, Name: "Reed", Aperture: scope.MM(114), FocalLength: scope.MM(1000)}
	assert.Contains(t, play(t, quiet).State().Ask().Note, "Put the tube's length into the scope's file")
	quiet.Tube.SkyEnd = scope.MM(950)
	assert.Empty(t, play(t, quiet).State().Ask().Note)
	assert.Empty(t, play(t, scope.Builtin()).State().Ask().Note)
}
