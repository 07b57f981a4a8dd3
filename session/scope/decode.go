package scope

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"

	"spotward/session/words"
)

// MaxFileBytes is the largest scope or kit file that is read: far more than
// any description of a telescope needs.
const MaxFileBytes = 64 << 10

// tree is a file's keys and values as TOML or JSON has them.
type tree = map[string]any

// DecodeScope reads a scope's file. What it cannot take is an error of one
// line with the key, the value and what was expected there.
func DecodeScope(data []byte) (Scope, error) {
	keys, err := parseTOML(data)
	if err != nil {
		return Scope{}, err
	}
	fields := scopeFields
	if err := unknownKey(keys, fields); err != nil {
		return Scope{}, err
	}
	s, err := scopeFromTree(keys, fields)
	if err != nil {
		return Scope{}, err
	}
	if s.Kit != "" && s.Laser.Given() {
		return Scope{}, fmt.Errorf("kit = %s: expected kit or [laser], not both", words.Show(s.Kit))
	}
	return s, nil
}

func parseTOML(data []byte) (tree, error) {
	if len(data) > MaxFileBytes {
		return nil, fmt.Errorf("the file is too long to describe a telescope: expected at most %d KB", MaxFileBytes>>10)
	}
	if !utf8.Valid(data) {
		return nil, errors.New("the file is not text in UTF-8: save it as plain text")
	}
	var keys tree
	err := toml.Unmarshal(data, &keys)
	var bad *toml.DecodeError
	if errors.As(err, &bad) {
		line, column := bad.Position()
		text := strings.Split(string(data), "\n")[line-1]
		return nil, fmt.Errorf("line %d, column %d, in %s: %s; expected key = value, once each, texts in quotes",
			line, column, words.Show(strings.TrimSpace(text)), syntaxReason(bad.Error()))
	}
	if err != nil {
		return nil, fmt.Errorf("the file cannot be read: %s", words.OneLine(err.Error()))
	}
	return keys, nil
}

// syntaxReason puts a complaint of the TOML library in a person's words where
// it is in those of Go.
func syntaxReason(message string) string {
	message = strings.TrimPrefix(message, "toml: ")
	if strings.Contains(message, "parse float") || strings.Contains(message, "too large to fit") {
		return "this number is too large"
	}
	return words.OneLine(message)
}

// scopeFromTree sets what keys say, and checks it. Keys it does not know are
// passed over.
func scopeFromTree(keys tree, fields []field) (Scope, error) {
	var s Scope
	for _, f := range fields {
		if err := f.read(keys, &s); err != nil {
			return Scope{}, err
		}
	}
	return s, s.Check()
}

// read sets the field from keys and checks it on its own.
func (f field) read(keys tree, s *Scope) error {
	inside := keys
	if f.table != "" {
		value, found := keys[f.table]
		if !found {
			return nil
		}
		var ok bool
		if inside, ok = value.(tree); !ok {
			return fmt.Errorf("%s = %s: expected a table", f.table, words.Show(value))
		}
	}
	var used string
	for _, key := range f.spelt {
		value, found := inside[key]
		if !found {
			continue
		}
		if used != "" {
			return fmt.Errorf("%s = %s: expected this or %s, not both", words.ShowKey(f.table, key), words.Show(value), used)
		}
		used = key
		if err := f.set(s, key, value); err != nil {
			return fmt.Errorf("%s = %s: expected %w", words.ShowKey(f.table, key), words.Show(value), err)
		}
	}
	if used == "" && f.must {
		return fmt.Errorf("%s is missing: expected it as in %s = %s", f.spelt[0], f.spelt[0], f.example)
	}
	return nil
}

// set puts value where the field keeps it; the error is what was expected.
func (f field) set(s *Scope, key string, value any) error {
	switch at := f.at(s).(type) {
	case *Length:
		v, ok := number(value)
		l := Length{v, key[len(key)-2:]}
		if !ok || !(l.MM() >= f.low && l.MM() <= f.high) {
			return f.wantLength(l.Unit)
		}
		*at = l
	case *int:
		return f.setCount(at, value)
	case **int:
		*at = new(int)
		return f.setCount(*at, value)
	case *bool:
		v, ok := value.(bool)
		if !ok {
			return errors.New("true or false")
		}
		*at = v
	case *[]string:
		list, err := f.list(value)
		*at = list
		return err
	case *Clock:
		text, _ := value.(string)
		c, err := ParseClock(text)
		*at = c
		return err
	case *string:
		text, err := f.text(value)
		if err != nil {
			return err
		}
		*at = text
	}
	return nil
}

// text returns the text to keep for value; the error is what was expected.
func (f field) text(value any) (string, error) {
	text, ok := value.(string)
	switch {
	case len(f.oneOf) > 0 && (!ok || !slices.Contains(f.oneOf, text)):
		return "", errors.New("one of " + quotedList(f.oneOf) + f.note)
	case !ok:
		return "", errors.New("a text in quotes")
	case f.parse != nil:
		return f.parse(text)
	}
	return text, nil
}

func (f field) setCount(at *int, value any) error {
	v, ok := number(value)
	if !ok || v != math.Trunc(v) || v < f.low || v > f.high {
		if f.low == f.high {
			return fmt.Errorf("%g, the only one this program knows; a newer program knows others", f.low)
		}
		return fmt.Errorf("a whole number from %g to %g", f.low, f.high)
	}
	*at = int(v)
	return nil
}

func (f field) wantLength(unit string) error {
	if unit == "in" {
		return fmt.Errorf("a number of inches from %.3g to %.3g", f.low/25.4, f.high/25.4)
	}
	return fmt.Errorf("a number of mm from %g to %g", f.low, f.high)
}

// number returns the value of a TOML or JSON number.
func number(value any) (float64, bool) {
	switch v := value.(type) {
	case float64:
		return v, true
	case int64:
		return float64(v), true
	}
	return 0, false
}

// labelList reads the letters of a mirror's screws.
func labelList(value any) ([]string, error) {
	want := errors.New(`one capital letter a screw, each another, as in ["A", "B", "C"]`)
	list, ok := value.([]any)
	if !ok || len(list) < 3 || len(list) > 4 {
		return nil, want
	}
	var labels []string
	for _, v := range list {
		text, _ := v.(string)
		if len(text) != 1 || text[0] < 'A' || text[0] > 'Z' || slices.Contains(labels, text) {
			return nil, want
		}
		labels = append(labels, text)
	}
	return labels, nil
}

func quotedList(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = strconv.Quote(w)
	}
	return strings.Join(quoted, ", ")
}
