package history_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/session/history"
)

// A fault is what goes wrong in a season of a shed: twelve rounds over six
// scopes, three to a kit, the kits exchanged every third round, two people in
// turn. Heron has the fault, or Blue box, or Ann.
type fault struct {
	before func(s *season, round int) // Heron is looked at
	blue   func(s *season, round int) optics.Tube
	ann    func(s *season)
	says   func(f history.Fleet) string
}

const faulty = "Heron"

// The verdicts: named as what it is, as something else, or left open.
const (
	named = "named"
	other = "else"
	open  = "open"
)

func faults() map[string]fault {
	on := func(want ...history.HintID) func(history.Fleet) string {
		return func(f history.Fleet) string { return verdictOn(f, "", want...) }
	}
	return map[string]fault{
		"a laser that sags": {
			blue: func(s *season, round int) optics.Tube {
				if round < 4 {
					return optics.Tube{}
				}
				return optics.Tube{Y: -3 - 0.5*float64(round-4)}.Add(s.near(0.7))
			},
			says: func(f history.Fleet) string {
				got := open
				for _, k := range f.Kits {
					switch {
					case k.Suspicion == nil:
					case k.Kit == "Blue box" && got == open:
						got = named
					case k.Kit != "Blue box":
						got = other
					}
				}
				if suspected(f, "") {
					got = other
				}
				return got
			},
		},
		"a cell spring": {
			before: func(s *season, round int) {
				sense := 1.0
				if s.rnd.IntN(2) == 0 {
					sense = -1
				}
				b := ways()[1]
				s.primaryMoves(b.Scale(sense * (3 + 4*s.rnd.Float64()) / b.Len()))
			},
			says: func(f history.Fleet) string { return verdictOn(f, "B", history.HintSprings, history.HintPrimary) },
		},
		"a secondary turning on its stalk": {
			before: func(s *season, _ int) { s.secondaryMoves(optics.Tube{Y: -4 - 5*s.rnd.Float64()}) },
			says:   on(history.HintStalk),
		},
		"a moved ring": {
			before: func(s *season, round int) {
				if round == 6 {
					s.ring = s.some(4, 8)
				}
			},
			says: on(history.HintRing),
		},
		"a clumsy person": {
			ann: func(s *season) { s.primaryMoves(s.some(3, 7)) },
			says: func(f history.Fleet) string {
				primary := []history.HintID{history.HintPrimary, history.HintLocks, history.HintSprings, history.HintHands, history.HintSettled, history.HintAim}
				for _, row := range f.Scopes {
					if h := row.Suspicion; h != nil && !slices.Contains(primary, h.ID) {
						return other
					}
				}
				switch {
				case kitHeld(f) || f.Hands != nil && !strings.Contains(f.Hands.Say, "Ann"):
					return other
				case f.Hands != nil:
					return named
				}
				return open
			},
		},
	}
}

func kitHeld(f history.Fleet) bool {
	return slices.ContainsFunc(f.Kits, func(k history.KitRow) bool { return k.Suspicion != nil })
}

// suspected reports whether something is held against a scope beside one.
func suspected(f history.Fleet, but string) bool {
	return slices.ContainsFunc(f.Scopes, func(r history.FleetRow) bool {
		h := r.Suspicion
		return r.Scope != but && h != nil && h.ID != history.HintSettled && h.ID != history.HintAim && h.ID != history.HintKit
	})
}

// verdictOn is the verdict on a scope, at a corner of which something is wrong
// unless it is "".
func verdictOn(f history.Fleet, corner string, want ...history.HintID) string {
	if kitHeld(f) || suspected(f, faulty) || f.Hands != nil {
		return other
	}
	for _, row := range f.Scopes {
		if row.Scope != faulty || row.Suspicion == nil {
			continue
		}
		switch h := row.Suspicion; {
		case h.ID == history.HintSettled || h.ID == history.HintAim:
		case !slices.Contains(want, h.ID) || h.Corner != "" && h.Corner != corner:
			return other
		case h.Corner == corner:
			return named
		}
	}
	return open
}

func (x fault) season(t testing.TB, seed uint64) history.Fleet {
	t.Helper()
	sh := newShed(t, seed, "Curlew", "Fulmar", "Dipper", faulty, "Gannet", "Egret")
	for round := range 12 {
		for n, s := range sh.seasons {
			s.secondaryMoves(s.near(0.3))
			s.primaryMoves(s.near(0.3))
			if x.ann != nil && s.who == "Ann" {
				x.ann(s)
			}
			if x.before != nil && s.name == faulty {
				x.before(s, round)
			}
			s.who = []string{"Ann", "Ben"}[s.rnd.IntN(2)]
			s.kit = "Red box"
			s.laserAt(optics.Tube{})
			if (n < 3) == (round%3 == 2) {
				s.kit = "Blue box"
				if x.blue != nil {
					s.laserAt(x.blue(s, round))
				}
			}
			s.visit(true)
		}
	}
	return sh.stock(t).FleetAt(time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC))
}

func (x fault) count(t testing.TB, seasons int) map[string]int {
	said := map[string]int{}
	for seed := range uint64(seasons) {
		v := x.says(x.season(t, seed+1))
		said[v]++
	}
	return said
}

// A small sample of BenchmarkSeasons, which holds the program to more: mostly
// named, hardly ever as something else.
func TestFaultsOfASeason(t *testing.T) {
	for name, x := range faults() {
		said := x.count(t, 20)
		t.Log(name, said)
		assert.Greater(t, said[named], 10, name)
		assert.LessOrEqual(t, said[other], 1, name)
	}
}

// BenchmarkSeasons is the table of truth against verdict: of 60 seasons with a
// fault, how many are named as what they are, as something else, and left open.
func BenchmarkSeasons(b *testing.B) {
	for name, x := range faults() {
		b.Run(strings.ReplaceAll(name, " ", "_"), func(b *testing.B) {
			for b.Loop() {
				said := x.count(b, 60)
				if said[named] < 45 || said[other] > 2 {
					b.Error("more must be named, and fewer as something else: ", said)
				}
				for _, v := range []string{named, other, open} {
					b.ReportMetric(float64(said[v]), fmt.Sprint(v, "/60"))
				}
			}
		})
	}
}
