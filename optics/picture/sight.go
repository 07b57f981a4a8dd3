// Package picture finds, in a photograph, what an eye would read: the spot on
// the primary against the centre ring, and the ring's shadow on the laser's face
// against its hole. An image goes in; circles in pixels and a place in mm come
// out, with errors that hold. It knows no files and no clock.
//
// A wrong find is worse than none. What is looked for is voted on by all edges
// at once, then measured on edge points by least squares, once with all of them
// and once with either half; what does not hold is named as missing.
package picture

import (
	"math"

	"spotward/optics"
)

// Missing names what a picture does not show well enough.
type Missing string

// What can be missing. Which: a red spot is there, and it may be another one
// than the laser's on the glass.
const (
	Nothing Missing = ""
	Ring    Missing = "ring"
	Spot    Missing = "spot"
	Which   Missing = "which"
	Hole    Missing = "hole"
	Shadow  Missing = "shadow"
)

// RollRad is how far a phone is held askew by, 1σ: 4°. What a picture says
// across the line from the middle is as uncertain as that.
const RollRad = 0.07

// Sight is what was found in a picture.
type Sight struct {
	Face    optics.Face
	Missing Missing
	// At is where the spot is from the ring's middle, or the shadow's middle
	// from the hole's: mm across the beam, up as it is in the upright picture.
	At optics.Dial
	// SigmaMM is the error of either coordinate, 1σ, but for the camera's roll.
	SigmaMM float64
	// AlongMM and AcrossMM are the errors along the line from the middle and
	// across it, 1σ, the camera's roll in AcrossMM.
	AlongMM, AcrossMM float64
	// Inner and Outer are the ring's edges, or its shadow's; Mark is the spot's
	// core, or the hole. In pixels of the upright picture; what is seen as an
	// ellipse has its mean radius.
	Inner, Outer, Mark Disc

	fits []fit // with Which: the spots of which one may be the laser's
}

// Disc is a circle in a picture, px.
type Disc struct {
	Centre Point
	Radius float64
}

// Found reports whether the picture is a reading.
func (s Sight) Found() bool { return s.Missing == Nothing }

// placed returns the sight with a place and its errors.
func (s Sight) placed(at optics.Dial, along, across float64) Sight {
	s.At = at
	s.SigmaMM = math.Sqrt((along*along + across*across) / 2)
	s.AlongMM, s.AcrossMM = along, math.Hypot(across, RollRad*at.Len())
	return s
}

func (c colours) disc(at Point, radius float64) Disc {
	return Disc{c.toPicture(at), radius * float64(c.shrink)}
}
