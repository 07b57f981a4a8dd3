package history_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/scope"
)

// What a page answers comes out of the record's fields, and what was not looked
// at stands under what is not known.
func TestAnswers(t *testing.T) {
	sc := scope.Builtin()
	circle, swing := 0., 0.2
	spot := &session.Mark{Saw: event.SawHome}
	whole := session.Record{
		Outcome: session.OutcomeAligned, Verdict: session.VerdictBoth, Tag: session.TagLowPower, AllowedMM: 1.1, BudgetMM: 2,
		Left:     session.Moment{P: spot, T: spot, Claimed: true, AxisErrorMM: 1, AxisErrorMaxMM: 2, Within: 0.5},
		CircleMM: &circle, SwingMM: &swing, NetTurns: map[string]float64{"primary A": 0.25},
	}
	stopped := session.Record{Outcome: session.OutcomeStopped, Tag: session.TagHoldBack, Trouble: []string{"secondary C: stuck"}}
	lines := func(r session.Record, name string, settling ...optics.Look) []string {
		for _, a := range history.Answers(r, sc.Telescope(), sc.Method(), settling) {
			if a.Name == name {
				return a.Lines
			}
		}
		return nil
	}
	assert.Equal(t, []string{"decided: both mirrors", "aligned: both spots were brought home, and read again after the swing", "0 looks, 0 moves, 0 rounds of locks", "turns in all, + is tighten: primary A +1/4"}, lines(whole, "done"))
	assert.Equal(t, []string{"as likely as not within the 1.1 mm that is allowed", "the swing moved the return spot by 0.2 mm", "laser turned round: the spot stood still"}, lines(whole, "known"))
	assert.Contains(t, lines(whole, "not known"), "anything finer than 2.0 mm of axis error: this method cannot see it")
	assert.Equal(t, []string{"lend it for low power", "to settle whether it is good enough: read the spot on the primary twice"}, lines(whole, "next", optics.LookTwice))

	assert.Contains(t, lines(stopped, "left"), "return spot: not known at the end")
	assert.Contains(t, lines(stopped, "not known"), "how far the axis is off now")
	assert.Contains(t, lines(stopped, "not known"), "whether the laser is straight in its holder: it was not turned round")
	assert.Equal(t, []string{"see to: secondary C: stuck", "hold it back: do not lend it"}, lines(stopped, "next"))
}
