package history_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/session"
	"spotward/session/history"
	"spotward/session/scope"
)

// A laser that is bent one day: every scope it is found with has moved the same
// way, whatever it was aligned with, and no scope is to blame.
func TestKitThatMakesEveryScopeLookBad(t *testing.T) {
	blamed, others := 0, 0
	const runs = 40
	for seed := range uint64(runs) {
		var all []history.Interval
		for n := range uint64(6) {
			s := newSeason(t, seed*100+n)
			s.name, s.days = fmt.Sprint("Heron ", n), 30
			s.visit(true)
			s.secondaryMoves(s.near(0.3))
			s.visit(true)
			s.laserAt(optics.Tube{X: 7, Y: 4})
			s.visit(true)
			s.visit(true)
			s.laserAt(optics.Tube{})
			s.kit = "Loan 2"
			all = append(all, history.Intervals(s.records, func(session.Record) optics.Telescope { return s.tel })...)
		}
		if k, ok := history.KitDriftOf("loan 1", all); ok {
			blamed++
			assert.GreaterOrEqual(t, k.N, 3)
			assert.Contains(t, k.Say, "loan 1")
		}
		if _, ok := history.KitDriftOf("Loan 2", all); ok {
			others++
		}
	}
	t.Log(blamed, others)
	assert.GreaterOrEqual(t, blamed, runs*8/10)
	assert.Zero(t, others)

}

func TestKitIsNotBlamedForWhatEachScopeDoesItsOwnWay(t *testing.T) {
	for name, happens := range map[string]func(s *season, n uint64){
		"secondaries": func(s *season, _ uint64) { s.secondaryMoves(s.some(6, 10)) },
		"a laser that sits otherwise each time": func(s *season, n uint64) {
			s.laserAt(optics.Tube{X: 8}.Scale(1 - 2*float64(n%2)))
		},
	} {
		var all []history.Interval
		for n := range uint64(20) {
			s := newSeason(t, n)
			s.name, s.days = fmt.Sprint("Heron ", n), 30+int(n)
			s.visit(true)
			happens(s, n)
			s.visit(true)
			all = append(all, history.Intervals(s.records, func(session.Record) optics.Telescope { return s.tel })...)
		}
		_, ok := history.KitDriftOf("Loan 1", all)
		assert.False(t, ok, name)
	}
}

// In years of many scopes some go the same way one after another by chance.
func TestKitIsNotBlamedForChance(t *testing.T) {
	blamed := 0
	for seed := range uint64(10) {
		var all []history.Interval
		for n := range uint64(30) {
			s := newSeason(t, 1000*seed+n)
			s.name, s.days = fmt.Sprint("Heron ", n), 30
			s.when = s.when.Add(time.Duration(n) * time.Hour)
			visits(20, always, func(s *season) { s.secondaryMoves(s.near(3)); s.primaryMoves(s.near(3)) })(s)
			all = append(all, history.Intervals(s.records, func(session.Record) optics.Telescope { return s.tel })...)
		}
		if _, ok := history.KitDriftOf("Loan 1", all); ok {
			blamed++
		}
	}
	assert.LessOrEqual(t, blamed, 1)
}

func TestMovedWords(t *testing.T) {
	tel := scope.Builtin().Telescope()
	for _, c := range []struct {
		mm   float64
		says string
	}{{0.4, "not at all"}, {3, "3 mm to 2:00"}} {
		i := history.Interval{P: &optics.Belief{At: optics.Tube{X: c.mm}}}
		assert.Equal(t, c.says, i.PrimaryWords(tel))
	}
	assert.Equal(t, "not known", history.Interval{}.PrimaryWords(tel))
}
