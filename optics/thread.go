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
	size    string  // the name without its pitch: "M5", "#8", "1/4"
}

// Head is the kind of head, or recess, that a screw is turned by.
type Head string

// CapHead: socket head cap screw. SetScrew: headless. ButtonHead: also
// countersunk with a hexagon socket. CrossRecess: a cross-head screw.
const (
	CapHead     Head = "cap"
	SetScrew    Head = "set"
	ButtonHead  Head = "button"
	CrossRecess Head = "cross"
)

// threadSize is a diameter, its coarse pitch and the tools that fit its heads.
type threadSize struct {
	size             string
	majorMM          float64
	pitchMM          float64 // metric: the coarse pitch, meant when none is named
	capKey, set, btn string  // hex key, in mm or inches; "" = not listed
	cross            string  // number of the cross driver
}

// metricSizes: pitches of ISO 261 and 262 (coarse), keys of ISO 4762 (cap),
// 4026–4029 (set), 7380-1 and 10642 (button, countersunk), recesses of ISO 4757
// for ISO 7045 screws. From several makers' tables after these; the standards
// themselves were not seen.
func metricSizes() []threadSize {
	return []threadSize{
		{"M1.6", 1.6, 0.35, "", "", "", "0"},
		{"M2", 2, 0.4, "1.5", "0.9", "", "0"},
		{"M2.5", 2.5, 0.45, "2", "1.3", "", "1"},
		{"M3", 3, 0.5, "2.5", "1.5", "2", "1"},
		{"M3.5", 3.5, 0.6, "", "", "", "2"},
		{"M4", 4, 0.7, "3", "2", "2.5", "2"},
		{"M5", 5, 0.8, "4", "2.5", "3", "2"},
		{"M6", 6, 1, "5", "3", "4", "3"},
		{"M8", 8, 1.25, "6", "4", "5", "4"},
		{"M10", 10, 1.5, "8", "5", "6", "4"},
	}
}

// inchSizes: diameters of ASME B1.1 (number sizes 0.060 + 0.013·N inches), keys
// of ASME B18.3, recesses of ASME B18.6.3 type I. From several makers' tables
// after these.
func inchSizes() []threadSize {
	number := func(n float64) float64 { return 25.4 * (0.060 + 0.013*n) }
	return []threadSize{
		{"#2", number(2), 0, "", "", "", "1"},
		{"#4", number(4), 0, "", "", "", "1"},
		{"#5", number(5), 0, "", "", "", "2"},
		{"#6", number(6), 0, "7/64", "1/16", "5/64", "2"},
		{"#8", number(8), 0, "9/64", "5/64", "3/32", "2"},
		{"#10", number(10), 0, "5/32", "3/32", "1/8", "2"},
		{"#12", number(12), 0, "", "", "", "3"},
		{"1/4", 25.4 / 4, 0, "3/16", "1/8", "5/32", "3"},
		{"5/16", 25.4 * 5 / 16, 0, "", "", "", "4"},
		{"3/8", 25.4 * 3 / 8, 0, "", "", "", "4"},
	}
}

// ParseThread understands a metric thread by its size, coarse unless a pitch in
// mm is named ("M5", "M5x0.5"), or an inch thread by its size and threads to
// the inch ("#8-32", "1/4-20"). Capitals and spaces do not matter. The error
// says what to write.
func ParseThread(s string) (Thread, error) {
	text := strings.ToUpper(strings.Join(strings.Fields(s), ""))
	if strings.HasPrefix(text, "M") {
		size, pitch, named := strings.Cut(strings.ReplaceAll(text, "×", "X"), "X")
		known, ok := sizeOf(metricSizes(), size)
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
	known, ok := sizeOf(inchSizes(), size)
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
	return Thread{Name: name, MajorMM: k.majorMM, LeadMM: leadMM, size: k.size}
}

// Tool names the tool that fits the head of a screw of this thread: "4 mm hex
// key", "3/16 inch hex key", "cross driver no. 2". False where no table says.
func (t Thread) Tool(h Head) (string, bool) {
	unit := "inch"
	sizes := inchSizes()
	if strings.HasPrefix(t.size, "M") {
		unit, sizes = "mm", metricSizes()
	}
	known, _ := sizeOf(sizes, t.size)
	key := map[Head]string{CapHead: known.capKey, SetScrew: known.set, ButtonHead: known.btn, CrossRecess: known.cross}[h]
	switch {
	case key == "":
		return "", false
	case h == CrossRecess:
		return "cross driver no. " + key, true
	}
	return key + " " + unit + " hex key", true
}
