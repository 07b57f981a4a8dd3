package desk

import (
	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
)

// Calls returns what is called to somebody at the screw by the one who sees the
// spot, a line each told move.
func Calls(s session.State, told event.Told) []string {
	lines := make([]string, len(told.Moves))
	for i, m := range told.Moves {
		stop := ""
		if m.Stop != nil {
			f := m.Mirror.SpotFace()
			stop = words.StopWords(f, s.Tel.ToDial(f, optics.Seen{Right: m.Stop.Right, Up: m.Stop.Up}), m.Stop.As)
		}
		lines[i] = words.CallWords(m.Turn, stop)
	}
	return lines
}
