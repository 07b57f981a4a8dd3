package shelf

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	json "github.com/go-json-experiment/json/v1"

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

// damage is what was found in a records' file that is no record.
type damage struct {
	useless bool // lines that cannot be read, or are of no more use
	changed int  // lines whose sum is another
}

func (d damage) any() bool { return d.useless || d.changed > 0 }

// readRecords reads the records' file. The last line of an id counts.
func readRecords(path string) (records []session.Record, damaged damage, err error) {
	return readEach(path, false, func(k keptRecord) session.Record { return k.Record })
}

// readRecordLines does the same, with the line that each record stands in.
func readRecordLines(path string) (records []keptRecord, damaged damage, err error) {
	return readEach(path, true, func(k keptRecord) keptRecord { return k })
}

func readEach[T any](path string, lines bool, as func(keptRecord) T) (all []T, damaged damage, err error) {
	info, err := os.Lstat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, damage{}, nil
	}
	if err == nil && !info.Mode().IsRegular() {
		return nil, damage{}, journal.PlainFile(path)
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, damage{}, journal.CannotRead(path, err)
	}
	defer file.Close()
	place := map[string]int{}
	again := false
	damaged, err = scanRecords(file, maxRecordBytes, lines, func(r keptRecord) error {
		if i, is := place[r.ID]; is {
			all[i], again = as(r), true
			return nil
		}
		if len(all) == maxRecords {
			return fmt.Errorf("more than %d records", maxRecords)
		}
		place[r.ID] = len(all)
		all = append(all, as(r))
		return nil
	})
	if err != nil {
		return nil, damage{}, journal.CannotRead(path, fmt.Errorf("%w: move it away, and the journals are summed up again", err))
	}
	damaged.useless = damaged.useless || again
	return all, damaged, nil
}

// scanRecords hands the records of a records' file of at most so many bytes to
// each, in their order. What is no record is dropped where it stands, so that a
// file of nothing else costs no memory.
func scanRecords(r io.Reader, most int64, lines bool, each func(keptRecord) error) (damaged damage, err error) {
	left := &io.LimitedReader{R: r, N: most + 1}
	in := bufio.NewReaderSize(left, maxRecordLine)
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
			damaged.useless = damaged.useless || tooLong || len(raw) > 0 // a last line that has no end
			return damaged, nil
		case err != nil:
			return damaged, err
		case tooLong || len(raw) <= leastRecordLine:
			damaged.useless, tooLong = true, false
			continue
		}
		line, whole := unsummed(raw)
		if !whole {
			damaged.changed++
			continue
		}
		one := keptRecord{Record: recordIn(line)}
		if !journal.ValidID(one.ID) {
			damaged.useless = true
			continue
		}
		if lines {
			one.line = bytes.Clone(line)
		}
		if err := each(one); err != nil {
			return damaged, err
		}
	}
}

// A line ends with its sum, as those of a journal do, by itself: one that was
// damaged or changed is dropped, and its journal summed up again. Lines that have
// none were written before there was one.

// summed returns a record's line as it is written, with its sum and its end.
func summed(line []byte) []byte { return journal.Summed(nil, line[:len(line)-1]) }

// unsummed returns a line that was read without its sum and its end, and false where
// the sum is another. It writes into raw.
func unsummed(raw []byte) ([]byte, bool) {
	open, has := journal.Open(raw)
	if !has {
		return raw[:len(raw)-1], true
	}
	if !journal.Fits(nil, raw) {
		return nil, false
	}
	line := raw[:len(open)+1]
	line[len(open)] = '}'
	return line, true
}

// recordIn returns the record that stands in a line, the zero record where it is
// none. It is read as encoding/json would, in two thirds of the time: a large shelf
// has years of lines.
func recordIn(line []byte) session.Record {
	var r session.Record
	if json.Unmarshal(line, &r) != nil {
		return session.Record{}
	}
	return r
}
