package journal

import (
	"bytes"
	"encoding/hex"
	"errors"
	"hash/crc32"
)

// The last member of a line is its sum: "sum":"xxxxxxxx", the CRC-32C (the
// Castagnoli polynomial, as in RFC 3720) of the line before it, its end
// included, and then of this line up to the comma before "sum", in eight hex
// digits, most significant first. The first line has no line before it. So the
// sum holds each line to itself and to its place: a bit that has flipped, a line
// that is missing, one from another journal, do not fit. CRC-32C finds every
// flipped bit and every burst of up to 32 bits; it is no seal against forging.
const (
	sumStart  = `,"sum":"`
	sumDigits = 8
	sumEnd    = "\"}\n"
	sumBytes  = len(sumStart) + sumDigits + len(sumEnd)
)

// Summed ends a line that has all but its sum and its closing brace: open is the
// object up to there. before is the whole line before it, nil for the first.
func Summed(before, open []byte) []byte {
	line := append([]byte(nil), open...)
	line = append(line, sumStart...)
	line = hex.AppendEncode(line, sumOf(before, open))
	return append(line, sumEnd...)
}

func sumOf(before, open []byte) []byte {
	table := crc32.MakeTable(crc32.Castagnoli)
	sum := crc32.Update(crc32.Update(0, table, before), table, open)
	return []byte{byte(sum >> 24), byte(sum >> 16), byte(sum >> 8), byte(sum)}
}

var (
	errNoEnd = errors.New("neither a line nor the start of one: this is no journal")
	errNoSum = errors.New("it has no checksum: this is no journal, or it was changed by hand")
	errSum   = errors.New("its checksum differs: it was damaged or changed")
)

// fits checks the sum of a line with its end.
func fits(before, raw []byte) error {
	if !bytes.HasSuffix(raw, []byte{'\n'}) {
		return &unfitError{errNoEnd}
	}
	open, ok := Open(raw)
	if !ok {
		return &unfitError{errNoSum}
	}
	said := raw[len(open)+len(sumStart) : len(raw)-len(sumEnd)]
	if !bytes.Equal(said, hex.AppendEncode(nil, sumOf(before, open))) {
		return &unfitError{errSum}
	}
	return nil
}

// versionOf returns the version that a line says it is of, 0 if it says none.
// It stands first in each.
func versionOf(raw []byte) int {
	const start = `{"v":`
	text, is := bytes.CutPrefix(raw, []byte(start))
	v := 0
	for i, c := range text {
		if c < '0' || c > '9' || i > 6 {
			break
		}
		v = 10*v + int(c-'0')
	}
	if !is {
		return 0
	}
	return v
}

// Open returns a whole line up to its sum, and false where it has none.
func Open(raw []byte) ([]byte, bool) {
	at := len(raw) - sumBytes
	if at < 1 || string(raw[at:at+len(sumStart)]) != sumStart || !bytes.HasSuffix(raw, []byte(sumEnd)) {
		return nil, false
	}
	return raw[:at:at], true
}

// Fits reports whether a whole line fits the line before it, nil for the first.
func Fits(before, raw []byte) bool { return fits(before, raw) == nil }
