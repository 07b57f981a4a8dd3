package history

import (
	"fmt"
	"math"

	"spotward/session/scope"
)

// handsChance is how often chance alone may set one person's work apart.
const handsChance = 0.02

// handsHint is about a scope that moves after one person's work and holds after
// everybody else's.
func handsHint(counted []Interval) (Hint, bool) {
	seen := map[string]bool{}
	for _, who := range counted {
		name := nameKey(who.LeftWho)
		if name == "" || seen[name] || !who.AfterWork {
			continue
		}
		seen[name] = true
		var off, all, otherOff, others int
		for _, i := range counted {
			mine := i.AfterWork && scope.SameName(i.LeftWho, who.LeftWho)
			switch {
			case mine && i.Cause != CauseHeld:
				off, all = off+1, all+1
			case mine:
				all++
			case i.Cause != CauseHeld:
				otherOff, others = otherOff+1, others+1
			default:
				others++
			}
		}
		if all < leastIntervals || others < leastIntervals || 4*off < 3*all || 4*otherOff > others || fisher(off, all, otherOff, others) > handsChance {
			continue
		}
		return Hint{
			ID: HintHands, N: off, Of: all, Short: "after one person's work", Needs: "one session done together",
			Say: fmt.Sprintf("It moved after %s's work (%d of %d), and after others' %d of %d times.", who.LeftWho, off, all, otherOff, others),
			Do:  "Do one session together: the locks round by round, and the last look after them.",
		}, true
	}
	return Hint{}, false
}

// fisher returns how often a of n and no more than b of m are off by chance, as
// many being off in all (R. A. Fisher's exact test, one-sided).
func fisher(a, n, b, m int) float64 {
	p := 0.0
	for k := a; k <= min(n, a+b); k++ {
		if rest := a + b - k; rest <= m {
			p += math.Exp(lnChoose(n, k) + lnChoose(m, rest) - lnChoose(n+m, a+b))
		}
	}
	return p
}

func lnChoose(n, k int) float64 {
	l := func(v int) float64 { g, _ := math.Lgamma(float64(v) + 1); return g }
	return l(n) - l(k) - l(n-k)
}
