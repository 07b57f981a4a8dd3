package session

import "spotward/optics"

// Taught returns what the last session on a scope learnt of its screws. What
// was learnt in practice is left out.
func (l *Library) Taught(scope string) (map[optics.Mirror]*Taught, error) {
	records, errs := l.Records()
	taught := map[optics.Mirror]*Taught{}
	for _, r := range records {
		if r.Practice || !SameName(r.Scope, scope) {
			continue
		}
		for m, t := range r.Learnt {
			taught[m] = t
		}
	}
	if len(errs) > 0 {
		return taught, errs[0]
	}
	return taught, nil
}
