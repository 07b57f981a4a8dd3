package session

import "spotward/optics"

// Deed is something that answering a question says was done.
type Deed string

// The deeds. Easing the locks is by a quarter turn each, one by one.
const (
	DeedLaserIn       Deed = "laser_in"
	DeedCardWhole     Deed = "card_whole"
	DeedLaserOn       Deed = "laser_on"
	DeedCardHalf      Deed = "card_half"
	DeedTurnLaser     Deed = "turn_laser" // once round
	DeedSnugSecondary Deed = "snug_secondary"
	DeedSnugPrimary   Deed = "snug_primary" // the one of four that hangs free, until it touches
	DeedEaseLocks     Deed = "ease_locks"
	DeedSwingUp       Deed = "swing_up"
	DeedSwingBack     Deed = "swing_back"
	DeedLaserOff      Deed = "laser_off"
	DeedLaserOut      Deed = "laser_out"
	DeedCount         Deed = "count"
)

// deeds returns what answering the step says was done, in order: what was told
// comes last.
func (st *Step) deeds(s State) []Deed {
	var list []Deed
	if st.Deeds != nil {
		list = st.Deeds(s)
	}
	if s.Due != nil {
		if _, all := s.EasesLocks(*s.Due); all {
			list = append(list, DeedEaseLocks)
		}
	}
	switch {
	case s.Due == nil || !s.Due.Snug:
	case s.Working() == optics.Primary:
		list = append(list, DeedSnugPrimary)
	default:
		list = append(list, DeedSnugSecondary)
	}
	return list
}
