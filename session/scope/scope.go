package scope

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// FormatVersion is the format of the scope and kit files this program writes.
const FormatVersion = 1

// Length is a length with the unit it was given in. The zero Length is one
// that was left out.
type Length struct {
	Value float64
	Unit  string // "mm" or "in"; "" = left out
}

// MM returns a length given in mm.
func MM(v float64) Length { return Length{v, "mm"} }

// Inch returns a length given in inches.
func Inch(v float64) Length { return Length{v, "in"} }

// Given reports whether the length was given at all; 0 mm is given.
func (l Length) Given() bool { return l.Unit != "" }

// MM returns the length in mm, 0 if it was left out.
func (l Length) MM() float64 {
	if l.Unit == "in" {
		return l.Value * 25.4
	}
	return l.Value
}

// Or returns the length in mm, or guessMM if it was left out.
func (l Length) Or(guessMM float64) float64 {
	if !l.Given() {
		return guessMM
	}
	return l.MM()
}

// Clock is a clock position as a file has it, "2:00" or "10:30". "" = left
// out.
type Clock string

// ParseClock reads a clock position: an hour from 1 to 12, with or without
// minutes.
func ParseClock(text string) (Clock, error) {
	hour, minute, found := strings.Cut(text, ":")
	if !found {
		minute = "00"
	}
	h, err1 := strconv.ParseUint(hour, 10, 8)
	m, err2 := strconv.ParseUint(minute, 10, 8)
	if err1 != nil || err2 != nil || len(hour) > 2 || len(minute) != 2 || h < 1 || h > 12 || m > 59 {
		return "", errors.New(`a clock position from "1:00" to "12:00"`)
	}
	return Clock(fmt.Sprintf("%d:%02d", h, m)), nil
}

// ClockAt returns the clock position nearest to deg degrees clockwise from 12,
// to the minute.
func ClockAt(deg float64) Clock {
	minutes := int(math.Round(math.Mod(math.Mod(deg, 360)+360, 360)*2)) % 720
	h := minutes / 60
	if h == 0 {
		h = 12
	}
	return Clock(fmt.Sprintf("%d:%02d", h, minutes%60))
}

// Deg returns the clock position in degrees clockwise from 12, 0 ≤ d < 360. A
// position that was left out or cannot be read is 0.
func (c Clock) Deg() float64 {
	clean, err := ParseClock(string(c))
	if err != nil {
		return 0
	}
	hour, minute, _ := strings.Cut(string(clean), ":")
	h, _ := strconv.Atoi(hour)
	m, _ := strconv.Atoi(minute)
	return float64(h%12*30) + float64(m)/2
}

// Scope is a telescope as its file describes it. What is left out is zero and
// unknown: Telescope puts a usual figure in its place, Guessed lists those.
type Scope struct {
	Format      int
	Name        string
	Aperture    Length
	FocalLength Length
	FocuserAt   Clock  // from the sky end, 12 straight up
	Use         string // UseLowPower, UseAllRound, UsePlanets
	Corrector   bool   // used with a coma corrector
	Kit         string // the kit whose laser is used, instead of Laser
	CheckDays   int    // a look is due so many days after the last; 0 = left out
	Notes       string
	// Estimates are keys that are given and were not measured, without their
	// units, as in "secondary.from_primary".
	Estimates []string

	Tube      TubePart
	Secondary SecondaryPart
	Primary   PrimaryPart
	Laser     Laser
}

// The uses of a scope, from the least to the most exacting.
const (
	UseLowPower = "low-power"
	UseAllRound = "all-round"
	UsePlanets  = "planets"
)

// TubePart is a scope's tube.
type TubePart struct {
	InnerRadius Length
	SkyEnd      Length // from the primary's vertex
}

// CellPart is what a file says of a mirror's adjusting screws.
type CellPart struct {
	Screws    int // 3 or 4; 0 = left out
	Circle    Length
	Thread    string // by name; or Lead
	Lead      Length // travel of one turn
	Kind      string // "sprung" or "push-pull"
	Clockwise string // what a clockwise turn does to the mirror: "pushes" or "pulls"
	Labels    []string
	FirstAt   Clock  // where the first label stands, facing the heads, 12 toward the focuser
	LabelsRun string // "clockwise" or "anticlockwise", facing the heads
}

// SecondaryPart is a scope's secondary mirror and its screws.
type SecondaryPart struct {
	FromPrimary Length // the primary's vertex to where the axis meets it
	MinorAxis   Length
	PivotAbove  Length
	CellPart
}

// PrimaryPart is the screws and locks of a scope's primary mirror, and the
// ring on it.
type PrimaryPart struct {
	CellPart
	Locks     *int // nil = left out, 0 = none
	RingInner Length
	RingOuter Length
	Ring      Settled // where the ring stands on the mirror
}

// Laser is the alignment laser: its class, where its target hole stands, and
// the face around the hole.
type Laser struct {
	Class        string // as on its label
	HoleFromAxis Length // from the tube's axis
	HoleRadius   Length
	FaceRadius   Length
	RingStep     Length // between printed rings, as printed
	RingCount    *int   // nil = left out, 0 = none
	BeamWidth    Length
	Face         string  // FaceSlanted or FaceFlat
	Rings        string  // RingsOnFace or RingsAlongTube
	Hole         Settled // where the hole stands in the laser's barrel
}

// How a laser's face lies and how its rings are printed.
const (
	FaceSlanted    = "slanted to the back"
	FaceFlat       = "flat"
	RingsOnFace    = "circles on the face"
	RingsAlongTube = "circles as seen along the tube"
)

// Given reports whether anything is said of the laser.
func (l Laser) Given() bool { return l != Laser{} }
