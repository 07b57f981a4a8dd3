package practice

import (
	"fmt"
	"math"
)

// Afterwards says kindly, once all is done, how the readings compare with where
// the spots really were, and what was done that would have mattered on a real
// telescope.
func (b *Bench) Afterwards() []string {
	lines := b.readingLines()
	truth := b.world.Truth()
	if truth.Err == nil {
		lines = append(lines, fmt.Sprintf("The telescope's true axis error is %.1f mm.", truth.ErrorMM))
	}
	return append(lines, b.deedLines()...)
}

// AfterPart says the same of a part of an alignment: its end says nothing of
// what is left of the whole error.
func (b *Bench) AfterPart() []string { return append(b.readingLines(), b.deedLines()...) }

func (b *Bench) deedLines() (lines []string) {
	told := map[string]bool{}
	for _, deed := range b.deeds {
		if text := string(deed); !told[text] {
			told[text] = true
			lines = append(lines, "For next time: "+text+".")
		}
	}
	return lines
}

// Tally is how the readings of a session compare with the truth.
type Tally struct {
	Placed  int     // readings of a place where a spot was to be seen
	Good    int     // of them, within half an hour and a quarter of the distance
	Swapped int     // of them, left for right
	PartOff float64 // by which part distances were read too long, on the whole
	// HoursMiss and PartMiss say how far readings were off on the average,
	// whichever way.
	HoursMiss, PartMiss float64
	Lit, Carded         int // times the laser was switched on unasked, and of them with the card up
}

// Tally sums up the readings so far.
func (b *Bench) Tally() Tally {
	t := Tally{Lit: b.lit, Carded: b.carded}
	far := 0
	for _, c := range b.readings {
		if !c.Placed {
			continue
		}
		t.Placed++
		switch {
		case c.Good():
			t.Good++
		case c.Swapped():
			t.Swapped++
		}
		if min(c.Read.Len(), c.There.Len()) > eyesMM {
			far++
			t.PartOff += c.PartOff()
			t.HoursMiss += c.HoursOff()
			t.PartMiss += math.Abs(c.PartOff())
		}
	}
	for _, sum := range []*float64{&t.PartOff, &t.HoursMiss, &t.PartMiss} {
		*sum /= float64(max(1, far))
	}
	return t
}

func (b *Bench) readingLines() []string {
	t := b.Tally()
	if t.Placed == 0 {
		return nil
	}
	lines := []string{fmt.Sprintf("%d of your %d readings were good (half an hour on the dial, a quarter of the distance).", t.Good, t.Placed)}
	switch {
	case t.PartOff < -habitPart:
		lines = append(lines, fmt.Sprintf("Your distances were %.0f %% too short: most people's are.", -100*t.PartOff))
	case t.PartOff > habitPart:
		lines = append(lines, fmt.Sprintf("Your distances were %.0f %% too long.", 100*t.PartOff))
	}
	if t.Swapped > 0 {
		lines = append(lines, fmt.Sprintf("Left and right changed places in %d. It happens to everybody.", t.Swapped))
	}
	return lines
}

// habitPart is how far off distances must be on the whole to be worth a word.
const habitPart = 0.1
