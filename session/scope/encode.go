package scope

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// EncodeScope returns the scope's file. DecodeScope of it is s again.
func EncodeScope(s Scope) []byte { return encode(s, scopeFields) }

func encode(s Scope, fields []field) []byte {
	var b strings.Builder
	table := ""
	for _, f := range fields {
		if !f.given(&s) {
			continue
		}
		if f.table != table {
			table = f.table
			fmt.Fprintf(&b, "\n[%s]\n", table)
		}
		key, value := f.entry(&s)
		fmt.Fprintf(&b, "%s = %s\n", key, tomlValue(value))
	}
	return []byte(b.String())
}

// MarshalJSON returns the scope with the keys of its file.
func (s Scope) MarshalJSON() ([]byte, error) {
	keys := tree{}
	for _, f := range scopeFields {
		if !f.given(&s) {
			continue
		}
		inside := keys
		if f.table != "" {
			if keys[f.table] == nil {
				keys[f.table] = tree{}
			}
			inside = keys[f.table].(tree)
		}
		key, value := f.entry(&s)
		inside[key] = value
	}
	return json.Marshal(keys)
}

// UnmarshalJSON reads a scope from a journal. It is checked as a file is, but
// keys that only a newer program knows are passed over.
func (s *Scope) UnmarshalJSON(data []byte) error {
	if len(data) > MaxFileBytes {
		return fmt.Errorf("the scope is too long: expected at most %d KB", MaxFileBytes>>10)
	}
	var keys tree
	if err := json.Unmarshal(data, &keys); err != nil {
		return err
	}
	read, err := scopeFromTree(keys, scopeFields)
	if err != nil {
		return fmt.Errorf("scope: %w", err)
	}
	*s = read
	return nil
}

// given reports whether s says anything for the field.
func (f field) given(s *Scope) bool {
	switch at := f.at(s).(type) {
	case *Length:
		return at.Given()
	case *int:
		return *at != 0
	case **int:
		return *at != nil
	case *bool:
		return *at
	case *[]string:
		return len(*at) > 0
	case *Clock:
		return *at != ""
	case *string:
		return *at != ""
	}
	return false
}

// entry returns the field's key, with its unit, and its value.
func (f field) entry(s *Scope) (key string, value any) {
	switch at := f.at(s).(type) {
	case *Length:
		return f.key + "_" + at.Unit, at.Value
	case *int:
		return f.key, *at
	case **int:
		return f.key, **at
	case *bool:
		return f.key, *at
	case *[]string:
		return f.key, *at
	case *Clock:
		return f.key, string(*at)
	case *string:
		return f.key, *at
	}
	return f.key, nil
}

func tomlValue(value any) string {
	switch v := value.(type) {
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	case []string:
		return "[" + quotedList(v) + "]"
	case string:
		return strconv.Quote(v)
	}
	return fmt.Sprint(value)
}
