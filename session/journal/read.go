package journal

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"spotward/session/event"
)

// maxLineBytes is the longest line of a journal, its end included.
const maxLineBytes = 1 << 20

// LineHead is what every line has.
type LineHead struct {
	V    int       `json:"v"`
	Seq  int       `json:"seq"`
	T    time.Time `json:"t"`
	Kind string    `json:"kind"`
}

// Report says what was odd about a journal that could be read.
type Report struct {
	Size      int64  // of the whole lines, bytes
	TornBytes int    // of a last line that was never finished, and is dropped
	Newer     int    // the highest version of a line, if newer than this program's; else 0
	Damaged   int    // the line, from 1, that does not fit and ends the reading; 0: none
	Why       string // it does not fit
	blank     bool   // of TornBytes: nothing stands there
}

func (r Report) damage() string {
	return fmt.Sprintf("line %d does not fit (%s): the lines before it are read, the file is left as it is", r.Damaged, r.Why)
}

// String says the report in a line, "" if there was nothing odd.
func (r Report) String() string {
	var says []string
	if r.TornBytes > 0 && !r.blank {
		says = append(says, fmt.Sprintf("the last line was cut short (%d bytes) and is dropped: what it said was never accepted", r.TornBytes))
	}
	if r.Damaged > 0 {
		says = append(says, r.damage())
	}
	if r.Newer > 0 {
		says = append(says, fmt.Sprintf("written by a newer program (version %d): what this one does not know is left out", r.Newer))
	}
	return strings.Join(says, "; ")
}

// ReadJournal reads a journal without changing it. On an error it returns the
// lines before the bad one.
func Read(path string) ([]event.Line, Report, error) {
	var lines []event.Line
	report, err := Scan(path, func(l event.Line) error {
		lines = append(lines, l)
		return nil
	})
	return lines, report, err
}

// ScanJournal hands the lines of a journal to each, one after another. An
// error of each ends it and is returned as it is.
func Scan(path string, each func(event.Line) error) (Report, error) {
	if err := PlainFile(path); err != nil {
		return Report{}, err
	}
	file, err := os.Open(path)
	if err != nil {
		return Report{}, CannotRead(path, err)
	}
	defer file.Close()
	return ScanLines(file, filepath.Base(path), each)
}

// ScanLines reads a journal from r; name is for its errors. Only a line that is
// ended counts. A line that does not fit, by its sum or its number, ends the
// reading, and the report says so; where it is the first there is nothing to
// read, and that is the error.
func ScanLines(r io.Reader, name string, each func(event.Line) error) (Report, error) {
	return scan(r, name, func(raw []byte, n int) error {
		line, err := parseLine(raw, n)
		if err != nil {
			return &unfitError{err}
		}
		return each(line)
	})
}

// unfitError is why a line does not fit.
type unfitError struct{ error }

func (e *unfitError) Unwrap() error { return e.error }

// scan hands each line that fits its sum to each, without its end, with the
// number of those before it.
func scan(r io.Reader, name string, each func(raw []byte, n int) error) (Report, error) {
	var report Report
	in := bufio.NewReaderSize(r, 64<<10)
	var before []byte
	for n := 0; ; n++ {
		raw, err := readLine(in)
		if err == io.EOF && len(raw) == 0 {
			return report, nil
		}
		if err == nil || err == io.EOF {
			err = fits(before, raw)
		} else {
			err = &unfitError{err}
		}
		text := bytes.TrimSuffix(raw, []byte{'\n'})
		if err == nil {
			if v := versionOf(text); v > JournalVersion {
				report.Newer = max(report.Newer, v)
			}
			err = each(text, n)
		}
		var unfit *unfitError
		if err != nil && !errors.As(err, &unfit) {
			return report, err
		}
		if err != nil {
			if _, end := in.Peek(1); end == io.EOF && cutShort(raw) {
				report.TornBytes, report.blank = len(raw), len(bytes.TrimSpace(raw)) == 0
				return report, nil
			}
			if n == 0 {
				return report, firstLine(name, text, err)
			}
			report.Damaged, report.Why = n+1, err.Error()
			return report, nil
		}
		before = raw
		report.Size += int64(len(raw))
	}
}

// firstLine is the error of a journal of which no line can be read.
func firstLine(name string, text []byte, err error) error {
	switch v := versionOf(text); {
	case v > JournalVersion:
		return fmt.Errorf("%s was written by a newer program (version %d): go on with it there, or get that program", name, v)
	case v > 0 && v < JournalVersion:
		return &TooOldError{Name: name, V: v}
	}
	return fmt.Errorf("%s: line 1: %w", name, err)
}

// TooOldError says that a journal is of a version that is no longer read.
type TooOldError struct {
	Name string // of the file
	V    int
}

func (e *TooOldError) Error() string {
	return fmt.Sprintf("%s is too old (version %d, this program reads %d on): it is left as it is", e.Name, e.V, JournalVersion)
}

// cutShort reports whether raw may be the last line of a journal as a kill or a
// power cut leaves it: without its end, or with zeros where it was never
// written.
func cutShort(raw []byte) bool {
	const start = `{"v":`
	n := min(len(raw), len(start))
	if n > 0 && len(bytes.TrimSpace(raw)) == 0 {
		return true // an editor's blank line
	}
	if n == 0 || string(raw[:n]) != start[:n] && raw[0] != 0 {
		return false
	}
	return raw[len(raw)-1] != '\n' || bytes.IndexByte(raw, 0) >= 0
}

// readLine returns the next line with its end, or what there is and io.EOF. It
// never holds more than maxLineBytes.
func readLine(in *bufio.Reader) ([]byte, error) {
	var line []byte
	for {
		part, err := in.ReadSlice('\n')
		if len(line)+len(part) > maxLineBytes {
			return nil, fmt.Errorf("longer than %d KB: this is no journal", maxLineBytes>>10)
		}
		line = append(line, part...)
		if err != bufio.ErrBufferFull {
			return line, err
		}
	}
}

// parseLine reads a line without its end that stands n lines below the first.
func parseLine(raw []byte, n int) (event.Line, error) {
	var head struct {
		V    *int       `json:"v"`
		Seq  *int       `json:"seq"`
		T    *time.Time `json:"t"`
		Kind *string    `json:"kind"`
	}
	if err := json.Unmarshal(raw, &head); err != nil {
		return event.Line{}, errors.New("not a JSON object with v, seq, t and kind")
	}
	if head.V == nil || head.Seq == nil || head.T == nil || head.Kind == nil || *head.V < 1 || *head.Kind == "" {
		return event.Line{}, errors.New("expected v, seq, t and kind")
	}
	if *head.Seq != n {
		return event.Line{}, fmt.Errorf("seq is %d, expected %d: lines are missing or mixed", *head.Seq, n)
	}
	return event.Line{V: *head.V, Seq: *head.Seq, T: head.T.UTC(), Kind: *head.Kind, Raw: raw}, nil
}

// NewID returns the id of a session that starts at now; random makes it
// another than those of the same second.
func NewID(now time.Time, random uint16) string {
	return fmt.Sprintf("%s-%04x", now.UTC().Format("20060102T150405Z"), random)
}

// ValidID reports whether id has the form of NewID's: nothing else is made a
// part of a path.
func ValidID(id string) bool {
	stamp, random, _ := strings.Cut(id, "-")
	if _, err := time.Parse("20060102T150405Z", stamp); err != nil || len(random) != 4 {
		return false
	}
	_, err := strconv.ParseUint(random, 16, 16)
	return err == nil && random == strings.ToLower(random)
}

// IdOf returns the id of the session in the journal at path.
func IdOf(path string) string { return strings.TrimSuffix(filepath.Base(path), JournalEnding) }
