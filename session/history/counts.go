package history

import (
	"spotward/session"
	"spotward/session/words"
)

// Counts reports whether a record says anything of its scope. Practice does not;
// what is only told by another directory, and a session that was dropped
// unfinished, are there to be read alone.
func Counts(r session.Record) bool {
	return !r.Practice && !r.Told && r.Outcome != session.OutcomeDropped
}

// OutcomeWords says how a session ended, and whether that is only told.
func OutcomeWords(r session.Record) string {
	return words.OneLine(words.ID(r.Outcome)) + toldMark(r)
}

func toldMark(r session.Record) string {
	if r.Told {
		return ", as told"
	}
	return ""
}
