package adviser

import (
	"spotward/optics"
)

// ParkGoal returns where to park the spot so that the locks bring it home:
// opposite to where the remaining turns of each lock will pull it.
func ParkGoal(k Tracker, g optics.Goal, remaining []float64) optics.Goal {
	for i, turns := range remaining {
		g.At = g.At.Sub(k.LockPull(i).At.Scale(turns))
	}
	return g
}
