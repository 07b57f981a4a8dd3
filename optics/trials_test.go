package optics

import (
	"fmt"
	"math"
	"os"
	"runtime"
	"sort"
	"strconv"
	"strings"
	"sync"
	"testing"
	"text/tabwriter"
)

// trial is one row of the table: who is at the scope and what the file says.
type trial struct {
	name     string
	screws   int
	hands    hands
	watching bool
	whole    bool
	ways     bool // is asked which way the spot went
	loose    bool // goals that do not follow the focal ratio
	noCard   bool
	oracle   bool               // the true response is known
	truth    func(w *world)     // makes the scope what the case is about
	file     func(t *Telescope) // what is wrong with, or missing in, the file
}

// outcome is how one scope went, both mirrors together.
type outcome struct {
	met, bounded               bool
	moves, looks, wrong, judge int // judge: moves that could have been wrong
	starts, nudges             int
	e                          float64 // over the allowance
}

const givenUp = 40 // moves a mirror

func (c trial) goals(t Telescope) (p, r float64) {
	if c.loose {
		return 4.5, 3
	}
	a := 0.005 * math.Pow(t.FocalRatio(), 3)
	clamp := func(v, most float64) float64 { return math.Max(1, math.Min(v, most)) }
	return clamp(2*a, 4.5), clamp(2*a*t.PathMM()/t.FocalLengthMM, 3)
}

func (c trial) run(n uint64) outcome {
	n0 := n
	_ = n0
	w := newWorld(n, c.screws, c.hands)
	w.noCard = c.noCard
	if c.truth != nil {
		c.truth(w)
	}
	file := w.scope
	for _, cell := range []*Cell{&file.Secondary, &file.Primary} {
		// Measured to the half-hour and to a few mm in a hundred.
		cell.FirstDeg = math.Round(cell.FirstDeg/15) * 15
		cell.CircleMM *= 1 + 0.06*w.rng.NormFloat64()
	}
	if c.file != nil {
		c.file(&file)
	}
	goalP, goalT := c.goals(w.scope)
	out := outcome{met: true}
	s, okS := c.mirror(n, w, file, Secondary, Goal{InsideMM: goalP}, &out)
	aim := s.Spot().At.Scale(w.scope.PathMM() / w.scope.FocalLengthMM)
	p, okP := c.mirror(n, w, file, Primary, Goal{At: aim, InsideMM: goalT}, &out)
	out.met = okS && okP
	out.bounded = w.truth().E.Len() <= axisBound(w.scope, s.Spot(), p.Spot())
	out.e = w.truth().E.Len() / (0.005 * math.Pow(w.scope.FocalRatio(), 3))
	return out
}

// axisBound returns what the axis error stays within in 95 of 100.
func axisBound(t Telescope, p, r Belief) float64 {
	k := t.FocalLengthMM / t.PathMM()
	e := r.At.Scale(k).Sub(p.At).Scale(0.5)
	c := r.Cov.Scale(k / 2).Add(p.Cov.Scale(0.5))
	lo, hi := 0.0, e.Len()+5*c.Sigma()
	for range 30 {
		if mid := (lo + hi) / 2; inDisc(e, c, mid) < 0.95 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

// mirror brings one mirror home, and tells whether it truly is.
func (c trial) mirror(n0 uint64, w *world, file Telescope, m Mirror, g Goal, out *outcome) (Tracker, bool) {
	var learnt *Learnt
	if c.oracle {
		learnt = w.response(m)
	}
	k := NewTracker(file, m, learnt)
	opts := Options{Watching: c.watching, Whole: c.whole, Ways: c.ways}
	k = c.look(w, k, m, out)
	moves, again, nudged := 0, 0, -1
	var xs []float64
	defer func() {
		if os.Getenv("LOGV") != "" {
			for i, x := range xs {
				fmt.Printf("V %v %.3f %d %d\n", m, x, len(xs)-1-i, i)
			}
		}
	}()
	xs = append(xs, w.spot(m).Sub(g.At).Len()/(g.InsideMM+toldApartMM/2))
	for moves < givenUp {
		advice, more := Advise(k, g, opts)
		if !more {
			if again < 1 || again < sureLooks && k.Within(g) < sure {
				again++
				k = c.look(w, k, m, out)
				continue
			}
			break
		}
		again = 0
		if advice.Moves[len(advice.Moves)-1].Stop == nil {
			// The hand stays on the screw: a nudge and the leg after it are one
			// move, if they are of one screw.
			mv := advice.Moves[0]
			n, way, sigma := w.nudge(mv)
			mv.Turns = n
			k = k.Turn([]Move{mv}, ByCue).Went(mv.Screw, n, way, sigma)
			nudged = mv.Screw
			out.nudges++
			if next, _ := Advise(k, g, opts); len(next.Moves) == 0 || next.Moves[0].Screw != nudged {
				moves++
				k = c.look(w, k, m, out)
			}
			continue
		}
		before := w.spot(m).Sub(g.At).Len()
		k = c.make(w, k, m, g, advice, out)
		after := w.spot(m).Sub(g.At).Len()
		if moves > 0 {
			out.judge++
			if after > before+1 {
				out.wrong++
			}
		}
		if traceTrials {
			stop := *advice.Moves[len(advice.Moves)-1].Stop
			fmt.Printf("   [n%d] %v %v %+v %v trust %.2f learn %v: %.1f,%.1f -> %v (%.1f -> %.1f)\n", n0, m, advice.Group, advice.Moves, stop, advice.Trust, advice.Learning, k.Spot().At, math.Sqrt(k.Spot().Cov.XX), w.spot(m), before, after)
		}
		moves++
		xs = append(xs, w.spot(m).Sub(g.At).Len()/(g.InsideMM+toldApartMM/2))
		k = c.look(w, k, m, out)
	}
	out.moves += moves
	if os.Getenv("FAILS") != "" && w.spot(m).Sub(g.At).Len() > g.InsideMM+unseenMM {
		b := k.Spot()
		fmt.Printf("fail [n%d] %v moves %d again %d goal %.2f true %.2f believed %.2f sigma %.2f z2 %.1f within %.3f r %.1f\n", n0, m, moves, again, g.InsideMM, w.spot(m).Sub(g.At).Len(), b.At.Sub(g.At).Len(), b.Cov.Sigma(), mahalanobis2(w.spot(m).Sub(b.At), b.Cov), k.Within(g), k.PerTurn(0).At.Len())
	}
	return k, w.spot(m).Sub(g.At).Len() <= g.InsideMM+unseenMM
}

var (
	sure      = envf("SURE", 0.985)
	sureLooks = int(envf("LOOKS", 6))
)

func envf(n string, d float64) float64 {
	if v, err := strconv.ParseFloat(os.Getenv(n), 64); err == nil {
		return v
	}
	return d
}

var traceTrials = os.Getenv("TRACE") != ""

func (c trial) make(w *world, k Tracker, m Mirror, g Goal, a Advice, out *outcome) Tracker {
	if c.screws == 4 && (len(a.Moves) != 2 || a.Moves[0].Turns != -a.Moves[1].Turns || (a.Moves[0].Screw-a.Moves[1].Screw)%2 != 0) {
		w.opposed = false
	}
	if !c.watching {
		for _, mv := range a.Moves {
			w.turn(m, mv.Screw, mv.Turns)
		}
		return k.Turn(a.Moves, ByAmount)
	}
	for _, mv := range a.Moves {
		from := w.spot(m)
		if w.watch(mv, g) {
			out.starts++
			mv.Turns = -mv.Turns
		}
		k = k.Turn([]Move{mv}, ByCue)
		if c.ways {
			way, sigma := w.wayOf(from, w.spot(m))
			k = k.Went(mv.Screw, mv.Turns, way, sigma)
		}
	}
	return k
}

// look reads a spot, and reads it again where the reading is doubted.
func (c trial) look(w *world, k Tracker, m Mirror, out *outcome) Tracker {
	for range 3 {
		z, ok := w.lookAt(m)
		out.looks++
		if os.Getenv("READS") != "" {
			fmt.Printf("   [n%d] read %v true %v\n", w.n, z, w.spot(m))
		}
		if !ok {
			return k.Beyond(w.scope.MinorAxisMM / 2)
		}
		var d Doubt
		if k, d = k.Look(z); !d.Doubted {
			return k
		}
	}
	return k
}

// response is what an oracle knows: the trace, screw by screw.
func (w *world) response(m Mirror) *Learnt {
	l := &Learnt{Mirror: m, Hand: 1}
	at := *w
	base := Pose{}
	for i := range w.scope.Cell(m).Screws {
		at.pose = base
		from := at.spot(m)
		const n = 0.05
		at.apply(m, at.tilt(m, i), n)
		r := at.spot(m).Sub(from).Scale(1 / n)
		l.PerTurn = append(l.PerTurn, r)
		l.Spread = append(l.Spread, Round(0.01*r.Len()))
	}
	return l
}

// row is what a table says of one trial.
type row struct {
	name                    string
	met, bounded            float64
	mean                    float64
	p50, p95                int
	looks                   float64
	looks95                 int
	wrong, starts, e50, e95 float64
}

func (c trial) many(n int) row {
	outs := make([]outcome, n)
	var wg sync.WaitGroup
	cpus := runtime.NumCPU()
	for cpu := range cpus {
		wg.Go(func() {
			for i := cpu; i < n; i += cpus {
				outs[i] = c.run(uint64(i))
			}
		})
	}
	wg.Wait()
	r := row{name: c.name}
	var moves, looks, judge, wrong, starts int
	var ms, ls []int
	var es []float64
	for _, o := range outs {
		if o.met {
			r.met++
		}
		if o.bounded {
			r.bounded++
		}
		moves += o.moves
		looks += o.looks
		judge += o.judge
		wrong += o.wrong
		starts += o.starts
		ms, ls, es = append(ms, o.moves), append(ls, o.looks), append(es, o.e)
	}
	sort.Ints(ms)
	sort.Ints(ls)
	sort.Float64s(es)
	total := float64(n)
	r.met, r.bounded = 100*r.met/total, 100*r.bounded/total
	r.mean, r.looks = float64(moves)/total, float64(looks)/total
	r.p50, r.p95, r.looks95 = ms[n/2], ms[n*95/100], ls[n*95/100]
	r.wrong = 100 * float64(wrong) / math.Max(1, float64(judge))
	r.starts = float64(starts) / total
	r.e50, r.e95 = es[n/2], es[n*95/100]
	return r
}

var trials = []trial{
	{name: "oracle", oracle: true},
	{name: "geometry known"},
	{name: "labels as asked", truth: asAsked, file: notMeasured},
	{name: "positions unknown, 9 in 10", truth: nineInTen, file: positionsUnknown},
	{name: "nothing known", file: nothingKnown},
	{name: "labels reversed", file: reversedLabels},
	{name: "first screw 90° out", file: quarterOut},
	{name: "one reading in ten mistyped", hands: mistyping(trained)},
	{name: "oracle, watching", oracle: true, watching: true},
	{name: "geometry known, watching", watching: true},
	{name: "nothing known, watching", file: nothingKnown, watching: true},
	{name: "nothing known, watching, ways", file: nothingKnown, watching: true, ways: true},
	{name: "positions unknown, watching, ways", truth: nineInTen, file: positionsUnknown, watching: true, ways: true},
	{name: "oracle, watching, ways", oracle: true, watching: true, ways: true},
	{name: "oracle, beginner", oracle: true, hands: beginner},
	{name: "beginners", hands: beginner},
	{name: "oracle, four screws", oracle: true, screws: 4},
	{name: "four screws", screws: 4},
}

func mistyping(h hands) hands { h.mistyped = 0.1; return h }

func cells(t *Telescope, f func(*Cell)) { f(&t.Secondary); f(&t.Primary) }

func asAsked(w *world) {
	cells(&w.scope, func(c *Cell) {
		c.FirstDeg = (2*w.rng.Float64() - 1) * 180 / float64(c.Screws)
		c.LabelsClockwise = true
	})
}

func notMeasured(t *Telescope) {
	cells(t, func(c *Cell) { c.FirstDeg, c.PlacesKnown = 0, Guessed })
}

func nineInTen(w *world) {
	cells(&w.scope, func(c *Cell) { c.LabelsClockwise = w.rng.Float64() < 0.9 })
}

func positionsUnknown(t *Telescope) {
	cells(t, func(c *Cell) { c.FirstDeg, c.LabelsClockwise, c.PlacesKnown = 0, true, Unknown })
}

func nothingKnown(t *Telescope) {
	cells(t, func(c *Cell) {
		c.FirstDeg, c.LabelsClockwise, c.ClockwisePulls = 0, true, false
		c.PlacesKnown, c.SenseKnown, c.GainKnown = Unknown, Unknown, Unknown
		c.LeadMM, c.CircleMM = 0, 0
	})
}

func reversedLabels(t *Telescope) {
	cells(t, func(c *Cell) { c.LabelsClockwise = !c.LabelsClockwise })
}

func quarterOut(t *Telescope) { cells(t, func(c *Cell) { c.FirstDeg += 90 }) }

func (c trial) filled() trial {
	if c.screws == 0 {
		c.screws = 3
	}
	if c.hands == (hands{}) {
		c.hands = trained
	}
	return c
}

func BenchmarkTrials(b *testing.B) {
	n := int(envf("N", 3000))
	if os.Getenv("TRACE") != "" {
		n = 80
	}
	if testing.Short() {
		n = int(envf("N", 600))
	}
	for b.Loop() {
		printTrials(n)
	}
}

func printTrials(n int) {
	out := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', 0)
	defer out.Flush()
	fmt.Fprintln(out, "\ncase\tmet %\tbound %\tmoves\tp50\tp95\tlooks\tp95\tfalse %\tstarts\te/a p50\tp95")
	only := os.Getenv("TRIALS")
	exact := os.Getenv("EXACT") != ""
	for _, c := range trials {
		if !strings.Contains(c.name, only) || exact && c.name != only {
			continue
		}
		r := c.filled().many(n)
		fmt.Fprintf(out, "%s\t%.1f\t%.1f\t%.2f\t%d\t%d\t%.1f\t%d\t%.1f\t%.1f\t%.2f\t%.2f\n", r.name, r.met, r.bounded, r.mean, r.p50, r.p95,
			r.looks, r.looks95, r.wrong, r.starts, r.e50, r.e95)
	}
}
