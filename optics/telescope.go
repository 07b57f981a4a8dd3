// Package optics is the light and the screws of a Newtonian telescope that is
// aligned with a laser in its focuser: where the beam goes, what a turn of a
// screw does to it, how far a spot may miss, and which screw to turn next.
//
// It knows no files, no clock and no terminal, and no randomness.
//
// Frame: origin at the primary's vertex, z along the tube toward the sky, x
// toward the focuser, y = z × x. Lengths in mm, angles in rad unless a name
// says otherwise, screw motion in turns, clockwise positive as one faces the
// screw's head.
package optics

import "math"

// Mirror names one of the two mirrors.
type Mirror string

// The two mirrors.
const (
	Primary   Mirror = "primary"
	Secondary Mirror = "secondary"
)

// Face names a surface on which a spot is read.
type Face string

// The faces. On FaceSecondary a reading is the return spot measured from the
// outgoing one; on FaceMouth it is measured from the middle of the drawtube's
// mouth; on FaceCard from the middle of the card over the open end.
const (
	FacePrimary   Face = "primary"
	FaceSecondary Face = "secondary"
	FaceMouth     Face = "mouth"
	FaceTarget    Face = "target"
	FaceCard      Face = "card"
)

// Known says how well a figure of the scope's file is known.
type Known int

// Unknown: the file is silent. Guessed: taken to be as people are asked to do
// it (label A nearest the focuser, then clockwise). Given: measured.
const (
	Unknown Known = iota
	Guessed
	Given
)

// CellKind says what the adjusting screws work against.
type CellKind string

// Sprung screws work against springs. PushPull screws work against a centre
// bolt or against each other, so that a move is a pair: ease one, take up
// another.
const (
	Sprung   CellKind = "sprung"
	PushPull CellKind = "push-pull"
)

// Cell is a mirror's set of adjusting screws, equally spaced on a circle.
type Cell struct {
	Screws    int      // 3 or 4
	CircleMM  float64  // radius of the circle they stand on
	LeadMM    float64  // travel of one turn
	GainKnown Known    // of CircleMM and LeadMM together
	Kind      CellKind // what they work against
	// ClockwisePulls: a clockwise turn draws the mirror toward the screw's
	// head; else it pushes the mirror away from it.
	ClockwisePulls bool
	SenseKnown     Known
	Labels         []string // one a screw, in the order of their labels
	// FirstDeg is where the first label stands, in degrees clockwise from 12
	// toward the focuser, facing the heads: from the sky end for the
	// secondary, from behind for the primary.
	FirstDeg        float64
	LabelsClockwise bool  // the labels run clockwise, facing the heads
	PlacesKnown     Known // of FirstDeg and LabelsClockwise together
	Locks           int   // lock i stands beside screw i; 0 = none
}

// ScrewDeg returns where screw i stands, degrees clockwise from 12 toward the
// focuser, facing the heads, 0 ≤ d < 360.
func (c Cell) ScrewDeg(i int) float64 {
	step := 360 / float64(c.Screws)
	if !c.LabelsClockwise {
		step = -step
	}
	return math.Mod(math.Mod(c.FirstDeg+float64(i)*step, 360)+360, 360)
}

// Telescope is a Newtonian with a laser in its focuser.
type Telescope struct {
	ApertureMM     float64 // D
	FocalLengthMM  float64 // f
	FromPrimaryMM  float64 // L: vertex to where the tube's axis meets the secondary
	HoleFromAxisMM float64 // X: tube's axis to the laser's target hole
	MinorAxisMM    float64 // of the secondary
	PivotAboveMM   float64 // the secondary plate's pivot above where the axis meets the mirror
	InnerRadiusMM  float64 // of the tube
	SkyEndMM       float64 // vertex to the open end
	// FocuserDeg is where the focuser is seen from the sky end, degrees
	// clockwise from straight up.
	FocuserDeg float64
	Corrector  bool // used with a coma corrector
	// LensInside: a lens is built into the tube or the drawtube, so that the tube
	// is far shorter than the focal length, which is that of both together. Where
	// the laser's return goes is not known then, nor what it tells of the primary.
	LensInside  bool
	Secondary   Cell
	Primary     Cell
	RingInnerMM float64 // centre ring on the primary, inner radius; 0 = no ring
	RingOuterMM float64
	Target      Target
}

// Target is the laser's face that the return beam falls on.
type Target struct {
	HoleRadiusMM float64
	FaceRadiusMM float64
	RingStepMM   float64 // between printed rings, as printed
	RingCount    int
	BeamWidthMM  float64
	Flat         bool // square to the beam, seen in the mirrors; else slanted 45° to the back
	// AlongFace: the printed rings are circles on the slanted face, so that
	// they read √2 too long up and down it.
	AlongFace bool
}

// PathMM returns S = L + X, the primary's vertex to the target hole.
func (t Telescope) PathMM() float64 { return t.FromPrimaryMM + t.HoleFromAxisMM }

// FocalRatio returns F = f/D.
func (t Telescope) FocalRatio() float64 { return t.FocalLengthMM / t.ApertureMM }

// Cell returns the screws of mirror m.
func (t Telescope) Cell(m Mirror) Cell {
	if m == Primary {
		return t.Primary
	}
	return t.Secondary
}
