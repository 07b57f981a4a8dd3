package adviser

import (
	"math"
	"math/rand/v2"

	"spotward/optics"
)

// hands is how well a person turns and reads, 1σ where nothing else is said:
// trained people and beginners as trainers judge them.
type hands struct {
	turn, turnLeast float64 // of the turn; turns
	lost            float64 // turns lost when a screw is reversed
	direction       float64 // rad
	distance, least float64 // of the distance; mm
	mirrored        float64 // readings swapped left for right, 0 to 1
	wrongWay        float64 // turns made the wrong way, 0 to 1
	mistyped        float64 // readings half a dial out or cm for mm, 0 to 1
}

var (
	trained  = hands{turn: 0.08, turnLeast: 0.01, lost: 0.03, direction: deg(5), distance: 0.1, least: 0.5}
	beginner = hands{turn: 0.25, turnLeast: 0.01, lost: 0.03, direction: deg(10), distance: 0.22, least: 0.5,
		mirrored: 1.0 / 18, wrongWay: 1.0 / 20}
)

func deg(d float64) float64 { return d * math.Pi / 180 }

// world is a telescope that is not there, with somebody at it. Its screws, its
// hands and its eyes are its own; the beam is traced exactly.
type world struct {
	n      uint64
	rng    *rand.Rand
	hands  hands
	scope  optics.Telescope // as it truly is
	gain   map[optics.Mirror][]float64
	pull   []optics.Tube // what a turn of each lock does to the primary's gradient
	last   map[optics.Mirror][]float64
	pose   optics.Pose
	noCard bool
}

// newWorld draws scope number n of the population: 114–406 mm, f/3.9–f/8,
// leads 0.5–1.27, circles 9–21 mm and 0.33–0.45 D, any first screw, both
// senses, the spot 12–60 mm off the primary's centre (but on the glass), the
// return 8–28 mm off the hole.
func newWorld(n uint64, screws int, h hands) *world {
	w := &world{n: n, rng: rand.New(rand.NewPCG(n, 7)), hands: h}
	u := func(lo, hi float64) float64 { return lo + (hi-lo)*w.rng.Float64() }
	d := u(114, 406)
	f := d * u(3.9, 8)
	inward := d/2 + u(55, 95)
	w.scope = optics.Telescope{
		ApertureMM: d, FocalLengthMM: f, FromPrimaryMM: f - inward, HoleFromAxisMM: inward + u(4, 30),
		MinorAxisMM:  math.Max(25, inward*d/f+0.01*f),
		PivotAboveMM: u(30, 50), InnerRadiusMM: d/2 + u(8, 25), SkyEndMM: f - inward + d*u(0.6, 1),
		RingInnerMM: 4.5, RingOuterMM: 8,
		Target: optics.Target{HoleRadiusMM: 3, FaceRadiusMM: 13},
	}
	w.gain = map[optics.Mirror][]float64{}
	w.last = map[optics.Mirror][]float64{}
	cell := func(m optics.Mirror, circle float64) optics.Cell {
		for range screws {
			w.gain[m] = append(w.gain[m], math.Exp(0.1*w.rng.NormFloat64()))
		}
		w.last[m] = make([]float64, screws)
		return optics.Cell{
			Screws: screws, CircleMM: circle, LeadMM: u(0.5, 1.27), Kind: optics.Sprung, Labels: []string{"A", "B", "C", "D"}[:screws],
			ClockwisePulls: w.rng.IntN(2) == 0, FirstDeg: u(0, 360), LabelsClockwise: w.rng.IntN(2) == 0,
			GainKnown: optics.Given, SenseKnown: optics.Given, PlacesKnown: optics.Given,
		}
	}
	w.scope.Secondary = cell(optics.Secondary, u(9, 21))
	w.scope.Primary = cell(optics.Primary, d*u(0.33, 0.45))
	p := w.polar(u(12, math.Min(60, 0.85*d/2)), u(0, 2*math.Pi))
	t := w.polar(u(8, 28), u(0, 2*math.Pi))
	// The return is that far off once the secondary is home. Newton's way, from
	// first order.
	w.place(optics.Tube{}, t)
	home := w.pose.Primary
	w.place(p, t)
	w.pose.Primary = home
	return w
}

// place poses the mirrors so that the spots stand at p and t.
func (w *world) place(p, t optics.Tube) {
	L, f, S := w.scope.FromPrimaryMM, w.scope.FocalLengthMM, w.scope.PathMM()
	for range 5 {
		s := w.truth()
		da := p.Sub(s.P).Scale(1 / L)
		w.pose.Secondary.Grad = w.pose.Secondary.Grad.Add(optics.Tube{X: da.X / 2, Y: da.Y})
		dt := t.Sub(s.T).Sub(da.Scale((2 - L/f) * S))
		w.pose.Primary.Grad = w.pose.Primary.Grad.Sub(dt.Scale(1 / (2 * S)))
	}
}

func (w *world) polar(mm, rad float64) optics.Tube {
	s, c := math.Sincos(rad)
	return optics.Tube{X: mm * c, Y: mm * s}
}

// truth returns where the beam goes now.
func (w *world) truth() optics.Spots {
	s, err := w.scope.Trace(w.pose)
	if err != nil { // turned out of all reason
		s = w.scope.FirstOrder(w.pose)
		s.Wall = true
	}
	return s
}

// spot returns where the spot truly is that mirror m is adjusted by.
func (w *world) spot(m optics.Mirror) optics.Tube {
	if m == optics.Secondary {
		return w.truth().P
	}
	return w.truth().T
}

// tilt is what a clockwise turn of screw i of m does to its mirror's gradient
// and depth. The heads of the secondary's screws are faced from the sky end,
// where right is −y, those of the primary's from behind, where it is +y.
func (w *world) tilt(m optics.Mirror, i int) optics.Tilt {
	c := w.scope.Cell(m)
	step := 2 * math.Pi / float64(c.Screws) * float64(i)
	if !c.LabelsClockwise {
		step = -step
	}
	at := w.polar(1, deg(c.FirstDeg)+step)
	dz := c.LeadMM * w.gain[m][i]
	if m == optics.Secondary {
		at.Y = -at.Y
		dz = -dz
	}
	if c.ClockwisePulls {
		dz = -dz
	}
	return optics.Tilt{Grad: at.Scale(2 * dz / (float64(c.Screws) * c.CircleMM)), ShiftMM: dz / float64(c.Screws)}
}

func (w *world) apply(m optics.Mirror, t optics.Tilt, turns float64) {
	part := optics.Tilt{Grad: t.Grad.Scale(turns), ShiftMM: t.ShiftMM * turns}
	if m == optics.Secondary {
		w.pose.Secondary = w.pose.Secondary.Add(part)
	} else {
		w.pose.Primary = w.pose.Primary.Add(part)
	}
}

// turn turns screw i of m by about the turns told, and returns by how much it
// truly was turned.
func (w *world) turn(m optics.Mirror, i int, told float64) float64 {
	if w.hands.wrongWay > 0 && w.rng.Float64() < w.hands.wrongWay {
		told = -told
	}
	n := told*(1+w.hands.turn*w.rng.NormFloat64()) + w.hands.turnLeast*w.rng.NormFloat64()
	w.drive(m, i, n)
	return n
}

// drive turns a screw by exactly n; after a reversal some of it is lost.
func (w *world) drive(m optics.Mirror, i int, n float64) {
	if way := math.Copysign(1, n); n != 0 {
		if last := w.last[m][i]; last != 0 && last != way {
			n -= way * math.Min(math.Abs(n), w.hands.lost)
		}
		w.last[m][i] = way
	}
	w.apply(m, w.tilt(m, i), n)
}

// lock turns lock i of the primary.
func (w *world) lock(i int, told float64) {
	n := told*(1+w.hands.turn*w.rng.NormFloat64()) + w.hands.turnLeast*w.rng.NormFloat64()
	w.apply(optics.Primary, optics.Tilt{Grad: w.pull[i]}, n)
}

// lookAt reads the spot of mirror m. It returns false when it is nowhere to be
// seen.
func (w *world) lookAt(m optics.Mirror) (optics.Belief, bool) {
	s := w.truth()
	if m == optics.Secondary {
		if s.Wall {
			return w.words(s.P), true
		}
		return w.read(s.P), true
	}
	switch {
	case s.T.Len() <= w.scope.Target.FaceRadiusMM && s.Return.Len() <= w.scope.MinorAxisMM/2:
		return w.read(s.T), true
	case s.Return.Len() <= w.scope.MinorAxisMM/2:
		// The two spots on the secondary, in words.
		return scaled(w.words(s.Q), w.scope.PathMM()/w.scope.FromPrimaryMM), true
	case !w.noCard && s.LeavesAt.Len() < w.scope.InnerRadiusMM:
		return scaled(w.words(s.LeavesAt), w.scope.PathMM()/w.scope.SkyEndMM), true
	}
	return optics.Belief{}, false
}

func scaled(b optics.Belief, k float64) optics.Belief {
	return optics.Belief{At: b.At.Scale(k), Cov: b.Cov.Scale(k)}
}

// read is a clock position to the half-hour and whole millimetres.
func (w *world) read(v optics.Tube) optics.Belief {
	h := w.hands
	if v.Len() < optics.EyesMM {
		return optics.Belief{Cov: optics.Round(optics.EyesMM / 2)}
	}
	rad := math.Atan2(v.Y, v.X) + h.direction*w.rng.NormFloat64()
	mm := v.Len()*(1+h.distance*w.rng.NormFloat64()) + h.least*w.rng.NormFloat64()
	rad = math.Round(rad/deg(15)) * deg(15)
	mm = math.Max(0, math.Round(mm))
	if h.mirrored > 0 && w.rng.Float64() < h.mirrored {
		rad = -rad
	}
	if h.mistyped > 0 && w.rng.Float64() < h.mistyped {
		switch w.rng.IntN(3) {
		case 0:
			rad += math.Pi
		case 1:
			mm *= 10
		case 2:
			mm = math.Round(mm) / 10
		}
	}
	return h.belief(w.polar(mm, rad))
}

// belief gives a reading the errors of these eyes and of the rounding.
func (h hands) belief(at optics.Tube) optics.Belief {
	along := math.Hypot(h.distance*at.Len()+h.least, 0.29)
	across := math.Hypot(at.Len()*math.Hypot(h.direction, deg(4.3)), 0.4)
	if at.Len() < 1 {
		across = along
	}
	return optics.Belief{At: at, Cov: optics.Polar(at, along, across)}
}

// words is an octant and a rough distance.
func (w *world) words(v optics.Tube) optics.Belief {
	rad := math.Atan2(v.Y, v.X) + deg(12)*w.rng.NormFloat64()
	rad = math.Round(rad/deg(45)) * deg(45)
	mm := math.Max(1, math.Round(v.Len()*(1+0.22*w.rng.NormFloat64())))
	at := w.polar(mm, rad)
	return optics.Belief{At: at, Cov: optics.Polar(at, 0.25*mm+0.5, deg(20)*mm)}
}

// response is what an oracle knows: the trace, screw by screw, from square.
func (w *world) response(m optics.Mirror) *Learnt {
	l := &Learnt{Mirror: m, Hand: 1}
	x := *w
	for i := range w.scope.Cell(m).Screws {
		const n = 0.05
		x.pose = optics.Pose{}
		from := x.spot(m)
		x.apply(m, x.tilt(m, i), n)
		r := x.spot(m).Sub(from).Scale(1 / n)
		l.PerTurn = append(l.PerTurn, r)
		l.Spread = append(l.Spread, optics.Round(0.01*r.Len()))
	}
	return l
}
