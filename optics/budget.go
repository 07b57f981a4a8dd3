package optics

import (
	"fmt"
	"math"
)

// HoleLook is how closely the return spot was, or will be, seen to be home.
type HoleLook string

// HoleDark: it vanishes in the hole. HoleEven: the glow about the hole is the
// same all round. HoleRims: it was noted where it goes out at one rim and where
// it comes back at the other, and brought half the way back.
const (
	HoleDark HoleLook = "dark"
	HoleEven HoleLook = "even"
	HoleRims HoleLook = "rims"
)

// rimsMM is what the two rims are worth, in mm of axis error (trainers' judgement).
const rimsMM = 0.1

// What is taken to hold until it is told otherwise, 1σ an axis, mm: how far a
// centre ring stands off the mirror's middle, and how far a laser's hole is off
// the focuser's axis.
const (
	RingPlacedGuessMM  = 0.5
	LaserOffsetGuessMM = 0.3
)

// Method is what is known of how a scope is aligned, beyond its dimensions.
// The zero Method is a laser and a ring of which nothing was measured.
type Method struct {
	Use  Use
	Home HoleLook // empty: HoleDark
	// Middle: the spot is brought to the middle of the ring even where inside
	// would do.
	Middle bool
	// CircleMM is the radius of the circle on the primary as the laser is
	// turned: nil, not tried, and taken to be as wide as is let pass.
	CircleMM *float64
	// RingPlacedMM and LaserOffsetMM replace the guesses; nil = not measured.
	RingPlacedMM, LaserOffsetMM *float64
	SeatSpreadMM                float64 // of the laser put back, on the primary; 0 = not tried
	LockShiftMM                 float64 // by how much the locks still move the return spot
}

// BudgetLine is one thing that keeps the method from seeing the axis error.
type BudgetLine struct {
	What string  // "the hole"
	Why  string  // a sentence
	MM   float64 // of axis error
	// Bound: the error is anywhere within MM and never beyond. Else MM is 1σ an
	// axis.
	Bound bool
}

// Budget is what a method can see at all, beside what is allowed.
type Budget struct {
	Lines     []BudgetLine
	AllowedMM float64
	BoundMM   float64 // the bounds, added
	SigmaMM   float64 // the sigmas, root of the sum of squares
}

// BudgetOf adds up what a method can see on this telescope.
func (t Telescope) BudgetOf(m Method) Budget {
	b := Budget{AllowedMM: t.AllowedMM(m.Use)}
	b.add(t.holeLine(m.Home))
	b.add(t.ringLine(m))
	b.add(BudgetLine{
		What: "the ring's place", MM: orGuess(m.RingPlacedMM, RingPlacedGuessMM) / 2,
		Why: "A ring that is not on the mirror's middle costs half of what it is off. A star shows it, or a paper template and a ruler.",
	})
	// An offset that cannot be told from the slope stays as d·f/S.
	b.add(BudgetLine{
		What: "the laser's offset", MM: orGuess(m.LaserOffsetMM, LaserOffsetGuessMM) * t.FocalLengthMM / t.PathMM(),
		Why: "A beam that leaves beside the focuser's axis takes the primary's axis along with it.",
	})
	b.add(BudgetLine{
		What: "the laser's slope", Bound: true,
		MM:  orGuess(m.CircleMM, t.CircleIgnoredMM()) * math.Abs(t.PathMM()-t.FocalLengthMM) / t.PathMM(),
		Why: "A beam that points off spoils the focuser's aim, and the axis hardly at all.",
	})
	b.add(BudgetLine{
		What: "the laser's seat", Bound: true, MM: seatMM(m.SeatSpreadMM),
		Why: "A laser that is moved between the two readings does not come back to its place.",
	})
	b.add(BudgetLine{
		What: "the locks", Bound: true, MM: t.returnCostMM(m.LockShiftMM),
		Why: "The locks still move the return spot as they grip.",
	})
	return b
}

func (b *Budget) add(l BudgetLine) {
	if l.MM <= 0 {
		return
	}
	b.Lines = append(b.Lines, l)
	if l.Bound {
		b.BoundMM += l.MM
	} else {
		b.SigmaMM = math.Hypot(b.SigmaMM, l.MM)
	}
}

// returnCostMM returns what mm of the return spot cost in the focal plane.
func (t Telescope) returnCostMM(mm float64) float64 {
	return mm / 2 * t.FocalLengthMM / t.PathMM()
}

func (t Telescope) holeLine(look HoleLook) BudgetLine {
	l := BudgetLine{What: "the hole", Bound: true}
	within, dark := t.VanishesWithinMM()
	switch {
	case look == HoleRims:
		l.MM, l.Why = rimsMM, "The two rims of the hole give the middle between them."
	case look == HoleEven:
		l.MM, l.Why, l.Bound = t.returnCostMM(EvenMM), "The glow is even all round the hole, as far as eyes can tell.", false
	case dark:
		l.MM, l.Why = t.returnCostMM(within), fmt.Sprintf("The return spot vanishes anywhere within %.1f mm of the hole's middle.", within)
	default:
		l.MM, l.Why = t.returnCostMM(within), "The hole is too small for the return spot to go dark in it."
	}
	return l
}

// ringLine is what is left on the primary: anywhere in the ring where inside is
// all that is asked, else as well as an eye can tell the middle.
func (t Telescope) ringLine(m Method) BudgetLine {
	if goal := t.GoalOnPrimary(m.Use).InsideMM; !m.Middle && t.RingInnerMM > 0 && goal >= t.RingInnerMM {
		return BudgetLine{What: "the ring", Bound: true, MM: t.RingInnerMM / 2, Why: "The spot may stand anywhere inside the ring."}
	}
	return BudgetLine{What: "your eye", MM: EyesMM / 2, Why: "The spot's place in the ring is read by eye from the far end."}
}

// seatMM: a seat within what is fine is left out.
func seatMM(spreadMM float64) float64 {
	if spreadMM <= SeatFineMM {
		return 0
	}
	return spreadMM / 2
}

func orGuess(v *float64, guess float64) float64 {
	if v == nil {
		return guess
	}
	return math.Abs(*v)
}

// WithinMM returns what the axis error stays within in 95 of 100 with
// everything seen to be home. A bound r is taken to be anywhere in a circle of
// that radius, which spreads it by r/2 an axis; the total is held to what the
// bounds and the sigmas could come to at most.
func (b Budget) WithinMM() float64 {
	spread := b.SigmaMM
	for _, l := range b.Lines {
		if l.Bound {
			spread = math.Hypot(spread, l.MM/2)
		}
	}
	return math.Min(rayleigh95*spread, b.BoundMM+rayleigh95*b.SigmaMM)
}

// Enough tells whether the method can see what is allowed.
func (b Budget) Enough() bool { return b.WithinMM() <= b.AllowedMM }

// Largest returns the line that costs most.
func (b Budget) Largest() BudgetLine {
	var most BudgetLine
	for _, l := range b.Lines {
		if l.WithinMM() > most.WithinMM() {
			most = l
		}
	}
	return most
}

// WithinMM returns what the line alone stays within in 95 of 100: a bound
// itself, a sigma times 2.45.
func (l BudgetLine) WithinMM() float64 {
	if l.Bound {
		return l.MM
	}
	return rayleigh95 * l.MM
}

// LensInsideWords says what a laser can do where a lens is built in.
const LensInsideWords = "A lens is built into this tube. The laser shows whether the secondary is right; its return is not to be trusted. A star shows the rest."

// BudgetWords says whether the method is good enough for what is allowed, and
// where it is not, what is: a closer look at ring and hole, or a finer check
// than the spots.
func (t Telescope) BudgetWords(m Method) string {
	if t.LensInside {
		return LensInsideWords
	}
	b := t.BudgetOf(m)
	figures := fmt.Sprintf("Even with both spots home the axis may be %.1f mm off; %.1f mm is allowed.", b.WithinMM(), b.AllowedMM)
	if b.Enough() {
		return figures + " This laser can show what this scope asks for."
	}
	closer := m
	closer.Middle = true
	if closer.Home != HoleRims {
		closer.Home = HoleEven
	}
	if c := t.BudgetOf(closer); c.Enough() {
		return figures + fmt.Sprintf(" With the spot in the middle of the ring, and the glow even all round the hole, it is %.1f.", c.WithinMM())
	}
	most := b.Largest()
	return figures + fmt.Sprintf(" Most of that is %s (%.1f mm). Only a finer check, best on a star, shows the rest.", most.What, most.WithinMM())
}
