package words

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"spotward/optics"
)

const MmPerInch = 25.4

// halves returns a clock position as its nearest half-hour: the hour, 1 to 12,
// and whether half past.
func halves(d optics.Dial) (hour int, half bool) {
	n := int(math.Round(2*d.Hour())) % 24
	if hour = n / 2; hour == 0 {
		hour = 12
	}
	return hour, n%2 == 1
}

// NumberPad says how a numeric keypad is enough, once where people learn.
const NumberPad = "A number pad is enough: 430*12 is 4:30, 12 mm. 430/2 is two rings. + as cued, . dead centre, or even, * inside, 0 not there, -4 set off toward 4."

// NumberPadHint says the same where there is room for a few words.
const NumberPadHint = "A number pad is enough: F1 shows how"

// HourWords returns the direction of d as people say it, to the half-hour:
// "half past 4", "12 o'clock".
func HourWords(d optics.Dial) string {
	hour, half := halves(d)
	if half {
		return fmt.Sprintf("half past %d", hour)
	}
	return fmt.Sprintf("%d o'clock", hour)
}

// ClockText returns the direction of d in figures, to the half-hour: "4:30".
func ClockText(d optics.Dial) string {
	hour, half := halves(d)
	if half {
		return fmt.Sprintf("%d:30", hour)
	}
	return fmt.Sprintf("%d:00", hour)
}

// ReadingText returns what one would type for a spot at d: a clock position
// to the minute and mm to a tenth. reading.Parse takes it back to the same
// place.
func ReadingText(d optics.Dial) string {
	if d.Len() < 0.05 {
		return "dead"
	}
	minutes := int(math.Round(60 * d.Hour()))
	hour := minutes / 60
	if hour == 0 {
		hour = 12
	}
	return fmt.Sprintf("%d:%02d %s", hour, minutes%60, MmText(d.Len()))
}

// middleWords returns what readings on face f are measured from.
func middleWords(f optics.Face) string {
	switch f {
	case optics.FacePrimary:
		return "the ring's centre"
	case optics.FaceSecondary:
		return "the outgoing spot"
	case optics.FaceMouth:
		return "the middle of the drawtube"
	case optics.FaceCard:
		return "the middle of the card"
	}
	return "the hole"
}

func FromWords(f optics.Face) string { return "from " + middleWords(f) }

// PlaceWords returns a place on face f in words, d's direction at mm from the
// middle: "half past 4, 12 mm from the hole". The distance is rounded to what
// eyes can use; with mm 0 it is a bearing alone: "half past 4 from the hole".
func PlaceWords(f optics.Face, d optics.Dial, mm float64) string {
	if mm <= 0 {
		return HourWords(d) + " " + FromWords(f)
	}
	step := 1.
	if mm < 3 {
		step = 0.5
	}
	return PlaceText(f, d, MmText(max(step, step*math.Round(mm/step))))
}

func PlaceText(f optics.Face, d optics.Dial, mm string) string {
	if mm == "0" {
		return "at " + middleWords(f)
	}
	return HourWords(d) + ", " + mm + " mm " + FromWords(f)
}

// MmText returns a length to a tenth of a mm, without a nought that says
// nothing.
func MmText(mm float64) string { return strconv.FormatFloat(Round(mm, 1), 'f', -1, 64) }

// EyesMmText returns a length as well as eyes can tell it: to half a mm, whole
// from 10 mm on.
func EyesMmText(mm float64) string {
	if mm < 9.5 {
		return MmText(math.Round(2*mm) / 2)
	}
	return strconv.FormatFloat(mm, 'f', 0, 64)
}

// Round returns v to so many digits after the point, so that an amount does not
// differ in its last digits between machines. There is no minus nought.
func Round(v float64, digits int) float64 {
	p := math.Pow10(digits)
	return math.Round(v*p)/p + 0
}

// TurnsText returns the size of a turn as a fraction a hand can make: "1/8",
// "3/16", "1 1/4"; what is no fraction of that kind, in figures: "0.2".
func TurnsText(turns float64) string {
	t := math.Abs(turns)
	if !(t < 1000) {
		return "many"
	}
	for _, den := range []int{1, 2, 4, 8, 16, 32} {
		n := math.Round(t * float64(den))
		if n > 0 && math.Abs(t-n/float64(den)) < 0.004 {
			return fractionText(int(n), den)
		}
	}
	if n := math.Round(t * 64); math.Abs(t-n/64) < 1e-6 && n < 4 { // as advice has it; typed, 0.2 is 0.2
		return fractionText(int(n), 64)
	}
	return strconv.FormatFloat(t, 'g', 2, 64)
}

// TurnUnit is what stands after the size of a turn as TurnsText says it: "of a
// turn", "turn", "turns".
func TurnUnit(turns float64) string {
	switch text := TurnsText(turns); {
	case text == "1":
		return "turn"
	case math.Abs(turns) > 1:
		return "turns"
	}
	return "of a turn"
}

func fractionText(n, den int) string {
	full, part := n/den, n%den
	switch {
	case part == 0:
		return strconv.Itoa(full)
	case full == 0:
		return fmt.Sprintf("%d/%d", part, den)
	}
	return fmt.Sprintf("%d %d/%d", full, part, den)
}

// SenseWords returns which way a screw goes, facing its head; turns are
// clockwise positive: "ease (anticlockwise)".
func SenseWords(turns float64) string { return SenseWord(turns) + " (" + roundWord(turns) + ")" }

// SensePlain says the same without brackets: "ease, anticlockwise".
func SensePlain(turns float64) string { return SenseWord(turns) + ", " + roundWord(turns) }

// SenseWord says it in a word: "ease".
func SenseWord(turns float64) string {
	if turns < 0 {
		return "ease"
	}
	return "tighten"
}

func roundWord(turns float64) string {
	if turns < 0 {
		return "anticlockwise"
	}
	return "clockwise"
}

// KeyHandle returns the way the key's handle goes that starts straight up:
// "from 12 to half past 1" for an eighth clockwise.
func KeyHandle(turns float64) string {
	if !(math.Abs(turns) < 1000) {
		return "many times round"
	}
	quarters := int(math.Round(48 * math.Abs(turns))) // of an hour
	rounds := quarters / 48
	quarters %= 48
	if turns < 0 {
		quarters = (48 - quarters) % 48
	}
	to := QuarterWords(quarters)
	switch {
	case rounds == 0:
		return "from 12 to " + to
	case quarters == 0:
		return roundWords(rounds)
	}
	return roundWords(rounds) + " and on to " + to
}

// QuarterWords returns a clock position in quarters of an hour from 12.
func QuarterWords(q int) string {
	hour := func(h int) int { return (h+11)%12 + 1 }
	h := hour(q / 4)
	switch q % 4 {
	case 1:
		return fmt.Sprintf("a quarter past %d", h)
	case 2:
		return fmt.Sprintf("half past %d", h)
	case 3:
		return fmt.Sprintf("a quarter to %d", hour(q/4+1))
	}
	return strconv.Itoa(h)
}

func roundWords(n int) string {
	switch n {
	case 1:
		return "once round"
	case 2:
		return "twice round"
	}
	return fmt.Sprintf("%d times round", n)
}

// MoveWords returns a turn as a short sentence: "B 1/8, tighten (clockwise)".
func MoveWords(t optics.Turn) string {
	name := t.Screw
	if t.Lock != "" {
		name = "lock " + t.Lock
	}
	return name + " " + TurnsText(t.Turns) + ", " + SenseWords(t.Turns)
}

// SpokenTurns returns the size of a turn as it is called out: "an eighth",
// "three sixteenths", "one and a quarter".
func SpokenTurns(turns float64) string {
	whole, part := spoken(turns)
	switch {
	case part == "":
		return wholeTurns(whole)
	case whole == "":
		return part
	}
	return whole + " and " + part
}

// SpokenAmount returns the size of a turn as part of a sentence: "an eighth of a
// turn", "half a turn", "1 and a quarter turns".
func SpokenAmount(turns float64) string {
	whole, part := spoken(turns)
	switch {
	case part == "":
		return wholeTurns(whole)
	case whole != "":
		return whole + " and " + part + " turns"
	case part == spokenHalf:
		return "half a turn"
	case strings.Contains(part, "touch"):
		return part
	}
	return part + " of a turn"
}

// spokenHalf is how half a turn is called out.
const spokenHalf = "a half"

// spoken returns the whole turns and the part of one in words; "" where there are
// none.
func spoken(turns float64) (whole, part string) {
	whole, frac, _ := strings.Cut(TurnsText(turns), " ")
	if frac == "" && strings.Contains(whole, "/") {
		whole, frac = "", whole
	}
	return whole, spokenFraction(frac)
}

func wholeTurns(n string) string {
	if n == "1" {
		return "one whole turn"
	}
	return n + " turns"
}

func spokenFraction(frac string) string {
	num, den, ok := strings.Cut(frac, "/")
	if !ok {
		return ""
	}
	switch frac {
	case "1/2":
		return spokenHalf
	case "1/32":
		return "a touch"
	case "1/64":
		return "half a touch"
	case "3/64":
		return "a touch and a half"
	}
	name := map[string]string{"4": "quarter", "8": "eighth", "16": "sixteenth", "32": "thirty-second"}[den]
	if num != "1" {
		return num + " " + name + "s"
	}
	if den == "8" {
		return "an " + name
	}
	return "a " + name
}

// StopWords returns a stop cue on face f: where the spot will stand when the
// move has done its part.
func StopWords(f optics.Face, at optics.Dial, as optics.StopKind) string {
	switch as {
	case optics.StopBearing:
		return "when the spot stands at " + PlaceWords(f, at, 0)
	case optics.StopClosest:
		return "where the spot comes nearest to " + middleWords(f)
	}
	return "when the spot stands at " + PlaceWords(f, at, at.Len())
}

// AimWords returns where the spot on face f should stand after a move that nobody
// watched.
func AimWords(f optics.Face, at optics.Dial, as optics.StopKind) string {
	mm := at.Len()
	switch as {
	case optics.StopClosest:
		return "the spot should come nearest to " + middleWords(f)
	case optics.StopBearing:
		mm = 0 // its direction alone
	}
	return "the spot should come to " + PlaceWords(f, at, mm)
}

// CallWords returns what the person at the spot calls to the one at the screw,
// and when to call stop. stop is a stop cue in words, or "".
func CallWords(t optics.Turn, stop string) string {
	name := t.Screw
	if t.Lock != "" {
		name = "Lock " + t.Lock
	}
	call := name + ", " + SensePlain(t.Turns) + ", "
	if stop == "" {
		return fmt.Sprintf("Call: %q", call+SpokenTurns(t.Turns)+".")
	}
	return fmt.Sprintf("Call: %q Then call \"stop\" %s.", call+"about "+SpokenTurns(t.Turns)+", slowly.", stop)
}
