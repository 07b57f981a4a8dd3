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
	"spotward/session/words"
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
	Size      int64 // of the whole lines, bytes
	TornBytes int   // of a last line that was never finished, and is dropped
	Newer     int   // the highest version of a line, if newer than this program's; else 0
}

// String says the report in a line, "" if there was nothing odd.
func (r Report) String() string {
	var says []string
	if r.TornBytes > 0 {
		says = append(says, fmt.Sprintf("the last line was cut short (%d bytes) and is dropped: what it said was never taken", r.TornBytes))
	}
	if r.Newer > 0 {
		says = append(says, fmt.Sprintf("written by a newer program (version %d): what this one does not know is passed over", r.Newer))
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

// ScanLines reads a journal from r; name is for its errors. Only a line that
// is ended counts.
func ScanLines(r io.Reader, name string, each func(event.Line) error) (Report, error) {
	var report Report
	in := bufio.NewReaderSize(r, 64<<10)
	for n := 0; ; n++ {
		raw, err := readLine(in)
		if err == io.EOF && len(raw) == 0 {
			return report, nil
		}
		var line event.Line
		if err == nil || err == io.EOF {
			line, err = nthLine(raw, n)
		}
		if err != nil {
			if _, end := in.Peek(1); end == io.EOF && cutShort(raw) {
				report.TornBytes = len(raw)
				return report, nil
			}
			return report, fmt.Errorf("%s: line %d: %w", name, n+1, err)
		}
		if line.V > JournalVersion {
			report.Newer = max(report.Newer, line.V)
		}
		if err := each(line); err != nil {
			return report, err
		}
		report.Size += int64(len(raw))
	}
}

// nthLine reads the line that stands n lines below the first.
func nthLine(raw []byte, n int) (event.Line, error) {
	text, whole := bytes.CutSuffix(raw, []byte{'\n'})
	if !whole {
		return event.Line{}, errors.New("neither a line nor the start of one: this is no journal")
	}
	line, err := parseLine(text)
	switch {
	case err != nil:
		return event.Line{}, err
	case line.Seq != n:
		return event.Line{}, fmt.Errorf("seq is %d, expected %d: lines are missing or mixed", line.Seq, n)
	case n == 0 && line.Kind != string(event.KindBegin):
		return event.Line{}, fmt.Errorf("kind is %s, expected begin: this is no journal", words.Show(line.Kind))
	}
	return line, nil
}

// cutShort reports whether raw may be the last line of a journal as a kill or a
// power cut leaves it: without its end, or with zeros where it was never
// written.
func cutShort(raw []byte) bool {
	const start = `{"v":`
	n := min(len(raw), len(start))
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

// parseLine reads a line without its end.
func parseLine(raw []byte) (event.Line, error) {
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
