package session

import (
	"math"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/mirrors"
	"spotward/session/words"
)

func secondaryStage() *Stage {
	return &Stage{
		ID: StageSecondary, Title: "spot to the ring", Where: header.StandSky,
		Header: header.Header{Stand: header.StandSky, Tool: header.ToolSecondary, Tube: header.TubeLevel, Beam: header.BeamOn, Card: header.CardHalf},
		Do: []string{
			"Screws move in pairs: ease the first, then tighten the second until the cue. At the end all three are snug.",
			"Key out, hands off, then look. The spot flares on the ring and is dim inside it. Bright is not home.",
		},
		Beware: []string{
			"Never touch the centre bolt: it holds the glass over the primary. Never ease all three at once.",
			"Card over half the end and over any red, head outside the rim. Key on its tether: nothing may fall on the primary.",
			"Never ease a screw more than half a turn past the point where it goes free.",
		},
		Brief: "Never touch the centre bolt: it holds the glass.",
		Eyes:  1,
		Look:  "Card over any red; head outside the rim.",
		Skip:  "the spot on the primary stays where it is",
		Steps: []Step{
			{
				// Once a scope, by those at it: a script says how it stops unasked.
				ID: StepManner, Want: WantChoice,
				Due: func(s State) bool { return s.MannerToAsk() && !s.Centred() },
				Say: func(s State) string {
					return s.toldVerdict() + "Can you see the spot past the card while you turn a screw, your eye outside the rim?"
				},
				Opts: func(State) []words.Option {
					return []words.Option{
						{ID: string(event.ByWatching), Words: "yes, or somebody calls out where it is"},
						{ID: string(event.ByAmount), Words: "no: turn by the amount, then look"},
					}
				},
				Take: func(s *State, ev event.Event) { s.StopBy(event.Manner(ev.Choice)) },
			},
			{
				// With the move that ends in the ring, but where a screw was free or the
				// spot came there by another move.
				ID: StepSnug, Want: WantReading, Face: optics.FacePrimary, Goal: State.GoalOnPrimary,
				Due: func(s State) bool { return s.Snug.Loose && (s.Snug.Free || s.Centred()) },
				Say: func(State) string {
					return "Snug each of the secondary's screws, forcing none. Key out, hands off. Where is the spot now?"
				},
				Deeds: func(State) []Deed { return []Deed{DeedSnugSecondary} },
				Take:  func(s *State, _ event.Event) { s.Snug = mirrors.Snug{} },
			},
			{
				ID: StepPrimary, Want: WantReading, Face: optics.FacePrimary, Goal: State.GoalOnPrimary,
				Due:      func(s State) bool { return !s.Centred() },
				Say:      saySpot,
				Question: askSpot,
				Tell:     tellSecondary,
			},
			{
				ID: StepTwice, Want: WantReading, Face: optics.FacePrimary, Goal: State.GoalOnPrimary,
				Due: func(s State) bool {
					return s.Centred() && !s.Snug.Loose && s.works(optics.Primary) && s.TwiceTells()
				},
				Say: func(State) string {
					return words.OnceMore("the spot on the primary")
				},
			},
			{
				// Before one leaves the sky end: behind, only the face is seen.
				ID: StepReturn, Want: WantReading, Face: optics.FaceSecondary, Search: true,
				Due: func(s State) bool {
					return s.returnToFind() && len(s.Search.Missed) < len(s.SkyFaces()) && !s.Primary.Tracker.Seen()
				},
				Say: func(s State) string {
					return "Before you walk round, look here. " + words.PlacesQuestion(s.SkyLeft())
				},
			},
		},
	}
}

// tellSecondary tells the secondary's next move. The one that should end in the
// ring ends with all three screws snug, in the same answer; so does one after which
// all may be slack.
func tellSecondary(s State) (event.Told, bool) {
	g := s.GoalOnPrimary()
	t, ok := s.Tell(s.face(), optics.Secondary, g)
	if !ok || s.Snug.Free {
		return t, ok
	}
	k := s.Secondary.Tracker
	for _, m := range t.Moves {
		if i, err := s.Index(m.Turn); err == nil && m.Lock == "" {
			k = k.Turn([]adviser.Move{{Mirror: m.Mirror, Screw: i, Turns: m.Turns}}, adviser.ByAmount)
		}
	}
	ends := k.Spot().At.Sub(g.At).Len() <= mirrors.NearRing*math.Max(g.InsideMM, s.RingMM())
	t.Snug = ends || s.Snug.Moves+1 >= mirrors.UnsnugMoves
	return t, ok
}

const askFace = "Where is the return spot on the face? If nowhere, type: not there."

const askSpot = "Where is the spot on the primary now?"

// saySpot asks for the spot on the primary, and where else to look when it is
// not on it.
func saySpot(s State) string {
	if s.verdictTold && s.Moves == 0 {
		return s.toldVerdict() + sayLoop(s, askSpot)
	}
	if s.Due == nil && s.P.Gone {
		return "The spot is not on the mirror. Look for red on the tube's wall and at the secondary's edge. Where is it, as in: wall 4? If it is nowhere, stop safely and hold the scope back."
	}
	return sayLoop(s, askSpot)
}

// sayLoop asks a question, and says first to turn what is told.
func sayLoop(s State, question string) string {
	if s.Due == nil {
		return question
	}
	return s.SayTurn(s.Working()) + question
}

func roughStage() *Stage {
	return &Stage{
		ID: StageRough, Title: "return spot found", Where: header.StandBehind,
		Header: header.Header{Stand: header.StandBehind, Tool: header.ToolPrimary, Tube: header.TubeNoseUp, Beam: header.BeamOn, Card: header.CardWhole},
		Do: []string{
			"Look for the return spot from near to far. First on the face and at the drawtube's inner end. Then on the secondary beside the outgoing spot, and on the card.",
			"The outgoing spot is the brighter one. It stays on the glass when you move your head. A sixteenth of a turn moves the return spot.",
		},
		Beware: []string{
			"Nose up, held, while locks are eased. Drive straight, do not lean on the tube.",
			"At the open end: head outside the rim, card over any red.",
		},
		Brief: "Nose up, held, while locks are eased.",
		Skip:  "the return spot was not found",
		Steps: append([]Step{{
			ID: StepOnTarget, Want: WantReading, Face: optics.FaceTarget, Goal: State.GoalOnTarget, Search: true,
			Due: func(s State) bool { return !s.T.Known && s.Search.Rung == optics.FaceTarget },
			Say: func(s State) string {
				say := sayLoop(s, askFace)
				if k := s.Primary.Tracker; s.Due == nil && s.SeenElsewhere() && k.Seen() && k.Spot().At.Len() <= s.Tel.Target.HoleRadiusMM {
					return "By the other spots it is home. If you see it go down the hole, type: home. " + say
				}
				return say
			},
			Question: askFace,
			Tell:     tellFound(State.GoalOnTarget),
		}}, searchSteps(State.GoalOnTarget)...),
	}
}

// tellFound tells the primary's next move toward a goal, once the return spot
// is found: from wherever it was seen. Where it is nowhere, the turn before that is
// taken back.
func tellFound(goal func(State) optics.Goal) func(State) (event.Told, bool) {
	return func(s State) (event.Told, bool) {
		if s.Search.Astray {
			return s.TellTakeBack(optics.Primary)
		}
		return s.Tell(s.face(), optics.Primary, goal(s))
	}
}

// tellSearched tells the same from another place than the face. Where that says
// that the spot is where it is wanted, there is nothing to turn: it is told to
// look at the face, where alone that can be seen.
func tellSearched(goal func(State) optics.Goal) func(State) (event.Told, bool) {
	return func(s State) (event.Told, bool) {
		t, ok := tellFound(goal)(s)
		if ok || s.Search.Astray || !s.Primary.Tracker.Seen() {
			return t, ok
		}
		return event.Told{
			Group: adviser.GroupOne, Moves: []event.ToldMove{}, Trust: 1,
			Why: "by what you saw, the return spot is where it should be: look for it on the face",
		}, true
	}
}

const insideBrief = "Card over any red; head outside the rim."

// insideBeware is what to beware of at the open end while the primary is worked on.
func insideBeware() []string {
	return []string{"Card over half the end and over any red; head outside the rim.", "Nose up, held, while locks are eased."}
}

// searchSteps look for a return spot that is not on the target face, from near
// to far. They are due in every stage that works on the primary.
func searchSteps(goal func(State) optics.Goal) []Step {
	inside := header.Header{Stand: header.StandSky, Tool: header.ToolPrimaryNext, Tube: header.TubeNoseUp, Beam: header.BeamOn, Card: header.CardHalf}
	step := func(f optics.Face) Step {
		return Step{
			ID: StepID(f), Want: WantReading, Face: f, Header: &inside, Search: true,
			Beware:   insideBeware(),
			Brief:    insideBrief,
			Due:      func(s State) bool { return !s.T.Known && s.Search.Rung == f },
			Say:      func(s State) string { return sayLoop(s, words.PlacesQuestion(s.SkyFrom(f))) },
			Question: words.PlacesQuestion([]optics.Face{f}),
			Tell:     tellSearched(goal),
		}
	}
	return []Step{step(optics.FaceMouth), step(optics.FaceSecondary), step(optics.FaceCard)}
}

func homeStage() *Stage {
	return &Stage{
		ID: StageHome, Title: "return spot home", Where: header.StandBehind,
		Header: header.Header{Stand: header.StandBehind, Tool: header.ToolPrimary, Tube: header.TubeNoseUp, Beam: header.BeamOn, Card: header.CardWhole},
		Do: []string{
			"Turn until the return spot goes down the hole. It dims, faint rays are left, one spot remains on the secondary. If the goal is beside the hole, the locks will pull it the rest.",
			"Key out, hands off, then look. A dim spot is not home: you must see it go in.",
		},
		Beware: []string{
			"Nose up, held. Drive straight, do not lean on the tube.",
			"If a screw goes hard or free, stop. Type stuck or free and its letter.",
		},
		Brief: "Nose up, held. Do not lean on the tube.",
		Skip:  "the return spot is left where it is",
		Steps: append([]Step{{
			ID: StepTarget, Want: WantReading, Face: optics.FaceTarget, Goal: State.HomeGoal, Search: true,
			Due:      func(s State) bool { return !s.Parked() && (s.T.Known || s.Search.Rung == optics.FaceTarget) },
			Say:      sayHome,
			Question: askNip,
			Tell:     tellFound(State.HomeGoal),
		}, glowStep()}, searchSteps(State.HomeGoal)...),
	}
}

// sayHome asks for the return spot, and says so where it is asked twice.
func sayHome(s State) string {
	if s.T.Known && s.Due == nil && s.Doubt.Of == nil && s.UntouchedSince(optics.FaceTarget) {
		return words.OnceMore("the return spot")
	}
	return sayLoop(s, askNip)
}
