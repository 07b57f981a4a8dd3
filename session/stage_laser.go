package session

import (
	"fmt"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/mirrors"
)

// reseatMM is how far the spot on the primary may stand off after the laser was
// out and put back as before. This program's own.
const reseatMM = 2

// laserSays takes what happened to the laser. A dead one ends the work; with a
// fresh cell in it, it was out, and both spots are looked for again.
func laserSays(s *State, ev event.Event) error {
	switch ev.Is {
	case event.SaysWeak:
		s.Laser.Weak = true
	case event.SaysFresh:
		s.Laser.Weak = false
		s.P.Known, s.T.Known, s.Red = false, false, mirrors.Spot{}
		s.Secondary.Tracker, s.Primary.Tracker = s.Secondary.Tracker.Shift(optics.Round(reseatMM)), s.Primary.Tracker.Shift(optics.Round(reseatMM))
	case "":
		s.Laser.Dead = true
		s.goTo(StageStopping)
	default:
		return fmt.Errorf("%q is nothing a laser says: weak, fresh, or dead", ev.Is)
	}
	return nil
}

// fitAngles are how far the laser is turned from where it was clamped, in
// degrees, for the readings that measure it.
var fitAngles = []float64{90, 180, 270}

func laserFitStage() *Stage {
	st := &Stage{
		ID: StageLaserFit, Title: "laser measured", Where: header.StandSky,
		Header: header.Header{Stand: header.StandSky, Tool: header.ToolHolder, Tube: header.TubeLevel, Beam: header.BeamOn, Card: header.CardHalf},
		Do:     []string{"Turn the laser a quarter in its holder, clamp it the same way and look. Do that three times, then turn it back."},
		Beware: []string{"The beam swings while the laser turns: nobody at the open end."},
		Brief:  "The beam swings: nobody at the open end.",
		Skip:   "the laser is not measured: its own error may make the focuser point off",
	}
	for i, deg := range fitAngles {
		st.Steps = append(st.Steps, Step{
			ID: StepID(fmt.Sprintf("at%.0f", deg)), Want: WantReading, Face: optics.FacePrimary, Aside: true,
			Due: func(s State) bool { return s.FitDue() && len(s.Laser.Looks) == i },
			Say: func(State) string {
				return fmt.Sprintf("Turn the laser to %.0f degrees from where it was clamped, clockwise as you face its back. Clamp it the same way, hands off. Where is the spot?", deg)
			},
			Take: func(s *State, ev event.Event) { s.noteFit(deg, ev) },
		})
	}
	st.Steps = append(st.Steps, Step{
		ID: StepBack, Want: WantReading, Face: optics.FacePrimary, Aside: true,
		Due: func(s State) bool { return s.FitDue() && len(s.Laser.Looks) == len(fitAngles) },
		Say: func(State) string {
			return "Turn the laser back to where it was first, and clamp it. Where is the spot now?"
		},
		Take: func(s *State, ev event.Event) { s.noteFit(0, ev); s.fitLaser() },
	})
	return st
}

// LaserTurnedDeg returns how far the laser is to stand turned in its holder
// for the reading that is asked, degrees from where it was clamped.
func (s State) LaserTurnedDeg() float64 {
	if s.Over || s.way.plan == nil || s.Stage().ID != StageLaserFit || len(s.Laser.Looks) >= len(fitAngles) || !s.FitDue() {
		return 0
	}
	return fitAngles[len(s.Laser.Looks)]
}

// noteFit keeps a reading with the laser turned. One that cannot be seen says
// nothing of a circle: it is asked again.
func (s *State) noteFit(deg float64, ev event.Event) {
	if ev.Saw == event.SawGone || ev.Saw == event.SawCantSee {
		return
	}
	at := s.Belief(s.Ask().goal(), ev).At
	s.Laser.Looks = append(s.Laser.Looks[:len(s.Laser.Looks):len(s.Laser.Looks)], optics.LaserLook{TurnedDeg: deg, At: at})
}

// fitLaser draws the conclusion from the readings: a laser that points off by
// a known amount moves the goals; a holder that does not repeat is another
// fault, and nothing is allowed for.
func (s *State) fitLaser() {
	s.Laser.Fitted = true
	first, again := s.P.At.At, s.Laser.Looks[len(s.Laser.Looks)-1].At
	looks := append([]optics.LaserLook{{At: first}}, s.Laser.Looks...)
	fit, err := optics.FitLaser(looks)
	if err != nil {
		return
	}
	s.Laser.SeatMM = optics.SeatSpreadMM([]optics.Tube{first, again})
	s.Laser.CircleMM = fit.RadiusMM()
	s.Laser.Fault = s.Tel.JudgeLaser(fit, s.Laser.SeatMM)
	note := ""
	switch s.Laser.Fault {
	case optics.LaserOff:
		s.Laser.Aims = optics.LaserError{Rho: fit.Rho}
	case optics.HolderLoose:
		note = fmt.Sprintf("laser holder: the laser came back %.0f mm from where it was", s.Laser.SeatMM)
	case optics.LaserBad:
		note = fmt.Sprintf("laser: its circle has a radius of %.0f mm", s.Laser.CircleMM)
	}
	if note != "" {
		s.Troubles = append(s.Troubles[:len(s.Troubles):len(s.Troubles)], note)
	}
}
