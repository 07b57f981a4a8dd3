package feed_test

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
)

// difference is where a session as it goes today first leaves the kept one.
type difference struct {
	name     string
	line     int // of the kept session, from 1
	was, now string
	lines    int // that differ, in all
}

// compare returns the first difference in what is so, and the first in its
// words alone; nil is none.
func compare(kept keptSession, today []string) (facts, words *difference) {
	note := func(d **difference, i int, was, now string) {
		if *d == nil {
			*d = &difference{name: kept.name, line: i + 1, was: was, now: now}
		}
		(*d).lines++
	}
	for i := range max(len(kept.lines), len(today)) {
		was, now := lineAt(kept.lines, i), lineAt(today, i)
		switch {
		case was == now:
		case wordless(was) == wordless(now):
			note(&words, i, was, now)
		default:
			note(&facts, i, was, now)
		}
	}
	return facts, words
}

func lineAt(lines []string, i int) string {
	if i < len(lines) {
		return lines[i]
	}
	return "(nothing)"
}

// wordless takes the sentences out of a line.
func wordless(line string) string { return sentences.ReplaceAllString(line, `"$1":""`) }

var sentences = regexp.MustCompile(`"(say|why|error|ask)":"(?:[^"\\]|\\.)*"`)

// mostKeys is how many keys of a line are told of.
const mostKeys = 4

func (d difference) String() string {
	var text strings.Builder
	fmt.Fprintf(&text, "%s, line %d (%d lines differ)", d.name, d.line, d.lines)
	was, now := flat(d.was), flat(d.now)
	if was == nil || now == nil {
		fmt.Fprintf(&text, "\n    was %s\n    now %s", cut(d.was, d.now), cut(d.now, d.was))
		return text.String()
	}
	if stage := was["stage"]; stage != "" {
		fmt.Fprintf(&text, ", at %s", stage)
	}
	told := 0
	keys := slices.Collect(maps.Keys(was))
	for k := range now {
		if _, ok := was[k]; !ok {
			keys = append(keys, k)
		}
	}
	slices.SortFunc(keys, func(a, b string) int { // what is asked before what is told
		return cmp.Or(cmp.Compare(strings.Count(a, "."), strings.Count(b, ".")), cmp.Compare(a, b))
	})
	for _, k := range keys {
		a, b := orNone(was, k), orNone(now, k)
		if a == b {
			continue
		}
		if told++; told > mostKeys {
			fmt.Fprintf(&text, "\n    ...")
			break
		}
		fmt.Fprintf(&text, "\n    %s: was %s\n    %s  now %s", k, cut(a, b), strings.Repeat(" ", len(k)), cut(b, a))
	}
	if told == 0 {
		fmt.Fprintf(&text, "\n    the same, written otherwise: was %s\n    now %s", cut(d.was, d.now), cut(d.now, d.was))
	}
	return text.String()
}

// flat returns what a line of JSON says, by key ("advice.moves.0.turns"); nil
// where it is none.
func flat(line string) map[string]string {
	var v map[string]any
	d := json.NewDecoder(strings.NewReader(line))
	d.UseNumber()
	if d.Decode(&v) != nil {
		return nil
	}
	out := map[string]string{}
	flatten(out, "", v)
	return out
}

func flatten(out map[string]string, key string, v any) {
	under := func(k string) string { return strings.TrimPrefix(key+"."+k, ".") }
	switch v := v.(type) {
	case map[string]any:
		for k, e := range v {
			flatten(out, under(k), e)
		}
	case []any:
		for i, e := range v {
			flatten(out, under(fmt.Sprint(i)), e)
		}
	default:
		out[key] = fmt.Sprint(v)
	}
}

func orNone(m map[string]string, key string) string {
	if v, ok := m[key]; ok {
		return v
	}
	return "(none)"
}

// How much of a long text is shown, from a little before where it differs.
const (
	cutBefore = 20
	cutWhole  = 100
)

// cut returns the part of a text in which it differs from another.
func cut(text, other string) string {
	if len(text) <= cutWhole {
		return text
	}
	a, b := []byte(text), []byte(other)
	same := 0
	for same < min(len(a), len(b)) && a[same] == b[same] {
		same++
	}
	from := max(0, same-cutBefore)
	to := min(len(a), from+cutWhole)
	part := string(bytes.ToValidUTF8(a[from:to], nil))
	if from > 0 {
		part = "..." + part
	}
	if to < len(a) {
		part += "..."
	}
	return part
}
