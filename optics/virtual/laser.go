package virtual

import (
	"math"

	"spotward/optics"
)

// laser is a laser in its holder.
type laser struct {
	own       optics.Laser // turns with the laser
	holder    optics.Laser // stays
	seat      optics.Laser // until it is taken out
	turnedRad float64
	on        bool
}

// newLaser returns the laser and holder of some faults, switched on.
func newLaser(f Faults, c chance) laser {
	at := func(slope, offset float64) optics.Laser {
		s, o := turned(slope, c.angle()), turned(offset, c.angle())
		return optics.Laser{SlopeY: s.Y, SlopeZ: s.X, OffsetY: o.Y, OffsetZ: o.X}
	}
	return laser{
		own:    at(f.LaserSlopeRad, f.LaserOffsetMM),
		holder: at(f.HolderSlopeRad, f.HolderOffsetMM),
		on:     true,
	}
}

// beam returns how the beam leaves the hole. The laser turns clockwise as one
// looks into the focuser from outside, along −x: from z to y.
func (l laser) beam() optics.Laser {
	b := l.own
	b.OffsetY, b.OffsetZ = clockwise(b.OffsetY, b.OffsetZ, l.turnedRad)
	b.SlopeY, b.SlopeZ = clockwise(b.SlopeY, b.SlopeZ, l.turnedRad)
	for _, o := range []optics.Laser{l.holder, l.seat} {
		b.OffsetY += o.OffsetY
		b.OffsetZ += o.OffsetZ
		b.SlopeY += o.SlopeY
		b.SlopeZ += o.SlopeZ
	}
	return b
}

// facesAway tells whether the target face is turned too far from where one
// stands to be read.
func (l laser) facesAway() bool { return math.Cos(l.turnedRad) < math.Cos(math.Pi/5) }

// seatOffset is how far the laser's hole may sit to one side in its holder,
// as part of what a new seat moves the spot on the primary.
const seatOffset = 0.1

// newSeat returns how the laser sits once it has been put in.
func newSeat(spreadMM, pathMM float64, c chance) optics.Laser {
	slope, offset := spreadMM/pathMM, seatOffset*spreadMM
	return optics.Laser{
		SlopeY: slope * c.normal(), SlopeZ: slope * c.normal(),
		OffsetY: offset * c.normal(), OffsetZ: offset * c.normal(),
	}
}
