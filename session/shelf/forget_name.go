package shelf

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"spotward/session/event"
	"spotward/session/journal"
	"spotward/session/words"
)

// inJournal names anew in the lines that say who came.
func (p naming) inJournal(data []byte) (out []byte, changed bool) {
	torn := func(text string) bool { return p.In(strings.ReplaceAll(text, `"`, " ")) }
	return journalWith(data, p.inLine, torn)
}

// journalWith changes the lines of a journal that say who came and to which scope,
// and makes the sums anew. All else stays as it is, to the byte, but for a last
// line that was never finished and is to be dropped: nobody reads that one. From a
// line on that did not fit before, none does after.
func journalWith(data []byte, change func(line []byte) ([]byte, bool), drop func(torn string) bool) (out []byte, changed bool) {
	var was, is []byte // the line before, as it was and as it is now
	fitted := true
	for line := range bytes.Lines(data) {
		text, whole := bytes.CutSuffix(line, []byte{'\n'})
		if !whole {
			if drop(string(text)) {
				line, changed = nil, true
			}
			out = append(out, line...)
			break
		}
		fitted = fitted && journal.Fits(was, line)
		now := line
		if saysWhoCame(text) {
			if without, did := change(text); did {
				now, changed = append(without, '\n'), true
			}
		}
		if open, ok := journal.Open(now); fitted && ok {
			now = journal.Summed(is, open)
		}
		was, is = line, now
		out = append(out, now...)
	}
	return out, changed
}

func saysWhoCame(line []byte) bool {
	var head journal.LineHead
	if json.Unmarshal(line, &head) != nil {
		return false
	}
	switch event.Kind(head.Kind) {
	case event.KindBegin, event.KindResume, event.KindRecord:
		return true
	}
	return false
}

// inLine returns a JSON object with the person named anew in its member "who",
// and in its member "record"; where the name is taken out a place that has it
// goes too.
func (p naming) inLine(line []byte) ([]byte, bool) {
	return withTexts(line, func(member, said string) (string, bool) {
		switch member {
		case "who":
			return p.Among(said, p.to)
		case "where":
			return "", p.to == "" && p.In(said)
		}
		return said, false
	})
}

// scopeMember is a scope's name in a record, and its description where a session
// begins.
const scopeMember = "scope"

// withTexts returns a JSON object with its members that are texts as change has
// them, those of its member "record", and as scope.name those of a scope; one that
// is changed to "" is taken out. The other members stay as they are and where they
// are.
func withTexts(line []byte, change func(member, said string) (string, bool)) ([]byte, bool) {
	dec := json.NewDecoder(bytes.NewReader(line))
	if _, err := dec.Token(); err != nil {
		return line, false
	}
	found := false
	var members [][]byte
	for dec.More() {
		key, err := dec.Token()
		if err != nil {
			return line, false
		}
		var value json.RawMessage
		if err := dec.Decode(&value); err != nil {
			return line, false
		}
		member, _ := key.(string)
		var said string
		if json.Unmarshal(value, &said) == nil {
			is, changed := change(strings.ToLower(member), said)
			if found = found || changed; changed && is == "" {
				continue
			}
			if changed {
				if value, err = json.Marshal(is); err != nil {
					return line, false
				}
			}
		}
		switch {
		case member == string(event.KindRecord):
			if within, did := withTexts(value, change); did {
				found, value = true, within
			}
		case member == scopeMember && value[0] == '{':
			inScope := func(member, said string) (string, bool) { return change(scopeMember+"."+member, said) }
			if within, did := withTexts(value, inScope); did {
				found, value = true, within
			}
		}
		text, err := json.Marshal(key)
		if err != nil {
			return line, false
		}
		members = append(members, fmt.Appendf(text, ":%s", value))
	}
	if !found {
		return line, false
	}
	return append(append([]byte("{"), bytes.Join(members, []byte(","))...), '}'), true
}

// holds reports whether the note of who held a session is of this person: a long
// name is cut short there.
func (p naming) holds(who string) bool {
	_, among := p.Among(who, "")
	return among || words.PersonOf(words.Cut(p.name, words.NameRunes)).Is(who)
}

// mentioned reports whether the name stands, as words of its own, in what was
// typed.
func (p naming) mentioned(journal []byte) bool {
	for line := range bytes.Lines(journal) {
		var typed struct {
			Text string `json:"text"`
			Why  string `json:"why"`
		}
		if json.Unmarshal(line, &typed) == nil && p.In(typed.Text+" "+typed.Why) {
			return true
		}
	}
	return false
}
