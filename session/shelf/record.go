package shelf

import (
	"errors"
	"fmt"
	"strings"

	"spotward/session"
	"spotward/session/scope"
	"spotward/session/words"
)

// Record returns the record of the session that is meant: by its id, by how
// that ends, or, by a scope's name, the last one on it.
func (l *Shelf) Record(meant string) (session.Record, error) {
	r, _, err := l.RecordAmong(meant)
	return r, err
}

// RecordAmong returns the record that is meant, as Record does, and all
// records, oldest first.
func (l *Shelf) RecordAmong(meant string) (session.Record, []session.Record, error) {
	all, open, errs := l.survey()
	if r, err := recordMeant(all, meant); err != nil || r.ID != "" {
		return r, all, err
	}
	for _, o := range open {
		if o.ID == meant {
			return session.Record{}, all, fmt.Errorf("session %s is not finished: go on with it by --resume %s", o.ID, o.ID)
		}
	}
	for _, err := range errs {
		if bad := (*SessionError)(nil); errors.As(err, &bad) && idMeant(bad.ID, meant) {
			return session.Record{}, all, err
		}
	}
	if scopes, _ := l.scopeFiles(scopesDir); len(scopes) > 0 {
		if s, ok := find(scopes, meant); ok {
			return session.Record{}, all, fmt.Errorf("%s was not looked at yet: there is no record of it", words.Show(s.name))
		}
	}
	return session.Record{}, all, fmt.Errorf("no record %s here: spotward records lists them", words.Show(meant))
}

// leastEnding is how much of an id's end names it.
const leastEnding = 4

// idMeant reports whether an id, or how it ends, was said.
func idMeant(id, said string) bool {
	return id == said || len(said) >= leastEnding && strings.HasSuffix(id, said)
}

// recordMeant returns the record that is meant, none if none is; the error is
// that several are.
func recordMeant(records []session.Record, meant string) (session.Record, error) {
	var ends []session.Record
	var last session.Record
	for _, r := range records {
		switch {
		case r.ID == meant:
			return r, nil
		case idMeant(r.ID, meant):
			ends = append(ends, r)
		case scope.SameName(r.Scope, meant):
			last = r
		}
	}
	if len(ends) > 1 {
		return session.Record{}, fmt.Errorf("%d records end in %s: say more of the id, as in %s", len(ends), words.Show(meant), ends[0].ID)
	}
	if len(ends) == 1 {
		return ends[0], nil
	}
	return last, nil
}
