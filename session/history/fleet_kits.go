package history

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"spotward/session"
)

// KitRow is one kit in the fleet's table.
type KitRow struct {
	Kit       string
	Known     bool      // there is a file of it here
	Last      time.Time // zero = never used
	Looks     int       // sessions
	Scopes    int       // different ones
	CircleMM  *float64  // radius of the laser's circle, when last tried
	SeatMM    float64   // how far off it came back, when last tried; 0 = not tried
	Suspicion *KitDrift
	Tag       string    // hold_back, or "" where nothing is against it
	Due       time.Time // its laser is to be turned round again; zero = it never was
	EveryDays int       // it is due so many days after CircleAt
	CircleAt  time.Time // its laser was last turned round; zero = never
	Notes     string
	Work      []Job // what was done to it and noted of it, oldest first

	mended *KitDrift // what it did until it was last worked on
	gone   bool      // it was retired
}

// Say says what is against the kit and what to do, "" where nothing is.
func (k KitRow) Say() string {
	if k.Suspicion == nil {
		return ""
	}
	return fmt.Sprintf("%s: %s %s", k.Kit, k.Suspicion.Say, k.Suspicion.Do)
}

// kitRows returns the kits known here and those that records name, in the order
// of their names.
func (s Stock) kitRows(all []Interval) []KitRow {
	rows := map[string]*KitRow{}
	row := func(name string) *KitRow {
		if rows[nameKey(name)] == nil {
			rows[nameKey(name)] = &KitRow{Kit: name}
		}
		return rows[nameKey(name)]
	}
	jobs := map[string][]Job{}
	jobsOf := func(kit string) []Job {
		of, ok := jobs[nameKey(kit)]
		if !ok {
			of = JobsOfKit(s.Work, kit)
			jobs[nameKey(kit)] = of
		}
		return of
	}
	for _, sc := range s.Scopes {
		if sc.Kit != "" {
			row(sc.Kit)
		}
	}
	for _, k := range s.Kits {
		r := row(k.Name)
		r.Known, r.EveryDays, r.Notes = true, k.CheckDays, k.Notes
	}
	wide := map[string]int{}
	scopes := map[string]map[string]bool{}
	for _, r := range s.Records {
		if r.Kit == "" || !Counts(r) {
			continue
		}
		k := row(r.Kit)
		k.Looks, k.Last = k.Looks+1, r.Began
		if mended := lastJob(jobsOf(r.Kit)).T; r.Began.Before(mended) {
			r.CircleMM, r.SeatMM = nil, 0 // of the laser as it was
		}
		if r.CircleMM != nil {
			k.CircleMM, k.CircleAt = r.CircleMM, r.Began
			if *r.CircleMM >= badCircleMM {
				wide[nameKey(r.Kit)]++
			} else {
				delete(wide, nameKey(r.Kit))
			}
		}
		if r.SeatMM > 0 {
			k.SeatMM = r.SeatMM
		}
		if r.SeatMM >= badSeatMM {
			wide[nameKey(r.Kit)]++
		}
		if scopes[k.Kit] == nil {
			scopes[k.Kit] = map[string]bool{}
		}
		scopes[k.Kit][nameKey(r.Scope)] = true
	}
	for _, name := range s.Gone {
		if r := rows[nameKey(name)]; r != nil && !r.Known {
			r.gone = true
		}
	}
	var out []KitRow
	all = asMended(rows, all, jobsOf)
	judged := JudgeKits(all, wide)
	all = slices.DeleteFunc(slices.Clone(all), func(i Interval) bool {
		for _, d := range judged {
			if d.Blames(i) {
				return true
			}
		}
		return false
	})
	for _, k := range rows {
		k.Scopes, k.Work = len(scopes[k.Kit]), jobsOf(k.Kit)
		if d, ok := judged[nameKey(k.Kit)]; ok {
			k.Suspicion, k.Tag = &d, session.TagHoldBack
		} else if d, ok := KitDriftOf(k.Kit, all); ok {
			k.Suspicion, k.Tag = &d, session.TagHoldBack
		}
		if k.EveryDays == 0 {
			k.EveryDays = kitCheckDays
		}
		if !k.CircleAt.IsZero() {
			k.Due = k.CircleAt.AddDate(0, 0, k.EveryDays)
		}
		out = append(out, *k)
	}
	slices.SortFunc(out, func(a, b KitRow) int { return strings.Compare(nameKey(a.Kit), nameKey(b.Kit)) })
	return out
}

// asMended judges each kit that was worked on by what it did before, and returns
// the intervals without those: from then on it counts afresh, and what it did
// until then is held against no scope.
func asMended(rows map[string]*KitRow, all []Interval, jobsOf func(string) []Job) []Interval {
	left := all
	for _, k := range rows {
		mended := lastJob(jobsOf(k.Kit)).T
		if mended.IsZero() {
			continue
		}
		then := slices.DeleteFunc(slices.Clone(all), func(i Interval) bool { return !i.Left.Before(mended) })
		if d, ok := JudgeKits(then, nil)[nameKey(k.Kit)]; ok {
			k.mended = &d
		} else if d, ok := KitDriftOf(k.Kit, then); ok {
			k.mended = &d
		}
		left = slices.DeleteFunc(slices.Clone(left), func(i Interval) bool { return i.touches(k.Kit) && i.Left.Before(mended) })
	}
	return left
}
