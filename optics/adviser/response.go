package adviser

import (
	"math"

	"spotward/optics"
)

// How well the figures of a scope's file are to be believed, 1σ; trainers'
// judgement.
const (
	givenGain    = 0.10 // of the response, a figure that was measured
	unknownGain  = 0.22 // about each of the guesses in gainGuesses
	gainSlack    = 0.10 // of one screw's response against the others
	wayGivenRad  = 0.10 // where the first screw stands, measured
	wayGuessRad  = 0.14 // about each of the places tried
	waySlack     = 0.05 // rad, of one screw's way against the others
	lostSpotMM   = 50.0 // how far off a spot is that was not read yet
	lockPull     = 0.3  // of an adjusting turn, per turn of the lock
	typicalLead  = 0.8  // mm
	secondaryMM  = 14.0 // radius of its screws' circle, where the file is silent
	primaryOfD   = 0.39 // radius likewise, in apertures
	asAskedGiven = 0.96 // that labels run as the file says, if it was measured
	asAskedGuess = 0.93 // that people labelled as they were asked
	asAskedFile  = 0.9  // where nothing but the asking is known
	placeStep    = 20   // degrees between the places tried for the first screw
)

// place is one way the first screw can stand, degrees from where the file
// says, and how likely it is beside the others.
type place struct{ deg, weight float64 }

// placesTried returns where the first screw may stand. Even a measured place
// is now and then a quarter or half a dial out.
func placesTried(c optics.Cell) []place {
	if c.PlacesKnown == optics.Given && c.SenseKnown != optics.Unknown {
		return []place{{0, 0.94}, {90, 0.02}, {-90, 0.02}, {180, 0.02}}
	}
	nearest := 180 / float64(c.Screws)
	var all []place
	for d := 0.0; d < 360; d += placeStep {
		off := math.Abs(math.Mod(d+180, 360) - 180)
		w := 1.0
		switch {
		case c.PlacesKnown == optics.Given:
			w = 0.02
			if off == 0 || off == 180 {
				w = 1
			}
		case c.PlacesKnown == optics.Guessed && off > nearest+placeStep/2:
			w = 0.05
			if c.SenseKnown == optics.Unknown && 180-off < nearest {
				w = 1
			}
		}
		all = append(all, place{d, w})
	}
	return all
}

// gainGuesses returns what the response may be of what the figures say.
func gainGuesses(k optics.Known) (factors []float64, spread float64) {
	if k == optics.Unknown {
		return []float64{0.65, 1, 1.55}, unknownGain
	}
	return []float64{1}, givenGain
}

// priorBank returns what the scope's own figures say of mirror m.
func priorBank(t optics.Telescope, m optics.Mirror) []hypothesis {
	c := withTypical(t, t.Cell(m), m)
	hand := asAskedFile
	switch {
	case c.PlacesKnown == optics.Given:
		hand = asAskedGiven
	case c.PlacesKnown == optics.Guessed:
		hand = asAskedGuess
	case c.SenseKnown == optics.Unknown:
		hand = 0.5
	}
	way := wayGuessRad
	if c.PlacesKnown == optics.Given {
		way = wayGivenRad
	}
	gains, gain := gainGuesses(c.GainKnown)
	var bank []hypothesis
	for _, asFiled := range []bool{true, false} {
		w := hand
		if !asFiled {
			w = 1 - hand
		}
		for _, p := range placesTried(c) {
			d := c
			d.FirstDeg += p.deg
			d.LabelsClockwise = c.LabelsClockwise == asFiled
			for _, factor := range gains {
				d.LeadMM = c.LeadMM * factor
				g := priorGauss(t, m, d, gain, way)
				h := hypothesis{weight: w * p.weight, asFiled: asFiled, g: g}
				bank = append(bank, bothHands(h)...)
			}
		}
	}
	return normalised(bank)
}

// bothHands returns h for a trained hand and for a beginner's.
func bothHands(h hypothesis) []hypothesis {
	coarse := h
	coarse.coarse, coarse.weight = true, h.weight*beginners
	h.weight *= 1 - beginners
	return []hypothesis{h, coarse}
}

// withTypical fills in the figures the file is silent about.
func withTypical(t optics.Telescope, c optics.Cell, m optics.Mirror) optics.Cell {
	if c.LeadMM <= 0 {
		c.LeadMM, c.GainKnown = typicalLead, optics.Unknown
	}
	if c.CircleMM <= 0 {
		c.CircleMM, c.GainKnown = secondaryMM, optics.Unknown
		if m == optics.Primary {
			c.CircleMM = primaryOfD * t.ApertureMM
		}
	}
	return c
}

// priorGauss returns what cell c would do: the screws' responses follow from
// one gain and one way in common, and each a little from its own.
func priorGauss(t optics.Telescope, m optics.Mirror, c optics.Cell, gain, way float64) gauss {
	g := newGauss(2 + 2*c.Screws + 2*c.Locks)
	g.forget(0, lostSpotMM)
	r := t.WithCell(m, c).NominalResponse(m)
	c.FirstDeg += 90
	across := t.WithCell(m, c).NominalResponse(m)
	for i := range r {
		g.m[screwAt(i)], g.m[screwAt(i)+1] = r[i].X, r[i].Y
		for j := range r {
			kg, kw := gain*gain, way*way
			if i == j {
				kg, kw = kg+gainSlack*gainSlack, kw+waySlack*waySlack
			}
			g.correlate(screwAt(i), screwAt(j), r[i], r[j], kg)
			g.correlate(screwAt(i), screwAt(j), across[i], across[j], kw)
		}
		if i < c.Locks {
			g.forget(lockAt(c.Screws, i), lockPull*r[i].Len())
		}
	}
	return g
}
