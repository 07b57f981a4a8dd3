package session_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
)

// After turns that nobody has looked after nothing is claimed, and how the scope
// was left is not known.
func TestNothingIsClaimedOfWhatNobodyLookedAfter(t *testing.T) {
	p := home(t)
	claim, ok := p.State().Claim()
	require.True(t, ok)
	assert.Positive(t, claim.AboutMM)
	require.True(t, p.State().Record().Left.Claimed)
	for _, turn := range []optics.Turn{
		{Mirror: optics.Secondary, Screw: "C", Turns: 0.125}, {Mirror: optics.Primary, Screw: "A", Turns: -0.0625},
		{Mirror: optics.Primary, Lock: "B", Turns: 0.0625},
	} {
		p := home(t)
		require.NoError(t, p.Do(event.Event{Kind: event.KindTurned, Turned: []optics.Turn{turn}}))
		r := p.State().Record()
		assert.False(t, r.Left.Claimed, turn)
		assert.Equal(t, session.AsNear, r.Upshot.Kind, turn)
		assert.Contains(t, r.TagWhy, "not known", turn)
		_, ok := p.State().Claim()
		assert.False(t, ok, turn)
	}
}

// A ring and a laser that were settled once make the same readings worth more, and
// the tag says so.
func TestSettledOnceIsWorthMore(t *testing.T) {
	known := scope.Builtin()
	known.Primary.Ring = scope.Settled{By: scope.ByTemplate, On: "2026-02-01"}
	known.Laser.Hole = scope.Settled{By: scope.ByRolling}
	lines := []string{"routine", "none", "still", "dead", "home"}
	as, settled := play(t, scope.Builtin()).line(lines...), play(t, known).line(lines...)
	a, _ := as.State().Claim()
	b, _ := settled.State().Claim()
	assert.Greater(t, b.Within, a.Within+0.05)
	assert.Less(t, b.AtMostMM, a.AtMostMM)
	settled.line("")
	assert.Contains(t, settled.State().Record().TagWhy, "Ring and laser were measured.")
	as.line("")
	assert.Contains(t, as.State().Record().TagWhy, "Ring and laser were never measured.")
}

// One line says whether it is good enough, on every way to end.
func TestUpshots(t *testing.T) {
	for _, c := range []struct {
		name  string
		lines []string
		kind  session.UpshotKind
		words string
	}{
		{"stopped", []string{"routine", "none", "still", "4 12", "stop safely", "yes"}, session.NotToday, "Not today: stopped before it was done."},
		{"not today", []string{"routine", "none", "still", "4 12", "not today", ""}, session.NotToday, "Not today: it was not aligned."},
		{"left, and not proven", []string{"routine", "none", "still", "dead", "home", "leave", ""}, session.AsNear, "As near as this laser can show: good for low power, not proven for high."},
	} {
		p := play(t, scope.Builtin()).line(c.lines...)
		require.True(t, p.State().Over, c.name)
		up := p.State().Upshot()
		assert.Equal(t, c.kind, up.Kind, c.name)
		assert.Equal(t, c.words, up.Words(), c.name)
		assert.Equal(t, up, *p.State().Record().Upshot, c.name)
		assert.LessOrEqual(t, len(up.Words()), 2*54, "two lines of the least screen")
	}
}

// A dead laser says what was not looked at any more.
func TestWhatADeadLaserLeavesOpen(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "4 12")
	p.line("dead laser")
	assert.Contains(t, p.State().Ask().Note, "The laser died.")
	found := p.State().Record().FoundOut
	require.Len(t, found, 1)
	assert.Equal(t, session.FoundDead, found[0].Kind)
	assert.Contains(t, found[0].Words, "whether it holds in a swing")
}

func TestProvableWords(t *testing.T) {
	fast := scope.Builtin()
	fast.FocalLength = scope.MM(960)
	said := strings.Join(scope.ProvableWords(fast), "\n")
	assert.Contains(t, said, "The ring: not measured")
	assert.Contains(t, said, "To make it provable: ")
	fast.Primary.Ring = scope.Settled{By: scope.ByTemplate, On: "2026-02-01", Off: scope.MM(0.4)}
	assert.Contains(t, strings.Join(scope.ProvableWords(fast), "\n"), "The ring: measured, by a paper template, 2026-02-01, off by 0.4 mm.")
	slow := scope.Builtin()
	slow.FocalLength = scope.MM(1600)
	assert.Contains(t, strings.Join(scope.ProvableWords(slow), "\n"), "That is enough for ready.")
}

// Where nothing was touched yet nobody is asked of the last touch.
func TestTheGlowIsAskedOfWhatWasDone(t *testing.T) {
	first := play(t, scope.Builtin()).line("routine", "none", "still", "dead", "home even").State()
	require.Equal(t, session.StepGlow, first.Ask().Step)
	assert.NotContains(t, first.Ask().Say, "last touch")
	turned := play(t, scope.Builtin()).line("routine", "none", "still", "secondary B 1/8", "dead", "home even").State()
	require.Equal(t, session.StepGlow, turned.Ask().Step)
	assert.Contains(t, turned.Ask().Say, "last touch")
}
