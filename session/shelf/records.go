package shelf

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"github.com/gofrs/flock"

	"spotward/session"
	"spotward/session/history"
	"spotward/session/journal"
)

// The records are a convenience: all that stands in them follows from the
// journals, and what is missing or damaged is summed up again.
const (
	recordsFile = "records.jsonl"
	recordsLock = "records.lock"

	recordsPatience = 5 * time.Second // for another program that is writing them
	recordsRetry    = 10 * time.Millisecond
)

// keptRecord is a record and the line it stands in, which may hold more than
// this program knows.
type keptRecord struct {
	session.Record
	line []byte // without its sum and its end
}

// Records returns what was done, oldest first, and a line for each journal
// that cannot be summed up.
func (l *Shelf) Records() ([]session.Record, []error) {
	records, _, errs := l.survey()
	return records, errs
}

// muchToSumUp is how many sessions without a record take a while.
const muchToSumUp = 200

// CatchUp sums up what has no record yet where that takes a while: whoever draws
// screens does it before the first of them, with Progress.
func (l *Shelf) CatchUp() {
	ids, err := l.journalIDs()
	if err != nil || len(ids) < muchToSumUp {
		return
	}
	data, _ := os.ReadFile(l.path(recordsFile)) // without one there is all of it to do
	if len(ids)-bytes.Count(data, []byte{'\n'}) >= muchToSumUp {
		_, _ = l.Records()
	}
}

// Sessions returns the records, oldest first, and the sessions that can be taken
// up again, newest first: both from one reading.
func (l *Shelf) Sessions() ([]session.Record, []history.Unfinished, []error) {
	records, open, errs := l.survey()
	slices.Reverse(open)
	return records, open, errs
}

// survey returns the records and the sessions that are not finished. Sessions
// without a record are summed up, and their records kept.
func (l *Shelf) survey() ([]session.Record, []history.Unfinished, []error) {
	records, damaged, err := readRecords(l.path(recordsFile))
	if err != nil {
		return nil, nil, []error{err}
	}
	ids, err := l.journalIDs()
	if err != nil {
		return records, nil, []error{err}
	}
	have := make(map[string]bool, len(records))
	for _, r := range records {
		have[r.ID] = true
	}
	ids = slices.DeleteFunc(ids, func(id string) bool { return have[id] })
	var open []history.Unfinished
	var errs []error
	var added []keptRecord
	for _, s := range l.sumUpAll(ids) {
		switch {
		case s.err != nil:
			errs = append(errs, s.err)
		case s.record != nil:
			records, added = append(records, s.record.Record), append(added, *s.record)
		case s.unfinished != nil:
			open = append(open, *s.unfinished)
		}
	}
	records = history.InOrder(records, func(r session.Record) history.Begun {
		return history.Begun{Dir: r.Dir, Count: r.Count, At: r.Began, ID: r.ID}
	})
	open = history.InOrder(open, func(u history.Unfinished) history.Begun {
		return history.Begun{Dir: u.Dir, Count: u.Count, At: u.Began, ID: u.ID}
	})
	if damaged.changed > 0 { // said once: they are dropped now
		errs = append(errs, fmt.Errorf("%s: %d damaged; what their journals hold was summed up again", recordsFile, damaged.changed))
	}
	if damaged.any() || len(added) > 0 {
		// Where it cannot be kept, nothing is lost: it is made again next time.
		_ = l.withRecords(func() error { return l.rewrite(added) })
	}
	return records, open, errs
}

// rewrite adds records to those on disk, and drops the lines there that are none
// or are of no more use.
func (l *Shelf) rewrite(records []keptRecord) error {
	now, _, err := readRecordLines(l.path(recordsFile))
	if err != nil {
		return err
	}
	have := map[string]bool{}
	var all bytes.Buffer
	for _, r := range append(now, records...) {
		if have[r.ID] {
			continue
		}
		have[r.ID] = true
		all.Write(summed(r.line))
	}
	return writeWhole(l.path(recordsFile), all.Bytes())
}

// withRecords does something while no other program changes the records.
func (l *Shelf) withRecords(do func() error) error { return l.locked(recordsLock, do) }

// locked does something while no other program does it under the same lock.
func (l *Shelf) locked(name string, do func() error) error {
	if info, err := os.Lstat(l.path(name)); err == nil && !info.Mode().IsRegular() {
		return journal.PlainFile(l.path(name))
	}
	lock := flock.New(l.path(name), flock.SetPermissions(0o666))
	ctx, cancel := context.WithTimeout(context.Background(), recordsPatience)
	defer cancel()
	got, err := lock.TryLockContext(ctx, recordsRetry)
	if err != nil {
		return err
	}
	if !got {
		return fmt.Errorf("another program has %s", name)
	}
	return errors.Join(do(), lock.Close())
}

// onAllProcessors does something n times, each with its number, on all
// processors at once.
func onAllProcessors(n int, do func(i int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for i := next.Add(1) - 1; i < int64(n); i = next.Add(1) - 1 {
				do(int(i))
			}
		})
	}
	all.Wait()
}
