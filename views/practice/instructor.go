package practice

import (
	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
)

// arrangedSetup is a telescope that an instructor has set up.
func arrangedSetup(t optics.Telescope, w session.World) (virtual.Setup, error) {
	a, err := virtual.ParseArranged(t, w.Level)
	return a.Setup(t, w.Seed), err
}
