package scope

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"spotward/session/words"
)

// unknownKey returns an error for the first key, in the order of their names,
// that is not among fields.
func unknownKey(keys tree, fields []field) error {
	if all := unknownKeys(keys, fields); len(all) > 0 {
		return all[0]
	}
	return nil
}

// unknownKeys returns an error for each key that is not among fields.
func unknownKeys(keys tree, fields []field) (all []error) {
	for _, table := range sortedKeys(keys) {
		inside, isTable := keys[table].(tree)
		name := "[" + words.ShowKey("", table) + "]"
		switch {
		case !isTable && slices.Contains(tables(fields), name):
			all = append(all, fmt.Errorf("%s = %s: expected a table, once: %s and its keys below it", table, words.Show(keys[table]), name))
		case !isTable && !knows(fields, "", table):
			all = append(all, unknown(fields, "", table, keys[table]))
		case isTable && knows(fields, "", table):
			all = append(all, fmt.Errorf("%s: expected a value and no table, as in %s = VALUE", name, table))
		case isTable && !slices.Contains(tables(fields), name):
			all = append(all, fmt.Errorf("%s: unknown table; expected one of %s", name, strings.Join(tables(fields), ", ")))
		}
		if n := len(all); n > 0 && isTable && !slices.Contains(tables(fields), name) {
			continue
		}
		for _, key := range sortedKeys(inside) {
			if !knows(fields, table, key) {
				all = append(all, unknown(fields, table, key, inside[key]))
			}
		}
	}
	return all
}

func unknown(fields []field, table, key string, value any) error {
	what := fmt.Sprintf("%s = %s: ", words.ShowKey(table, key), words.Show(value))
	var here []string
	for _, f := range fields {
		if f.isLength() && f.table == table && f.key == key {
			return errors.New(what + "a length says its unit: expected " + key + "_mm or " + key + "_in")
		}
		if f.table == table {
			here = append(here, f.spelt[0])
		}
	}
	for _, f := range fields {
		if f.table != table && slices.Contains(f.spelt, key) {
			if f.table == "" {
				return errors.New(what + "expected above the first table, not in [" + table + "]")
			}
			return errors.New(what + "expected in [" + f.table + "]")
		}
	}
	var spelt []string
	for _, f := range fields {
		if f.table == table {
			spelt = append(spelt, f.spelt...)
		}
	}
	if near := words.Near(key, spelt); len(near) > 0 {
		return errors.New(what + "unknown key; did you mean " + near[0] + "?")
	}
	return errors.New(what + "unknown key; expected one of " + strings.Join(here, ", "))
}

func knows(fields []field, table, key string) bool {
	return slices.ContainsFunc(fields, func(f field) bool { return f.table == table && slices.Contains(f.spelt, key) })
}

func tables(fields []field) []string {
	var out []string
	for _, f := range fields {
		if f.table != "" && !slices.Contains(out, "["+f.table+"]") {
			out = append(out, "["+f.table+"]")
		}
	}
	return out
}

func sortedKeys(m tree) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}
