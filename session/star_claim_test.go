package session_test

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/words"
)

// starTrial is what became of many looks at a star.
type starTrial struct {
	looks, within int     // the true error was within what was claimed
	even, fine    int     // even on both sides, and of those within what is allowed
	squares       float64 // of what the claim missed the true error by, over what is allowed
}

// playStar looks at a star of many practice telescopes, over the session, and holds
// what is claimed against the truth.
func playStar(t *testing.T, scope scope.Scope, level virtual.Level, rings int, seeds uint64) (trial starTrial) {
	t.Helper()
	tel := scope.Telescope()
	for seed := range seeds {
		p := play(t, scope)
		p.line("routine", "none", "still", "dead", "home", "leave", "finer", "no", "yes", strconv.Itoa(rings))
		setup := virtual.SetupOf(level, tel, seed)
		setup.Faults = virtual.Faults{ReturnMM: (0.1 + float64(seed%20)/10) * 2 * p.State().AllowedMM()}
		world := virtual.NewWith(tel, setup, seed)
		even := true
		for p.State().Ask().Focus != "" {
			view := world.StarEyes(p.State().StarWaves())
			p.line(session.SideOf(view.Thin))
			if p.State().Ask().Want == session.WantReading {
				even = false
				view = world.StarEyes(p.State().StarWaves())
				p.line(words.ReadingText(p.State().Tel.ToDial(optics.FaceCard, view.Seen)))
			}
		}
		f, truth := finding(p.State(), session.StageStar), world.Truth().ErrorMM
		allowed := p.State().AllowedMM()
		trial.looks++
		if truth <= f.AxisErrorMaxMM {
			trial.within++
		}
		trial.squares += math.Pow((f.AxisErrorMM-truth)/allowed, 2)
		if even {
			trial.even++
			if truth <= allowed {
				trial.fine++
			}
		}
	}
	return trial
}

// What a star is said to show is so: the true error is within the claim in 95 of
// 100 or more, and who calls it even on both sides at five rings is within what is
// allowed nine times in ten. On telescopes up to four times what is allowed out.
func TestWhatAStarIsSaidToShow(t *testing.T) {
	sessiontest.Whole(t)
	for _, level := range []virtual.Level{virtual.Easy, virtual.Usual, virtual.Hard} {
		var five, ten starTrial
		for _, f := range []float64{960, 1200, 1600} {
			sc := scope.Builtin()
			sc.Aperture, sc.FocalLength = scope.MM(200), scope.MM(f)
			sc.Secondary.FromPrimary, sc.Laser.HoleFromAxis = scope.MM(f-200), scope.MM(220)
			sc.Tube.SkyEnd = scope.MM(f + 100)
			five.add(playStar(t, sc, level, 5, uint64(sessiontest.Of(0, 12, 30))))
			ten.add(playStar(t, sc, level, 10, uint64(sessiontest.Of(0, 8, 20))))
		}
		t.Logf("%s: five %+v, ten %+v", level, five, ten)
		assert.GreaterOrEqual(t, 100*five.within, 95*five.looks, level)
		assert.GreaterOrEqual(t, 100*ten.within, 95*ten.looks, level)
		assert.GreaterOrEqual(t, 10*five.fine, 9*five.even, level)
		assert.Less(t, math.Sqrt(five.squares/float64(five.looks)), 0.8, level)
	}
}

func (a *starTrial) add(b starTrial) {
	a.looks, a.within, a.even, a.fine, a.squares = a.looks+b.looks, a.within+b.within, a.even+b.even, a.fine+b.fine, a.squares+b.squares
}
