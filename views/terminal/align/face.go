package align

import (
	"math"
	"strconv"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
)

// FaceSpec is the face that is asked for as one sees it: where the spot is, was
// and is going, and where the typed text would put it.
func (s *Screen) FaceSpec(sz frame.Sizes, typed string) schematic.FaceSpec {
	st := s.drawn(typed)
	ask := st.Ask()
	spec := SeenFrom(st.Tel, ask.Face, sz)
	NotThere(&spec, ask, sz)
	SpotsOn(&spec, st, ask.Face, sz)
	Cue(&spec, st, ask)
	spec.Ghost = s.pictureMark()
	if at, ok := s.TypedPlace(typed); ok {
		spec.Ghost = &schematic.Mark{At: at, Word: "typed"}
	}
	if sz.Narrow() {
		for _, m := range []*schematic.Mark{spec.Cue, spec.Ghost} {
			if m != nil {
				m.Word = ""
			}
		}
	}
	spec.RimMM = closer(spec, st.Tel, ask.Face, sz.Face.R)
	if view, ok := s.Work.Look(ask.Face); ok && s.Looking() {
		// As large as what one would see, so that the two can be held side by side.
		spec.RimMM = math.Max(spec.RimMM, SightOf(st.Tel, ask.Face, view, sz).RimMM)
	}
	Measured(&spec, st.Tel, ask.Face, sz)
	if word := s.zoom.word(len(st.Events()), ask.Face, spec.RimMM, typed != ""); word != "" && !sz.Narrow() {
		spec.Scale = append([]string{word}, spec.Scale...)
	}
	s.lie(&spec)
	return spec
}

// closer is what the rim of a drawing stands for: as usual, or so much less that
// spot and cue stand apart, as long as the ring or the hole is still on it.
func closer(spec schematic.FaceSpec, t optics.Telescope, f optics.Face, r float64) float64 {
	usual := schematic.RimFor(spec, Rims(t, f)...)
	if spec.Now == nil || spec.Cue == nil {
		return usual
	}
	least := map[optics.Face]float64{optics.FacePrimary: t.RingOuterMM, optics.FaceTarget: t.Target.HoleRadiusMM}[f]
	apart := optics.Dial{Right: spec.Now.At.Right - spec.Cue.At.Right, Up: spec.Now.At.Up - spec.Cue.At.Up}.Len()
	rim := usual
	for least > 0 && apart < schematic.Apart(r, rim, spec.MarkScale) {
		const part = 0.7
		next := math.Max(part*rim, 1.5*least)
		if next >= rim || schematic.RimFor(spec, next, usual) != next {
			break
		}
		rim = next
	}
	return rim
}

// SpotsOn puts in where the spot is, as far as that is known, and where it was.
func SpotsOn(spec *schematic.FaceSpec, st session.State, f optics.Face, sz frame.Sizes) {
	marks := readings(st, f)
	n := len(marks)
	if n == 0 {
		return
	}
	last := marks[n-1]
	if known(st, f) {
		spec.Now = &schematic.Mark{At: last.At, Word: NowWord(f)}
		marks = marks[:n-1]
	}
	most := 2
	if sz.Roomy() {
		most = 4
	}
	spec.Trail = marks[max(0, len(marks)-most):]
	if sz.Narrow() {
		spec.Trail = nil
	}
}

// NowWord names the spot where it is: of two it is the one that came back.
func NowWord(f optics.Face) string {
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
		if ev.Kind != event.KindReading || ev.Step == string(session.StepOn) || ev.Step == string(session.StepRed) {
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
			out = append(out, schematic.Mark{Word: lookWord(look)})
		default:
			at := st.Tel.ToDial(f, optics.Seen{Right: ev.Right, Up: ev.Up})
			out = append(out, schematic.Mark{At: at, Word: lookWord(look)})
		}
	}
	return out
}

// lookWord numbers a look in a way that is no hour of the dial.
func lookWord(n int) string { return "#" + strconv.Itoa(n) }

// Cue puts in where to stop, the same place that is said in words, the way there
// and the way on.
func Cue(spec *schematic.FaceSpec, st session.State, ask session.Ask) {
	if ask.Told == nil {
		return
	}
	_, stop, ok := lastStop(st, ask.Told, ask.Face)
	if !ok {
		return
	}
	spec.Cue = &schematic.Mark{At: stop, Word: cueWord(ask.Told)}
	from := stop
	if spec.Now != nil {
		from = spec.Now.At
		for _, m := range ask.Told.Moves {
			if m.Stop == nil || m.Mirror.SpotFace() != ask.Face {
				continue
			}
			at := st.Tel.ToDial(ask.Face, optics.Seen{Right: m.Stop.Right, Up: m.Stop.Up})
			spec.Legs = append(spec.Legs, schematic.Leg{From: from, To: at})
			from = at
		}
	}
	if ask.HasGoal {
		goal := st.Tel.TubeToDial(ask.Face, ask.Goal.At)
		spec.Legs = append(spec.Legs, schematic.Leg{From: from, To: goal, Second: true})
	}
}

// SeenFrom is a face without spots, as it is seen from where one stands.
func SeenFrom(t optics.Telescope, f optics.Face, sz frame.Sizes) schematic.FaceSpec {
	station := t.Station(f)
	spec := schematic.FaceSpec{
		Object: ObjectOf(t, f), Standing: Standing(station, sz), FocuserHour: t.FocuserDial(station).Hour(),
		GroundWord: GroundWord(sz), MarkScale: sz.MarkScale, Within: sz.FaceWords, FocuserWord: "focuser",
	}
	if plate, ok := spec.Object.(schematic.TargetPlate); ok && sz.Narrow() {
		plate.AwayWord = "" // the focuser's word says as much
		spec.Object = plate
	}
	return spec
}

func GroundWord(sz frame.Sizes) string {
	if sz.Narrow() {
		return " "
	}
	return "ground"
}

// NotThere says of a face that one does not stand at yet from where it is drawn.
func NotThere(spec *schematic.FaceSpec, ask session.Ask, sz frame.Sizes) {
	switch {
	case ask.Header.Stand != header.StandBeside:
	case sz.Narrow():
		spec.Standing = []string{"seen from", spec.Standing[1]}
	default:
		spec.Standing = []string{"as seen from", spec.Standing[1]}
	}
}

// Standing says where one stands, in two lines.
func Standing(station optics.Station, sz frame.Sizes) []string {
	switch {
	case station == optics.Behind && sz.Narrow():
		return []string{"stand", "behind"}
	case station == optics.Behind:
		return []string{"standing behind", "the scope"}
	case sz.Narrow():
		return []string{"stand at", "sky end"}
	}
	return []string{"standing at", "the sky end"}
}

// ObjectOf is the thing that the spot is read on.
func ObjectOf(t optics.Telescope, f optics.Face) schematic.Object {
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

// Rims are what the rim of a drawing may stand for on a face, mm.
func Rims(t optics.Telescope, f optics.Face) []float64 {
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
