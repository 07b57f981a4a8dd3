package align

import (
	"fmt"
	"maps"
	"math"

	"spotward/optics"
	"spotward/session/reading"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
)

// Measured puts on a face what one measures by: what its outline is and how
// wide, and the ruler that is typed there beside mm.
func Measured(spec *schematic.FaceSpec, t optics.Telescope, f optics.Face, sz frame.Sizes) {
	name, mm := Outline(t, f, spec.RimMM)
	spec.Scale = []string{name, WidthText(mm)}
	if sz.Narrow() && schematic.Width(name) > 8 { // the rim leaves more room below
		spec.Scale = []string{WidthText(mm), name}
	}
	if f == optics.FacePrimary {
		spec.Ruler = schematic.Ruler{MM: reading.RingWidthMM(t), Word: "r"}
	}
}

func WidthText(mm float64) string { return fmt.Sprintf("%.3g mm", mm) }

// Outline is what the outermost edge of a drawing is, and how wide that is
// across, mm: the thing's own edge, or the dotted circle where the drawing ends
// before it.
func Outline(t optics.Telescope, f optics.Face, rimMM float64) (string, float64) {
	name, edge := "mirror", t.ApertureMM/2
	switch f {
	case optics.FaceTarget:
		name, edge = "face", t.Target.FaceRadiusMM
	case optics.FaceSecondary:
		name, edge = "secondary", t.MinorAxisMM/2
	case optics.FaceMouth:
		name, edge = "drawtube", mouthMM
	case optics.FaceCard:
		name, edge = "tube", t.MouthMM()
	}
	if rimMM < 0.99*edge {
		return "circle", 2 * rimMM
	}
	return name, 2 * edge
}

// ringCols is the least radius at which the centre ring is drawn large enough to
// measure by, columns.
const ringCols = 2

// RulesByRing reports whether the centre ring on a drawing of radius r columns,
// whose rim stands for so many mm, is large enough to measure by.
func RulesByRing(t optics.Telescope, r, rimMM float64) bool {
	return rimMM > 0 && t.RingOuterMM*r/rimMM >= ringCols
}

// RimOf is what the rim of a drawing stands for: enough for all marks and, where
// the secondary stands off the middle, for its whole edge.
func RimOf(spec schematic.FaceSpec, t optics.Telescope, f optics.Face) float64 {
	rim := schematic.RimFor(spec, Rims(t, f)...)
	const clear = 1.15 // of the edge from the dotted circle
	if o, ok := spec.Object.(schematic.SecondaryMirror); ok && o.Middle.Len() > 0 {
		rim = math.Max(rim, clear*(o.EdgeMM+o.Middle.Len()))
	}
	return rim
}

// zoom is how large the faces were drawn at the question before, so that a
// drawing that comes closer or goes farther off says so.
type zoom struct {
	at          int // events
	before, now map[optics.Face]float64
}

// word says how a face is drawn otherwise than the last time: "" where it is not.
func (z *zoom) word(events int, f optics.Face, rimMM float64, typing bool) string {
	if events != z.at || z.now == nil {
		z.at, z.before = events, maps.Clone(z.now)
		if z.now == nil {
			z.now = map[optics.Face]float64{}
		}
	}
	was, known := z.before[f]
	if typing { // against the same drawing before anything was typed
		was, known = z.now[f], z.now[f] > 0
	} else {
		z.now[f] = rimMM
	}
	switch {
	case !known || math.Abs(rimMM/was-1) < 0.01:
		return ""
	case rimMM < was:
		return "drawn closer"
	}
	return "drawn farther"
}
