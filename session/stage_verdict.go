package session

import (
	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
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

// Ways the labels can stand.
const (
	LabelsAsAsked  = "as_asked"
	LabelsReversed = "reversed"
)

func verdictStage() *Stage {
	return &Stage{
		ID: StageVerdict, Title: "verdict", Where: StandBeside,
		Header: Header{Stand: StandBeside, Tool: ToolNone, Tube: TubeLevel, Beam: BeamOn, Card: CardWhole},
		Steps: []Step{{
			ID: StepVerdict, Want: WantChoice,
			Say:  func(s State) string { return s.FirstLook().Why },
			Opts: func(s State) []words.Option { return s.FirstLook().Options },
			Take: func(s *State, ev event.Event) {
				s.Verdict = ev.Choice
				s.Checks.offered = s.Checks.offered || s.Tel.LensInside && !s.Check
				s.way.plan = append(s.way.plan[:s.way.at+1:s.way.at+1], planAfter(*s)...)
			},
		}},
	}
}

// decline ends the session before anything was turned, with the reason.
func (s *State) decline(why string) {
	s.Verdict = VerdictNotToday
	s.trouble = append(s.trouble[:len(s.trouble):len(s.trouble)], why)
	s.goTo(StagePutAway)
}

func labelsStage() *Stage {
	step := func(m optics.Mirror, id StepID, say string, stand Stand, card Card) Step {
		return Step{
			ID: id, Want: WantChoice,
			Header: &Header{Stand: stand, Tool: ToolPen, Tube: TubeLevel, Beam: BeamEither, Card: card},
			Due: func(s State) bool {
				return s.works(m) && s.Tel.Cell(m).PlacesKnown != optics.Given && !s.labelled(m)
			},
			Say: func(State) string { return say },
			Opts: func(State) []words.Option {
				return []words.Option{
					{ID: LabelsAsAsked, Words: "done: A nearest the focuser, then clockwise"},
					{ID: LabelsReversed, Words: "letters are there already, and run anticlockwise from the focuser"},
					{ID: answerUnknown, Words: "letters are there already: say where, as in A 2 B 6"},
				}
			},
			Take: func(s *State, ev event.Event) { s.label(m, ev) },
		}
	}
	return &Stage{
		ID: StageLabels, Title: "labels", Where: StandSky,
		Header: Header{Stand: StandSky, Tool: ToolPen, Tube: TubeLevel, Beam: BeamEither, Card: CardHalf},
		Do:     []string{"Only the screws that will be turned get a letter. Letters that are there stay as they are."},
		Beware: []string{"Nothing loose over the open tube: it would fall on the primary."},
		Skip:   "where the letters stand is not known: the first turn will tell",
		Steps: []Step{
			step(optics.Secondary, StepLettersSecondary, "Letter the secondary's screws, facing their heads: A nearest the focuser, then clockwise. Not the centre bolt.", StandSky, CardHalf), // its screws are reached past the card
			step(optics.Primary, StepLettersPrimary, "Letter the primary's adjusting screws, facing their heads from behind: A nearest the focuser, then clockwise.", StandBehind, CardWhole),
		},
	}
}

// labels returns how the letters of each mirror stand, as far as that was asked;
// nil where it was not.
func (s State) labels() map[optics.Mirror]string {
	var out map[optics.Mirror]string
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		if !s.labelled(m) {
			continue
		}
		if out == nil {
			out = map[optics.Mirror]string{}
		}
		out[m] = s.of(m).labels
		if s.lettersReversed(m) { // the screws themselves have told more than the words
			switch out[m] {
			case LabelsAsAsked:
				out[m] = LabelsReversed
			case LabelsReversed:
				out[m] = LabelsAsAsked
			}
		}
	}
	return out
}

func (s State) labelled(m optics.Mirror) bool { return s.of(m).labels != "" }

// label takes what is known of where the letters stand into a new belief about
// that mirror's screws.
func (s *State) label(m optics.Mirror, ev event.Event) {
	how := ev.Choice
	s.of(m).labels = how
	cell := s.Tel.Cell(m)
	switch how {
	case LabelsAsAsked:
		cell.PlacesKnown, cell.FirstDeg, cell.LabelsClockwise = optics.Guessed, 0, true
	case LabelsReversed:
		cell.PlacesKnown, cell.FirstDeg, cell.LabelsClockwise = optics.Guessed, 0, false
	default:
		cell.PlacesKnown = optics.Unknown
		if len(ev.Letters) > 0 {
			cell = s.lettered(m, ev.Letters)
		}
	}
	s.setCell(m, cell)
	if s.of(m).learnt != nil {
		return // the screws themselves have told more than the letters can
	}
	spot := s.Tracker(m)
	fresh := adviser.NewTracker(s.Tel, m, nil)
	if spot.Seen() {
		fresh, _ = fresh.Look(spot.Spot())
	}
	s.setTracker(m, fresh)
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
	look := optics.FirstLook{Use: s.use(), Method: s.Method(), RingUnsure: s.ringless(), Aims: s.Laser.aims, Fault: s.Laser.fault, SecondaryOff: s.SecondaryOff}
	if s.Laser.CircleMM > s.Tel.CircleFittedMM() {
		look.Fault = optics.LaserBad
	}
	if s.p.Known {
		look.P = &s.p.At
	}
	if s.t.Known {
		look.T = &s.t.At
	}
	f := Finding{Finding: s.Tel.Judge(look)}
	text := map[string]string{
		VerdictLeave:     "leave it alone",
		VerdictSecondary: "the secondary only",
		VerdictBoth:      "both mirrors, the secondary first",
		VerdictPrimary:   "the primary only",
		VerdictNotToday:  "not today",
	}
	if s.vague() {
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
