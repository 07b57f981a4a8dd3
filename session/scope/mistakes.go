package scope

import "fmt"

// Mistakes returns all that is wrong with a scope's file, a line each, where
// DecodeScope tells the first of it.
func Mistakes(data []byte) []error {
	keys, err := parseTOML(data)
	if err != nil {
		return []error{err}
	}
	all := unknownKeys(keys, scopeFields)
	var s Scope
	for _, f := range scopeFields {
		if err := f.read(keys, &s); err != nil {
			all = append(all, err)
		}
	}
	if len(all) > 0 {
		return all // figures are held against each other once each is right by itself
	}
	if _, err := DecodeScope(data); err != nil {
		return []error{err}
	}
	return nil
}

// Doubts returns what may well be meant otherwise than it is written: a diameter
// where a radius is asked for.
func (s Scope) Doubts() []string {
	var out []string
	d := s.Aperture.MM()
	for _, c := range []struct {
		key   string
		is    Length
		limit float64
	}{
		{"tube.inner_radius", s.Tube.InnerRadius, 0.8 * d},
		{"primary.circle_radius", s.Primary.Circle, 0.6 * d},
		{"laser.face_radius", s.Laser.FaceRadius, 31},
		{"primary.ring_outer_radius", s.Primary.RingOuter, 25},
	} {
		if c.is.Given() && c.is.MM() > c.limit {
			out = append(out, fmt.Sprintf("%s is %s, a lot for a radius here: is it the diameter?", c.key, c.is.Text()))
		}
	}
	return out
}

// Difference returns how b differs from a, a line each: the key, what it was and
// what it is.
func Difference(a, b Scope) []string {
	var out []string
	for _, f := range scopeFields {
		was, is := "left out", "left out"
		if f.given(&a) {
			key, value := f.entry(&a)
			was = key + " = " + tomlValue(value)
		}
		if f.given(&b) {
			key, value := f.entry(&b)
			is = key + " = " + tomlValue(value)
		}
		if was != is {
			name := f.key
			if f.table != "" {
				name = f.table + "." + f.key
			}
			out = append(out, fmt.Sprintf("%s: %s -> %s", name, was, is))
		}
	}
	return out
}
