package history

import (
	"slices"
	"time"

	"spotward/session"
	"spotward/session/scope"
	"spotward/session/words"
)

// Job is a line of the log of work: what was done to a scope or a kit, or a note
// on one of them or on a session.
type Job struct {
	V       int       `json:"v"`
	T       time.Time `json:"t"` // when it was done
	Scope   string    `json:"scope,omitempty"`
	Kit     string    `json:"kit,omitempty"`
	Session string    `json:"session,omitempty"`
	Part    string    `json:"part,omitempty"` // what counts afresh from then on; "": nothing, it is a note
	What    string    `json:"what"`
	Who     string    `json:"who,omitempty"`
}

// The parts that can be worked on: of a kit the laser alone.
const (
	PartPrimary   = "primary"
	PartSecondary = "secondary"
	PartRing      = "ring"
	PartFocuser   = "focuser"
	PartLaser     = "laser"
)

// Parts returns the parts of a scope, which count afresh each by itself.
func Parts() []string {
	return []string{PartPrimary, PartSecondary, PartRing, PartFocuser, PartLaser}
}

// JobsOfScope returns the jobs of a scope, oldest first.
func JobsOfScope(jobs []Job, name string) []Job {
	return pickJobs(jobs, func(j Job) bool { return j.Scope != "" && scope.SameName(j.Scope, name) })
}

// JobsOfKit returns the jobs of a kit, oldest first.
func JobsOfKit(jobs []Job, name string) []Job {
	return pickJobs(jobs, func(j Job) bool { return j.Kit != "" && scope.SameName(j.Kit, name) })
}

// NotesOf returns what was noted of a session, oldest first.
func NotesOf(jobs []Job, id string) []Job {
	return pickJobs(jobs, func(j Job) bool { return j.Session == id })
}

func pickJobs(jobs []Job, of func(Job) bool) []Job {
	out := slices.DeleteFunc(slices.Clone(jobs), func(j Job) bool { return !of(j) })
	slices.SortStableFunc(out, func(a, b Job) int { return a.T.Compare(b.T) })
	return out
}

// Words says a job on one line: the part, what was done, and by whom.
func (j Job) Words() string {
	text := j.What
	if j.Part != "" {
		text = j.Part + ": " + text
	}
	if j.Who != "" {
		text += " (" + j.Who + ")"
	}
	return words.OneLine(text)
}

// lastJob returns the last of the jobs that a part was worked on in, the zero
// Job where there is none.
func lastJob(jobs []Job) Job {
	var last Job
	for _, j := range jobs {
		if j.Part != "" && !j.T.Before(last.T) {
			last = j
		}
	}
	return last
}

// outdated reports whether an interval says nothing of the scope as it is now:
// what moved in it was mended since, or something was worked on in between.
func (i Interval) outdated(jobs []Job) bool {
	return slices.ContainsFunc(jobs, func(j Job) bool {
		switch {
		case j.Part == "" || !j.T.After(i.Left):
			return false
		case j.T.Before(i.Found):
			return true
		}
		return i.mayBe(j.Part)
	})
}

// mayBe reports whether the part may be what moved.
func (i Interval) mayBe(part string) bool {
	doubtful := i.Cause == CauseOpen && i.onPrimary()
	switch part {
	case PartPrimary:
		return i.Cause == CausePrimary || i.Cause == CauseBoth || i.Cause == CauseOpen && !i.onPrimary()
	case PartSecondary:
		return i.Cause == CauseSecondary || i.Cause == CauseBoth || doubtful
	case PartFocuser, PartLaser:
		return i.Cause == CauseSeat || doubtful
	case PartRing:
		return i.Cause == CauseRing || i.ringSecondary > 0
	}
	return false
}

// since returns the records that were begun after the last job.
func since(records []session.Record, jobs []Job) []session.Record {
	last := lastJob(jobs)
	return slices.DeleteFunc(slices.Clone(records), func(r session.Record) bool { return r.Began.Before(last.T) })
}
