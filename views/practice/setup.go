package practice

import (
	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session/event"
	"spotward/session/lesson"
)

// setupOf returns what a world's level means: one of the three, or a telescope
// that a lesson has set up. Its spots stand as far off as the lesson wants
// them; the direction and all else come from the seed.
func setupOf(t optics.Telescope, w event.World) (virtual.Setup, error) {
	if l, err := virtual.ParseLevel(w.Level); err == nil {
		return virtual.SetupOf(l, t, w.Seed), nil
	}
	if virtual.IsArranged(w.Level) {
		return arrangedSetup(t, w)
	}
	s := virtual.SetupOf(virtual.Easy, t, w.Seed)
	arrange, ok := lessonSetups[w.Level]
	if !ok {
		return finerSetup(s, w.Level)
	}
	arrange(&s)
	return s, nil
}

// IsLesson reports whether a world was set up for a lesson, or by an instructor:
// its level is none of the three.
func IsLesson(level string) bool {
	_, err := virtual.ParseLevel(level)
	return err != nil
}

// lessonSetups says what each lesson's telescope has that an easy one has not.
var lessonSetups = setUpLessons()

func setUpLessons() map[string]func(*virtual.Setup) {
	spots := func(s *virtual.Setup, spotMM, returnMM float64) *virtual.Faults {
		s.Faults.SpotMM, s.Faults.ReturnMM = spotMM, returnMM
		return &s.Faults
	}
	// eased is where the primary's lessons begin: the spot in its ring, the locks
	// eased, the return spot off by so much.
	eased := func(s *virtual.Setup, returnMM float64) *virtual.Faults {
		f := spots(s, 0.5, returnMM)
		f.LocksEased = true
		return f
	}
	ill := func(is virtual.Ailment) func(*virtual.Setup) {
		return func(s *virtual.Setup) {
			f := eased(s, 8)
			for i := range 3 { // all alike: whichever is told first
				f.Screws = append(f.Screws, virtual.ScrewFault{Mirror: optics.Primary, Screw: i, Is: is})
			}
		}
	}
	return map[string]func(*virtual.Setup){
		lesson.LevelNear:   func(s *virtual.Setup) { spots(s, 14, 3) },
		lesson.LevelInside: func(s *virtual.Setup) { spots(s, 2.2, 3) },
		lesson.LevelFar:    func(s *virtual.Setup) { spots(s, 45, 3) },
		lesson.LevelReturn: func(s *virtual.Setup) { spots(s, 0.5, 9) },
		lesson.LevelGood:   func(s *virtual.Setup) { spots(s, 0.6, 0.6).LockPull = 0 },
		lesson.LevelEased:  func(s *virtual.Setup) { eased(s, 8) },
		lesson.LevelWay:    func(s *virtual.Setup) { eased(s, 0.5) },
		lesson.LevelPulling: func(s *virtual.Setup) { // tight: eased and nipped again, they bite
			f := spots(s, 0.5, 8)
			f.LockPull, f.LockSkewDeg = 0.9, 30
		},
		lesson.LevelMouth:   func(s *virtual.Setup) { eased(s, 21) },
		lesson.LevelBore:    func(s *virtual.Setup) { eased(s, 15) }, // past the face, and down the drawtube
		lesson.LevelLost:    func(s *virtual.Setup) { eased(s, 36) }, // past the secondary
		lesson.LevelSeized:  ill(virtual.Seized),
		lesson.LevelShort:   ill(virtual.NearEnd),
		lesson.LevelSlack:   ill(virtual.Slack),
		lesson.LevelWorn:    ill(virtual.Worn),
		lesson.LevelDying:   func(s *virtual.Setup) { spots(s, 14, 3).DeadAfter = 1 },
		lesson.LevelTrue:    func(s *virtual.Setup) { spots(s, 14, 3).SeatSpreadMM = 0.1 },
		lesson.LevelCrooked: func(s *virtual.Setup) { spots(s, 14, 3).LaserSlopeRad = 6e-3 },
		lesson.LevelSloppy:  func(s *virtual.Setup) { spots(s, 14, 3).SeatSpreadMM = 8 },
		lesson.LevelLoose:   func(s *virtual.Setup) { spots(s, 0.5, 0.5).LooseSecondaryTurns = 0.12 },
		lesson.LevelLie:     func(s *virtual.Setup) { spots(s, 8, 0.5).LocksEased = true },
	}
}
