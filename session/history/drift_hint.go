package history

import (
	"fmt"
	"math"
	"slices"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
)

// HintID names what a scope's records point to.
type HintID string

// The hints.
const (
	HintSettled   HintID = "settled"   // always home when found
	HintSecondary HintID = "secondary" // the secondary alone
	HintAim       HintID = "aim"       // the secondary or the laser, it does not show which
	HintStalk     HintID = "stalk"     // the secondary turns on its stalk
	HintSprings   HintID = "springs"   // the primary, whenever it is carried
	HintLocks     HintID = "locks"     // the primary, after work
	HintPrimary   HintID = "primary"   // the primary, the one or the other
	HintSeat      HintID = "seat"      // laser seat, holder or drawtube
	HintSlips     HintID = "slips"     // out after each swing
	HintRing      HintID = "ring"      // the centre ring moved on the glass
	HintHands     HintID = "hands"     // after one person's work
	HintKit       HintID = "kit"       // one kit makes every scope look bad
)

// Hint is what the records of a scope or a kit point to, and how often they
// did.
type Hint struct {
	ID    HintID
	N, Of int
	Short string // for a table
	Say   string // a sentence
	Do    string // what to do about it
	Needs string // the same in a few words

	// Corner is the letter of the screw along whose line the spot went; "": none
	// stands out.
	Corner string
}

// leastIntervals is how many intervals, swings or scopes have to show a
// pattern before anything is said of it (trainers' judgement).
const leastIntervals = 3

// recentIntervals is how far back a scope's past says anything of what it is
// now: it was mended since, or taken apart. This program's own choice.
const recentIntervals = 10

// Drift is how a scope holds what is done to it.
type Drift struct {
	Intervals []Interval // all of them, those that count and those that do not
	Holds, Of int        // of the last ten that count
	Hints     []Hint     // the weightiest first
	Work      []Job      // what was done to it and noted of it, oldest first
}

// DriftOf returns the drift of one scope from its records and the log of its work;
// see Intervals. Nothing is said of what fewer than three of the last ten
// intervals show. A part that was worked on counts afresh.
func DriftOf(records []session.Record, tel func(session.Record) optics.Telescope, work []Job) Drift {
	return driftFrom(Intervals(records, tel), records, tel, work, func(Interval) bool { return false })
}

// driftFrom is DriftOf from intervals that are known already, without those that
// something else than the scope made.
func driftFrom(intervals []Interval, records []session.Record, tel func(session.Record) optics.Telescope, work []Job, spoilt func(Interval) bool) Drift {
	d := Drift{Intervals: intervals, Work: work}
	counted := d.counted(spoilt)
	d.Of = len(counted)
	for _, i := range counted {
		if i.Cause == CauseHeld {
			d.Holds++
		}
	}
	for _, look := range []func() (Hint, bool){
		func() (Hint, bool) { return slips(since(records, work), tel) },
		func() (Hint, bool) { return handsHint(counted) },
		func() (Hint, bool) { return foldHint(counted) },
		func() (Hint, bool) { return primaryHint(counted) },
		func() (Hint, bool) { return ringHint(counted, records, tel) },
		func() (Hint, bool) { return settled(d.sinceWork(counted), records) },
	} {
		if h, ok := look(); ok {
			h.atCorner(counted, records, tel)
			d.Hints = append(d.Hints, h)
		}
	}
	return d
}

// counted returns the last intervals that count.
func (d Drift) counted(spoilt func(Interval) bool) []Interval {
	all := slices.DeleteFunc(slices.Clone(d.Intervals), func(i Interval) bool { return !i.Counts() || spoilt(i) || i.outdated(d.Work) })
	return all[max(0, len(all)-recentIntervals):]
}

// sinceWork returns those of the intervals that began after the last work.
func (d Drift) sinceWork(counted []Interval) []Interval {
	last := lastJob(d.Work)
	return slices.DeleteFunc(slices.Clone(counted), func(i Interval) bool { return i.Left.Before(last.T) })
}

// pattern reports whether n of the intervals are enough to speak of, and not
// less than half of those in which anything moved.
func pattern(n int, counted []Interval) bool {
	moved := 0
	for _, i := range counted {
		if i.Cause != CauseHeld {
			moved++
		}
	}
	return n >= leastIntervals && 2*n >= moved
}

// primaryHint is about the return spot that moved alone: springs let go
// whenever a scope is carried, locks only once after each work.
func primaryHint(counted []Interval) (Hint, bool) {
	var moved, held [2]int // 1: after work
	for _, i := range counted {
		at := 0
		if i.AfterWork {
			at = 1
		}
		switch i.Cause {
		case CausePrimary:
			moved[at]++
		case CauseHeld:
			held[at]++
		}
	}
	h := Hint{N: moved[0] + moved[1], Of: len(counted)}
	if h.Of < leastIntervals || h.N == 0 {
		return h, false
	}
	const only = "The return spot alone moved: the primary. "
	switch {
	case moved[0] == 0 && held[0] >= leastIntervals && moved[1] > held[1]:
		h.ID, h.Short, h.Needs = HintLocks, "primary: locks", "its locks"
		h.Say = fmt.Sprintf(only+"It moved after work (%d of %d) and held when it was left alone (%d of %d).", moved[1], moved[1]+held[1], held[0], held[0])
		h.Do = "Nip the locks by smaller steps, round and round; read the return spot once more the day after."
	case !pattern(h.N, counted):
		return h, false
	case moved[0] > held[0]:
		h.ID, h.Short, h.Needs = HintSprings, "primary: springs", "the primary's springs"
		h.Say = fmt.Sprintf(only+"It moved whether it had been worked on or not (%d of %d times left alone).", moved[0], moved[0]+held[0])
		h.Do = "The primary's springs, and whether its locks grip at all. Then align once more."
	default:
		h.ID, h.Short, h.Needs = HintPrimary, "primary: springs or locks", "a look, nothing turned"
		h.Say = fmt.Sprintf(only+"It moved after work (%d of %d) and when left alone (%d of %d). Springs or locks: it is not clear yet which.",
			moved[1], moved[1]+held[1], moved[0], moved[0]+held[0])
		h.Do = "Next time only look, if it may still be lent. What moves it then is the springs."
	}
	return h, true
}

// settled is a scope that is always home when found.
func settled(counted []Interval, records []session.Record) (Hint, bool) {
	home := map[string]bool{}
	for _, r := range records {
		f := r.Found
		eyes := f.AxisErrorMaxMM - f.AxisErrorMM
		home[r.ID] = f.Claimed && f.AxisErrorMM <= math.Max(r.AllowedMM, eyes)
	}
	for _, i := range counted {
		if i.Cause != CauseHeld || !home[i.To] {
			return Hint{}, false
		}
	}
	n := len(counted)
	return Hint{
		ID: HintSettled, N: n, Of: n, Short: "holds: leave it",
		Say: "It was home each time it was looked at.",
		Do:  "Stop touching it: a first look is enough.",
	}, n >= leastIntervals
}

// slips is a scope that is fine before the swing and out after it. Both looks are
// level: what they differ by has slipped, and what sags while the tube is up is not
// in it.
func slips(records []session.Record, tel func(session.Record) optics.Telescope) (Hint, bool) {
	h := Hint{ID: HintSlips, Short: "slips in the swing", Needs: "vanes, holder, cell"}
	onPrimary := 0
	for _, r := range records {
		t := tel(r)
		p := movedBy(spotOf(t, optics.FacePrimary, r.BeforeSw.P), spotOf(t, optics.FacePrimary, r.Left.P))
		was := spotOf(t, optics.FaceTarget, r.BeforeSw.T)
		back := movedBy(was, spotOf(t, optics.FaceTarget, r.Left.T))
		gone := was != nil && r.Left.T != nil && r.Left.T.Saw == event.SawGone
		if !Counts(r) || p == nil && back == nil && !gone {
			continue
		}
		h.Of++
		first := p != nil && moved(*p, countsOnPrimaryMM)
		if first {
			onPrimary++
		}
		if first || gone || back != nil && moved(*back, countsOnTargetMM) {
			h.N++
		}
	}
	h.Say = fmt.Sprintf("Fine before the swing, out after it (%d of %d swings): something slips as the tube is raised.", h.N, h.Of)
	h.Do = "The primary on its clips and cell; what shifts there moves the return spot alone."
	if 2*onPrimary > h.N {
		h.Do = "The vanes' tension and the secondary's holder; then the drawtube."
	}
	return h, h.N >= leastIntervals && 2*h.N > h.Of
}
