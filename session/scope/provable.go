package scope

import (
	"fmt"

	"spotward/optics"
	"spotward/session/words"
)

// ProvableWords says what would make a scope provable with a laser, a line each:
// what is settled, how much the best look proves then, and what is worth doing.
func ProvableWords(s Scope) []string {
	t, m := s.Telescope(), s.Method()
	var lines []string
	lines = append(lines, settledWords("The ring", s.Primary.Ring), settledWords("The laser's hole", s.Laser.Hole))
	best := t.BestClaim(m)
	lines = append(lines, fmt.Sprintf("Spot in the middle of the ring, glow even round the hole: near enough is %s (%.0f in 100).", words.Chance(best.Within), 100*best.Within))
	if best.Grade() == optics.GradeReady {
		return append(lines, "That is enough for ready.")
	}
	looks := t.Settling(m, optics.EyesMM, optics.EvenMM)
	return append(lines, "To make it provable: "+words.Looks(looks)+".")
}

// settledWords says of a place when and how it was measured.
func settledWords(what string, p Settled) string {
	if p.By == "" {
		return what + ": not measured; assumed to stand as most do."
	}
	said := what + ": measured, " + map[string]string{
		ByTemplate: "by a paper template", ByStar: "by a star", ByRolling: "rolled on two nails",
	}[p.By]
	if p.On != "" {
		said += ", " + p.On
	}
	if p.Off.Given() {
		said += ", off by " + p.Off.Text()
	}
	return said + "."
}
