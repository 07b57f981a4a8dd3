package scope

import (
	"errors"
	"slices"

	"spotward/session/words"
)

// estimateList reads the keys whose values were not measured.
func estimateList(value any) ([]string, error) {
	want := errors.New(`keys of this file without their units, as in ["secondary.from_primary"]`)
	list, ok := value.([]any)
	if !ok || len(list) > len(scopeFields) {
		return nil, want
	}
	var keys []string
	for _, v := range list {
		key, _ := v.(string)
		if !slices.ContainsFunc(scopeFields, func(f field) bool { return !f.must && f.name() == key }) {
			return nil, want
		}
		keys = append(keys, key)
	}
	return keys, nil
}

// name is the field's key and table, without a unit.
func (f field) name() string { return words.ShowKey(f.table, f.key) }

// Measured returns the scope without what was only estimated.
func (s Scope) Measured() Scope {
	if len(s.Estimates) == 0 {
		return s
	}
	for _, f := range scopeFields {
		if slices.Contains(s.Estimates, f.name()) {
			f.clear(&s)
		}
	}
	return s
}

// clear leaves the field out.
func (f field) clear(s *Scope) {
	switch at := f.at(s).(type) {
	case *Length:
		*at = Length{}
	case *Clock:
		*at = ""
	case *string:
		*at = ""
	case *int:
		*at = 0
	case **int:
		*at = nil
	case *bool:
		*at = false
	case *[]string:
		*at = nil
	}
}
