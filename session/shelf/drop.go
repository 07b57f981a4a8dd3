package shelf

import (
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/words"
)

// Drop closes the unfinished session that is meant, by its id or how that ends.
// Its journal stays and ends in a record that says it was not finished. That is
// also how one ends that was answered by an earlier table of questions.
func (l *Shelf) Drop(meant string, now func() time.Time) (session.Record, error) {
	var none session.Record
	open, _ := l.Unfinished("")
	var found []history.Unfinished
	for _, u := range open {
		if idMeant(u.ID, meant) {
			found = append(found, u)
		}
	}
	if len(found) != 1 {
		var ids []string
		for _, u := range found {
			ids = append(ids, u.ID)
		}
		if len(ids) > 0 {
			return none, fmt.Errorf("%s is how %d of them end: say more, as in %s", words.Show(meant), len(ids), strings.Join(ids, ", "))
		}
		return none, fmt.Errorf("no unfinished session %s here: spotward records unfinished lists them", words.Show(meant))
	}
	u := found[0]
	record, err := json.Marshal(session.Record{
		V: 1, ID: u.ID, Scope: u.Scope, Who: u.Who, Practice: u.World != nil,
		Way: u.Way, Dir: u.Dir, Count: u.Count, Outcome: session.OutcomeDropped,
	})
	if err != nil {
		return none, err
	}
	j, _, _, err := l.OpenJournal(u.ID, u.Who, now)
	if err != nil {
		return none, err
	}
	defer j.Close()
	if err := j.Keep(event.Event{Kind: event.KindRecord, Record: record}); err != nil {
		return none, err
	}
	return l.Record(u.ID)
}
