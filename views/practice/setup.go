package practice

import (
	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
)

// setupOf returns what a world's level means: one of the three, or a telescope
// that a lesson has set up. Its spots stand as far off as the lesson wants
// them; the direction and all else come from the seed.
func setupOf(t optics.Telescope, w session.World) (virtual.Setup, error) {
	if l, err := virtual.ParseLevel(w.Level); err == nil {
		return virtual.SetupOf(l, t, w.Seed), nil
	}
	if virtual.IsArranged(w.Level) {
		return arrangedSetup(t, w)
	}
	s := virtual.SetupOf(virtual.Easy, t, w.Seed)
	f := &s.Faults
	switch w.Level {
	case "lesson-near":
		f.SpotMM, f.ReturnMM = 14, 3
	case "lesson-far":
		f.SpotMM, f.ReturnMM = 45, 3
	case "lesson-return":
		f.SpotMM, f.ReturnMM = 0.5, 9
	case "lesson-good":
		f.SpotMM, f.ReturnMM, f.LockPull = 0.6, 0.6, 0
	case "lesson-eased":
		f.SpotMM, f.ReturnMM, f.LocksEased = 0.5, 8, true
	case "lesson-way":
		f.SpotMM, f.ReturnMM, f.LocksEased = 0.5, 5, true
	case "lesson-pulling":
		f.SpotMM, f.ReturnMM, f.LocksEased, f.LockPull, f.LockSkewDeg = 0.5, 8, true, 0.9, 30
	default:
		return finerSetup(s, w.Level)
	}
	return s, nil
}
