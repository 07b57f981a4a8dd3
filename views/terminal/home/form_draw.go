package home

import (
	"math"

	"spotward/optics"
	"spotward/session/scope"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

// drawSketch draws what a question is about; false: there is nothing to draw,
// or not enough is known of the scope yet.
func (s *Form) drawSketch(p *frame.Page, q scope.Question) bool {
	sc := s.Scope()
	if sc.Aperture.MM() <= 0 || sc.FocalLength.MM() <= 0 {
		if q.Sketch != scope.SketchMirror {
			return false
		}
		sc.Aperture, sc.FocalLength = scope.MM(200), scope.MM(1000)
	}
	t := sc.Telescope()
	along := func(alongMM, upMM float64) schematic.SectionPoint {
		return schematic.SectionPoint{AlongMM: alongMM, UpMM: upMM}
	}
	var from, to schematic.SectionPoint
	switch q.Sketch {
	case scope.SketchNone:
		return false
	case scope.SketchFocuser:
		drawFocuser(p, t)
		return true
	case scope.SketchBehind:
		drawScrews(p, t, optics.Primary)
		return true
	case scope.SketchHolder:
		drawScrews(p, t, optics.Secondary)
		return true
	case scope.SketchMirror:
		from, to = along(0, -t.ApertureMM/2), along(0, t.ApertureMM/2)
	case scope.SketchWide:
		from, to = along(t.OpenEndMM()/2, -t.MouthMM()), along(t.OpenEndMM()/2, t.MouthMM())
	case scope.SketchSecondary:
		from, to = along(t.FromPrimaryMM, -t.MinorAxisMM/2), along(t.FromPrimaryMM, t.MinorAxisMM/2)
	case scope.SketchApart:
		to = along(t.FromPrimaryMM, 0)
	case scope.SketchHole:
		from, to = along(t.FromPrimaryMM, 0), along(t.FromPrimaryMM, t.HoleFromAxisMM)
	case scope.SketchLong:
		to = along(t.OpenEndMM(), 0)
	}
	r := p.FaceWords
	p.LightPath(schematic.Rect{X: r.X + 1, Y: r.Y + 2, W: r.W - 3, H: r.H - 3}, schematic.PathSpec{
		TubeMM: t.MouthMM(), SkyEndMM: t.OpenEndMM(), MirrorMM: t.ApertureMM / 2, SecondaryMM: t.MinorAxisMM / 2,
		FoldMM: t.FromPrimaryMM, HoleMM: t.HoleFromAxisMM, Dims: []schematic.Dim{{From: from, To: to, Word: "this"}},
		LaserWord: "laser", SkyWord: "sky end", PrimaryWord: "primary",
	})
	return true
}

// drawFocuser draws the open end with the focuser where it is said to be.
func drawFocuser(p *frame.Page, t optics.Telescope) {
	spec := align.SeenFrom(t, optics.FaceCard, p.Sizes)
	spec.Object = schematic.TubeEnd{WallMM: t.MouthMM(), MiddleMM: t.MinorAxisMM / 2, VaneHours: []float64{1.5, 4.5, 7.5, 10.5}}
	spec.RimMM = t.MouthMM()
	align.Measured(&spec, t, optics.FaceCard, p.Sizes)
	p.Face(p.Sizes.Face, spec)
}

// drawScrews draws a mirror's screws as one faces their heads.
func drawScrews(p *frame.Page, t optics.Telescope, m optics.Mirror) {
	from := optics.ScrewStation(m)
	spec := schematic.PlateSpec{Standing: align.Standing(from, p.Sizes), GroundWord: align.GroundWord(p.Sizes),
		FocuserHour: t.FocuserDial(from).Hour(), FocuserWord: "focuser", Within: p.FaceWords}
	if m == optics.Secondary {
		spec.Hub, spec.BoltWord = true, "bolt: never"
	}
	cell := t.Cell(m)
	for i, label := range cell.Labels {
		hour := t.ScrewDial(m, i).Hour()
		spec.Screws = append(spec.Screws, schematic.Screw{Label: label, Hour: hour})
		if i < cell.Locks {
			if spec.GroundWord = ""; !p.Narrow() { // there is room for one word below, or none
				spec.LockWord = "lock"
			}
			spec.Screws = append(spec.Screws, schematic.Screw{Hour: math.Mod(hour+1.2, 12), Lock: true})
		}
	}
	p.Plate(p.Sizes.Face, spec)
}
