package shelf

import (
	"spotward/optics"
	"spotward/session"
	"spotward/session/history"
	"spotward/session/scope"
)

// Between returns how a scope was found by the session b against how a, the
// earlier one, had left it, and how many sessions lie in between. It returns
// false for two that are not of one real scope, or of which the scope is not
// known.
func Between(l *Shelf, a, b session.Record) (in history.Interval, others int, ok bool) {
	if !scope.SameName(a.Scope, b.Scope) || a.Practice || b.Practice || a.ID == b.ID {
		return history.Interval{}, 0, false
	}
	now, err := l.ScopeUsed(b)
	if err != nil {
		return history.Interval{}, 0, false
	}
	was, err := l.ScopeUsed(a)
	if err != nil {
		return history.Interval{}, 0, false
	}
	tel := map[string]optics.Telescope{a.ID: was.Telescope(), b.ID: now.Telescope()}
	records, _ := l.Records()
	for _, r := range (history.Pick{Scope: a.Scope}).Of(records) {
		if !r.Practice && r.Began.After(a.Began) && r.Began.Before(b.Began) {
			others++
		}
	}
	between := history.Intervals([]session.Record{a, b}, func(r session.Record) optics.Telescope { return tel[r.ID] })
	if len(between) == 0 {
		return history.Interval{}, 0, false
	}
	return between[0], others, true
}
