package shelf

import (
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/scope"
)

// Knew returns what the sessions on a scope, and with its kit, say of them, for
// the next one's begin line. It is nil where there was none. Practice says
// nothing.
func (l *Shelf) Knew(sc scope.Scope) *event.Known {
	records, _ := l.Records()
	var k event.Known
	for _, r := range records {
		if !history.Counts(r) {
			continue
		}
		sameScope := scope.SameName(r.Scope, sc.Name)
		if r.Kit != "" && scope.SameName(r.Kit, sc.Kit) || r.Kit == "" && sc.Kit == "" && sameScope {
			history.KnewKit(&k, r)
		}
		if sameScope {
			history.KnewScope(&k, r)
		}
	}
	if k.Sessions == 0 && k.Circle == nil {
		return nil
	}
	return &k
}
