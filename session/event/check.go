package event

import (
	"errors"
	"fmt"
	"math"

	"spotward/optics"
)

// Names reports an error where an event names a mirror that is none of the two.
func (ev Event) Names() error {
	named := []optics.Mirror{ev.Mirror}
	for _, t := range ev.Turned {
		named = append(named, t.Mirror)
	}
	for _, m := range named {
		if m != "" && m != optics.Primary && m != optics.Secondary {
			return fmt.Errorf("%.40q is no mirror: expected primary or secondary", m)
		}
	}
	return nil
}

// farMM is farther than any spot on any of the faces can be.
const farMM = 5000

// Sane reports an error where a reading is at no place, or its error is none.
func (ev Event) Sane() error {
	for _, v := range []float64{ev.Right, ev.Up} {
		if math.IsNaN(v) || math.Abs(v) > farMM {
			return fmt.Errorf("a reading is in mm from the middle, up to %d: say where again", farMM)
		}
	}
	if c := ev.Cov; c != nil {
		if !(c[0] > 0 && c[2] > 0 && c[0]*c[2] > c[1]*c[1]) || math.IsInf(c[0]+c[2], 0) {
			return errors.New("the error of a reading is a positive number of mm")
		}
	}
	return nil
}

// Answers reports whether an event of this kind answers a question.
func (k Kind) Answers() bool {
	switch k {
	case KindConfirm, KindChoice, KindReading, KindWent:
		return true
	}
	return false
}
