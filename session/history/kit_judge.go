package history

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"spotward/session/scope"
)

// How much an interval says for a laser that points off, in natural logarithms
// of odds. The most that one interval may say keeps a swapped reading from
// deciding; a scope that held says as much against. This program's own choice.
const (
	mostOfOne   = 2.0
	heldAgainst = -1.0
)

// What it takes to hold a kit back: the odds of all intervals together, and the
// least of a scope that counts as spoilt. exchangeOdds is what it adds when a
// scope moves with a kit and holds without it, an interval: both mirrors are the
// same with either kit.
const (
	kitOdds      = 4.0
	scopeOdds    = -2.0
	exchangeOdds = 1.0
	mostExchange = 3
)

// badCircleMM is the radius of a laser's circle on the primary from which the
// kit is held back, whatever the scopes did (trainers' judgement).
const badCircleMM = 8

// badSeatMM is the same for how far off the spot comes back after the laser was
// taken out and put in again (trainers' judgement).
const badSeatMM = 4

// points returns what the interval says for a laser that points off with one of
// its kits, and against the scope's own mirrors.
func (i Interval) points() float64 {
	switch {
	case i.Cause == CauseHeld:
		return heldAgainst
	case i.own == nil || !i.onPrimary():
		return 0
	}
	lean := square(math.Min(i.secondary, worst)) - square(math.Min(i.laser, worst))
	if i.laser > 1 {
		return math.Min(0, 3*lean) // something else as well: nothing for the laser
	}
	return math.Max(-mostOfOne, math.Min(mostOfOne, 3*lean))
}

func (i Interval) onPrimary() bool { return i.P != nil && moved(*i.P, countsOnPrimaryMM) }

func (i Interval) touches(kit string) bool {
	return scope.SameName(i.FoundKit, kit) || scope.SameName(i.LeftKit, kit)
}

// kitCase is what there is for and against one kit.
type kitCase struct {
	kit     string
	with    []Interval         // since it began, oldest first
	odds    float64            // of them together
	of      map[string]float64 // by scope
	moves   map[string]int     // how often it moved, by scope
	counts  map[string]int     // of so many times
	holds   []string           // scopes that hold without it
	others  []string           // the kits they hold with
	circles int                // circles too wide and seats too loose, since it was last still
}

// spoilt returns the scopes that the kit moved, in the order of their names,
// and of how many that were read with it.
func (c kitCase) spoilt() (names []string, of int) {
	for name, odds := range c.of {
		if n := c.moves[name]; n >= 2 && 3*n >= c.counts[name] && odds >= scopeOdds {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names, len(c.of)
}

// guilty reports whether the kit is to be held back: three scopes or more with
// it, or by exchange one that holds without it.
func (c kitCase) guilty() bool {
	spoilt, of := c.spoilt()
	exchanged := 0
	for _, name := range spoilt {
		if slices.Contains(c.holds, name) {
			exchanged++
		}
	}
	few := 3*len(spoilt) >= 2*of
	switch {
	case c.circles >= 2 || c.circles == 1 && len(spoilt) > 0:
		return true
	case c.odds < kitOdds || !few:
		return false
	}
	return len(spoilt) >= leastIntervals || exchanged > 0
}

// JudgeKits returns what is to be held against kits, by name: where scopes move
// as a laser moves them with one kit and hold with another. The weightiest case
// comes first, and what it explains is held against no other kit. intervals are
// those of all scopes; circles are how often a kit's circle was too wide.
func JudgeKits(intervals []Interval, circles map[string]int) map[string]KitDrift {
	out := map[string]KitDrift{}
	for {
		var best []kitCase
		for _, kit := range kitsIn(intervals, circles) {
			if _, done := out[kit]; done {
				continue
			}
			c := caseOf(kit, intervals, circles[kit])
			switch {
			case !c.guilty():
			case len(best) > 0 && c.circles == 0 && best[0].circles > 0:
			case len(best) == 0 || c.odds > best[0].odds || c.circles > 0 && best[0].circles == 0:
				best = []kitCase{c}
			case c.odds == best[0].odds:
				best = append(best, c)
			}
		}
		if len(best) == 0 {
			return out
		}
		for _, c := range best {
			out[c.kit] = c.drift(best)
			intervals = slices.DeleteFunc(slices.Clone(intervals), func(i Interval) bool { return out[c.kit].Blames(i) })
		}
	}
}

// kitsIn returns the kits that intervals or circles name, as keys.
func kitsIn(intervals []Interval, circles map[string]int) []string {
	var out []string
	add := func(name string) {
		if key := nameKey(name); key != "" && !slices.Contains(out, key) {
			out = append(out, key)
		}
	}
	for _, i := range intervals {
		add(i.LeftKit)
		add(i.FoundKit)
	}
	for k := range circles {
		add(k)
	}
	slices.Sort(out)
	return out
}

// caseOf puts the case of a kit together. Lasers are bent one day and mended
// another: what counts is the time up to now in which most speaks against it.
func caseOf(kit string, all []Interval, circles int) kitCase {
	c := kitCase{kit: kit, circles: circles, of: map[string]float64{}, moves: map[string]int{}, counts: map[string]int{}}
	var with []Interval
	for _, i := range all {
		if i.Counts() && i.touches(kit) {
			with = append(with, i)
		}
	}
	slices.SortStableFunc(with, func(a, b Interval) int { return cmp.Or(a.Found.Compare(b.Found), cmp.Compare(a.To, b.To)) })
	sum, begins := 0.0, len(with)
	for n := len(with) - 1; n >= 0; n-- {
		sum += with[n].points()
		if sum > c.odds {
			c.odds, begins = sum, n
		}
	}
	c.with = with[begins:]
	for _, i := range c.with {
		c.of[i.Scope] += i.points()
		c.counts[i.Scope]++
		if i.onPrimary() {
			c.moves[i.Scope]++
		}
	}
	c.without(all)
	for _, name := range c.holds {
		if n := c.moves[name]; n > 0 {
			by := exchangeOdds * float64(min(n, mostExchange))
			c.of[name], c.odds = c.of[name]+by, c.odds+by
		}
	}
	return c
}

// without finds the scopes that hold with other kits: three times or more, and
// hardly ever otherwise.
func (c *kitCase) without(all []Interval) {
	held, off, by := map[string]int{}, map[string]int{}, map[string][]string{}
	for _, i := range all {
		switch {
		case i.touches(c.kit) || !i.Counts() || i.FoundKit == "":
		case i.Cause == CauseHeld:
			held[i.Scope]++
			if !slices.Contains(by[i.Scope], i.FoundKit) {
				by[i.Scope] = append(by[i.Scope], i.FoundKit)
			}
		case i.onPrimary():
			off[i.Scope]++
		}
	}
	others := map[string]bool{}
	for name, n := range held {
		if n >= leastIntervals && 5*off[name] <= n {
			c.holds = append(c.holds, name)
			for _, k := range by[name] {
				others[k] = true
			}
		}
	}
	slices.Sort(c.holds)
	for k := range others {
		c.others = append(c.others, k)
	}
	slices.Sort(c.others)
}

// drift says the case. Where two kits were exchanged for each other every time,
// it is the one or the other.
func (c kitCase) drift(equal []kitCase) KitDrift {
	spoilt, of := c.spoilt()
	k := KitDrift{to: map[string]bool{}}
	for _, i := range c.with {
		k.to[i.To] = true
		if k.Since.IsZero() && i.points() > 0 {
			k.Since = i.Found
		}
	}
	k.Hint = Hint{ID: HintKit, N: len(spoilt), Of: of, Short: "this kit, no scope", Needs: "hold back", Do: "Hold this kit back."}
	k.Say = fmt.Sprintf("off on %d of %s", len(spoilt), scopesText(of))
	if len(spoilt) == 0 && c.circles > 0 {
		k.Say = fmt.Sprintf("too wide a circle, or a loose seat, %d times", c.circles)
	}
	same := len(spoilt) > 0
	for _, name := range spoilt {
		same = same && slices.Contains(c.holds, name)
	}
	switch {
	case len(c.holds) == 0:
	case same:
		k.Say += fmt.Sprintf(", which %s with %s", holdVerb(len(spoilt)), andWords(c.others))
	default:
		k.Say += fmt.Sprintf("; %s %s with %s", scopesText(len(c.holds)), holdVerb(len(c.holds)), andWords(c.others))
	}
	k.Say += "."
	for _, other := range equal {
		if other.kit != c.kit {
			k.Say += fmt.Sprintf(" It may be %s instead.", nameIn(other.with, other.kit))
			k.Do = "Hold it back until each has been tried with a third kit."
		}
	}
	return k
}

func scopesText(n int) string {
	if n == 1 {
		return "1 scope"
	}
	return fmt.Sprintf("%d scopes", n)
}

func holdVerb(n int) string {
	if n == 1 {
		return "holds"
	}
	return "hold"
}

func andWords(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// nameIn returns a kit's name as the intervals have it.
func nameIn(in []Interval, key string) string {
	for _, i := range in {
		for _, name := range []string{i.FoundKit, i.LeftKit} {
			if nameKey(name) == key {
				return name
			}
		}
	}
	return key
}
