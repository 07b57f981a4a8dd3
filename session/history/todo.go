package history

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"spotward/session"
)

// soonDays is how far ahead a list of what is to do looks.
const soonDays = 14

// kitCheckDays is how long after its laser was turned round a kit is due again,
// where its file says nothing. This program's own choice.
const kitCheckDays = 180

// Need is how pressing a task is, the most pressing first.
type Need int

// The needs.
const (
	NeedHoldBack Need = iota // it must not be lent as it is
	NeedFinish               // a session was left in the middle
	NeedMend                 // something works loose
	NeedLook                 // a look is due
	NeedSign                 // who may align alone is to be seen again
	NeedFile                 // it is not described
)

// ID returns the need as a program reads it.
func (n Need) ID() string {
	return [...]string{"hold_back", "finish", "mend", "look", "sign", "file"}[n]
}

// Task is one thing to do for one scope, kit or person.
type Task struct {
	Scope  string // or Kit, or Person
	Kit    string
	Person string // who is to be signed off again
	Need   Need
	What   string
	Why    string
	Due    time.Time // zero = now
	Days   int       // overdue so many days; 0: not yet
}

// Name returns whose task it is.
func (t Task) Name() string { return cmp.Or(t.Scope, t.Kit, t.Person) }

// Todo returns what is to be done at now and in the two weeks after: what is
// overdue first, then by need. More is what the fleet does not know of.
func (f Fleet) Todo(now time.Time, more ...Task) []Task {
	out := slices.Clone(more)
	for _, row := range f.Scopes {
		out = append(out, row.tasks(now)...)
	}
	for _, k := range f.Kits {
		out = append(out, k.tasks(now)...)
	}
	for i := range out {
		out[i].Days = overdue(out[i].Due, now)
	}
	slices.SortStableFunc(out, func(a, b Task) int {
		return cmp.Or(-cmp.Compare(min(a.Days, 1), min(b.Days, 1)), cmp.Compare(a.Need, b.Need), -cmp.Compare(a.Days, b.Days),
			a.Due.Compare(b.Due), cmp.Compare(nameKey(a.Name()), nameKey(b.Name())))
	})
	return out
}

// Renew is the task of a sign-off that has run out at now or will in the two weeks
// after; false for one that holds.
func Renew(person string, until, now time.Time) (Task, bool) {
	if until.IsZero() || !soon(until, now) {
		return Task{}, false
	}
	return Task{Person: person, Need: NeedSign, What: "sign off again", Why: "may align alone until " + until.Format("2006-01-02"), Due: until}, true
}

// overdue returns how many days ago due was, rounded up.
func overdue(due, now time.Time) int {
	if due.IsZero() || !due.Before(now) {
		return 0
	}
	return int(now.Sub(due).Hours()/24) + 1
}

// soon reports whether due is before the list's end.
func soon(due, now time.Time) bool { return due.Before(now.AddDate(0, 0, soonDays)) }

func (row FleetRow) tasks(now time.Time) []Task {
	task := func(n Need, what, why string, due time.Time) Task {
		return Task{Scope: row.Scope, Need: n, What: what, Why: why, Due: due}
	}
	var out []Task
	if row.Unfinished != "" {
		out = append(out, task(NeedFinish, "finish its session", "session "+row.Unfinished+" was left in the middle", time.Time{}))
	}
	if row.kitGone != "" {
		out = append(out, task(NeedFile, "give it another kit", "its kit, "+row.kitGone+", is retired", time.Time{}))
	}
	h := row.Suspicion
	mend := h != nil && h.ID != HintSettled && h.ID != HintKit
	if mend {
		var due time.Time
		if row.Due.Before(now) {
			due = row.Due // and it is overdue with it
		}
		out = append(out, task(NeedMend, h.Needs, fmt.Sprintf("%s, %d of %d", h.Short, h.N, h.Of), due))
	}
	switch {
	case row.Tag == session.TagHoldBack:
		out = append(out, task(NeedHoldBack, "align it", "held back since "+row.Last.Format("2006-01-02"), time.Time{}))
	case row.Last.IsZero():
		out = append(out, task(NeedLook, "a first look", "never looked at", time.Time{}))
	case h != nil && h.ID == HintKit:
		out = append(out, task(NeedLook, "look with another kit", "last read with a kit that is held back", time.Time{}))
	case !mend && row.Worked != nil:
		out = append(out, task(NeedLook, "a first look", "worked on "+row.Worked.T.Format("2006-01-02")+": "+row.Worked.What, row.Worked.T))
	case !mend && soon(row.Due, now):
		out = append(out, task(NeedLook, "a first look", fmt.Sprintf("last look %s, due every %d days", row.Last.Format("2006-01-02"), row.EveryDays), row.Due))
	}
	return out
}

func (k KitRow) tasks(now time.Time) []Task {
	task := func(n Need, what, why string, due time.Time) Task {
		return Task{Kit: k.Kit, Need: n, What: what, Why: why, Due: due}
	}
	var out []Task
	switch {
	case k.Suspicion != nil:
		out = append(out, task(NeedHoldBack, "hold it back", k.Suspicion.Say, time.Time{}))
	case !k.Due.IsZero() && soon(k.Due, now):
		out = append(out, task(NeedLook, "turn its laser round", fmt.Sprintf("last tried %s, due every %d days", k.CircleAt.Format("2006-01-02"), k.EveryDays), k.Due))
	}
	if !k.Known {
		out = append(out, task(NeedFile, "describe it", "it is named, and has no description", time.Time{}))
	}
	return out
}
