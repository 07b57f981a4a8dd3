package session

import (
	"errors"
	"fmt"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/mirrors"
	"spotward/session/words"
)

// The verdicts.
const (
	VerdictLeave     = "leave"
	VerdictSecondary = "secondary"
	VerdictBoth      = "both"
	VerdictPrimary   = "primary"
	VerdictNotToday  = "not_today"
)

func verdictStage() *Stage {
	return &Stage{
		ID: StageVerdict, Title: "verdict", Where: header.StandBeside,
		Header: header.Header{Stand: header.StandBeside, Tool: header.ToolNone, Tube: header.TubeLevel, Beam: header.BeamOn, Card: header.CardWhole},
		Steps: []Step{{
			// Told, not asked, where the return spot was not worth a walk.
			ID: StepVerdict, Want: WantChoice,
			Due:  func(s State) bool { return !s.done(0) && s.verdictAsked() },
			Say:  func(s State) string { return s.FirstLook().Why },
			Opts: func(s State) []words.Option { return s.FirstLook().Options },
			Take: func(s *State, ev event.Event) { s.decide(ev.Choice) },
		}},
	}
}

// verdictAsked reports whether there is more than one thing to do.
func (s State) verdictAsked() bool {
	return s.Check || s.T.Known || s.T.Gone || s.FirstLook().Verdict != optics.BothMirrors
}

// decide takes a verdict: the rest of the way follows from it.
func (s *State) decide(verdict string) {
	s.noteFound()
	s.Verdict = verdict
	s.Checks.offered = s.Checks.offered || s.Tel.LensInside && !s.Check
	s.way.plan = append(s.way.plan[:s.way.at+1:s.way.at+1], planAfter(*s)...)
	s.phased()
}

// sayVerdict takes a verdict that was said in place of another answer, before
// anything was turned.
func (s *State) sayVerdict(verdict string) error {
	if verdict != VerdictNotToday {
		switch f := s.FirstLook(); {
		case !s.P.Known:
			return errors.New("first read where the spot on the primary is: without it nobody can say that")
		case verdict == VerdictPrimary && !f.PrimaryOffered:
			off := s.P.At.At.Sub(s.Laser.Aims.Rho).Len()
			return fmt.Errorf("not the primary alone: the spot is %s mm off its middle, %s would do. With its return spot home that leaves %.1f mm of axis error, %.1f mm is allowed",
				words.MmText(off), words.MmText(s.GoalOnPrimary().InsideMM), off/2, s.AllowedMM())
		}
	}
	s.Due = nil
	if s.Verdict == "" {
		s.noteFound()
	}
	s.Verdict, s.verdictTold = verdict, false
	s.Checks.offered = s.Checks.offered || s.Tel.LensInside && !s.Check
	s.goTo(planAfter(*s)...)
	return nil
}

// sayable reports whether a verdict can be said in place of the answer that is
// asked for: nothing was turned yet.
func (s State) Sayable(verdict string) bool {
	switch verdict {
	case VerdictLeave, VerdictNotToday, VerdictPrimary, VerdictSecondary, VerdictBoth:
		at := s.Stage().ID
		return !s.way.askMoved && s.Moves == 0 && s.Nips == 0 && s.Slack() <= mirrors.SlackTurns && at != StagePutAway && at != StageStopping
	}
	return false
}

// VerdictTold reports whether the verdict was told, not asked, and another can
// still be said.
func (s State) VerdictTold() bool { return s.verdictTold && s.Sayable(VerdictLeave) }

// toldVerdict says what the first look amounts to where that is told, until the
// first turn.
func (s State) toldVerdict() string {
	if !s.verdictTold || s.Moves > 0 || !s.P.Known && !s.P.Gone { // a touch of a screw is no move
		return ""
	}
	if !s.P.Known {
		where := map[bool]string{true: "on the primary was not seen", false: "is not on the primary"}[s.P.Saw == event.SawCantSee]
		return "The spot " + where + ". Start with the secondary, then the primary. "
	}
	off := s.P.At.At.Sub(s.Laser.Aims.Rho).Len()
	far := ""
	if k := (2 - s.Tel.FromPrimaryMM/s.Tel.FocalLengthMM) * s.Tel.PathMM() / s.Tel.FromPrimaryMM; k*off > s.Tel.Target.FaceRadiusMM+2*strayMM {
		far = ". The return spot can hardly be on its face yet"
	}
	return fmt.Sprintf("The spot is %s mm from the middle of the primary (goal: %s mm)%s. Start with the secondary. ", words.MmText(off), words.MmText(s.GoalOnPrimary().InsideMM), far)
}

// decline ends the session before anything was turned, with the reason.
func (s *State) decline(why string) {
	s.Verdict = VerdictNotToday
	s.Troubles = append(s.Troubles[:len(s.Troubles):len(s.Troubles)], why)
	s.goTo(StagePutAway)
}

func labelsStage() *Stage {
	step := func(m optics.Mirror, id StepID, say string, stand header.Stand, card header.Card) Step {
		return Step{
			ID: id, Want: WantChoice,
			Header: &header.Header{Stand: stand, Tool: header.ToolPen, Tube: header.TubeLevel, Beam: header.BeamEither, Card: card},
			Due: func(s State) bool {
				// once a scope: what was learnt of its screws tells more
				return s.works(m) && s.Tel.Cell(m).PlacesKnown != optics.Given && !s.Labelled(m) && s.Of(m).Learnt == nil
			},
			Say: func(s State) string { return s.toldVerdict() + say },
			Opts: func(State) []words.Option {
				return []words.Option{
					{ID: mirrors.LabelsAsAsked, Words: "done: A nearest the focuser, then clockwise"},
					{ID: mirrors.LabelsReversed, Words: "letters are there already, and run anticlockwise from the focuser"},
					{ID: AnswerUnknown, Words: "letters are there already: say where, as in A 2 B 6"},
				}
			},
			Take: func(s *State, ev event.Event) { s.Label(m, ev) },
		}
	}
	return &Stage{
		ID: StageLabels, Title: "labels", Where: header.StandSky,
		Header: header.Header{Stand: header.StandSky, Tool: header.ToolPen, Tube: header.TubeLevel, Beam: header.BeamEither, Card: header.CardHalf},
		Do:     []string{"Only the screws that will be turned get a letter. Letters that are there stay as they are."},
		Beware: []string{"Nothing loose over the open tube: it would fall on the primary."},
		Brief:  "Nothing loose over the open tube.",
		Skip:   "where the letters stand is not known: the first turn will tell",
		Steps: []Step{
			step(optics.Secondary, StepLettersSecondary, "Letter the secondary's screws as you face their heads: A nearest the focuser, then clockwise. Leave the centre bolt alone.", header.StandSky, header.CardHalf), // its screws are reached past the card
			step(optics.Primary, StepLettersPrimary, "Letter the primary's adjusting screws as you face their heads: A nearest the focuser, then clockwise.", header.StandBehind, header.CardWhole),
		},
	}
}

// Finding is what the first look amounts to: the options, the likeliest right
// one first, and the reason.
type Finding struct {
	optics.Finding
	Options []words.Option
}

// ringless reports that the file says there is no ring, or one that stands off by
// more than its own width.
func (s State) ringless() bool {
	p := s.Scope.Primary
	return p.RingOuter.Given() && p.RingOuter.MM() == 0 || p.Ring.Off.MM() > 2*s.Tel.RingOuterMM
}

// FirstLook weighs what was seen against what this focal ratio allows.
func (s State) FirstLook() Finding {
	look := optics.FirstLook{Use: s.Use(), Method: s.Method(), RingUnsure: s.ringless(), Aims: s.Laser.Aims, Fault: s.Laser.Fault, SecondaryOff: s.SecondaryOff}
	if s.Laser.CircleMM > s.Tel.CircleFittedMM() {
		look.Fault = optics.LaserBad
	}
	if s.P.Known {
		look.P = &s.P.At
	}
	if s.T.Known {
		look.T = &s.T.At
	}
	f := Finding{Finding: s.Tel.Judge(look)}
	text := map[string]string{
		VerdictLeave:     "leave it alone: good enough",
		VerdictSecondary: "the secondary only",
		VerdictBoth:      "both mirrors, the secondary first",
		VerdictPrimary:   "the primary only",
		VerdictNotToday:  "not today: it waits for another day",
	}
	if s.Vague() {
		f.PrimaryOffered = false
		if f.Verdict == optics.PrimaryOnly || f.Verdict == optics.Leave && f.Chance < 0.5 {
			f.Verdict = optics.BothMirrors
			f.Why += " But inside the ring is not near enough to tell on this mirror: the secondary first."
		}
	}
	first := string(f.Verdict)
	f.Options = []words.Option{{ID: first, Words: text[first]}}
	for _, id := range []string{VerdictLeave, VerdictSecondary, VerdictBoth, VerdictPrimary, VerdictNotToday} {
		if id != first && (id != VerdictPrimary || f.PrimaryOffered) && (id != VerdictBoth || !s.Tel.LensInside) {
			f.Options = append(f.Options, words.Option{ID: id, Words: text[id]})
		}
	}
	return f
}
