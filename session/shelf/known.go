package shelf

import (
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
)

// Knew returns what the sessions on a scope, and with its kit, say of them, for
// the next one's begin line. It is nil where there was none. Practice says
// nothing.
func (l *Shelf) Knew(sc scope.Scope) *event.Known {
	records, _ := l.Records()
	var k event.Known
	for _, r := range records {
		if r.Practice || !Teaches(r) {
			continue
		}
		sameScope := scope.SameName(r.Scope, sc.Name)
		if r.Kit != "" && scope.SameName(r.Kit, sc.Kit) || r.Kit == "" && sc.Kit == "" && sameScope {
			session.KnewKit(&k, r)
		}
		if sameScope {
			session.KnewScope(&k, r)
		}
	}
	if k.Sessions == 0 && k.Circle == nil {
		return nil
	}
	return &k
}

// Teaches reports whether a record says anything of its scope to the sessions
// after it. What is only told by another directory, and a session that was
// dropped unfinished, are there to be read alone.
func Teaches(r session.Record) bool { return !r.Told && r.Outcome != session.OutcomeDropped }
