package schematic

import (
	"math"

	"spotward/views/theme"
)

// SectionPoint is a point in a section through the tube and the focuser, mm:
// along the tube from the primary's vertex toward the sky, and up from the
// tube's axis toward the focuser.
type SectionPoint struct{ AlongMM, UpMM float64 }

// Vertex is a point of the beam's way: where it would be with both mirrors
// right, and by how much it misses that.
type Vertex struct{ Right, Miss SectionPoint }

// PathSpec is a telescope in section and the light path in it.
type PathSpec struct {
	TubeMM      float64 // inner radius of the tube
	SkyEndMM    float64 // vertex to the open end
	MirrorMM    float64 // radius of the primary
	SecondaryMM float64 // half the secondary's minor axis
	FoldMM      float64 // vertex to where the axis meets the secondary
	HoleMM      float64 // axis to the target hole

	// Out is the way from the laser to the primary, Back the way from there.
	Out, Back []Vertex
	// WasOut and WasBack are the ways before the last change, drawn fainter.
	WasOut, WasBack []Vertex
	// SecondaryRad and PrimaryRad are by how much the mirrors are drawn turned,
	// anticlockwise: a gradient toward the focuser, enlarged.
	SecondaryRad, PrimaryRad float64
	// Times is by how much misses are enlarged; 0 = as much as the tube holds.
	Times float64
	// Dims are lengths to be measured, drawn over it.
	Dims []Dim

	LaserWord, SkyWord, PrimaryWord string
}

// Dim is a length between two points and the word for it.
type Dim struct {
	From, To SectionPoint
	Word     string
}

// enlarged are the enlargements that are offered: round, so that they can be said.
var enlarged = []float64{100, 50, 20, 10, 5, 2}

// section is a frame in which a section is drawn, sky end to the left.
type section struct {
	frame
	mm float64 // columns a mm
}

// laserMM is how far the laser's body is drawn to stand above its hole.
const laserMM = 90

// LightPath draws the section in r and returns by how much misses were
// enlarged.
func (c *Canvas) LightPath(r Rect, s PathSpec) float64 {
	sec, ok := c.sectionIn(r, s)
	if !ok {
		return 0
	}
	sec.tube(s)
	k := s.times()
	sec.before(s, k)
	sec.beam(s, k)
	for _, dim := range s.Dims {
		sec.dim(dim)
	}
	sec.words(s)
	return k
}

// sectionIn returns the frame of the section in r; false where it has no room.
func (c *Canvas) sectionIn(r Rect, s PathSpec) (section, bool) {
	long, high := s.SkyEndMM, s.HoleMM+laserMM+s.TubeMM
	w, h := float64(r.W-3), float64(r.H-2)*c.aspect
	mm := math.Min(w/long, h/high)
	if !(long > 0 && mm > 0) || math.IsInf(mm, 1) {
		return section{}, false
	}
	sec := section{c.frameAt(r.X+r.W-3, r.Y), mm}
	// A whole row for the word above; the tube below what stands on it.
	sec.y0 += float64(c.set.high) * math.Ceil(1+(s.HoleMM+laserMM)*mm/c.aspect)
	return sec, true
}

// times returns by how much misses are enlarged.
func (s PathSpec) times() float64 {
	if s.Times > 0 {
		return s.Times
	}
	worst := 0.0
	for _, way := range [][]Vertex{s.Out, s.Back} {
		for _, v := range way {
			worst = math.Max(worst, math.Max(math.Abs(v.Miss.AlongMM), math.Abs(v.Miss.UpMM)))
		}
	}
	for _, k := range enlarged {
		if k*worst <= 0.5*s.TubeMM {
			return k
		}
	}
	return 1
}

// at returns where a point is drawn, columns.
func (f section) at(p SectionPoint) (x, y float64) { return -p.AlongMM * f.mm, p.UpMM * f.mm }

func (f section) stroke(a, b SectionPoint, p pen) {
	x0, y0 := f.at(a)
	x1, y1 := f.at(b)
	f.dots(f.line(x0, y0, x1, y1), p)
}

// tube draws the walls, the focuser with the laser in it, and the mirrors.
func (f section) tube(s PathSpec) {
	wall := pen{onRings, theme.Label}
	half := s.SecondaryMM * 0.8 // the drawtube is about as wide as the secondary
	for _, edge := range [][2]SectionPoint{
		{{s.SkyEndMM, -s.TubeMM}, {0, -s.TubeMM}},
		{{s.SkyEndMM, s.TubeMM}, {s.FoldMM + half, s.TubeMM}},
		{{s.FoldMM - half, s.TubeMM}, {0, s.TubeMM}},
		{{s.FoldMM + half, s.TubeMM}, {s.FoldMM + half, s.HoleMM + laserMM}},
		{{s.FoldMM - half, s.TubeMM}, {s.FoldMM - half, s.HoleMM + laserMM}},
		{{s.FoldMM + half, s.HoleMM + laserMM}, {s.FoldMM - half, s.HoleMM + laserMM}},
	} {
		f.stroke(edge[0], edge[1], wall)
	}
	glass := pen{onRim, theme.Ink}
	f.secondary(s, glass)
	f.primary(s, glass)
}

// secondary draws the secondary at 45°, its back away from the beam.
func (f section) secondary(s PathSpec, p pen) {
	const thick = 0.8 // columns
	x0, y0 := f.at(SectionPoint{s.FoldMM, 0})
	g := f.frame
	g.x0, g.y0 = f.point(x0, y0)
	r := s.SecondaryMM * f.mm * math.Sqrt2
	f.dots(g.fill(r, func(x, y float64) bool {
		x, y = turnedBack(x, y, s.SecondaryRad)
		back, along := -(x+y)/math.Sqrt2, math.Abs(x-y)/math.Sqrt2
		return along <= r && back >= -0.2 && back <= thick
	}), p)
}

// primary draws the primary as a plate with a hollow face.
func (f section) primary(s PathSpec, p pen) {
	const thick, hollow = 1.4, 0.5 // columns
	r := s.MirrorMM * f.mm
	f.dots(f.fill(r+thick, func(x, y float64) bool {
		x, y = turnedBack(x, y, s.PrimaryRad)
		return math.Abs(y) <= r && x <= thick && x >= hollow*(1-2*sq(y/r))-hollow
	}), p)
}

// dash is how many dots a dash of the way back has, and how many are left out
// after it.
const dash, gap = 6, 4

// beam draws the way there whole and the way back in dashes of another role.
func (f section) beam(s PathSpec, k float64) {
	for i, way := range [][]Vertex{s.Out, s.Back} {
		p, letter := pen{onHole, theme.Light}, "*"
		if i > 0 {
			p, letter = pen{onRim, theme.You}, "~"
		}
		for j := 1; j < len(way); j++ {
			x0, y0 := f.at(way[j-1].drawn(k))
			x1, y1 := f.at(way[j].drawn(k))
			for n, at := range f.line(x0, y0, x1, y1) {
				switch {
				case f.c.ASCII():
					f.c.put(at.i, floorDiv(at.j, 2), letter, 1, p.role)
				case i == 0 || n%(dash+gap) < dash:
					f.c.dot(at, p)
				}
			}
		}
	}
}

// drawn returns where the vertex is drawn, its miss enlarged k times.
func (v Vertex) drawn(k float64) SectionPoint {
	return SectionPoint{v.Right.AlongMM + k*v.Miss.AlongMM, v.Right.UpMM + k*v.Miss.UpMM}
}

// dim draws a length with a bar at both ends and its word in the middle.
func (f section) dim(d Dim) {
	p := pen{onCue, theme.Act}
	x0, y0 := f.at(d.From)
	x1, y1 := f.at(d.To)
	n := math.Hypot(x1-x0, y1-y0)
	if !(n > 0) {
		return
	}
	f.dots(f.line(x0, y0, x1, y1), p)
	bx, by := -(y1-y0)/n*0.8, (x1-x0)/n*0.8
	for _, end := range [][2]float64{{x0, y0}, {x1, y1}} {
		f.dots(f.line(end[0]-bx, end[1]-by, end[0]+bx, end[1]+by), p)
	}
	col, row := f.cell((x0+x1)/2, (y0+y1)/2)
	if math.Abs(y1-y0) > math.Abs(x1-x0) {
		f.c.Text(col+3, row, theme.Act, d.Word)
		return
	}
	f.c.Text(col-Width(d.Word)/2, row-1, theme.Act, d.Word)
}

// words writes what the parts are.
func (f section) words(s PathSpec) {
	col, row := f.cell(f.at(SectionPoint{s.FoldMM, s.HoleMM + laserMM}))
	f.c.Text(col-Width(s.LaserWord)/2, row-1, theme.Label, s.LaserWord)
	col, row = f.cell(f.at(SectionPoint{s.SkyEndMM, -s.TubeMM}))
	f.c.Text(col, row+1, theme.Label, s.SkyWord)
	col, row = f.cell(f.at(SectionPoint{0, -s.TubeMM}))
	f.c.TextRight(col+3, row+1, theme.Label, s.PrimaryWord)
}
