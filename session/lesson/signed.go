package lesson

import (
	"errors"
	"fmt"
	"strings"
	"time"
)

// Signed is a sign-off: who says of a trainee that this one may align alone, and
// what was shown for it.
type Signed struct {
	V     int       `json:"v"`
	T     time.Time `json:"t"`
	By    string    `json:"by"`              // the instructor; "" is one who was forgotten
	Until time.Time `json:"until,omitzero"`  // it holds so long; zero: for good
	Shown []Shown   `json:"shown,omitempty"` // one for each criterion
}

// Shown is a thing that was shown, when it was, and on which telescopes.
type Shown struct {
	What string    `json:"what"`
	T    time.Time `json:"t"`
	On   []string  `json:"on,omitempty"`
}

// signedVersion is that of the sign-offs that are written now.
const signedVersion = 1

var errBySelf = errors.New("another person signs: say who saw it, as in --by Ida")

// Sign returns the sign-off of a trainee with those results, by an instructor,
// for so many days; 0 is for good. What is not shown yet is an error that says
// so.
func Sign(trainee, by string, results []Result, now time.Time, days int) (Signed, error) {
	by = strings.TrimSpace(by)
	if by == "" || strings.EqualFold(by, strings.TrimSpace(trainee)) {
		return Signed{}, errBySelf
	}
	s := Signed{V: signedVersion, T: now.UTC().Truncate(time.Second), By: by}
	if days > 0 {
		s.Until = s.T.AddDate(0, 0, days)
	}
	var left []string
	for _, c := range SignOff(results) {
		if !c.Met {
			left = append(left, c.Words)
			continue
		}
		s.Shown = append(s.Shown, Shown{c.Words, c.T, c.On})
	}
	if len(left) > 0 {
		return Signed{}, fmt.Errorf("not shown yet: %s", strings.Join(left, "; "))
	}
	return s, nil
}

// Days is for how many days it was given; 0 is for good.
func (s Signed) Days() int {
	if s.Until.IsZero() {
		return 0
	}
	return int(s.Until.Sub(s.T).Hours()/24 + 0.5)
}

// Holds reports whether the sign-off still holds.
func (s Signed) Holds(now time.Time) bool { return s.Until.IsZero() || now.Before(s.Until) }
