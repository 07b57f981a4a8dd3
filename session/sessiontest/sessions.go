package sessiontest

import (
	"errors"
	"time"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/journal"
)

// ID is an id.
const ID = "20260214T203000Z-9f3a"

// Ticking returns a clock that goes on a second a look, from a fixed evening.
func Ticking() func() time.Time {
	at := time.Date(2026, 2, 14, 20, 30, 0, 0, time.UTC)
	return func() time.Time {
		at = at.Add(time.Second)
		return at
	}
}

// NthID returns an id, another for each n.
func NthID(n int) string {
	return journal.NewID(time.Date(2026, 2, 14, 20, 30, n, 0, time.UTC), uint16(n))
}

// Summarise returns the record that stands in a journal's last line. It returns
// false for a session that is not over.
func Summarise(lines []event.Line) (session.Record, bool, error) {
	if len(lines) == 0 {
		return session.Record{}, false, nil
	}
	return session.RecordIn(lines[0], lines[len(lines)-1])
}

// PlaceWord returns the word before a reading that names its place.
func PlaceWord(f optics.Face) string {
	switch f {
	case optics.FaceSecondary:
		return "two"
	case optics.FaceTarget:
		return "face"
	}
	return string(f)
}

// Resummed returns lines with their sums made anew, as they must be where one of
// them was changed on purpose. Each is whole, and has a sum.
func Resummed(lines [][]byte) ([]byte, error) {
	var out, before []byte
	for _, raw := range lines {
		open, ok := journal.Open(raw)
		if !ok {
			return nil, errors.New("a line without its sum")
		}
		before = journal.Summed(before, open)
		out = append(out, before...)
	}
	return out, nil
}
