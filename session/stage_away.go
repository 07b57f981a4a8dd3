package session

import (
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/words"
)

func putAwayStage() *Stage {
	return &Stage{
		ID: StagePutAway, Title: "put away", Where: header.StandBeside,
		Header: header.Header{Stand: header.StandBeside, Tool: header.ToolNone, Tube: header.TubeLevel, Beam: header.BeamOff, Card: header.CardNone, Seat: header.SeatLeaves},
		Do: []string{
			"Switch the laser off before it comes out. Take its battery out and put it with the kit.",
			"Count everything back: laser, battery, holder, driver, hex key, torch, tape, card. Look into the tube. Cap on.",
		},
		Beware: []string{"If something is missing, do not tilt the tube. Look with a torch first.", "Keep batteries from children. If one is swallowed, get emergency care at once."},
		Brief:  "Something missing? Do not tilt the tube: look first.",
		NoBack: "the kit is being put away: start a new session to go on",
		Steps: []Step{{
			ID: StepTag, Want: WantChoice,
			Deeds: func(s State) []Deed {
				if !s.Laser.On {
					return []Deed{DeedCount}
				}
				return []Deed{DeedLaserOff, DeedLaserOut, DeedCount}
			},
			Say: func(s State) string {
				said := "Laser off and out, battery out. Count everything back, look into the tube, cap on. "
				if why := s.tagWhy(); why != "" {
					said += why + " "
				}
				return said + "Which tag goes on the scope?"
			},
			Opts: func(s State) []words.Option { return tagOptions(s.tagAdvised()) },
			Take: func(s *State, ev event.Event) { s.Laser.On, s.Tag = false, ev.Choice },
		}},
	}
}

func stoppingStage() *Stage {
	return &Stage{
		ID: StageStopping, Title: "make safe", Where: header.StandBeside,
		Header: header.Header{Stand: header.StandBehind, Tool: header.ToolLocks, Tube: header.TubeAsItIs, Beam: header.BeamOn, Card: header.CardWhole, Seat: header.SeatLeaves},
		Do: []string{
			"Card over the whole end. Snug the locks with two fingers before the tube is moved. Then level the tube and snug the secondary's screws, key tethered.",
			"Laser off, then out. Its battery out and counted. Cap on.",
		},
		Beware: []string{"Locks snug before the tube is moved. Nothing left in the tube.", "Keep batteries from children. If one is swallowed, get emergency care at once."},
		Brief:  "Locks snug before the tube is moved.",
		NoBack: "making safe: say yes when it is done, or undo if this was a slip",
		Steps: []Step{{
			ID: StepSafe, Want: WantConfirm,
			Deeds: func(State) []Deed {
				return []Deed{DeedCardWhole, DeedSnugSecondary, DeedLaserOff, DeedLaserOut, DeedCount}
			},
			Say: func(s State) string {
				return s.stoppedFor() + "Card over the end. Locks snug, then tube level, secondary snug. Laser off and out, battery counted, cap on. Press Enter when all is done."
			},
			Take: func(s *State, _ event.Event) {
				if s.Looks > 0 {
					s.Left = s.Sighting() // nothing is claimed of what was turned and not looked at again
				}
				s.Laser.On, s.Tag, s.Outcome, s.Over = false, TagHoldBack, OutcomeStopped, true
			},
		}},
	}
}
