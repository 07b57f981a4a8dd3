package scope

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"spotward/optics"
	"spotward/session/words"
)

// Sketch is what a question's drawing shows.
type Sketch string

// The sketches of a form.
const (
	SketchNone      Sketch = ""
	SketchFocuser   Sketch = "focuser"   // the open end, and where the focuser is
	SketchWide      Sketch = "wide"      // across the tube
	SketchApart     Sketch = "apart"     // from one mirror to the other
	SketchHole      Sketch = "hole"      // from the axis to the laser's face
	SketchLong      Sketch = "long"      // along the tube
	SketchMirror    Sketch = "mirror"    // across the primary
	SketchSecondary Sketch = "secondary" // across the secondary
	SketchBehind    Sketch = "behind"    // the primary's screws, from behind
	SketchHolder    Sketch = "holder"    // the secondary's screws, from the sky end
)

// Question is one of a form's.
type Question struct {
	Key    string // the key in a file that it is about, without a unit
	Name   string // in a word or two
	Ask    string
	How    string // how to measure it, or where to look
	Must   bool
	Pick   []words.Option
	Sketch Sketch

	when func(Scope) bool // nil: always
	per  float64          // of a length: how much of what is kept one of what is asked is; 0 = 1
	// usual is what a length is taken as where nothing is said, in mm and as it
	// is asked; guess the same of anything else, in words. sane is between what a
	// length mostly is.
	usual  func(optics.Telescope) float64
	guess  func(Scope) string
	sane   func(optics.Telescope) (low, high float64)
	put    func(s *Scope, text string) (string, error) // in place of the field's own way
	back   func(Scope) string                          // what put would have been given
	fields []field
}

// DoubtError says that an answer is far from what is usual. On a yes it is
// taken.
type DoubtError struct{ words string }

func (e *DoubtError) Error() string { return e.words }

func (q Question) field() field { return q.fieldOf(q.Key) }

func (q Question) fieldOf(key string) field {
	for _, f := range q.fields {
		if f.name() == key {
			return f
		}
	}
	return field{at: func(*Scope) any { return nil }}
}

// due reports whether the question is asked of such a scope.
func (q Question) due(s Scope) bool { return q.when == nil || q.when(s) }

func (q Question) times() float64 {
	if q.per == 0 {
		return 1
	}
	return q.per
}

// set puts an answer into s and returns it as it is to be shown.
func (q Question) set(s *Scope, text string) (string, error) {
	if len(q.Pick) > 0 {
		value, err := q.picked(text)
		if err != nil {
			return "", err
		}
		text = value
	}
	if q.put != nil {
		return q.put(s, text)
	}
	f := q.field()
	var value any = text
	switch at := f.at(s).(type) {
	case *Length:
		return q.setLength(s, at, text)
	case *Clock:
		text = strings.Replace(strings.ToLower(text), "h", ":", 1)
		value = strings.TrimSuffix(text, ":")
	case *int, **int:
		n, err := strconv.Atoi(text)
		if err != nil {
			return "", fmt.Errorf("%s: expected a whole number from %g to %g", words.Show(text), f.low, f.high)
		}
		value = float64(n)
	case *bool:
		value = text == "yes"
	}
	if err := f.set(s, f.key, value); err != nil {
		return "", fmt.Errorf("%s: expected %w", words.Show(text), err)
	}
	return q.text(*s), nil
}

// picked returns the answer that is meant by its number or by words it begins
// with.
func (q Question) picked(text string) (string, error) {
	if n, err := strconv.Atoi(text); err == nil && n >= 1 && n <= len(q.Pick) && !slices.ContainsFunc(q.Pick, func(o words.Option) bool { return o.ID == text }) {
		return q.Pick[n-1].ID, nil
	}
	var meant []string
	for _, o := range q.Pick {
		if SameName(o.ID, text) {
			return o.ID, nil
		}
		if strings.HasPrefix(strings.ToLower(o.ID), strings.ToLower(text)) || strings.HasPrefix(strings.ToLower(o.Words), strings.ToLower(text)) {
			meant = append(meant, o.ID)
		}
	}
	if len(meant) == 1 {
		return meant[0], nil
	}
	return "", fmt.Errorf("%s is none of them: say a number from 1 to %d", words.Show(text), len(q.Pick))
}

// setLength takes a length with its unit; a bare number is mm where that makes
// sense, and inches where only that does.
func (q Question) setLength(s *Scope, at *Length, text string) (string, error) {
	m, ok := parseMeasure(text)
	if !ok {
		return "", fmt.Errorf(`%s is no length: say mm, as in 250, or inches, as in 10" or 2 1/2"`, words.Show(text))
	}
	f := q.field()
	if m.unit == "" {
		m.unit = "mm"
		if inches := (measure{m.value, "in"}); !q.sensible(*s, m) && q.sensible(*s, inches) {
			m = inches
		}
	}
	low, high := f.low/q.times(), f.high/q.times()
	if mm := m.length().MM(); !(mm >= low && mm <= high) {
		if m.unit == "in" {
			low, high = low/25.4, high/25.4
		}
		return "", fmt.Errorf("%s: expected %.3g to %.4g %s", m.length().Text(), low, high, m.unit)
	}
	said := m.length()
	*at = Length{said.Value * q.times(), said.Unit}
	return said.Text(), nil
}

// sensible reports whether a length is what it mostly is. 0 is where that
// stands for none.
func (q Question) sensible(s Scope, m measure) bool {
	low, high := q.span(s)
	mm := m.length().MM()
	return mm >= low && mm <= high || mm == 0 && q.field().low == 0
}

// span returns between what a length mostly is, mm.
func (q Question) span(s Scope) (low, high float64) {
	f := q.field()
	if q.sane != nil {
		if s.Aperture.MM() > 0 && s.FocalLength.MM() > 0 || q.Must {
			return q.sane(s.Telescope())
		}
	}
	return f.low / q.times(), f.high / q.times()
}

// doubt says why a length is to be said once more.
func (q Question) doubt(s Scope, inches bool) error {
	l, isLength := q.field().at(&s).(*Length)
	if !isLength || q.sane == nil || !l.Given() {
		return nil
	}
	if without := s; s.LensInside() {
		*q.field().at(&without).(*Length) = Length{}
		if !without.LensInside() {
			return &DoubtError{fmt.Sprintf("%s is short for a focal length of %s. Is a lens built into the tube? Say yes if so, or another length",
				l.Text(), s.FocalLength.Text())}
		}
	}
	said := Length{l.Value / q.times(), l.Unit}
	if q.sensible(s, measure{said.Value, said.Unit}) {
		return nil
	}
	low, high := q.span(s)
	return &DoubtError{fmt.Sprintf("%s would be unusual: usually it is %s to %s; say yes if it is so, or say another",
		said.Text(), roundText(low, inches), roundText(high, inches))}
}

// text returns what s says to the question, as one would have typed it; ""
// where it is left out.
func (q Question) text(s Scope) string {
	if q.back != nil {
		return q.back(s)
	}
	f := q.field()
	if !f.given(&s) {
		return ""
	}
	switch at := f.at(&s).(type) {
	case *Length:
		return Length{at.Value / q.times(), at.Unit}.Text()
	case *Clock:
		return string(*at)
	case *string:
		return *at
	case *int:
		return strconv.Itoa(*at)
	case **int:
		return strconv.Itoa(**at)
	case *bool:
		return "yes"
	}
	return ""
}

// roughly marks an answer that was not measured.
const roughly = "about "

// rough returns an answer without the word that marks it as not measured, and
// whether it was there.
func (q Question) rough(text string) (string, bool) {
	if q.Must || len(q.Pick) > 0 {
		return text, false
	}
	for _, mark := range []string{roughly, "~"} {
		if len(text) > len(mark) && strings.EqualFold(text[:len(mark)], mark) {
			return strings.TrimSpace(text[len(mark):]), true
		}
	}
	return text, false
}

// keeps is the key of a file that the answer in s is kept under.
func (q Question) keeps(s Scope) string {
	if table, ok := strings.CutSuffix(q.Key, ".thread"); ok && PartOf(&s, table).Lead.Given() {
		return table + ".lead"
	}
	return q.Key
}

// putShown puts an answer into s as it was shown before, marked where it was not
// measured.
func (q Question) putShown(s *Scope, shown string) {
	text, rough := q.rough(shown)
	if _, err := q.set(s, text); err == nil && rough {
		s.Estimates = append(s.Estimates[:len(s.Estimates):len(s.Estimates)], q.keeps(*s))
	}
}

// shown returns what s says to the question as it is shown; "" where it is left
// out.
func (q Question) shown(s Scope) string {
	text := q.text(s)
	if text != "" && slices.Contains(s.Estimates, q.keeps(s)) {
		return roughly + text
	}
	return text
}

// estimate says what is taken where nothing is said; "" where nothing is.
func (q Question) estimate(s Scope, inches bool) string {
	switch {
	case q.Must:
		return ""
	case q.guess != nil:
		return q.guess(s)
	case q.usual != nil && s.Aperture.MM() > 0 && s.FocalLength.MM() > 0:
		return roundText(q.usual(s.Telescope()), inches)
	}
	return ""
}

// errNeeded says that a question cannot be left out.
var errNeeded = errors.New("this one cannot be guessed: it is needed")
