package feed_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/sessiontest"
)

// faulty is a telescope of any of the table's kinds, with hands and eyes of any
// level, and mostly something wrong with it.
func faulty(seed uint64) (h hidden, watching bool, fault string) {
	r := rand.New(rand.NewPCG(seed, 15))
	h = newHidden(seed)
	makes := []func(*hidden){told, unknown, reversed, quarterOut, fourScrews, pulling}
	makes[r.IntN(len(makes))](&h)
	level := levels[r.IntN(len(levels))]
	who := virtual.SetupOf(level, h.truth, seed)
	h.setup.Hands, h.setup.Sight = who.Hands, who.Sight
	f := &h.setup.Faults
	ailments := []virtual.Ailment{virtual.Seized, virtual.Grabbing, virtual.Worn, virtual.NearEnd, virtual.Slack}
	m := []optics.Mirror{optics.Secondary, optics.Primary}[r.IntN(2)]
	switch r.IntN(9) {
	case 0, 1, 2:
		is := ailments[r.IntN(len(ailments))]
		f.Screws, fault = []virtual.ScrewFault{{Mirror: m, Screw: r.IntN(3), Is: is}}, fmt.Sprint(m, " ", is)
	case 3:
		f.LooseSecondaryTurns, fault = 0.2, "a screw left loose"
	case 4:
		f.RockingPrimaryMM, fault = 4, "a primary that rocks"
	case 5:
		f.RingSwallows, fault = true, "a ring that sends nothing back"
	case 6:
		f.LaserOffsetMM, f.LaserSlopeRad, fault = 1, 2e-3, "a laser that points off"
	case 7:
		f.DeadAfter, fault = 10+r.IntN(30), "a battery that dies"
	}
	return h, r.IntN(2) == 0, fmt.Sprintf("%s, %s", level, fault)
}

// ends plays n of them, and returns how they end and what is amiss with those ends.
func ends(from, n int) (all map[string]int, amiss []string) {
	played := make([]tally, n)
	faults := make([]string, n)
	each(n, func(i int) {
		h, watching, fault := faulty(uint64(from + i))
		p := newPlayer(h, watching)
		p.play(nil, nil)
		played[i], faults[i] = p.tally, fault
		if p.err != nil {
			played[i].end = p.err.Error()
		}
	})
	all = map[string]int{}
	for i, t := range played {
		all[t.outcome]++
		reasoned := t.end != "" && slices.Contains([]string{session.OutcomePartly, session.OutcomeStopped}, t.outcome)
		if !t.good() && !reasoned {
			amiss = append(amiss, fmt.Sprintf("%d (%s): %q %s", from+i, faults[i], t.outcome, t.end))
		}
	}
	return all, amiss
}

// Whatever is wrong with a telescope and whoever is at it, a session ends: aligned,
// rightly left, or with what keeps it from that.
func TestEverySessionEnds(t *testing.T) {
	_, amiss := ends(0, sessiontest.Of(1, 4, 6))
	assert.Empty(t, amiss)
}

// BenchmarkEnds does the same with many.
func BenchmarkEnds(b *testing.B) {
	for b.Loop() {
		all, amiss := ends(1000, 1500)
		fmt.Fprintln(os.Stdout, all)
		assert.Empty(b, amiss)
	}
}

// A session that stops names the mirror that is at fault, whatever else went wrong on
// the way.
func TestTheReasonNamesTheMirror(t *testing.T) {
	for seed, mirror := range map[uint64]optics.Mirror{2348: optics.Secondary, 1005: optics.Primary, 1874: optics.Primary} {
		h, watching, fault := faulty(seed)
		p := newPlayer(h, watching)
		p.play(nil, nil)
		assert.Contains(t, p.asked.Say, ": the "+string(mirror), "%d (%s)", seed, fault)
	}
}
