package virtual

import "spotward/optics"

// Faults is what is wrong with the practice telescope and its laser. The zero
// Faults is an aligned telescope without any: no play, equal screws, locks
// that hold without pulling, a true laser.
type Faults struct {
	// SpotMM is how far the outgoing spot stands off the primary's centre to
	// begin with. ReturnMM is how far the return spot would then stand off the
	// hole if the outgoing one were centred. Directions come from the seed.
	SpotMM   float64 `json:"spot_mm,omitempty"`
	ReturnMM float64 `json:"return_mm,omitempty"`

	PlayTurns  float64      `json:"play_turns,omitempty"`  // lost on each reversal
	GainSpread float64      `json:"gain_spread,omitempty"` // 1σ of the logarithm of a screw's gain
	TwistDeg   float64      `json:"twist_deg,omitempty"`   // 1σ by which the secondary's holder twists about the tube, a turn of a screw
	Screws     []ScrewFault `json:"screws,omitempty"`

	// LockPull is the most that a lock pulls as it grips, in turns of the
	// adjusting screw beside it a turn of its own; each has between a third of
	// it and all of it. LockSkewDeg is how far from that screw's own line it may
	// pull. LockFollow is how much of an adjusting turn toward a lock takes up
	// the room that easing the lock has made: 0 lets the mirror pass freely.
	LockPull    float64 `json:"lock_pull,omitempty"`
	LockSkewDeg float64 `json:"lock_skew_deg,omitempty"`
	LockFollow  float64 `json:"lock_follow,omitempty"`
	LocksEased  bool    `json:"locks_eased,omitempty"` // to begin with

	// LaserSlopeRad and LaserOffsetMM belong to the laser and turn with it;
	// HolderSlopeRad and HolderOffsetMM stay. SeatSpreadMM is 1σ, on the primary
	// and each way, of what taking the laser out and putting it back changes.
	LaserSlopeRad  float64 `json:"laser_slope_rad,omitempty"`
	LaserOffsetMM  float64 `json:"laser_offset_mm,omitempty"`
	HolderSlopeRad float64 `json:"holder_slope_rad,omitempty"`
	HolderOffsetMM float64 `json:"holder_offset_mm,omitempty"`
	SeatSpreadMM   float64 `json:"seat_spread_mm,omitempty"`
	WeakLaser      bool    `json:"weak_laser,omitempty"`
	DeadAfter      int     `json:"dead_after,omitempty"` // acts until the battery is empty; 0: it lasts

	RingOffMM    float64 `json:"ring_off_mm,omitempty"`   // the ring stuck beside the primary's centre
	RingSwallows bool    `json:"ring_swallows,omitempty"` // a dull paper ring: what falls on it does not come back

	// SecondarySlipMM is how far the glass has slipped along its stalk, toward
	// the sky; SecondaryTurnedDeg how far the holder stands turned about the
	// tube.
	SecondarySlipMM    float64 `json:"secondary_slip_mm,omitempty"`
	SecondaryTurnedDeg float64 `json:"secondary_turned_deg,omitempty"`

	Unlabelled        bool `json:"unlabelled,omitempty"`         // both mirrors' labels stand anywhere
	SecondaryReversed bool `json:"secondary_reversed,omitempty"` // labels the other way round than described
	PrimaryReversed   bool `json:"primary_reversed,omitempty"`

	// LooseSecondaryTurns: one screw was left unsnugged by so much, and the
	// plate gives in each swing. RockingPrimaryMM: the primary moves on its
	// supports in each swing, by about so much on the target. UnsettledMM: it
	// does so once, in the first swing.
	LooseSecondaryTurns float64 `json:"loose_secondary_turns,omitempty"`
	RockingPrimaryMM    float64 `json:"rocking_primary_mm,omitempty"`
	UnsettledMM         float64 `json:"unsettled_mm,omitempty"`
}

// ScrewFault is something wrong with one screw.
type ScrewFault struct {
	Mirror optics.Mirror `json:"mirror"`
	Screw  int           `json:"screw"`
	Is     Ailment       `json:"is"`
}

// Ailment is what is wrong with a screw.
type Ailment string

// The ailments. Seized does not turn at all. Grabbing holds the mirror back
// and then lets it jump. Worn has no thread left and turns without effect.
// NearEnd meets the end of its thread half way to where it should stand. Slack
// has a spring that reaches no further than an eighth of a turn out.
const (
	Seized   Ailment = "seized"
	Grabbing Ailment = "grabbing"
	Worn     Ailment = "worn"
	NearEnd  Ailment = "near its end"
	Slack    Ailment = "slack"
)

// SetupOf returns what a level means for telescope t and a seed.
func SetupOf(l Level, t optics.Telescope, seed uint64) Setup {
	c := newChance(seed, streamSetup, 0)
	far := 0.3 * t.ApertureMM // farther out, the way back is lost to sight at every rung
	switch l {
	case Hard:
		return Setup{hardFaults(c, t, far), firstTimeHands, firstTimeEyes}
	case Usual:
		return Setup{usualFaults(c, far), trainedHands, trainedEyes}
	default:
		return Setup{easyFaults(c), carefulHands, carefulEyes}
	}
}

func easyFaults(c chance) Faults {
	return Faults{
		SpotMM: c.between(8, 20), ReturnMM: c.between(4, 9),
		PlayTurns: 0.01, GainSpread: 0.03,
		LockPull: 0.25, SeatSpreadMM: 0.2,
	}
}

// usualFaults are those of benches on which advice is usually tried: 0.03
// turns lost on a reversal, gains 10 % apart, locks that pull like 0.15 to 0.45
// of an adjusting turn.
func usualFaults(c chance, far float64) Faults {
	f := Faults{
		SpotMM: c.between(12, max(14, min(60, far))), ReturnMM: c.between(8, 28),
		PlayTurns: 0.03, GainSpread: 0.1, TwistDeg: 0.15,
		LockPull: 0.45, LockSkewDeg: 30, LockFollow: 0.25,
		LaserSlopeRad: c.between(0, 4e-4), LaserOffsetMM: c.between(0, 0.15),
		SeatSpreadMM: 0.4, UnsettledMM: c.between(0, 1),
	}
	if c.happens(1. / 3) {
		f.LooseSecondaryTurns = c.between(0.08, 0.15)
	}
	return f
}

func hardFaults(c chance, t optics.Telescope, far float64) Faults {
	f := usualFaults(c, far)
	f.TwistDeg = 0.4
	f.LockFollow = 0.5
	f.LaserSlopeRad = c.between(1.5e-3, 3e-3)
	f.LaserOffsetMM = c.between(0.2, 0.6)
	f.HolderSlopeRad = c.between(0, 5e-4)
	f.SeatSpreadMM = 1
	f.LooseSecondaryTurns = c.between(0.1, 0.2)
	f.Unlabelled = c.happens(0.5)
	f.SecondaryReversed = !f.Unlabelled && c.happens(0.5)
	f.PrimaryReversed = !f.Unlabelled && !f.SecondaryReversed
	m := optics.Primary
	if c.happens(0.5) {
		m = optics.Secondary
	}
	f.Screws = []ScrewFault{{m, c.IntN(max(1, t.Cell(m).Screws)), Grabbing}}
	return f
}
