package mirrors

import "spotward/optics"

// UnsnugMoves is after how many moves the secondary's screws are taken up even
// where the spot is not there yet: hands that turn two screws alike only nearly
// leave all three slack in the end. Trainers' judgement.
const UnsnugMoves = 4

// snugMM is how far the spot may go as they are taken up, 1σ; with one of them
// free, farther. This program's own.
const (
	snugMM     = 2
	snugFreeMM = 12
)

// snugCov is what taking up the secondary's screws may do to the spot.
func (s Work) snugCov() optics.Cov {
	if s.Snug.Free || s.Snug.Moves >= UnsnugMoves {
		return optics.Round(snugFreeMM)
	}
	return optics.Round(snugMM)
}

// NearRing is within how many of its radii a move counts as ending in the ring.
const NearRing = 1.5

// Snugged takes the screws of the mirror that was turned as all taken up.
func (s *Work) Snugged(all bool, ts []optics.Turn) {
	if !all || len(ts) == 0 {
		return
	}
	if ts[0].Mirror == optics.Primary {
		s.Primary.Tracker = s.Primary.Tracker.Shift(optics.Round(touchesMM))
		return
	}
	s.Secondary.Tracker = s.Secondary.Tracker.Shift(s.snugCov())
	s.Snug = Snug{}
}
