package shelf

import (
	"slices"
	"time"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/scope"
)

// year is what knowledge of a scope ages by.
const year = 8766 * time.Hour

// Taught returns what the last of the sessions on a scope learnt of its screws, aged
// until now. What was learnt in practice is left out, and so is what was learnt
// of a mirror whose screws were described otherwise then.
func (l *Shelf) Taught(sc scope.Scope, records []session.Record, now time.Time) map[optics.Mirror]*event.Taught {
	taught, by := map[optics.Mirror]*event.Taught{}, map[optics.Mirror]session.Record{}
	for _, r := range records {
		if !history.Counts(r) || !scope.SameName(r.Scope, sc.Name) {
			continue
		}
		for m, t := range r.Learnt {
			aged := t.Aged(now.Sub(r.Ended).Hours() / year.Hours())
			taught[m], by[m] = &aged, r
		}
	}
	for m, r := range by {
		if was, err := l.ScopeUsed(r); err == nil && !sameScrews(was, sc, m) {
			delete(taught, m)
		}
	}
	return taught
}

// sameScrews reports whether two descriptions of a scope can be of the same
// screws at mirror m. A figure that one of them leaves out, or marks, was an
// estimate: the screws are the same once it is measured.
func sameScrews(a, b scope.Scope, m optics.Mirror) bool {
	x, y := a.Telescope().Cell(m), b.Telescope().Cell(m)
	if x.Screws != y.Screws || x.Locks != y.Locks || !slices.Equal(x.Labels, y.Labels) {
		return false
	}
	a, b = a.Measured(), b.Measured()
	p, q := scope.PartOf(&a, string(m)), scope.PartOf(&b, string(m))
	sameThread := p.Thread == "" && !p.Lead.Given() || q.Thread == "" && !q.Lead.Given() || x.LeadMM == y.LeadMM
	return sameThread && either(p.Circle, q.Circle) && either(p.Kind, q.Kind) && either(p.Clockwise, q.Clockwise) &&
		either(p.FirstAt, q.FirstAt) && either(p.LabelsRun, q.LabelsRun)
}

// either reports whether two entries of a file are the same, or one is left
// out.
func either[T comparable](a, b T) bool {
	var out T
	return a == out || b == out || a == b
}
