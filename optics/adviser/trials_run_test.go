package adviser

import (
	"math"
	"math/rand/v2"
	"runtime"
	"sort"
	"sync"

	"spotward/optics"
)

// trial is one row of the table: who is at the scope and what the file says.
type trial struct {
	name     string
	screws   int
	hands    hands
	watching bool
	whole    bool
	ways     bool                      // is asked which way the spot went
	loose    bool                      // goals that do not follow the focal ratio
	noCard   bool                      // nothing to be read once the return misses the secondary
	locks    bool                      // the primary's locks are tightened at the end
	oracle   bool                      // the true response is known
	again    bool                      // the second session on the scope
	truth    func(w *world)            // makes the scope what the case is about
	file     func(t *optics.Telescope) // what is wrong with, or missing in, the file
	by       func(v *visit) int        // who decides, other than the adviser; moves made
}

// outcome is how one scope went, both mirrors together.
type outcome struct {
	met, bounded         bool
	moves, looks, starts int
	judged, wrong        int     // moves after a mirror's first, and those that made it worse
	e                    float64 // over the allowance
}

// givenUp is after how many moves a mirror is left as it is. A spot thought to
// be home is looked at once more, and, as long as that is not sure, again.
const (
	givenUp    = 40
	mostChecks = 6
	sureHome   = 0.985
)

// visit is one mirror of one scope being aligned.
type visit struct {
	trial
	w    *world
	m    optics.Mirror
	goal optics.Goal
	k    Tracker
	out  *outcome
	made int
}

func (c trial) goals(t optics.Telescope) (p, r float64) {
	if c.loose {
		return 4.5, 3
	}
	a := 0.005 * math.Pow(t.FocalRatio(), 3)
	clamp := func(v, most float64) float64 { return math.Max(1, math.Min(v, most)) }
	return clamp(2*a, 4.5), clamp(2*a*t.PathMM()/t.FocalLengthMM, 3)
}

// run aligns scope number n.
func (c trial) run(n uint64) outcome {
	w := newWorld(n, c.screws, c.hands)
	w.noCard = c.noCard
	if c.truth != nil {
		c.truth(w)
	}
	file := w.scope
	cells(&file, func(cell *optics.Cell) {
		// Measured to the half-hour and to a few mm in a hundred.
		cell.FirstDeg = math.Round(cell.FirstDeg/15) * 15
		cell.CircleMM *= 1 + 0.06*w.rng.NormFloat64()
	})
	if c.file != nil {
		c.file(&file)
	}
	if c.locks {
		file.Primary.Locks = c.screws
		w.fitLocks()
	}
	learnt := map[optics.Mirror]*Learnt{}
	if c.oracle {
		learnt[optics.Secondary], learnt[optics.Primary] = w.response(optics.Secondary), w.response(optics.Primary)
	}
	out, s, p := c.session(w, file, learnt)
	if !c.again {
		return out
	}
	ls, lp := s.Learnt(), p.Learnt()
	w.displace()
	out, _, _ = c.session(w, file, map[optics.Mirror]*Learnt{optics.Secondary: &ls, optics.Primary: &lp})
	return out
}

// session aligns both mirrors, the secondary first.
func (c trial) session(w *world, file optics.Telescope, learnt map[optics.Mirror]*Learnt) (out outcome, s, p Tracker) {
	goalP, goalT := c.goals(w.scope)
	first := visit{c, w, optics.Secondary, optics.Goal{InsideMM: goalP}, NewTracker(file, optics.Secondary, learnt[optics.Secondary]), &out, 0}
	first.align()
	s = first.k
	aim := s.Spot().At.Scale(w.scope.PathMM() / w.scope.FocalLengthMM)
	second := visit{c, w, optics.Primary, optics.Goal{At: aim, InsideMM: goalT}, NewTracker(file, optics.Primary, learnt[optics.Primary]), &out, 0}
	second.align()
	if c.locks {
		second.tighten()
	}
	p = second.k
	out.met = first.home() && second.home()
	e := w.truth().E.Len()
	out.bounded = e <= w.scope.AxisErrorBelief(s.Spot(), p.Spot()).WithinMM(0.95)
	out.e = e / (0.005 * math.Pow(w.scope.FocalRatio(), 3))
	return out, s, p
}

func (v *visit) off() float64 { return v.w.spot(v.m).Sub(v.goal.At).Len() }

// home tells whether the mirror truly is, within what eyes can tell.
func (v *visit) home() bool { return v.off() <= v.goal.InsideMM+optics.EyesMM }

// align brings the mirror home as advised.
func (v *visit) align() {
	if v.by != nil {
		v.out.moves += v.by(v)
		return
	}
	v.look()
	v.follow(v.goal)
}

// follow does what is advised until nothing is, and it looks sure.
func (v *visit) follow(g optics.Goal) {
	opts := Options{Watching: v.watching, Whole: v.whole, Ways: v.ways}
	checks := 0
	for v.made < givenUp {
		a, more := Advise(v.k, g, opts)
		if !more {
			if checks > 0 && (checks >= mostChecks || v.k.Within(g) > sureHome) {
				return
			}
			checks++
			v.look()
			continue
		}
		checks = 0
		if a.Touch {
			v.nudge(a.Moves[0], g, opts)
			continue
		}
		before := v.off()
		v.make(a, g)
		v.judge(before)
		v.look()
	}
}

// judge counts a move, and whether it made things worse. A mirror's first is
// not judged: with nothing known it is a coin toss.
func (v *visit) judge(before float64) {
	if v.made > 0 {
		v.out.judged++
		if v.off() > before+1 {
			v.out.wrong++
		}
	}
	v.made++
	v.out.moves++
}

// nudge turns a screw till it shows which way the spot goes. The hand stays on
// it: with a leg of the same screw after it, it is one move.
func (v *visit) nudge(mv Move, g optics.Goal, opts Options) {
	before := v.off()
	n, way, sigma := v.w.nudge(mv)
	from := mv.Screw
	mv.Turns = n
	v.k = v.k.Turn([]Move{mv}, ByCue).Went([]Move{mv}, way, sigma)
	if next, more := Advise(v.k, g, opts); !more || next.Moves[0].Screw != from {
		v.judge(before)
		v.look()
	}
}

// make does what is advised, as hands do.
func (v *visit) make(a Advice, g optics.Goal) {
	if !v.watching {
		for _, mv := range a.Moves {
			v.w.turn(v.m, mv.Screw, mv.Turns)
		}
		v.k = v.k.Turn(a.Moves, ByAmount)
		return
	}
	for _, mv := range a.Moves {
		if mv.Stop == nil { // the eased half of a pair goes by amount
			v.w.turn(v.m, mv.Screw, mv.Turns)
			v.k = v.k.Turn([]Move{mv}, ByAmount)
			continue
		}
		from := v.w.spot(v.m)
		if v.w.watch(mv, g) {
			v.out.starts++
			mv.Turns = -mv.Turns
		}
		v.k = v.k.Turn([]Move{mv}, ByCue)
		if v.ways {
			way, sigma := v.w.wayOf(from, v.w.spot(v.m))
			v.k = v.k.Went([]Move{mv}, way, sigma)
		}
	}
}

// look reads the spot, and reads it again where the reading is doubted.
func (v *visit) look() {
	for range 3 {
		z, ok := v.w.lookAt(v.m)
		v.out.looks++
		if !ok {
			v.k = v.k.Beyond(v.w.scope.MinorAxisMM / 2)
			return
		}
		var d Doubt
		if v.k, d = v.k.Look(z); !d.Doubted {
			return
		}
	}
}

// row is what the table says of one trial.
type row struct {
	met, bounded, mean, looks, wrong, starts, e50, e95 float64
	p50, p95, looks95                                  int
}

// many runs the trial on the first n scopes.
func (c trial) many(n int) row {
	if c.screws == 0 {
		c.screws = 3
	}
	if c.hands == (hands{}) {
		c.hands = trained
	}
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
	return summed(outs)
}

func summed(outs []outcome) (r row) {
	n := len(outs)
	one := 1 / float64(n)
	var moves, looks []int
	var es []float64
	judged := 0
	for _, o := range outs {
		if o.met {
			r.met += 100 * one
		}
		if o.bounded {
			r.bounded += 100 * one
		}
		r.mean += float64(o.moves) * one
		r.looks += float64(o.looks) * one
		r.starts += float64(o.starts) * one
		r.wrong += float64(o.wrong)
		judged += o.judged
		moves, looks, es = append(moves, o.moves), append(looks, o.looks), append(es, o.e)
	}
	r.wrong *= 100 / math.Max(1, float64(judged))
	sort.Ints(moves)
	sort.Ints(looks)
	sort.Float64s(es)
	r.p50, r.p95, r.looks95 = moves[n/2], moves[n*95/100], looks[n*95/100]
	r.e50, r.e95 = es[n/2], es[n*95/100]
	return r
}

// displace throws both mirrors out anew, as a carried scope is.
func (w *world) displace() {
	again := newWorld(w.n+1e6, len(w.gain[optics.Primary]), w.hands)
	s := again.truth()
	w.rng = rand.New(rand.NewPCG(w.n, 8))
	w.place(optics.Tube{}, optics.Tube{}) // square, then out by as much as another scope was
	home := w.pose.Primary
	w.place(s.P.Scale(w.scope.ApertureMM/again.scope.ApertureMM), optics.Tube{})
	w.pose.Primary = home
	w.pose.Primary.Grad = w.pose.Primary.Grad.Add(w.polar((8+20*w.rng.Float64())/(2*w.scope.PathMM()), 2*math.Pi*w.rng.Float64()))
}
