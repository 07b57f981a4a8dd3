package feed_test

import (
	"maps"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session/scope"
)

// habit is how somebody works whose sessions are kept. What they do beside
// answering is given as its chance at each question.
type habit struct {
	name string

	wrong, long      float64 // a line that cannot be taken
	swap             float64 // left for right
	forms, short     float64 // hours and mm; "within" and "in the ring" where it is so
	talk, feels, own float64 // what a screw said, or the hand felt; turns of one's own
	undo, back, skip float64
	quit, lost, full float64 // and taken up again; a full disk
	stop             float64
	weak, fresh      float64 // the laser
	dead             float64
	finer            float64
	other            float64 // another choice than the first

	begin  string // how a session begins, if not as any
	again  bool   // twice on the same scope
	check  bool   // the first look alone before
	faults func(*virtual.Faults, *rand.Rand)
}

// habits are those of the kept sessions, each of which is played on every scope
// and level.
func habits() []habit {
	return []habit{
		{name: "plain"},
		{name: "whole", forms: 0.8, begin: beginWhole},
		{name: "watched", short: 0.5, forms: 0.2, begin: beginWatched},
		{name: "errors", wrong: 0.3, long: 0.03, forms: 0.3},
		{name: "misreads", swap: 0.25},
		{name: "talk", talk: 0.25, feels: 0.7},
		{name: "screws", feels: 0.9, talk: 0.05, faults: ailing},
		{name: "own-turns", own: 0.25, talk: 0.1, feels: 0.5},
		{name: "undo", undo: 0.15, back: 0.06},
		{name: "skips", skip: 0.12, other: 0.15},
		{name: "taken-up", quit: 0.1, lost: 0.04},
		{name: "no-room", full: 0.1, lost: 0.08, wrong: 0.05},
		{name: "stops", stop: 0.07, talk: 0.05},
		{name: "laser", weak: 0.06, fresh: 0.06, dead: 0.02, faults: poorLaser},
		{name: "finer", finer: 0.15, faults: misplaced},
		{name: "chooses", other: 0.5, forms: 0.3, short: 0.3},
		{name: "again", again: true, short: 0.2, feels: 0.5, check: true},
		{
			name: "all", wrong: 0.05, swap: 0.05, forms: 0.3, short: 0.2, talk: 0.08, feels: 0.6, own: 0.05, undo: 0.05, back: 0.02,
			skip: 0.02, quit: 0.03, full: 0.03, stop: 0.01, weak: 0.02, fresh: 0.02, finer: 0.03, other: 0.1, again: true,
		},
	}
}

func ailing(f *virtual.Faults, r *rand.Rand) {
	all := []virtual.Ailment{virtual.Seized, virtual.Grabbing, virtual.Worn, virtual.NearEnd, virtual.Slack}
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		f.Screws = append(f.Screws, virtual.ScrewFault{Mirror: m, Screw: r.IntN(3), Is: all[r.IntN(len(all))]})
	}
	f.LockFollow = 0.8
}

func poorLaser(f *virtual.Faults, r *rand.Rand) {
	f.LaserSlopeRad = 0.004
	f.WeakLaser = r.IntN(2) == 0
	f.DeadAfter = 40 + r.IntN(80)
	f.RingSwallows = r.IntN(2) == 0
}

func misplaced(f *virtual.Faults, r *rand.Rand) {
	f.RingOffMM = 3 * r.Float64()
	f.SecondarySlipMM = 4 * r.Float64()
	f.SecondaryTurnedDeg = 3 * r.Float64() * float64(r.IntN(2))
}

// keptPlan is a session to be kept: on which scope, before which telescope,
// and how somebody works there.
type keptPlan struct {
	scope string
	level virtual.Level
	seed  uint64
	habit habit
}

func (k keptPlan) name() string {
	return k.scope + " " + string(k.level) + " " + k.habit.name + " " + strconv.FormatUint(k.seed, 10)
}

// keptPlans are all sessions that are kept.
func keptPlans(scopes map[string]scope.Scope) []keptPlan {
	var plans []keptPlan
	for i, scope := range slices.Sorted(maps.Keys(scopes)) {
		for j, level := range []virtual.Level{virtual.Easy, virtual.Usual, virtual.Hard} {
			for n, h := range habits() {
				plans = append(plans, keptPlan{scope, level, uint64(1000*i + 100*j + n), h})
			}
		}
	}
	return plans
}

// play plays it before a virtual telescope and returns its transcript.
func (k keptPlan) play(scopes map[string]scope.Scope) []string {
	r := rand.New(rand.NewPCG(k.seed, 1))
	tel := scopes[k.scope].Telescope()
	setup := virtual.SetupOf(k.level, tel, k.seed)
	if k.habit.faults != nil {
		k.habit.faults(&setup.Faults, r)
	}
	s := &stand{scopes: scopes}
	p := &person{
		habit: k.habit, rand: r, stand: s, begins: []string{strings.TrimSpace(orderBegin + k.scope + " " + k.habit.begin)},
		at: answerer{world: virtual.NewWith(tel, setup, k.seed), tel: tel, turned: s.State, at: new(float64)},
	}
	if k.habit.check {
		p.begins = append([]string{orderBegin + k.scope + " " + beginCheck}, p.begins...)
	}
	if k.habit.again {
		p.begins = append(p.begins, orderAgain)
	}
	return s.run(p.next)
}
