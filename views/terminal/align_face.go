package terminal

import (
	"math"
	"strconv"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/views/schematic"
)

// faceSpec is the face that is asked for as one sees it: where the spot is, was
// and is going, and where the typed text would put it.
func (s *align) faceSpec(sz sizes, typed string) schematic.FaceSpec {
	st := s.drawn(typed)
	ask := st.Ask()
	spec := seenFrom(st.Tel, ask.Face, sz)
	spotsOn(&spec, st, ask.Face, sz)
	cue(&spec, st, ask)
	if at, ok := s.typedPlace(typed); ok {
		spec.Ghost = &schematic.Mark{At: at, Word: "typed"}
	}
	if sz.narrow() {
		for _, m := range []*schematic.Mark{spec.Cue, spec.Ghost} {
			if m != nil {
				m.Word = ""
			}
		}
	}
	if ask.Told != nil {
		spec.Screws = screwMarks(st, ask.Told, ask.Face)
	}
	spec.RimMM = schematic.RimFor(spec, rims(st.Tel, ask.Face)...)
	if view, ok := s.work.Look(ask.Face); ok && s.looking() {
		// As large as what one would see, so that the two can be held side by side.
		spec.RimMM = math.Max(spec.RimMM, sightOf(st.Tel, ask.Face, view, sz).RimMM)
	}
	measured(&spec, st.Tel, ask.Face, sz)
	s.lie(&spec)
	return spec
}

// spotsOn puts in where the spot is, as far as that is known, and where it was.
func spotsOn(spec *schematic.FaceSpec, st session.State, f optics.Face, sz sizes) {
	marks := readings(st, f)
	n := len(marks)
	if n == 0 {
		return
	}
	last := marks[n-1]
	if known(st, f) {
		spec.Now = &schematic.Mark{At: last.At, Word: nowWord(f)}
		marks = marks[:n-1]
	}
	most := 2
	if sz.roomy() {
		most = 4
	}
	spec.Trail = marks[max(0, len(marks)-most):]
	if sz.narrow() {
		spec.Trail = nil
	}
}

// nowWord names the spot where it is: of two it is the one that came back.
func nowWord(f optics.Face) string {
	if f == optics.FaceSecondary {
		return "return"
	}
	return "now"
}

// known reports whether the spot on a face stands where it was last read.
func known(st session.State, f optics.Face) bool {
	switch f {
	case optics.FacePrimary:
		return st.OnPrimary().Known
	case optics.FaceTarget:
		return st.OnTarget().Known
	}
	return st.Told() != nil
}

// readings are the places read on a face, oldest first, with the number of the
// look.
func readings(st session.State, f optics.Face) []schematic.Mark {
	var out []schematic.Mark
	look := 0
	for _, ev := range st.Events() {
		if ev.Kind != event.KindReading {
			continue
		}
		look++
		if ev.Face != f {
			continue
		}
		switch ev.Saw {
		case event.SawGone, event.SawCantSee:
			out = nil // what was before says nothing of where it is
		case event.SawWithin, event.SawInRing:
			out = append(out, schematic.Mark{Word: strconv.Itoa(look)})
		default:
			at := st.Tel.ToDial(f, optics.Seen{Right: ev.Right, Up: ev.Up})
			out = append(out, schematic.Mark{At: at, Word: strconv.Itoa(look)})
		}
	}
	return out
}

// cue puts in where to stop, the way there and the way on.
func cue(spec *schematic.FaceSpec, st session.State, ask session.Ask) {
	if ask.Told == nil || spec.Now == nil {
		return
	}
	from := spec.Now.At
	for _, m := range ask.Told.Moves {
		if m.Stop == nil || m.Mirror.SpotFace() != ask.Face {
			continue
		}
		at := st.Tel.ToDial(ask.Face, optics.Seen{Right: m.Stop.Right, Up: m.Stop.Up})
		spec.Legs = append(spec.Legs, schematic.Leg{From: from, To: at, Second: spec.Cue != nil})
		if spec.Cue == nil {
			spec.Cue = &schematic.Mark{At: at, Word: "stop"}
		}
		from = at
	}
	if spec.Cue != nil && ask.HasGoal {
		goal := st.Tel.TubeToDial(ask.Face, ask.Goal.At)
		spec.Legs = append(spec.Legs, schematic.Leg{From: from, To: goal, Second: true})
	}
}

// seenFrom is a face without spots, as it is seen from where one stands.
func seenFrom(t optics.Telescope, f optics.Face, sz sizes) schematic.FaceSpec {
	station := t.Station(f)
	spec := schematic.FaceSpec{
		Object: objectOf(t, f), Standing: standing(station, sz), FocuserHour: t.FocuserDial(station).Hour(),
		GroundWord: groundWord(sz), MarkScale: sz.MarkScale, Within: sz.FaceWords, FocuserWord: "focuser",
	}
	if plate, ok := spec.Object.(schematic.TargetPlate); ok && sz.narrow() {
		plate.AwayWord = "" // the focuser's word says as much
		spec.Object = plate
	}
	return spec
}

func groundWord(sz sizes) string {
	if sz.narrow() {
		return " "
	}
	return "ground"
}

// standing says where one stands, in two lines.
func standing(station optics.Station, sz sizes) []string {
	switch {
	case station == optics.Behind && sz.narrow():
		return []string{"stand", "behind"}
	case station == optics.Behind:
		return []string{"standing behind", "the scope"}
	case sz.narrow():
		return []string{"stand at", "sky end"}
	}
	return []string{"standing at", "the sky end"}
}

// objectOf is the thing that the spot is read on.
func objectOf(t optics.Telescope, f optics.Face) schematic.Object {
	switch f {
	case optics.FaceTarget:
		g := t.Target
		return schematic.TargetPlate{
			HoleMM: g.HoleRadiusMM, FaceMM: g.FaceRadiusMM, RingStepMM: g.RingStepMM, RingCount: g.RingCount,
			AlongFace: g.AlongFace && !g.Flat, Flat: g.Flat, AwayWord: "away", TubeWord: "tube",
		}
	case optics.FaceSecondary:
		return schematic.SecondaryMirror{EdgeMM: t.MinorAxisMM / 2, OutWord: "outgoing"}
	case optics.FaceMouth:
		return schematic.Mouth{MouthMM: mouthMM, LipMM: 1.15 * mouthMM, BarrelMM: t.Target.FaceRadiusMM, HoleMM: t.Target.HoleRadiusMM}
	case optics.FaceCard:
		return schematic.OpenEnd{TubeMM: t.MouthMM(), SecondaryMM: t.MinorAxisMM / 2, Card: schematic.CoverWhole}
	}
	return schematic.PrimaryMirror{EdgeMM: t.ApertureMM / 2, WallMM: t.MouthMM(), RingInnerMM: t.RingInnerMM, RingOuterMM: t.RingOuterMM}
}

// mouthMM is the inner radius of a drawtube with an adapter in it, from
// memory.
const mouthMM = 16

// rims are what the rim of a drawing may stand for on a face, mm.
func rims(t optics.Telescope, f optics.Face) []float64 {
	switch f {
	case optics.FaceTarget:
		return []float64{t.Target.FaceRadiusMM, 1.5 * t.Target.FaceRadiusMM, 3 * t.Target.FaceRadiusMM}
	case optics.FaceSecondary:
		return []float64{t.MinorAxisMM / 2, t.MinorAxisMM, 2 * t.MinorAxisMM}
	case optics.FaceMouth:
		return []float64{1.5 * mouthMM, 3 * mouthMM, 6 * mouthMM}
	case optics.FaceCard:
		return []float64{t.MouthMM(), 2 * t.MouthMM()}
	}
	ring := math.Max(t.RingOuterMM, 0.03*t.ApertureMM)
	return []float64{3 * ring, 6 * ring, math.Max(7*ring, t.ApertureMM/2), math.Max(8*ring, 1.2*t.ApertureMM/2), 2 * t.ApertureMM}
}
