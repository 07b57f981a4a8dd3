package history

import (
	"math"

	"spotward/optics"
)

// foldHint is about what moves the spot on the primary: the secondary, or the
// laser in its seat. One interval may fit either; taken together they tell.
func foldHint(counted []Interval) (Hint, bool) {
	var off, told []Interval
	lean := 0.0 // to the secondary, away from the laser
	for _, i := range counted {
		if i.P == nil || !moved(*i.P, countsOnPrimaryMM) {
			continue
		}
		off = append(off, i)
		if i.own != nil {
			told = append(told, i)
			lean += square(math.Min(i.laser, worst)) - square(math.Min(i.secondary, worst))
		}
	}
	h := Hint{N: len(off), Of: len(counted)}
	if !pattern(h.N, counted) {
		return h, false
	}
	clear := len(told) >= leastIntervals && math.Abs(lean) >= leanAtLeast && few(told, CauseBoth)
	switch {
	case clear && lean < 0 && few(told, CauseSecondary):
		h.ID, h.Short, h.Needs = HintSeat, "laser seat", "the laser, no mirror"
		h.Say = "Both spots moved by about as much, the same way. That is no mirror. It is how the laser sits, its holder or the drawtube."
		h.Do = "Turn no screw. Seat and clamp the laser the same way each time. Check the holder and the drawtube for play, and try another kit."
	case clear && lean > 0 && few(told, CauseSeat) && turning(off):
		h.ID, h.Short, h.Needs = HintStalk, "secondary turns on its stalk", "a trained person"
		h.Say = "The spot on the primary went straight across the focuser's direction, further the same way each time. The secondary turns on its stalk."
		h.Do = "For a trained person: check how the holder is turned about the tube, then its clamp. The adjusting screws only hide it."
	case clear && lean > 0 && few(told, CauseSeat):
		h.ID, h.Short, h.Needs = HintSecondary, "secondary works loose", "the secondary's screws"
		h.Say = "The return spot went the way of the spot on the primary, about one and a half times as far. The secondary alone moves."
		h.Do = "The secondary's screws, and what they work against; leave the primary."
	default:
		h.ID, h.Short, h.Needs = HintAim, "secondary or laser", "the laser turned once round"
		h.Say = "The spot on the primary moves: by the secondary, or by how the laser sits. The return spot does not tell which."
		h.Do = "Turn the laser once round at the next look; if the spot stays still, it is the secondary."
	}
	return h, true
}

// leanAtLeast makes one cause ten times as likely as the other: the square of a
// misfit tells by e³. worst keeps one swapped reading from deciding.
const (
	leanAtLeast = 0.75
	worst       = 2
)

func square(v float64) float64 { return v * v }

// few reports whether no more than a third of the intervals point to c.
func few(in []Interval, c Cause) bool {
	n := 0
	for _, i := range in {
		if i.Cause == c {
			n++
		}
	}
	return 3*n <= len(in)
}

// acrossDeg is how far from straight across the focuser's direction the spot
// may go, all in all, and still have gone across.
const acrossDeg = 15

// turning reports whether the spot on the primary went across the focuser's
// direction, the same way in each of the intervals, so that it grows.
func turning(in []Interval) bool {
	var sum optics.Tube
	for _, i := range in {
		if i.P.At.Y*in[0].P.At.Y < 0 || math.Abs(i.P.At.X) > math.Abs(i.P.At.Y) {
			return false
		}
		sum = sum.Add(i.P.At)
	}
	return math.Abs(sum.X) <= math.Abs(sum.Y)*math.Tan(acrossDeg*math.Pi/180)
}
