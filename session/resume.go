package session

import (
	"errors"
	"math"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/mirrors"
)

// The answers to whether the scope was moved since a session was left.
const (
	MovedNo  = "no"
	MovedYes = "yes"
)

// resumed takes the answer to whether the scope was moved since.
func resumed(s *State, choice string) {
	s.way.askMoved = false
	if choice == MovedNo {
		return
	}
	s.Secondary.Tracker, s.Primary.Tracker = s.Secondary.Tracker.Lose(), s.Primary.Tracker.Lose()
	s.P, s.T, s.Due, s.Doubt.Of = mirrors.Spot{}, mirrors.Spot{}, nil, nil
	s.Search.Rung, s.Search.Astray = optics.FaceTarget, false
	rest := s.way.plan[s.way.at:]
	if rest[0] != StagePutAway && rest[0] != StageStopping && s.Looks > 0 {
		s.SetBack = "The scope may have been moved."
	}
	switch {
	case rest[0] == StagePutAway || rest[0] == StageStopping || s.Looks == 0:
	case s.Verdict == "":
		s.goTo(planFromLaser()...)
	case s.works(optics.Secondary):
		s.goTo(append([]StageID{StageLaserIn, StageFirstLook, StageSecondary}, rest...)...)
	default: // the primary alone: only while the spot is still central
		s.goTo(planFromLaser()...)
	}
}

// manner takes how the people at the scope want to work: what was told is told
// anew.
func manner(s *State, ev event.Event) error {
	if ev.Whole != nil {
		s.Whole = *ev.Whole
	}
	if ev.Watching != nil {
		s.StopBy(event.MannerOf(*ev.Watching))
	}
	s.Due = nil
	return nil
}

// unsureMM is how far a spot may have gone by turns that nobody remembers.
const unsureMM = 30

// unsure forgets what was told without taking it as made: a look tells.
func unsure(s *State, _ event.Event) error {
	if s.Due == nil {
		return mirrors.ErrNothingDue
	}
	m := s.Working()
	s.SetTracker(m, s.Tracker(m).Shift(optics.Round(unsureMM)))
	s.Due, s.Since.WantLook = nil, s.Ask().Want == WantReading
	if s.Since.WantLook {
		s.way.held = s.Ask().Step
	}
	return nil
}

// focuser turns every dial to where the focuser is really seen, from where the
// question has one stand.
func focuser(s *State, ev event.Event) error {
	if !(ev.Hour >= 0 && ev.Hour < 12) {
		return errors.New("the focuser is seen at an hour of the dial, as in: focuser 2:30")
	}
	deg := 30 * ev.Hour
	if s.Ask().Header.Stand == header.StandBehind {
		deg = math.Mod(360-deg, 360)
	}
	s.Tel.FocuserDeg = deg
	return nil
}
