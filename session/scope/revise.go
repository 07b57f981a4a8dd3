package scope

import (
	"bytes"
	"strings"
)

// ReviseScope returns a scope's file as it is to be once it says s: the lines that
// say something else are changed, those that s leaves out go, what is new comes at
// the end of its table. All other lines stay, comments and order with them. A file
// that cannot be changed line by line is written anew.
func ReviseScope(file []byte, s Scope) []byte {
	was, err := DecodeScope(file)
	if err != nil {
		return EncodeScope(s)
	}
	out := revise(file, was, s, scopeFields)
	if now, err := DecodeScope(out); err != nil || !bytes.Equal(EncodeScope(now), EncodeScope(s)) {
		return EncodeScope(s)
	}
	return out
}

// ReviseKit does the same of a kit's file.
func ReviseKit(file []byte, k Kit) []byte {
	was, err := DecodeKit(file, k.Name)
	if err != nil {
		return EncodeKit(k)
	}
	out := revise(file, was.Scope(), k.Scope(), kitFields)
	if now, err := DecodeKit(out, k.Name); err != nil || !bytes.Equal(EncodeKit(now), EncodeKit(k)) {
		return EncodeKit(k)
	}
	return out
}

// revision is a file that is changed line by line.
type revision struct {
	lines []string
	table string         // that the lines are in
	ends  map[string]int // where a table's last key stands among lines
	said  map[string]bool
	flat  bool // a kit's keys without their table
}

func revise(file []byte, was, is Scope, fields []field) []byte {
	r := revision{ends: map[string]int{}, said: map[string]bool{}}
	for line := range strings.Lines(string(file)) {
		r.take(strings.TrimSuffix(line, "\n"), was, is, fields)
	}
	for _, f := range fields {
		if !f.given(&is) || r.said[f.id()] {
			continue
		}
		key, value := f.entry(&is)
		table := f.table
		if r.flat {
			table = ""
		}
		r.insert(table, key+" = "+tomlValue(value))
	}
	return []byte(strings.Join(r.lines, "\n") + "\n")
}

func (f field) id() string { return f.table + "." + f.key }

// take puts in a line of the file as it is to be.
func (r *revision) take(line string, was, is Scope, fields []field) {
	text := strings.TrimSpace(line)
	if name, ok := strings.CutPrefix(text, "["); ok {
		name, _, _ = strings.Cut(name, "]")
		r.table = strings.TrimSpace(name)
		r.ends[r.table] = len(r.lines)
	}
	f, ok := r.fieldOf(text, fields)
	if !ok {
		r.lines = append(r.lines, line)
		return
	}
	r.said[f.id()] = true
	if !f.given(&is) {
		return
	}
	key, value := f.entry(&is)
	oldKey, old := f.entry(&was)
	if key != oldKey || tomlValue(value) != tomlValue(old) {
		indent := line[:len(line)-len(strings.TrimLeft(line, " \t"))]
		line = indent + key + " = " + tomlValue(value) + commentOf(line)
	}
	r.ends[r.table] = len(r.lines)
	r.lines = append(r.lines, line)
}

// fieldOf returns the field that a line says.
func (r *revision) fieldOf(text string, fields []field) (field, bool) {
	key, _, ok := strings.Cut(text, "=")
	if !ok || strings.HasPrefix(text, "#") {
		return field{}, false
	}
	key = strings.TrimSpace(key)
	for _, f := range fields {
		if knows([]field{f}, r.table, key) {
			return f, true
		}
		if r.table == "" && knows([]field{f}, "laser", key) {
			r.flat = true
			return f, true
		}
	}
	return field{}, false
}

// commentOf returns what follows the value in a line, with the blanks before it.
func commentOf(line string) string {
	quoted := false
	for n, c := range line {
		switch {
		case c == '"' && (n == 0 || line[n-1] != '\\'):
			quoted = !quoted
		case c == '#' && !quoted:
			before := strings.TrimRight(line[:n], " \t")
			return line[len(before):]
		}
	}
	return ""
}

// insert puts a line behind the last key of its table, or in a new table.
func (r *revision) insert(table, line string) {
	at, ok := r.ends[table]
	switch {
	case !ok && table == "":
		at = -1
	case !ok:
		r.lines = append(r.lines, "", "["+table+"]")
		at = len(r.lines) - 1
	}
	r.lines = append(r.lines[:at+1], append([]string{line}, r.lines[at+1:]...)...)
	for name, end := range r.ends {
		if end > at {
			r.ends[name] = end + 1
		}
	}
	r.ends[table] = at + 1
}
