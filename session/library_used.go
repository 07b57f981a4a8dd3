package session

import (
	"encoding/json"
	"errors"
)

// ScopeUsed returns the scope that session r was made with: as its journal has
// it, else as it is known here, in use or retired.
func (l *Library) ScopeUsed(r Record) (Scope, error) {
	path, err := l.journalPath(r.ID)
	if err != nil {
		return Scope{}, err
	}
	var begin Event
	first := errors.New("the first line is enough")
	_, err = ScanJournal(path, func(line Line) error {
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
	if b := Builtin(); SameName(b.Name, r.Scope) {
		return b, nil
	}
	return Scope{}, err
}
