package optics

// CircleIgnoredMM returns the radius, on the primary, of a laser's circle that
// is not worth measuring: a third of what the focuser may be out of aim
// (common practice).
func (t Telescope) CircleIgnoredMM() float64 { return t.AimAllowedMM() / 3 }

// CircleFittedMM returns the largest radius of a circle that is measured and
// allowed for; beyond it the laser or its holder wants mending first.
func (t Telescope) CircleFittedMM() float64 { return t.AimAllowedMM() }
