package scope

import (
	"fmt"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session/words"
)

// ownLaser is the answer of a scope that names no kit.
const ownLaser = "its own"

// kitQuestion asks which of the kits known here a scope is aligned with, or of
// the one it names; where there is none nothing is asked.
func kitQuestion(kits []Kit, named string) []Question {
	if named != "" && !slices.ContainsFunc(kits, func(k Kit) bool { return SameName(k.Name, named) }) {
		kits = append(kits, Kit{Name: named})
	}
	if len(kits) == 0 {
		return nil
	}
	pick := []words.Option{{ID: ownLaser, Words: "one of its own, or not always the same"}}
	for _, k := range kits {
		pick = append(pick, words.Option{ID: k.Name, Words: "kit " + k.Name})
	}
	return []Question{{Key: "kit", Name: "kit", Ask: "With which laser is it aligned?", How: "A kit's records tell a bad laser from a bad scope.", Pick: pick,
		guess: func(Scope) string { return ownLaser },
		put: func(s *Scope, text string) (string, error) {
			s.Kit = text
			if text == ownLaser {
				s.Kit = ""
			}
			return text, nil
		},
		back: func(s Scope) string { return s.Kit }}}
}

// holeQuestion is about where a laser's target stands on one scope.
func holeQuestion() Question {
	return Question{Key: "laser.hole_from_axis", Name: "laser's face", Sketch: SketchHole, Ask: "How far from the tube's middle is the laser's target face?",
		How:   "Laser in, drawtube as in use: from the tube's wall to the face, and half the tube's width.",
		usual: func(t optics.Telescope) float64 { return t.HoleFromAxisMM },
		sane: func(t optics.Telescope) (float64, float64) {
			if t.LensInside {
				return t.ApertureMM / 2, t.ApertureMM/2 + 250
			}
			behind := t.FocalLengthMM - t.FromPrimaryMM // where the image is
			return 0.7 * behind, 1.5*behind + 20
		}}
}

// laserQuestions are about a laser itself.
func laserQuestions() []Question {
	return append([]Question{
		{Key: "laser.class", Name: "laser's class", Ask: "Which class does the laser's label say?",
			How: "1, 2 or 3R; on older ones I, II or IIIa. Above 3R it is not used here. If you leave it out, it is asked each time.",
			put: putClass, back: func(s Scope) string { return s.Laser.Class }},
		{Key: "laser.hole_radius", Name: "hole", per: 0.5, Ask: "How wide is the hole in its target face?", How: "Where the beam comes out and is to go back in.",
			usual: func(t optics.Telescope) float64 { return 2 * t.Target.HoleRadiusMM },
			sane:  func(optics.Telescope) (float64, float64) { return 2, 14 }},
		{Key: "laser.face_radius", Name: "target face", per: 0.5, Ask: "How wide is the target face?", How: "Straight across, the short way.",
			usual: func(t optics.Telescope) float64 { return 2 * t.Target.FaceRadiusMM },
			sane:  func(optics.Telescope) (float64, float64) { return 15, 60 }},
		{Key: "laser.face", Name: "face lies", Ask: "How does the face lie?", How: "Seen from behind the telescope through a window in the laser's side, or square to the beam.",
			Pick: options(FaceSlanted, FaceFlat), guess: func(Scope) string { return FaceSlanted }},
		{Key: "laser.ring_count", Name: "rings", Ask: "How many rings are printed on the face?", How: "0 if there are none.",
			guess: func(s Scope) string { return fmt.Sprint(s.Laser.target().RingCount) }},
		{Key: "laser.ring_step", Name: "rings apart", Ask: "How far is it from one ring to the next?", How: "Measure across several and divide.",
			usual: func(t optics.Telescope) float64 { return t.Target.RingStepMM },
			sane:  func(optics.Telescope) (float64, float64) { return 0.5, 10 }},
		{Key: "laser.rings", Name: "rings printed", Ask: "How are the rings printed?", How: "On a slanted face, rings that look round along the tube are printed stretched.",
			Pick: options(RingsOnFace, RingsAlongTube), when: func(s Scope) bool { return s.Laser.Face != FaceFlat },
			guess: func(Scope) string { return RingsOnFace }},
		{Key: "laser.beam_width", Name: "beam", Ask: "How wide is the beam?", How: "The spot on a card at arm's length.",
			usual: func(t optics.Telescope) float64 { return t.Target.BeamWidthMM },
			sane:  func(optics.Telescope) (float64, float64) { return 0.5, 6 }},
	}, holeSettled()...)
}

// putClass takes a laser's class in small letters too.
func putClass(s *Scope, text string) (string, error) {
	f := Question{Key: "laser.class", fields: scopeFields}.field()
	text = strings.ToUpper(strings.TrimSpace(strings.TrimPrefix(strings.ToLower(text), "class")))
	if text == "IIIA" {
		text = "IIIa"
	}
	if err := f.set(s, f.key, text); err != nil {
		return "", fmt.Errorf("%s: expected %w", words.Show(text), err)
	}
	return text, nil
}

func kitQuestions() []Question {
	name := Question{Key: "name", Name: "name", Must: true, Ask: "What is this laser with its holder called?", How: "The name on its box. A scope's file names it, and its records tell a bad laser from a bad scope."}
	return withFields(append([]Question{name}, laserQuestions()...))
}
