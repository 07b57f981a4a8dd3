package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
)

// centred plays a session until the spot on the primary is where spot says.
func centred(t *testing.T, apertureMM float64, glow string, spot ...string) player {
	sc := scope.Builtin()
	sc.Aperture = scope.MM(apertureMM)
	s, err := session.Start(event.Event{ID: "x", Kit: "club laser", Scope: &sc, Knew: &event.Known{Glow: glow}}, nil)
	require.NoError(t, err)
	p := player{t, s, nil}.line("routine", "none", "still", "4 30mm")
	return p.at(session.StageSecondary, "p").line(spot...)
}

// The spot on the primary is read twice where the tag may hang on it: not where the
// mirror is so slow that once is enough, so fast that twice is not, or where nothing is
// to be seen of the glow.
func TestTheSpotOnThePrimaryIsReadTwice(t *testing.T) {
	for _, c := range []struct {
		name       string
		apertureMM float64
		glow       string
		asked      bool
	}{
		{"f/6", 200, event.GlowShifts, true}, {"f/6, nobody was asked of the glow", 200, "", true},
		{"f/6, dust alone", 200, event.GlowStays, false}, {"f/6, cannot tell", 200, event.GlowUnknown, false},
		{"f/8", 150, event.GlowShifts, false}, {"f/4.5", 267, event.GlowShifts, false},
	} {
		p := centred(t, c.apertureMM, c.glow, "4 0.5mm", "4 0.5mm")
		assert.Equal(t, c.asked, p.State().Ask().Step == session.StepTwice, "%s: %s", c.name, p.State().Ask().Step)
	}
}

// Two readings that agree are worth more than one; that it is somewhere in the ring
// says no more for being said again, and is not asked a second time.
func TestTwoReadingsAreWorthMore(t *testing.T) {
	p := centred(t, 200, event.GlowShifts, "4 0.5mm", "4 0.5mm").at(session.StageSecondary, session.StepTwice)
	once := p.State().OnPrimary().At.Cov.Sigma()
	p.line("4 0.5mm")
	assert.NotEqual(t, session.StepTwice, p.State().Ask().Step)
	assert.InDelta(t, once/1.41, p.State().OnPrimary().At.Cov.Sigma(), 0.02)

	vague := play(t, scope.Builtin()).line("routine", "none", "still", "in").at(session.StageFirstLook, session.StepWhere).line("in")
	assert.InDelta(t, vague.State().Tel.RingInnerMM/2, vague.State().OnPrimary().At.Cov.Sigma(), 0.01)
}

// An even glow is worth nothing more than having seen the spot go in, as long as it is
// not known that the kit's glow shifts: dust glows evenly whatever is turned.
func TestAnEvenGlowMustBeKnownToShift(t *testing.T) {
	sigma := func(glow string) float64 {
		sc := scope.Builtin()
		s, err := session.Start(event.Event{ID: "x", Kit: "club laser", Scope: &sc, Knew: &event.Known{Glow: glow}}, nil)
		require.NoError(t, err)
		p := player{t, s, nil}.line("routine", "none", "still", "dead", "even")
		require.Equal(t, event.SawHome, p.State().OnTarget().Saw)
		return p.State().OnTarget().At.Cov.Sigma()
	}
	assert.InDelta(t, 0.5, sigma(event.GlowShifts), 0.06)
	for _, glow := range []string{event.GlowStays, event.GlowUnknown, ""} {
		assert.InDelta(t, 1.25, sigma(glow), 1e-9, "known of the glow: %q", glow)
	}
}

// What is said of the axis carries ring and laser as long as they are not settled, each
// by its own share.
func TestTheClaimCarriesRingAndLaser(t *testing.T) {
	with := func(ring, laser bool) optics.Claim {
		sc := scope.Builtin()
		if ring {
			sc.Primary.Ring = scope.Settled{By: scope.ByTemplate, On: "2026-02-01"}
		}
		if laser {
			sc.Laser.Hole = scope.Settled{By: scope.ByRolling, On: "2026-02-01"}
		}
		claim, ok := play(t, sc).line("routine", "none", "still", "dead", "home").State().Claim()
		require.True(t, ok)
		return claim
	}
	neither, ring, laser := with(false, false).Error.Cov.XX, with(true, false).Error.Cov.XX, with(false, true).Error.Cov.XX
	tel := scope.Builtin().Telescope()
	square := func(mm float64) float64 { return mm * mm }
	assert.InDelta(t, square(0.25)-square(0.15), neither-ring, 1e-3)
	assert.InDelta(t, (square(0.3)-square(0.1))*square(tel.FocalLengthMM/tel.PathMM()), neither-laser, 1e-3)
}
