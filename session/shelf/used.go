package shelf

import (
	"encoding/json"
	"errors"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/journal"
	"spotward/session/scope"
)

// ScopeUsed returns the scope that session r was made with: as its journal has
// it, else as it is known here, in use or retired.
func (l *Shelf) ScopeUsed(r session.Record) (scope.Scope, error) {
	path, err := l.journalPath(r.ID)
	if err != nil {
		return scope.Scope{}, err
	}
	var begin event.Event
	first := errors.New("the first line is enough")
	_, err = journal.Scan(path, func(line event.Line) error {
		if err := json.Unmarshal(line.Raw, &begin); err != nil {
			return err
		}
		return first
	})
	if errors.Is(err, first) && begin.Scope != nil {
		return *begin.Scope, nil
	}
	for _, dir := range []string{scopesDir, retiredDir} {
		files, _ := l.scopeFiles(dir)
		if known, ok := find(files, r.Scope); ok {
			return l.WithKit(known.value)
		}
	}
	if b := scope.Builtin(); scope.SameName(b.Name, r.Scope) {
		return b, nil
	}
	return scope.Scope{}, err
}
