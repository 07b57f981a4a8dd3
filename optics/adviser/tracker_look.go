package adviser

import (
	"math"

	"spotward/optics"
)

// What slips are thought to happen, and how a slip looks; trainers' judgement.
const (
	misreadings = 0.03  // readings of another place than is meant
	unforeseen  = 0.01  // spots moved by something not modelled
	againMM     = 0.25  // what a second look at the same spot has in common with the first
	nowhereMM   = 60.0  // spread of a reading that says nothing
	doubtBelow  = 0.002 // how often an honest reading may be farther out than one that is not doubted
	doubtAbove  = 0.5   // probability of a slip that is worth a second look
)

// Look returns the belief after a reading z, and whether z is where the turns
// since the last reading can have put the spot. Both possibilities are carried
// on, that z is right and that it was misread; another reading, or the next
// move, tells. A second reading of a spot that was not moved says less than the
// first.
func (k Tracker) Look(z optics.Belief) (Tracker, Doubt) {
	doubt := Doubt{Chances: 1}
	if k.seen {
		doubt.Chances = chance(likeliest(k.bank), z)
	}
	first := !k.seen
	if k.still {
		k.bank = eachHypothesis(k.bank, func(g *gauss) { g.widen(0, optics.Round(againMM)) })
	}
	k.still = true
	k.stillLooks++
	k.bank = seen(k.bank, z, misreadings)
	k.seen = true
	doubt.Doubted = !first && (k.slipped(0) > doubtAbove || doubt.Chances < doubtBelow)
	if !first {
		doubt.Earlier = k.slipped(k.since + 1)
	}
	k.since = 0
	return k, doubt
}

// slipped returns the probability, 0 to 1, of a slip at the look or turn that
// was ago looks and turns before the latest.
func (k Tracker) slipped(ago int) float64 {
	p := 0.0
	for i := range k.bank {
		if k.bank[i].slips>>ago&1 == 1 {
			p += k.bank[i].weight
		}
	}
	return p
}

// Confirm returns the belief after a doubted reading was repeated: it is taken
// at its word, and that something not modelled moved the spot is allowed for.
func (k Tracker) Confirm(z optics.Belief) Tracker {
	k = k.surprise()
	moved := eachHypothesis(k.bank, func(g *gauss) { g.widen(0, optics.Round(nowhereMM)) })
	for i := range moved {
		moved[i].weight *= unforeseen
	}
	k.bank = seen(append(moved, k.bank...), z, 0)
	k.seen, k.since = true, 0
	return k
}

// misreading is a way to say a place that it is not: the place meant is the
// said one mirrored and scaled.
type misreading struct {
	x, y  float64
	share float64 // of all misreadings
}

// misread are the known ones: half a dial out, left for right, cm for mm. What
// is left over of the shares is a place that says nothing.
var misread = [...]misreading{{-1, -1, 0.25}, {1, -1, 0.35}, {10, 10, 0.1}, {0.1, 0.1, 0.1}}

// misreadLikelihood returns the log likelihood, in the constant of see, of z if
// it was misread.
func (g *gauss) misreadLikelihood(z optics.Belief) float64 {
	nothing := 1.0
	sum := 0.0
	for _, m := range misread {
		meant := optics.Tube{X: z.At.X * m.x, Y: z.At.Y * m.y}
		c := optics.Cov{XX: z.Cov.XX * m.x * m.x, XY: z.Cov.XY * m.x * m.y, YY: z.Cov.YY * m.y * m.y}.Add(g.cov(0))
		density := math.Exp(-mahalanobis2(meant.Sub(g.at(0)), c)/2) / math.Sqrt(c.XX*c.YY-c.XY*c.XY)
		sum += m.share * density * math.Abs(m.x*m.y)
		nothing -= m.share
	}
	return math.Log(sum + nothing/(nowhereMM*nowhereMM))
}

// seen conditions every hypothesis on z; each also goes on as one in which z is
// misread, as often as misreadings are, and says nothing.
func seen(bank []hypothesis, z optics.Belief, misreadings float64) []hypothesis {
	out := make([]hypothesis, 0, 2*len(bank))
	logs := make([]float64, 0, 2*len(bank))
	for i := range bank {
		h := bank[i]
		w := math.Log(h.weight)
		if misreadings > 0 {
			slip := h
			slip.slips = h.slips.then(true)
			out, logs = append(out, slip), append(logs, w+math.Log(misreadings)+h.g.misreadLikelihood(z))
		}
		h.slips = h.slips.then(false)
		out, logs = append(out, h), append(logs, w+h.g.likelihood(z)+math.Log(1-misreadings))
	}
	out = pruned(weighed(out, logs))
	for i := range out { // the dropped ones need no arithmetic
		if h := &out[i]; !h.slips.slipped() {
			h.g = h.g.clone()
			h.g.see(z)
		}
	}
	return out
}

// chance returns how often a reading is as far out as z or farther, 0 to 1.
func chance(bank []hypothesis, z optics.Belief) float64 {
	p, sum := 0.0, 0.0
	for i := range bank {
		h := &bank[i]
		sum += h.weight
		p += h.weight * math.Exp(-mahalanobis2(z.At.Sub(h.g.at(0)), z.Cov.Add(h.g.cov(0)))/2)
	}
	return p / sum
}

// mahalanobis2 returns dᵀ·c⁻¹·d.
func mahalanobis2(d optics.Tube, c optics.Cov) float64 {
	det := c.XX*c.YY - c.XY*c.XY
	return (d.X*d.X*c.YY - 2*d.X*d.Y*c.XY + d.Y*d.Y*c.XX) / det
}

// Within returns the probability, 0 to 1, that the spot is in g, within what
// eyes can tell.
func (k Tracker) Within(g optics.Goal) float64 {
	p := 0.0
	for i := range k.bank {
		if h := &k.bank[i]; h.weight > 1e-3 {
			p += h.weight * (optics.Belief{At: h.g.at(0).Sub(g.At), Cov: h.g.cov(0)}).ChanceWithin(g.InsideMM+optics.EyesMM)
		}
	}
	return p
}
