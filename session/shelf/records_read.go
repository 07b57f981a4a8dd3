package shelf

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"spotward/session"
	"spotward/session/journal"
)

// What a records' file may be at most. It is ten times a large shelf of many
// years, at 2 KB a record; more is none that this program has written.
const (
	maxRecords     = 200_000
	maxRecordBytes = 512 << 20
	maxRecordLine  = 64 << 10
)

// leastRecordLine is less than a line that names its session has.
const leastRecordLine = len(`{"id":"20060102T150405Z-0000"}`)

// recordsAtOnce is how many lines are decoded together.
const recordsAtOnce = 1024

// readRecords reads the records' file. The last line of an id counts. damaged:
// there are lines that cannot be read or are of no more use.
func readRecords(path string) (kept []keptRecord, damaged bool, err error) {
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return nil, false, journal.PlainFile(path)
	}
	file, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, false, nil
	}
	if err != nil {
		return nil, false, journal.CannotRead(path, err)
	}
	defer file.Close()
	place := map[string]int{}
	again := false
	damaged, err = scanRecords(file, maxRecordBytes, func(r keptRecord) error {
		if i, is := place[r.ID]; is {
			kept[i], again = r, true
			return nil
		}
		if len(kept) == maxRecords {
			return fmt.Errorf("more than %d records", maxRecords)
		}
		place[r.ID] = len(kept)
		kept = append(kept, r)
		return nil
	})
	if err != nil {
		return nil, false, journal.CannotRead(path, fmt.Errorf("%w: move it away, and the journals are summed up again", err))
	}
	return kept, damaged || again, nil
}

// scanRecords hands the records of a records' file of at most so many bytes to
// each, in their order. What is no record is dropped where it stands, so that a
// file of nothing else costs no memory; damaged: there was such a thing.
func scanRecords(r io.Reader, most int64, each func(keptRecord) error) (damaged bool, err error) {
	left := &io.LimitedReader{R: r, N: most + 1}
	in := bufio.NewReaderSize(left, maxRecordLine)
	lines := make([]keptRecord, 0, recordsAtOnce)
	decode := func() error {
		decodeRecords(lines)
		for _, r := range lines {
			if !journal.ValidID(r.ID) {
				damaged = true
			} else if err := each(r); err != nil {
				return err
			}
		}
		lines = lines[:0]
		return nil
	}
	tooLong := false
	for {
		raw, err := in.ReadSlice('\n')
		switch {
		case left.N == 0:
			return damaged, fmt.Errorf("more than %d MB", most>>20)
		case err == bufio.ErrBufferFull:
			tooLong = true
			continue
		case err == io.EOF:
			damaged = damaged || tooLong || len(raw) > 0 // a last line that has no end
			err := decode()
			return damaged, err
		case err != nil:
			return damaged, err
		case tooLong || len(raw) <= leastRecordLine:
			damaged, tooLong = true, false
			continue
		}
		lines = append(lines, keptRecord{line: bytes.Clone(raw[:len(raw)-1])})
		if len(lines) == recordsAtOnce {
			if err := decode(); err != nil {
				return damaged, err
			}
		}
	}
}

// decodeRecords reads each record from its line, all processors at once: years
// of a large shelf take most of a second on one. One that cannot be read stays
// empty.
func decodeRecords(lines []keptRecord) {
	onAllProcessors(len(lines), func(i int) {
		if json.Unmarshal(lines[i].line, &lines[i].Record) != nil {
			lines[i].Record = session.Record{}
		}
	})
}
