package journal

import (
	"os"
	"path/filepath"

	"spotward/session/event"
)

// Ends are the first line of a journal and the last.
type Ends struct {
	First, Last event.Line
	Lines       int // 0: none is there yet
	Report      Report
}

// ReadEnds reads a journal's first and last line. Every sum is checked; the
// lines between are not looked into.
func ReadEnds(path string) (Ends, error) {
	var e Ends
	if err := PlainFile(path); err != nil {
		return e, err
	}
	file, err := os.Open(path)
	if err != nil {
		return e, CannotRead(path, err)
	}
	defer file.Close()
	var last []byte
	e.Report, err = scan(file, filepath.Base(path), func(raw []byte, n int) error {
		e.Lines, last = n+1, raw
		if n > 0 {
			return nil
		}
		if e.First, err = parseLine(raw, 0); err != nil {
			return &unfitError{err}
		}
		return nil
	})
	if err != nil || e.Lines == 0 {
		return e, err
	}
	e.Last, err = parseLine(last, e.Lines-1)
	if err != nil {
		e.Lines, e.Report.Damaged, e.Report.Why = 0, e.Lines, err.Error()
		return e, firstLine(filepath.Base(path), last, err)
	}
	return e, nil
}
