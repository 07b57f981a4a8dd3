package session

import "spotward/optics"

// resumed takes the answer to whether the scope was moved since.
func resumed(s *State, choice string) {
	s.askMoved = false
	if choice == "no" {
		return
	}
	s.secondary, s.primary = s.secondary.Lose(), s.primary.Lose()
	s.p, s.t, s.told, s.doubt = Spot{}, Spot{}, nil, nil
	s.rung, s.astray = optics.FaceTarget, false
	rest := s.plan[s.at:]
	switch {
	case rest[0] == StagePutAway || rest[0] == StageStopping || s.Looks == 0:
	case s.Verdict == "":
		s.goTo(firstPlan()[2:]...)
	case s.works(optics.Secondary):
		s.goTo(append([]StageID{StageLaserIn, StageFirstLook, StageSecondary}, rest...)...)
	default: // the primary alone: only while the spot is still central
		s.goTo(firstPlan()[2:]...)
	}
}

// manner takes how the people at the scope want to work: what was told is told
// anew.
func manner(s *State, ev Event) error {
	if ev.Whole != nil {
		s.Whole = *ev.Whole
	}
	if ev.Watching != nil {
		s.Watching = *ev.Watching
	}
	s.told = nil
	return nil
}
