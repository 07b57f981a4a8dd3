package optics

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Thread is a screw thread by its name.
type Thread struct {
	Name    string  // as usually written: "M5", "M5x0.5", "#8-32", "1/4-20"
	MajorMM float64 // outer diameter
	LeadMM  float64 // travel of one turn; single start, so the pitch
}

// threadSize is a diameter and its coarse pitch.
type threadSize struct {
	size    string
	majorMM float64
	pitchMM float64 // metric: the coarse pitch, meant when none is named
}

// metricSizes: pitches of ISO 261 and 262 (coarse), from several makers' tables
// after these; the standards themselves were not seen.
var metricSizes = []threadSize{
	{"M1.6", 1.6, 0.35}, {"M2", 2, 0.4}, {"M2.5", 2.5, 0.45}, {"M3", 3, 0.5}, {"M3.5", 3.5, 0.6},
	{"M4", 4, 0.7}, {"M5", 5, 0.8}, {"M6", 6, 1}, {"M8", 8, 1.25}, {"M10", 10, 1.5},
}

// inchSizes: diameters of ASME B1.1 (number sizes 0.060 + 0.013·N inches), from
// several makers' tables after it.
var inchSizes = []threadSize{
	{"#2", numberMM(2), 0}, {"#4", numberMM(4), 0}, {"#5", numberMM(5), 0}, {"#6", numberMM(6), 0}, {"#8", numberMM(8), 0},
	{"#10", numberMM(10), 0}, {"#12", numberMM(12), 0}, {"1/4", 25.4 / 4, 0}, {"5/16", 25.4 * 5 / 16, 0}, {"3/8", 25.4 * 3 / 8, 0},
}

// numberMM is the diameter of an inch screw of that number.
func numberMM(n float64) float64 { return 25.4 * (0.060 + 0.013*n) }

// ParseThread understands a metric thread by its size, coarse unless a pitch in
// mm is named ("M5", "M5x0.5"), or an inch thread by its size and threads to
// the inch ("#8-32", "1/4-20"). Capitals and spaces do not matter. The error
// says what to write.
func ParseThread(s string) (Thread, error) {
	text := strings.ToUpper(strings.Join(strings.Fields(s), ""))
	if strings.HasPrefix(text, "M") {
		size, pitch, named := strings.Cut(strings.ReplaceAll(text, "×", "X"), "X")
		known, ok := sizeOf(metricSizes, size)
		if !ok {
			return Thread{}, threadError(s, "no such size here")
		}
		if !named {
			return known.thread(size, known.pitchMM), nil
		}
		mm, ok := plainNumber(pitch)
		if !ok || !known.takes(mm) {
			return Thread{}, threadError(s, "no such pitch")
		}
		return known.thread(size+"x"+strconv.FormatFloat(mm, 'f', -1, 64), mm), nil
	}
	size, perInch, named := strings.Cut(text, "-")
	known, ok := sizeOf(inchSizes, size)
	if !ok {
		return Thread{}, threadError(s, "no such size here")
	}
	n, err := strconv.Atoi(perInch)
	if !named || err != nil || n <= 0 || !known.takes(25.4/float64(n)) {
		return Thread{}, threadError(s, "threads to the inch are missing or out of reason")
	}
	return known.thread(size+"-"+strconv.Itoa(n), 25.4/float64(n)), nil
}

func threadError(s, what string) error {
	return fmt.Errorf("thread %q: %s; write M5, M5x0.5, #8-32 or 1/4-20, or give the travel of one turn in mm", s, what)
}

// plainNumber reads digits with at most one point.
func plainNumber(s string) (float64, bool) {
	if s == "" || strings.Trim(s, "0123456789.") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil && !math.IsInf(v, 0)
}

func sizeOf(sizes []threadSize, size string) (threadSize, bool) {
	for _, k := range sizes {
		if k.size == size {
			return k, true
		}
	}
	return threadSize{}, false
}

// takes tells whether a pitch is within reason for the diameter.
func (k threadSize) takes(pitchMM float64) bool {
	return pitchMM >= 0.1 && pitchMM <= k.majorMM/2
}

func (k threadSize) thread(name string, leadMM float64) Thread {
	return Thread{Name: name, MajorMM: k.majorMM, LeadMM: leadMM}
}
