package picture

import (
	"image"
	"math"
)

// plane is one colour of a picture, in the file's own grey levels, 0 to 255.
type plane struct {
	w, h int
	v    []float32
}

func newPlane(w, h int) plane { return plane{w, h, make([]float32, w*h)} }

func (p plane) row(y int) []float32 { return p.v[y*p.w : (y+1)*p.w] }

// inside reports whether all four pixels around a point are in the picture.
func (p plane) inside(at Point) bool {
	return at.X >= 0 && at.Y >= 0 && at.X < float64(p.w-1) && at.Y < float64(p.h-1)
}

// at returns the level at a point between pixels; the border goes on outside.
func (p plane) at(at Point) float64 {
	x, y := clamp(at.X, 0, float64(p.w)-1.001), clamp(at.Y, 0, float64(p.h)-1.001)
	ix, iy := int(x), int(y)
	fx, fy := x-float64(ix), y-float64(iy)
	i := iy*p.w + ix
	top := float64(p.v[i])*(1-fx) + float64(p.v[i+1])*fx
	low := float64(p.v[i+p.w])*(1-fx) + float64(p.v[i+p.w+1])*fx
	return top*(1-fy) + low*fy
}

// linear returns the plane in linear light, 0 to 255, for a picture coded as
// sRGB.
func (p plane) linear() plane {
	const steps = 1024
	var table [steps + 1]float32
	for i := range table {
		table[i] = float32(255 * linearOf(float64(i)/steps))
	}
	out := newPlane(p.w, p.h)
	for i, v := range p.v {
		x := v * (steps / 255.)
		k := min(int(x), steps-1)
		f := x - float32(k)
		out.v[i] = table[k]*(1-f) + table[k+1]*f
	}
	return out
}

// linearOf returns the light, 0 to 1, of an sRGB level, 0 to 1 (IEC 61966-2-1).
func linearOf(v float64) float64 {
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

func clamp(v, low, high float64) float64 { return max(low, min(high, v)) }

// halved returns the plane at half its size, each pixel the mean of four, and
// then smoothed over its neighbours.
func (p plane) halved() plane {
	out := newPlane(p.w/2, p.h/2)
	for y := range out.h {
		a, b, to := p.row(2*y), p.row(2*y+1), out.row(y)
		for x := range to {
			to[x] = (a[2*x] + a[2*x+1] + b[2*x] + b[2*x+1]) / 4
		}
	}
	return out
}

// smoothed returns the plane with each pixel mixed with its neighbours, 1 : 2 : 1
// along and down.
func (p plane) smoothed() plane {
	out, line := newPlane(p.w, p.h), make([]float32, p.w)
	for y := range p.h {
		a, b, c := p.row(max(y-1, 0)), p.row(y), p.row(min(y+1, p.h-1))
		b, c = b[:len(a)], c[:len(a)]
		for x := range a {
			line[x] = a[x] + 2*b[x] + c[x]
		}
		to, last := out.row(y), p.w-1
		for x := 1; x < last; x++ {
			to[x] = (line[x-1] + 2*line[x] + line[x+1]) / 16
		}
		if last >= 0 {
			to[0] = (3*line[0] + line[min(1, last)]) / 16
			to[last] = (line[max(last-1, 0)] + 3*line[last]) / 16
		}
	}
	return out
}

// colours are the three planes of a picture, made smaller by a whole factor.
type colours struct {
	r, g, b plane
	shrink  int // pixels of the picture to one of the planes
}

// workingSide is the longest side, in pixels, that is worked on; a larger picture
// is made smaller by a whole factor. A ring that is fit to be measured is dozens
// of pixels across then.
const workingSide = 2400

// coloursOf reads a picture. What is left over at its right and lower border by
// making it smaller is dropped.
func coloursOf(img image.Image) colours {
	turn := Upright{Image: img}
	if t, is := img.(Upright); is {
		turn = t
	}
	b := turn.Image.Bounds()
	k := max(1, (max(b.Dx(), b.Dy())+workingSide-1)/workingSide)
	c := colours{shrink: k}
	w, h := b.Dx()/k, b.Dy()/k
	c.r, c.g, c.b = newPlane(w, h), newPlane(w, h), newPlane(w, h)
	switch m := turn.Image.(type) {
	case *image.YCbCr:
		c.fromYCbCr(m)
	case *image.RGBA:
		c.fromBytes(m.Pix, m.Stride, m.PixOffset(b.Min.X, b.Min.Y), 4)
	case *image.NRGBA:
		c.fromBytes(m.Pix, m.Stride, m.PixOffset(b.Min.X, b.Min.Y), 4)
	case *image.Gray:
		c.fromBytes(m.Pix, m.Stride, m.PixOffset(b.Min.X, b.Min.Y), 1)
	default:
		c.fromAny(turn.Image)
	}
	c.r, c.g, c.b = turn.turned(c.r), turn.turned(c.g), turn.turned(c.b)
	return c
}

// fromYCbCr: the mean of the picture's colours is the colour of its means.
func (c *colours) fromYCbCr(m *image.YCbCr) {
	k, min := c.shrink, m.Bounds().Min
	part := 1 / float32(k*k)
	for y := range c.r.h {
		for x := range c.r.w {
			var luma, blue, red int
			for dy := range k {
				for dx := range k {
					px, py := min.X+x*k+dx, min.Y+y*k+dy
					luma += int(m.Y[m.YOffset(px, py)])
					i := m.COffset(px, py)
					blue, red = blue+int(m.Cb[i]), red+int(m.Cr[i])
				}
			}
			l, cb, cr := float32(luma)*part, float32(blue)*part-128, float32(red)*part-128
			i := y*c.r.w + x
			c.r.v[i], c.g.v[i], c.b.v[i] = level(l+1.402*cr), level(l-0.344136*cb-0.714136*cr), level(l+1.772*cb)
		}
	}
}

func level(v float32) float32 { return max(0, min(255, v)) }

func (c *colours) fromBytes(pix []uint8, stride, first, bytes int) {
	k, green, blue := c.shrink, min(1, bytes-1), min(2, bytes-1)
	part := 1 / float32(k*k)
	for y := range c.r.h {
		for x := range c.r.w {
			var r, g, b int
			for dy := range k {
				o := first + (y*k+dy)*stride + x*k*bytes
				for range k {
					r, g, b = r+int(pix[o]), g+int(pix[o+green]), b+int(pix[o+blue])
					o += bytes
				}
			}
			i := y*c.r.w + x
			c.r.v[i], c.g.v[i], c.b.v[i] = float32(r)*part, float32(g)*part, float32(b)*part
		}
	}
}

func (c *colours) fromAny(m image.Image) {
	k, min := c.shrink, m.Bounds().Min
	part := 1 / float32(k*k*257)
	for y := range c.r.h {
		for x := range c.r.w {
			var r, g, b uint32
			for dy := range k {
				for dx := range k {
					pr, pg, pb, _ := m.At(min.X+x*k+dx, min.Y+y*k+dy).RGBA()
					r, g, b = r+pr, g+pg, b+pb
				}
			}
			i := y*c.r.w + x
			c.r.v[i], c.g.v[i], c.b.v[i] = float32(r)*part, float32(g)*part, float32(b)*part
		}
	}
}

// cold returns the mean of green and blue: there a red spot's halo is faint.
func (c colours) cold() plane {
	out := newPlane(c.g.w, c.g.h)
	for i := range out.v {
		out.v[i] = (c.g.v[i] + c.b.v[i]) / 2
	}
	return out
}

// toPicture returns where a point of the planes is in the upright picture, px.
func (c colours) toPicture(p Point) Point {
	k := float64(c.shrink)
	return Point{(p.X+0.5)*k - 0.5, (p.Y+0.5)*k - 0.5}
}
