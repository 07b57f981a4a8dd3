package picture

import (
	"flag"
	"hash/crc32"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"spotward/optics"
)

// drawn is a picture of a primary as a test wants it: levels in linear light, 0
// to 1, lengths in mm from the ring's middle, X to the right and Y down.
type drawn struct {
	w, h        int
	pxPerMM     float64
	middle      Point // of the ring, px
	inner, ring float64
	outer       float64
	ground      func(Point) float64
	spots       []drawnSpot
	noise       float64 // grey levels, 1σ
	lamp        float64 // how red the light is, 0 white, 1 red alone
}

type drawnSpot struct {
	at     Point
	radius float64 // of the core
	power  float64 // 1 burns the core white
	hidden func(Point) bool
}

func plainPrimary() drawn {
	return drawn{w: 400, h: 320, pxPerMM: 5, middle: Point{200, 170}, inner: 4.5, outer: 8, ring: 0.3,
		ground: func(Point) float64 { return 0.05 }, spots: []drawnSpot{{at: Point{12, -9}, radius: 1, power: 1}}}
}

func (d drawn) telescope() optics.Telescope {
	return optics.Telescope{ApertureMM: 250, RingInnerMM: d.inner, RingOuterMM: d.outer}
}

// light returns red, and green with blue, at a point.
func (d drawn) light(q Point) (red, cold float64) {
	edge := 3 * d.pxPerMM
	on := 1/(1+math.Exp(-edge*(q.len()-d.inner))) - 1/(1+math.Exp(-edge*(q.len()-d.outer)))
	v := d.ground(q)*(1-on) + d.ring*on
	red, cold = v, v*(1-d.lamp)
	for _, s := range d.spots {
		if s.hidden != nil && s.hidden(q) {
			continue
		}
		rr := q.sub(s.at).dot(q.sub(s.at)) / (s.radius * s.radius)
		core, halo := math.Exp(-1.2*rr*rr), math.Exp(-rr/6)
		red += s.power * (4*core + 0.3*halo)
		cold += s.power * (2.2*core + 0.015*halo)
	}
	return red, cold
}

// codes are levels of 255 of light from none to all, in even steps.
var codes = func() (table [8193]float64) {
	for i := range table {
		table[i] = 255 * math.Pow(float64(i)/float64(len(table)-1), 1/2.2)
	}
	return table
}()

// coded returns light as a picture has it; the darkest is not read off the table,
// in which it would be too coarse.
func coded(v float64) float64 {
	v = min(1, max(0, v))
	if v < 0.01 {
		return 255 * math.Pow(v, 1/2.2)
	}
	at := v * float64(len(codes)-1)
	i := min(int(at), len(codes)-2)
	return codes[i] + (at-float64(i))*(codes[i+1]-codes[i])
}

func (d drawn) image() *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, d.w, d.h))
	r := rand.New(rand.NewPCG(7, 11))
	code := func(v float64) uint8 {
		v = coded(v) + d.noise*r.NormFloat64()
		return uint8(math.Round(math.Max(0, math.Min(255, v))))
	}
	for y := range d.h {
		for x := range d.w {
			red, cold := d.light(Point{float64(x), float64(y)}.sub(d.middle).scale(1 / d.pxPerMM))
			m.SetRGBA(x, y, color.RGBA{code(red), code(cold), code(cold), 255})
		}
	}
	return m
}

var long = flag.Bool("long", false, "read all pictures, as .ci/long does")

// whole leaves a test out with -short.
func whole(t *testing.T) {
	if testing.Short() {
		t.Skip("pictures are for the usual run")
	}
}

// sampled leaves out seven cases of eight, nearly all with -short, always the same ones,
// and none with -long: each takes a fifth of a second to draw and read.
func sampled(t *testing.T) {
	of := uint32(8)
	if testing.Short() {
		of = 24
	}
	if !*long && crc32.ChecksumIEEE([]byte(t.Name()))%of != 0 {
		t.Skip("a sample")
	}
}
