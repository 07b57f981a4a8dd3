package history

import (
	"slices"
	"strings"
	"time"

	"spotward/optics"
	"spotward/session"
	"spotward/session/scope"
)

// How long after a look the next is due, days: for a scope of which little is
// known, one that always held, and one that mostly did not. This program's own
// choice.
const (
	dueDays        = 90
	dueSettledDays = 180
	dueLooseDays   = 30
)

// FleetRow is one scope in the fleet's table.
type FleetRow struct {
	Scope      string
	Tag        string    // "" = never looked at
	Last       time.Time // the last look
	Found      Times     // at the last look
	Left       Times
	Series     []Times // as found, oldest first
	Mirror     string  // which mirror it was
	Drift      Drift
	Suspicion  *Hint     // nil: nothing is known against it, or too little
	Due        time.Time // zero = now
	EveryDays  int       // a look is due so many days after the last
	Notes      string
	Needs      string // "" = nothing
	Unfinished string // the id of a session to be taken up, ""
	Worked     *Job   // since its last look; nil: nothing

	kitGone string // the kit that its file names, if that is retired

	last session.Record // as far as a fleet is picked by it and it is told
}

// LastKit returns the kit of the last look, "" where none was named.
func (row FleetRow) LastKit() string { return row.last.Kit }

// Times is an axis error in what is allowed; a negative one was not claimed.
type Times float64

// Fleet is every scope and every kit, and how they are.
type Fleet struct {
	Scopes []FleetRow
	Kits   []KitRow
	Hands  *Hint // scopes that move after one person's work; nil: none
}

// Shelf is what the fleet's table is made of.
type Stock struct {
	Scopes     []scope.Scope
	Kits       []scope.Kit
	Records    []session.Record // oldest first
	Unfinished []Unfinished
	Work       []Job
	Gone       []string // kits that were retired
}

// FleetAt returns the table as it is at now.
func (s Stock) FleetAt(now time.Time) Fleet {
	of := map[string][]session.Record{}
	for _, r := range s.Records {
		if Counts(r) {
			of[nameKey(r.Scope)] = append(of[nameKey(r.Scope)], r)
		}
	}
	var f Fleet
	var all []Interval
	for _, sc := range s.Scopes {
		records := of[nameKey(sc.Name)]
		row := FleetRow{Scope: sc.Name, EveryDays: sc.CheckDays, Notes: sc.Notes, Found: -1, Left: -1, Drift: DriftOf(records, s.Telescopes(sc), JobsOfScope(s.Work, sc.Name))}
		all = append(all, row.Drift.Intervals...)
		row.fill(records)
		f.Scopes = append(f.Scopes, row)
	}
	f.Kits = s.kitRows(all)
	f.hands()
	unfinished := map[string]string{}
	for _, u := range s.Unfinished {
		if u.World == nil {
			unfinished[nameKey(u.Scope)] = u.ID
		}
	}
	for i := range f.Scopes {
		row := &f.Scopes[i]
		row.Unfinished = unfinished[nameKey(row.Scope)]
		row.clear(f.spoilt, of[nameKey(row.Scope)], s.Telescopes(s.Scopes[i]))
		row.suspect(f.Kits)
		row.plan(now)
		for _, k := range f.Kits {
			if kit := s.Scopes[i].Kit; k.gone && kit != "" && scope.SameName(k.Kit, kit) {
				row.kitGone = k.Kit
			}
		}
	}
	f.Kits = slices.DeleteFunc(f.Kits, func(k KitRow) bool { return k.gone })
	return f
}

// nameKey returns a name as a key, the same for names that are the same.
func nameKey(name string) string { return strings.ToLower(strings.ToUpper(name)) }

// Telescopes returns the scope's telescope with the laser of the kit that a
// session was read with.
func (s Stock) Telescopes(sc scope.Scope) func(session.Record) optics.Telescope {
	of := map[string]optics.Telescope{}
	return func(r session.Record) optics.Telescope {
		if tel, ok := of[r.Kit]; ok {
			return tel
		}
		with := sc
		with.Laser = s.Laser(r.Kit, sc.Laser)
		of[r.Kit] = with.Telescope()
		return of[r.Kit]
	}
}

// Laser returns the laser of a kit, or otherwise where there is no such kit.
func (s Stock) Laser(kit string, otherwise scope.Laser) scope.Laser {
	for _, k := range s.Kits {
		if kit != "" && scope.SameName(k.Name, kit) {
			return k.Laser
		}
	}
	return otherwise
}

// fill puts in what the scope's records say.
func (row *FleetRow) fill(records []session.Record) {
	if len(records) == 0 {
		return
	}
	for _, r := range records {
		row.Series = append(row.Series, timesOf(r, r.Found))
	}
	last := records[len(records)-1]
	row.last = session.Record{
		ID: last.ID, Who: last.Who, Where: last.Where, Kit: last.Kit, Tag: last.Tag, TagWhy: last.TagWhy, Began: last.Began, Outcome: last.Outcome,
	}
	row.Last, row.Tag = last.Began, last.Tag
	row.Found, row.Left = timesOf(last, last.Found), timesOf(last, last.Leaves())
	row.Mirror = last.Verdict
	if n := len(row.Drift.Intervals); n > 0 {
		switch c := row.Drift.Intervals[n-1].Cause; c {
		case CauseOpen, CauseUnseen:
		default:
			row.Mirror = string(c)
		}
	}
}

// timesOf returns an axis error in what that session allowed.
func timesOf(r session.Record, m session.Moment) Times {
	if !m.Claimed || r.AllowedMM <= 0 {
		return -1
	}
	return Times(m.AxisErrorMM / r.AllowedMM)
}

// Claimed reports whether there is a figure at all.
func (t Times) Claimed() bool { return t >= 0 }

// hands sets the work of one person against that of all others, over all scopes
// as far back as each one's past says anything.
func (f *Fleet) hands() {
	var recent []Interval
	for _, row := range f.Scopes {
		recent = append(recent, row.Drift.counted(f.spoilt)...)
	}
	if h, ok := handsHint(recent); ok {
		f.Hands = &h
	}
}

// spoilt reports whether a kit that is held back, or was until it was mended,
// made the interval.
func (f *Fleet) spoilt(i Interval) bool {
	for _, k := range f.Kits {
		if k.Suspicion != nil && k.Suspicion.Blames(i) || k.mended != nil && k.mended.Blames(i) {
			return true
		}
	}
	return false
}

// clear counts the scope's drift afresh without the intervals that a bad kit
// made: these say nothing of the scope.
func (row *FleetRow) clear(spoilt func(Interval) bool, records []session.Record, tel func(session.Record) optics.Telescope) {
	if slices.ContainsFunc(row.Drift.Intervals, spoilt) {
		row.Drift = driftFrom(row.Drift.Intervals, records, tel, row.Drift.Work, spoilt)
	}
}

// suspect takes the weightiest hint; a kit that made the last interval stands
// in for all that the scope seems to have.
func (row *FleetRow) suspect(kits []KitRow) {
	if len(row.Drift.Hints) > 0 {
		row.Suspicion = &row.Drift.Hints[0]
	}
	n := len(row.Drift.Intervals)
	for _, k := range kits {
		if n > 0 && k.Suspicion != nil && k.Suspicion.Blames(row.Drift.Intervals[n-1]) {
			h := k.Suspicion.Hint
			h.Short = "kit " + k.Kit
			row.Suspicion = &h
		}
	}
}

// plan says what the scope needs, and when it is to be looked at next.
func (row *FleetRow) plan(now time.Time) {
	d := row.Drift
	if last := lastJob(row.Drift.Work); last.T.After(row.Last) && !row.Last.IsZero() {
		row.Worked = &last
	}
	settled := row.Suspicion != nil && row.Suspicion.ID == HintSettled
	days := dueDays
	switch {
	case settled:
		days = dueSettledDays
	case d.Of >= leastIntervals && 2*d.Holds < d.Of:
		days = dueLooseDays
	}
	if row.EveryDays == 0 {
		row.EveryDays = days
	}
	if !row.Last.IsZero() && row.Tag != session.TagHoldBack {
		row.Due = row.Last.AddDate(0, 0, row.EveryDays)
	}
	switch {
	case row.Unfinished != "":
		row.Needs = "a session to be finished"
	case row.Suspicion != nil && !settled:
		row.Needs = row.Suspicion.Needs
	case row.Tag == session.TagHoldBack:
		row.Needs = "aligning"
	case row.Worked != nil || row.Due.Before(now):
		row.Needs = "a first look"
	}
}
