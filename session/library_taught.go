package session

import (
	"time"

	"spotward/optics"
)

// year is what knowledge of a scope ages by.
const year = 8766 * time.Hour

// Taught returns what the last session on a scope learnt of its screws, aged
// until now. What was learnt in practice is left out.
func (l *Library) Taught(scope string, now time.Time) (map[optics.Mirror]*Taught, error) {
	records, errs := l.Records()
	taught := map[optics.Mirror]*Taught{}
	for _, r := range records {
		if r.Practice || !SameName(r.Scope, scope) {
			continue
		}
		for m, t := range r.Learnt {
			aged := t.Aged(now.Sub(r.Ended).Hours() / year.Hours())
			taught[m] = &aged
		}
	}
	if len(errs) > 0 {
		return taught, errs[0]
	}
	return taught, nil
}
