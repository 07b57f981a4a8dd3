package schematic

import (
	"math"

	"spotward/views/theme"
)

// PartsSpec is a telescope from its side, its parts named. A word that is "" is
// not written.
type PartsSpec struct {
	Section PathSpec // of it the tube alone

	Laser, Focuser, Secondary, SecondaryScrews, Card, Primary, Ring, Screw, Lock string

	SkyEnd, Behind string // below the ends: where one stands
}

// How many columns are kept beside the tube for words: before the open end, and
// behind the primary.
const partsBefore, partsAside = 8, 11

// Where the parts stand that a section has no figure for, mm; and their size.
// The screws are drawn larger than they are, or they would not be seen.
const (
	cellMM      = 45 // the plate behind the primary, from its vertex
	headMM      = 38 // a screw's head, from the plate
	cardAwayMM  = 18
	holderMM    = 34 // half the secondary's holder
	holderDeep  = 70
	screwColumn = 0.55
)

// PartsTube is where of r the tube is drawn.
func PartsTube(r Rect) Rect {
	return Rect{X: r.X + partsBefore, Y: r.Y, W: r.W - partsBefore - partsAside, H: r.H}
}

// Parts draws the telescope in r and names its parts.
func (c *Canvas) Parts(r Rect, s PartsSpec) {
	sec, ok := c.sectionIn(PartsTube(r), s.Section)
	if !ok {
		return
	}
	sec.tube(s.Section)
	sec.holder(s.Section)
	sec.cell3(s.Section)
	card := pen{onTrail, theme.Act}
	at := s.Section.SkyEndMM + cardAwayMM
	sec.stroke(SectionPoint{at, -s.Section.TubeMM}, SectionPoint{at, s.Section.TubeMM}, card)
	sec.name(s)
}

// holder draws the secondary's stalk, the heads of its screws and a vane.
func (f section) holder(s PathSpec) {
	p := pen{onRings, theme.Ink}
	near, far := s.FoldMM+0.6*s.SecondaryMM, s.FoldMM+0.6*s.SecondaryMM+holderDeep
	for _, up := range []float64{-holderMM, holderMM} {
		f.stroke(SectionPoint{near, up}, SectionPoint{far, up}, p)
	}
	f.stroke(SectionPoint{far, -holderMM}, SectionPoint{far, holderMM}, p)
	for _, up := range []float64{-holderMM, 0, holderMM} {
		f.head(SectionPoint{far + 0.5*headMM, up}, 1)
	}
	for _, side := range []float64{-1, 1} {
		f.stroke(SectionPoint{near + holderDeep/2, side * holderMM}, SectionPoint{near + holderDeep/2, side * s.TubeMM}, pen{onRings, theme.Line})
	}
}

// screwUp and lockUp are how far from the axis a screw and a lock behind the
// primary stand, parts of its radius.
const screwUp, lockUp = 0.55, 0.9

// cell3 draws the plate behind the primary, with a screw at its upper and a lock
// at its lower end: side by side they would run into one.
func (f section) cell3(s PathSpec) {
	p := pen{onRings, theme.Label}
	f.stroke(SectionPoint{-cellMM, -s.MirrorMM}, SectionPoint{-cellMM, s.MirrorMM}, p)
	f.head(SectionPoint{-cellMM - headMM, screwUp * s.MirrorMM}, 2)
	f.head(SectionPoint{-cellMM - headMM, -lockUp * s.MirrorMM}, 1)
}

// head draws a screw's head, so large.
func (f section) head(at SectionPoint, size float64) {
	x0, y0 := f.at(at)
	g := f.frame
	g.x0, g.y0 = f.point(x0, y0)
	r := screwColumn * math.Sqrt(size)
	f.dots(g.fill(2*r, func(x, y float64) bool { return math.Abs(x) <= r && math.Abs(y) <= r }), pen{onTrail, theme.Ink})
}

// name writes the words.
func (f section) name(s PartsSpec) {
	sec, word := s.Section, func(at SectionPoint, dx, dy int, text string) {
		col, row := f.cell(f.at(at))
		f.c.Text(col+dx, row+dy, theme.Head, text)
	}
	before := func(at SectionPoint, dx, dy int, text string) { word(at, dx-Width(text)+1, dy, text) }
	half := sec.SecondaryMM * 0.8
	word(SectionPoint{sec.FoldMM, sec.HoleMM + laserMM}, -Width(s.Laser)/2, -1, s.Laser)
	word(SectionPoint{sec.FoldMM - half, (sec.TubeMM + sec.HoleMM + laserMM) / 2}, 2, 0, s.Focuser)
	word(SectionPoint{sec.FoldMM - sec.SecondaryMM, 0}, 2, 0, s.Secondary)
	screws := SectionPoint{sec.FoldMM + 0.6*sec.SecondaryMM + holderDeep + headMM, 0}
	leader := SectionPoint{sec.SkyEndMM + 2*cardAwayMM, 0} // past the card, or the word would be the card's
	f.stroke(leader, screws, pen{onRings, theme.Line})
	before(leader, -1, 0, s.SecondaryScrews)
	before(SectionPoint{0, 0.6 * sec.MirrorMM}, -3, 0, s.Primary)
	ringX, ringY := f.at(SectionPoint{0, 0})
	g := f.frame
	g.x0, g.y0 = f.point(ringX-0.6, ringY)
	f.dots(g.fill(1, func(x, y float64) bool { return math.Abs(x) <= 0.4 && math.Abs(y) <= 0.8 }), pen{onTrail, theme.Act})
	before(SectionPoint{0, 0}, -3, 0, s.Ring)
	word(SectionPoint{-cellMM - headMM, screwUp * sec.MirrorMM}, 2, 0, s.Screw)
	word(SectionPoint{-cellMM - headMM, -lockUp * sec.MirrorMM}, 2, 0, s.Lock)
	below := -sec.TubeMM
	word(SectionPoint{sec.SkyEndMM + cardAwayMM, sec.TubeMM}, -Width(s.Card)/2, -1, s.Card)
	word(SectionPoint{sec.SkyEndMM, below}, 0, 1, s.SkyEnd)
	before(SectionPoint{0, below}, 3+Width(s.Behind), 1, s.Behind)
}
