package scope

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"spotward/session/words"
)

// Check holds the figures of a scope against each other.
func (s Scope) Check() error {
	d, f := s.Aperture.MM(), s.FocalLength.MM()
	if f < 2*d || f > 20*d {
		return wrong("", "focal_length", s.FocalLength, "2 to 20 times the aperture, %.4g to %.4g mm", 2*d, 20*d)
	}
	l := s.Secondary.FromPrimary
	if l.Given() && l.MM() >= f {
		return wrong("secondary", "from_primary", l, "less than the focal length, %.4g mm", f)
	}
	if v := s.Tube.InnerRadius; v.Given() && v.MM() < d/2 {
		return wrong("tube", "inner_radius", v, "at least half the aperture, %.4g mm", d/2)
	}
	if v := s.Tube.SkyEnd; v.Given() && l.Given() && v.MM() < l.MM() {
		return wrong("tube", "sky_end", v, "at least secondary.from_primary, %.4g mm", l.MM())
	}
	if v := s.Secondary.MinorAxis; v.Given() && v.MM() >= d {
		return wrong("secondary", "minor_axis", v, "less than the aperture, %.4g mm", d)
	}
	if v := s.Primary.Circle; v.Given() && v.MM() > d {
		return wrong("primary", "circle_radius", v, "at most the aperture, %.4g mm", d)
	}
	if in, out := s.Primary.RingInner, s.Primary.RingOuter; in.Given() && out.Given() && out.MM() < in.MM() {
		return wrong("primary", "ring_outer_radius", out, "at least ring_inner_radius, %.4g mm", in.MM())
	}
	if v := s.Laser.HoleFromAxis; v.Given() && l.Given() && !s.LensInside() && (v.MM() < (f-l.MM())/2 || v.MM() > 2*(f-l.MM())) {
		return wrong("laser", "hole_from_axis", v,
			"near focal_length less secondary.from_primary, %.4g mm, and a little more", f-l.MM())
	}
	if err := s.Laser.check(); err != nil {
		return err
	}
	if err := s.Secondary.check("secondary"); err != nil {
		return err
	}
	if err := s.Primary.check("primary"); err != nil {
		return err
	}
	if n := s.Primary.Locks; n != nil && *n > s.Primary.screws() {
		return fmt.Errorf("primary.locks = %d: expected at most one a screw, %d", *n, s.Primary.screws())
	}
	return nil
}

func (l Laser) check() error {
	if v := l.FaceRadius; v.Given() && v.MM() <= l.HoleRadius.MM() {
		return wrong("laser", "face_radius", v, "more than hole_radius, %.4g mm", l.HoleRadius.MM())
	}
	return nil
}

func (c CellPart) check(table string) error {
	if len(c.Labels) > 0 && c.Screws > 0 && len(c.Labels) != c.Screws {
		return fmt.Errorf("%s.labels = [%s]: expected one a screw, %d", table, quotedList(c.Labels), c.Screws)
	}
	if c.Thread != "" && c.Lead.Given() {
		return wrong(table, "lead", c.Lead, "this or thread, not both")
	}
	return nil
}

// screws returns how many screws there are, as far as anything says so.
func (c CellPart) screws() int {
	switch {
	case c.Screws > 0:
		return c.Screws
	case len(c.Labels) > 0:
		return len(c.Labels)
	}
	return 3
}

// wrong returns the error of a length that does not fit the others.
func wrong(table, key string, l Length, want string, args ...any) error {
	return fmt.Errorf("%s_%s = %g: expected %s", words.ShowKey(table, key), l.Unit, l.Value, fmt.Sprintf(want, args...))
}

// CheckName reports what is wrong with the name of a scope, a kit or a
// trainee, as what was expected instead. A name is also a file's name on any
// system, so it holds nothing that is special there.
func CheckName(name string) error {
	odd := func(r rune) bool {
		return r == utf8.RuneError || !unicode.In(r, unicode.L, unicode.M, unicode.Nd) && !strings.ContainsRune(words.NameMarks, r)
	}
	switch {
	case name == "":
		return errors.New("a name")
	case utf8.RuneCountInString(name) > words.NameRunes:
		return fmt.Errorf("at most %d characters", words.NameRunes)
	case strings.ContainsFunc(name, odd):
		return fmt.Errorf("letters, digits, spaces and %s only", strings.TrimSpace(words.NameMarks))
	case strings.Trim(name, " .") != name:
		return errors.New("no space or dot at either end")
	case strings.HasSuffix(strings.ToLower(name), ".toml"):
		return errors.New("a name without .toml, which would be a file")
	case reservedName(name):
		return errors.New("another name, this one is reserved on some systems")
	}
	return nil
}

// reservedName reports whether Windows takes name, with any ending, for a
// device.
func reservedName(name string) bool {
	stem, _, _ := strings.Cut(strings.ToLower(name), ".")
	stem = strings.TrimSpace(stem)
	if slices.Contains([]string{"con", "prn", "aux", "nul"}, stem) {
		return true
	}
	port, found := strings.CutPrefix(stem, "com")
	if !found {
		port, found = strings.CutPrefix(stem, "lpt")
	}
	return found && len(port) == 1 && port >= "0" && port <= "9"
}

// SameName reports whether two names are of the same thing.
func SameName(a, b string) bool { return strings.EqualFold(a, b) }
