package history

import (
	"fmt"
	"math"
	"slices"
	"time"

	"spotward/optics"
	"spotward/session/scope"
)

// sameWayDeg is how far apart the ways of two spots may be and still count as
// the same way: what two beginners' readings of direction come to.
const sameWayDeg = 45

// KitDrift is what a kit did to the scopes that were read with it.
type KitDrift struct {
	Hint
	Since time.Time // the first of them was found so
	to    map[string]bool
}

// Blames reports whether the interval is one of those that the kit made.
func (k KitDrift) Blames(i Interval) bool { return k.to[i.To] }

// KitDriftOf looks for a time in which every scope that was found with the kit
// had moved as a laser off in its seat moves it, the same way in the tube's
// frame, and returns false where there is none of three scopes or more.
// intervals are those of all scopes.
func KitDriftOf(kit string, intervals []Interval) (KitDrift, bool) {
	with := slices.DeleteFunc(slices.Clone(intervals), func(i Interval) bool {
		return !scope.SameName(i.FoundKit, kit) || i.Cause == CauseUnseen
	})
	slices.SortStableFunc(with, func(a, b Interval) int { return a.Found.Compare(b.Found) })
	var best, run []Interval
	for _, i := range with {
		if !i.likeLaser() {
			run = nil
			continue
		}
		for len(run) > 0 && !sameWay(run, i) {
			run = run[1:]
		}
		run = append(run[:len(run):len(run)], i)
		if len(scopesOf(run)) > len(scopesOf(best)) {
			best = run
		}
	}
	scopes := scopesOf(best)
	if len(scopes) < leastIntervals || byChance(len(scopes), best, with) > chanceAllowed {
		return KitDrift{}, false
	}
	k := KitDrift{Since: best[0].Found, to: map[string]bool{}}
	before := map[string]bool{}
	for _, i := range best {
		k.to[i.To] = true
		if !scope.SameName(i.LeftKit, kit) {
			before[i.LeftKit] = true
		}
	}
	k.Hint = Hint{
		ID: HintKit, N: len(scopes), Of: len(scopes), Short: "this kit, no scope", Needs: "hold back",
		Say: fmt.Sprintf("%d scopes in a row moved the same way when found with %s.", len(scopes), kit),
		Do:  "Hold this kit back. Compare it with another; turn no screw for what it shows.",
	}
	if len(before) == 1 && !before[""] {
		for other := range before {
			k.Say += fmt.Sprintf(" It may be %s, used before it.", other)
		}
	}
	return k, true
}

// chanceAllowed is how often a kit may be blamed for what scopes did by
// themselves.
const chanceAllowed = 0.05

// byChance returns how many runs of so many scopes are to be expected among the
// intervals of a sound kit: each looks like the laser as often as those outside
// the run do, and goes the same way as the first in one of four.
func byChance(scopes int, run, with []Interval) float64 {
	like := 0
	for _, i := range with {
		if i.likeLaser() {
			like++
		}
	}
	outside := len(with) - len(run)
	often := float64(like-len(run)+1) / float64(outside+2)
	return float64(len(with)) * often * math.Pow(often*sameWayDeg/180, float64(scopes-1))
}

// likeLaser reports whether a laser off in its seat explains the interval
// better than the secondary does.
func (i Interval) likeLaser() bool {
	switch i.Cause {
	case CauseSeat:
		return true
	case CauseOpen:
		return i.P != nil && i.T != nil && moved(*i.P, countsOnPrimaryMM) && i.laser <= i.secondary
	}
	return false
}

func sameWay(run []Interval, i Interval) bool {
	var sum optics.Tube
	for _, r := range run {
		sum = sum.Add(r.P.At.Scale(1 / r.P.At.Len()))
	}
	cos := sum.Dot(i.P.At) / (sum.Len() * i.P.At.Len())
	return cos >= math.Cos(sameWayDeg*math.Pi/180)
}

func scopesOf(in []Interval) []string {
	var out []string
	for _, i := range in {
		if !slices.ContainsFunc(out, func(s string) bool { return scope.SameName(s, i.Scope) }) {
			out = append(out, i.Scope)
		}
	}
	return out
}
