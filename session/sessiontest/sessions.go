package sessiontest

import (
	"time"

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
