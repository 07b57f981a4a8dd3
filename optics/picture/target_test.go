package picture

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
)

// drawnFace is a picture of the laser's slanted face: mm across the beam from
// the hole, X to the right and Y down.
type drawnFace struct {
	target       optics.Target
	lies         slope // how it is seen
	shadow       shade
	depth        float64
	printed      float64 // how much light the printed rings take
	ambient      float64
	noise        float64
	w, h         int
	beam         Point // the middle of the light
	focuserDeg   float64
	withoutPlate bool
	fileIsWrong  bool // about how the rings are printed
}

func plainFace() drawnFace {
	return drawnFace{
		target: optics.Target{HoleRadiusMM: 3, FaceRadiusMM: 13, RingStepMM: 2, RingCount: 5},
		lies:   slope{at: Point{247, 176}, scale: 10.5},
		shadow: shade{Point{0.9, -0.6}, 4.4, 7.8, 0.25}, depth: 0.7, printed: 0.5, ambient: 0.05, noise: 1, w: 480, h: 360,
	}
}

func (d drawnFace) telescope() optics.Telescope {
	d.target.AlongFace = d.target.AlongFace != d.fileIsWrong
	return optics.Telescope{FocuserDeg: d.focuserDeg, Target: d.target}
}

func (d drawnFace) light(q Point) float64 {
	edge := func(r float64) float64 { return step(14 * (q.len() - r)) }
	plate := edge(d.target.HoleRadiusMM) * (1 - edge(d.target.FaceRadiusMM))
	if d.withoutPlate {
		plate = edge(d.target.HoleRadiusMM)
	}
	p := q
	if d.target.AlongFace {
		p = q.turned(-d.lies.turn)
		p.Y *= math.Sqrt2
	}
	n := math.Round((p.len() - d.target.HoleRadiusMM) / d.target.RingStepMM)
	if n > 0 && math.Abs(p.len()-d.target.HoleRadiusMM-n*d.target.RingStepMM) < 0.15 {
		plate *= 1 - d.printed
	}
	beam := q.sub(d.beam).len() / (0.9 * d.target.FaceRadiusMM)
	return plate * (d.ambient + 0.5*math.Exp(-beam*beam)*(1-d.depth*d.shadow.band(q)))
}

func (d drawnFace) image() *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, d.w, d.h))
	r := rand.New(rand.NewPCG(3, 5))
	code := func(v float64) uint8 {
		if v <= 0.0031308 {
			v *= 12.92
		} else {
			v = 1.055*math.Pow(v, 1/2.4) - 0.055
		}
		return uint8(math.Round(math.Max(0, math.Min(255, 255*v+d.noise*r.NormFloat64()))))
	}
	for y := range d.h {
		for x := range d.w {
			v := d.light(d.lies.faceAt(Point{float64(x), float64(y)})) + 0.001
			m.SetRGBA(x, y, color.RGBA{code(4 * v), code(0.6 * v), code(0.5 * v), 255})
		}
	}
	return m
}

func TestShadowOnADrawnFace(t *testing.T) {
	for name, change := range map[string]func(*drawnFace){
		"plain":                func(*drawnFace) {},
		"no rings printed":     func(d *drawnFace) { d.printed = 0 },
		"rings along the face": func(d *drawnFace) { d.target.AlongFace = true },
		"rings along the face, the file says not": func(d *drawnFace) { d.target.AlongFace, d.fileIsWrong = true, true },
		"about the hole":      func(d *drawnFace) { d.shadow.at = Point{} },
		"from beside":         func(d *drawnFace) { d.lies.leanX, d.lies.leanY = 0.12, 0.09 },
		"from the other side": func(d *drawnFace) { d.lies.leanX, d.lies.leanY = -0.1, -0.15 },
		"from near":           func(d *drawnFace) { d.lies.nearY = -0.0025 },
		"noise":               func(d *drawnFace) { d.noise = 5 },
		"daylight":            func(d *drawnFace) { d.ambient = 0.2 },
		"a faint shadow":      func(d *drawnFace) { d.depth = 0.4 },
		"light from beside":   func(d *drawnFace) { d.beam = Point{2, -1} },
		"the focuser at 2:00": func(d *drawnFace) {
			d.focuserDeg, d.lies.leanX, d.lies.leanY = 60, 0.05, 0.12
			d.lies.turn = math.Pi / 3
		},
		"dim": func(d *drawnFace) {
			d.w, d.h, d.lies.at, d.lies.scale = 640, 480, Point{330, 235}, 14
			d.target.HoleRadiusMM, d.shadow.inner = 2.5, 3.6
		},
	} {
		t.Run(name, func(t *testing.T) {
			sampled(t)
			d := plainFace()
			change(&d)
			got := FindShadow(d.image(), d.telescope(), 0)
			require.Equal(t, Nothing, got.Missing)
			assert.InDelta(t, d.shadow.at.X, got.At.Right, 0.05)
			assert.InDelta(t, -d.shadow.at.Y, got.At.Up, 0.05)
			assert.InDelta(t, d.shadow.inner*d.lies.scale, got.Inner.Radius, 3)
			assert.InDelta(t, d.shadow.outer*d.lies.scale, got.Outer.Radius, 3)
			assert.Less(t, got.Mark.Centre.sub(d.lies.at).len(), 0.6)
		})
	}
}

func TestWhatAPictureOfTheFaceLacks(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*drawnFace)
		want   Missing
	}{
		"no shadow":               {func(d *drawnFace) { d.depth = 0 }, Shadow},
		"no shadow, no rings":     {func(d *drawnFace) { d.depth, d.printed = 0, 0 }, Shadow},
		"all dark":                {func(d *drawnFace) { d.ambient, d.depth, d.beam = 0, 0, Point{200, 0} }, Hole},
		"half the face":           {func(d *drawnFace) { d.lies.at.X = 20 }, Hole},
		"no edge to the face":     {func(d *drawnFace) { d.withoutPlate = true }, Hole},
		"from far beside":         {func(d *drawnFace) { d.lies.leanY = -0.75 }, Hole},
		"a face of another shape": {func(d *drawnFace) { d.target.FaceRadiusMM = 10.5 }, Hole},
	} {
		t.Run(name, func(t *testing.T) {
			sampled(t)
			d := plainFace()
			tel := d.telescope()
			c.change(&d)
			got := FindShadow(d.image(), tel, 0)
			assert.Equal(t, c.want, got.Missing)
			assert.Zero(t, got.At)
		})
	}
}

func TestAShadowHoldsItsError(t *testing.T) {
	whole(t)
	shadowsHoldTheirErrors(t, fewer(examples))
}

func shadowsHoldTheirErrors(t testing.TB, examples int) {
	t.Helper()
	any := rapid.Custom(func(t *rapid.T) drawnFace {
		d := plainFace()
		d.w, d.h, d.lies.at, d.lies.scale = 400, 360, Point{205, 175}, 10
		d.shadow.at = Point{rapid.Float64Range(-2, 2).Draw(t, "right"), rapid.Float64Range(-2, 2).Draw(t, "down")}
		d.shadow.inner = rapid.Float64Range(3.9, 5).Draw(t, "inner")
		d.shadow.outer = d.shadow.inner + rapid.Float64Range(2.5, 4).Draw(t, "width")
		d.lies.leanX, d.lies.leanY = rapid.Float64Range(-0.12, 0.12).Draw(t, "lean"), rapid.Float64Range(-0.15, 0.15).Draw(t, "rise")
		d.noise = rapid.Float64Range(0, 3).Draw(t, "noise")
		return d
	})
	for seed := range examples {
		d := any.Example(seed)
		got := FindShadow(d.image(), d.telescope(), 0)
		require.Equal(t, Nothing, got.Missing, "%d", seed)
		assert.Less(t, Point{got.At.Right, -got.At.Up}.sub(d.shadow.at).len(), 5*got.SigmaMM, "%d", seed)
		assert.Less(t, got.SigmaMM, 0.1, "%d", seed)
	}
}

// What is seen of the face and where it is on the face are inverse.
func TestSlopeThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, most float64) float64 { return rapid.Float64Range(-most, most).Draw(t, name) }
		s := slope{at: Point{f("x", 1000), f("y", 1000)}, scale: 10 + f("scale", 5), leanX: f("lean", 0.3), leanY: f("rise", 0.3),
			nearX: f("near", 0.003), nearY: f("nearer", 0.003), turn: f("turn", 3)}
		q := Point{f("right", 14), f("down", 14)}
		assert.Less(t, s.faceAt(s.seenAt(q)).sub(q).len(), 1e-9)
	})
}
