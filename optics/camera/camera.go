// Package camera draws what a phone held over the rim of a telescope that is not
// there would see of the primary, and from behind of the laser's face. It is a
// pure function of the telescope, of where the spot or the shadow is, and of how
// the phone is held; it knows nothing of how such a picture is read.
//
// Frame of a scene: x to the right and y up as one stands there, z toward the
// camera; mm. Light is linear, 1 the brightest a picture has.
package camera

import (
	"image"
	"math"
)

// Hold is how the phone is held. The zero Hold is a picture of 1200 by 900
// pixels from over the rim at 12 o'clock, straight, in the dusk.
type Hold struct {
	Width, Height int
	// Hour is where over the rim the phone is, as a clock from the sky end.
	Hour float64
	// AsideMM is how far from the tube's axis, or from the line straight behind
	// the face; BackMM how far beyond the open end, or from the face; FieldMM how
	// wide what is seen is there. 0 stands for the usual.
	AsideMM, BackMM, FieldMM float64
	RollRad                  float64 // turns the picture anticlockwise
	Light                    float64 // of the sky; 0 stands for dusk
	NoiseLevels              float64 // of 255, 1σ
	Seed                     uint64  // of the noise
	Dark                     bool    // no light of the laser is to be seen
}

func (h Hold) with(aside, back, field, light float64) Hold {
	if h.Width <= 0 || h.Height <= 0 {
		h.Width, h.Height = 1200, 900
	}
	for _, f := range [...]struct {
		at    *float64
		usual float64
	}{{&h.AsideMM, aside}, {&h.BackMM, back}, {&h.FieldMM, field}, {&h.Light, light}} {
		if *f.at == 0 {
			*f.at = f.usual
		}
	}
	return h
}

// shade is light in red, and in green and blue.
type shade struct{ red, cold float64 }

func grey(v float64) shade { return shade{v, v} }

func (s shade) plus(t shade) shade { return shade{s.red + t.red, s.cold + t.cold} }

// spread is how many rays go through a pixel, along and down.
const spread = 2

// picture draws what a camera at from that looks at the scene's middle sees.
func (h Hold) picture(from vec, seen func(from, dir vec) shade) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, h.Width, h.Height))
	ahead := from.scale(-1).unit()
	right := ahead.cross(vec{0, 1, 0}).unit()
	up := right.cross(ahead)
	pitch := h.FieldMM / from.len() / float64(h.Width)
	sin, cos := math.Sincos(-h.RollRad)
	noise := noise{h.Seed}
	for y := range h.Height {
		for x := range h.Width {
			var sum shade
			for i := range spread * spread {
				u := (float64(x) + (0.5+float64(i%spread))/spread - float64(h.Width)/2) * pitch
				v := (float64(h.Height)/2 - float64(y) - (0.5+float64(i/spread))/spread) * pitch
				dir := ahead.plus(right.scale(u*cos - v*sin)).plus(up.scale(u*sin + v*cos))
				s := seen(from, dir.unit())
				// what is burnt is burnt before a pixel takes its mean
				sum = sum.plus(shade{min(1, s.red), min(1, s.cold)})
			}
			const part = 1. / (spread * spread)
			o := m.PixOffset(x, y)
			m.Pix[o] = level(sum.red*part, h.NoiseLevels*noise.next())
			m.Pix[o+1] = level(sum.cold*part, h.NoiseLevels*noise.next())
			m.Pix[o+2] = level(sum.cold*part, h.NoiseLevels*noise.next())
			m.Pix[o+3] = 255
		}
	}
	return m
}

// levels has light as a picture's file has it (sRGB, IEC 61966-2-1), of 255, from
// none to all of it in even steps; between them it is straight.
var levels = func() (table [4097]float64) {
	for i := range table {
		v := float64(i) / float64(len(table)-1)
		if v <= 0.0031308 {
			v *= 12.92
		} else {
			v = 1.055*math.Pow(v, 1/2.4) - 0.055
		}
		table[i] = 255 * v
	}
	return table
}()

// level returns light as a picture's file has it.
func level(v, noise float64) uint8 {
	const last = len(levels) - 1
	at := max(0, min(1, v)) * float64(last)
	i := min(int(at), last-1)
	return uint8(math.Round(max(0, min(255, levels[i]+(at-float64(i))*(levels[i+1]-levels[i])+noise))))
}

// noise is a row of numbers that scatter by 1 about 0, the same for a seed (G.
// Marsaglia's xorshift, J. Stat. Softw. 8, 14 (2003); the sum of four even
// numbers is near enough to normal).
type noise struct{ state uint64 }

func (n *noise) next() float64 {
	if n.state == 0 {
		n.state = 0x9e3779b97f4a7c15
	}
	n.state ^= n.state << 13
	n.state ^= n.state >> 7
	n.state ^= n.state << 17
	s := n.state
	sum := float64(s&0xffff) + float64(s>>16&0xffff) + float64(s>>32&0xffff) + float64(s>>48)
	return (sum/0xffff - 2) * math.Sqrt(3)
}

type vec struct{ x, y, z float64 }

func (a vec) plus(b vec) vec             { return vec{a.x + b.x, a.y + b.y, a.z + b.z} }
func (a vec) scale(k float64) vec        { return vec{k * a.x, k * a.y, k * a.z} }
func (a vec) dot(b vec) float64          { return a.x*b.x + a.y*b.y + a.z*b.z }
func (a vec) cross(b vec) vec            { return vec{a.y*b.z - a.z*b.y, a.z*b.x - a.x*b.z, a.x*b.y - a.y*b.x} }
func (a vec) len() float64               { return math.Sqrt(a.dot(a)) }
func (a vec) unit() vec                  { return a.scale(1 / a.len()) }
func (a vec) along(d vec, k float64) vec { return a.plus(d.scale(k)) }
func (a vec) aside2() float64            { return a.x*a.x + a.y*a.y }
