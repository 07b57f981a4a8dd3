package session

import (
	"fmt"
	"math"
	"slices"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/words"
)

func retightenStage() *Stage {
	st := &Stage{
		ID: StageRetighten, Title: "locks nipped", Where: StandBehind,
		Header: Header{Stand: StandBehind, Tool: ToolLocksShort, Tube: TubeNoseUp, Beam: BeamOn, Card: CardWhole},
		Do:     []string{"A little at each lock, round and round, key out and a look each round. Snug, never forced."},
		Beware: []string{
			"Two fingers only: a lock bites long before it is hard. Forced, it bends the cell or cracks the glass.",
			"Nose up, held, until the last lock is snug.",
		},
		Skip: "the locks stay eased: the mirror will not hold",
		Steps: []Step{
			{
				ID: StepNip, Want: WantReading, Face: optics.FaceTarget, Goal: State.homeGoal,
				Due:      func(s State) bool { return s.Slack() > SlackTurns && s.canNip() },
				Say:      sayNip,
				Question: askNip,
				Tell:     tellNip,
				Take:     func(s *State, _ event.Event) { s.locks.nipped++ },
			},
			{
				ID: StepNipAgain, Want: WantReading, Face: optics.FaceTarget, Goal: State.homeGoal,
				Due: func(s State) bool {
					return s.Tel.Primary.Locks > 0 && s.locks.nipped < maxNips && !s.parked() && (s.t.Known || s.search.rung == optics.FaceTarget)
				},
				Question: "The locks have pulled it off. Where is the return spot now?",
				Tell:     tellAgain,
				Take:     func(s *State, _ event.Event) { s.locks.nipped++ },
			},
		},
	}
	for _, step := range searchSteps(State.homeGoal) {
		due := step.Due
		step.Due = func(s State) bool { return s.locks.nipped < maxNips && due(s) }
		step.Take = func(s *State, _ event.Event) { s.locks.nipped++ }
		st.Steps = append(st.Steps, step)
	}
	return st
}

const askNip = "Where is the return spot now, from the hole's middle?"

// sayNip asks for the return spot between the rounds, and says before the first
// why it need not stand in the very hole.
func sayNip(s State) string {
	say := sayLoop(s, askNip)
	if g := s.homeGoal(); s.locks.nipped == 0 && s.t.Saw != event.SawHome && s.parked() {
		return fmt.Sprintf("Near enough: within %.1f mm of where it is wanted. The locks are next. %s", g.InsideMM, say)
	}
	return say
}

// maxNips is how many rounds are tried before what is left is accepted and
// said: by then it is the lock, not the hand.
const maxNips = 9

// Slack returns how far the locks still stand eased, in turns, the widest.
func (s State) Slack() float64 {
	w := 0.0
	for i := range s.Tel.Primary.Locks {
		w = math.Max(w, s.locks.eased[i])
	}
	return w
}

// SlackTurns is what counts as tight: less than any hand can tell.
const SlackTurns = 1. / 64

// parked reports whether the return spot stands where the locks may bite.
func (s State) parked() bool { return s.there(optics.Primary, s.t, s.homeGoal()) }

// canNip reports whether the locks may be nipped: the spot stands right, or
// enough was tried.
func (s State) canNip() bool { return s.parked() || s.locks.nipped >= maxNips }

func tellNip(s State) (event.Told, bool) {
	if !s.canNip() {
		return event.Told{}, false
	}
	t := event.Told{Group: adviser.GroupSet, Trust: 1, Why: "round and round, a little each: so no lock drags the mirror far"}
	for i := range s.Tel.Primary.Locks {
		if n := s.nipOf(i); n > 0 {
			t.Moves = append(t.Moves, event.ToldMove{Turn: s.lockTurn(i, n)})
		}
	}
	if len(t.Moves) > 0 && !slices.ContainsFunc(t.Moves, func(m event.ToldMove) bool { return !s.LastNip(m.Turn) }) {
		t.Why = "the last round: until two fingers on the key's short arm hold it, sooner or later than told; no farther"
	}
	return t, len(t.Moves) > 0
}

// nipOf returns the next nip of lock i: a touch first, a touch last.
func (s State) nipOf(i int) float64 {
	const touch = 1. / 16
	left := s.locks.eased[i]
	switch {
	case left <= SlackTurns:
		return 0
	case left > easeTurns+SlackTurns: // what was eased beyond that stands off
		return left - easeTurns + touch
	case left >= easeTurns-SlackTurns || left < 2*touch:
		return math.Min(touch, left)
	}
	return math.Min(2*touch, left)
}

// tellAgain brings the spot back while a lock still gives; when all have
// bitten, they are eased again by an eighth first.
func tellAgain(s State) (event.Told, bool) {
	if s.Slack() > SlackTurns {
		return tellFound(State.homeGoal)(s)
	}
	t := event.Told{Group: adviser.GroupSet, Trust: 1, Why: "with the locks tight an adjusting screw moves nothing: ease them an eighth first"}
	for i := range s.Tel.Primary.Locks {
		t.Moves = append(t.Moves, event.ToldMove{Turn: s.lockTurn(i, -1./8)})
	}
	return t, len(t.Moves) > 0
}

func swingStage() *Stage {
	behind := Header{Stand: StandBehind, Tool: ToolNone, Tube: TubeLevel, Beam: BeamOn, Card: CardWhole}
	return &Stage{
		ID: StageSwing, Title: "swing and recheck", Where: StandAllRound,
		Header: Header{Stand: StandSky, Tool: ToolNone, Tube: TubeLevel, Beam: BeamOn, Card: CardHalf},
		Do:     []string{"What is loose shows in a swing: a secondary screw that was not taken up, a mirror that rocks on its clips."},
		Beware: []string{"Laser off, or card over the end, for the swing and for every walk round the tube. Heavy tubes: two people."},
		Skip:   "the tube was not swung: whether it holds is not known",
		Steps: []Step{
			{
				ID: StepSwing, Want: WantConfirm,
				Header: &Header{Stand: StandBeside, Tool: ToolNone, Tube: TubeSwung, Beam: BeamEither, Card: CardWhole},
				Say: func(s State) string {
					return s.snugFirst() + "Laser off, or card over the whole end. Swing the tube up to about 50 degrees and back to level, its end to the wall. Card up; then laser on."
				},
				Take: func(s *State, _ event.Event) {
					s.BeforeSw = s.sighting()
					s.p.Known, s.t.Known, s.t.Gone, s.red = false, false, false, Spot{}
					s.secondary.tracker, s.primary.tracker = s.secondary.tracker.Shift(swingCov()), s.primary.tracker.Shift(swingCov())
				},
			},
			{
				ID: StepPrimary, Want: WantReading, Face: optics.FacePrimary, Goal: State.GoalOnPrimary,
				Due: func(s State) bool { return !s.done(1) },
				Take: func(s *State, _ event.Event) {
					if s.Tel.LensInside {
						s.judgeSwing()
					}
				},
				Say:    func(State) string { return "From the sky end, past the card: where is the spot on the primary now?" },
				Beware: []string{"Card over the half where red shows; eye outside the rim."},
			},
			{
				ID: StepTarget, Want: WantReading, Face: optics.FaceTarget, Header: &behind, Goal: State.GoalOnTarget,
				Due:  func(s State) bool { return !s.done(2) && !s.Tel.LensInside },
				Say:  func(State) string { return "Behind: where is the return spot, from the hole's middle?" },
				Take: func(s *State, _ event.Event) { s.judgeSwing() },
			},
		},
	}
}

// snugFirst says what comes before the tube moves where the locks were left
// eased.
func (s State) snugFirst() string {
	if s.Slack() <= SlackTurns {
		return ""
	}
	return "The locks stand eased: first each snug, with two fingers, or the mirror tips. "
}

// swingCov is what a sound cell may let go in a swing, beside which a reading
// after it is no surprise. This program's own.
func swingCov() optics.Cov { return optics.Round(3) }

// movedMM is how far a spot may move in a swing and still be called held.
// This program's own.
const movedMM = 2

// held reports whether a spot stands where it stood before the swing, as far
// as the two readings can tell.
func held(before, now Spot) bool {
	if !before.Known {
		return true
	}
	eyes := before.At.Cov.Add(now.At.Cov).Sigma()
	return now.Known && now.At.At.Sub(before.At.At).Len() <= math.Max(movedMM, 2*eyes)
}

// judgeSwing compares both spots with those before the swing. To what has
// moved, or is not at its goal, the session goes back once; what moves a
// second time holds the scope back.
func (s *State) judgeSwing() {
	s.Left = s.sighting()
	sound := map[optics.Mirror]bool{
		optics.Secondary: held(s.BeforeSw.P, s.p) && s.Left.Centred,
		optics.Primary:   held(s.BeforeSw.T, s.t) && s.Left.Home,
	}
	still := map[optics.Mirror]bool{
		optics.Secondary: held(s.BeforeSw.P, s.p),
		optics.Primary:   held(s.BeforeSw.T, s.t),
	}
	var todo []StageID
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		again := len(todo) > 0 && s.works(m) // the fold aims the beam: what follows it is done again
		switch {
		case sound[m] && !again || !s.works(m):
		case !s.of(m).redone:
			s.of(m).redone = true
			todo = append(todo, stagesOf(m)...)
		case !still[m]:
			s.HoldBack = "the " + string(m) + " has moved in the swing twice"
		}
	}
	if s.Verdict == VerdictSecondary && s.Left.Centred && !s.Left.Home && !s.Tel.LensInside {
		// it did not come home by itself: the primary is out as well
		s.Verdict = VerdictBoth
		todo = append([]StageID{StageLabels}, stagesOf(optics.Primary)...)
	}
	if len(todo) > 0 {
		s.way.plan = append(append(s.way.plan[:s.way.at+1:s.way.at+1], todo...), s.endPlan()...)
	}
}

// stagesOf returns the stages that bring mirror m's spot to its goal.
func stagesOf(m optics.Mirror) []StageID {
	if m == optics.Primary {
		return []StageID{StageLocks, StageRough, StageHome, StageRetighten}
	}
	return []StageID{StageSecondary}
}

func putAwayStage() *Stage {
	return &Stage{
		ID: StagePutAway, Title: "put away", Where: StandBeside,
		Header: Header{Stand: StandBeside, Tool: ToolNone, Tube: TubeLevel, Beam: BeamOff, Card: CardNone, Seat: SeatLeaves},
		Do: []string{
			"Laser off before it comes out. Its cell out of it and with the kit.",
			"Count everything back: laser, cell, holder, driver, hex key, torch, tape, card. Look into the tube. Cap on.",
		},
		Beware: []string{"Something missing? Do not tilt the tube: look with a torch first.", "Cells away from children; swallowed, go to emergency care at once."},
		NoBack: "the kit is being put away: start a new session to go on",
		Steps: []Step{
			{
				ID: StepCount, Want: WantConfirm,
				Say: func(State) string {
					return "Laser off, then out; its cell out of it. Everything counted back, nothing left in the tube, cap on?"
				},
				Take: func(s *State, _ event.Event) { s.Laser.On = false },
			},
			{
				ID: StepTag, Want: WantChoice,
				Say:  func(s State) string { return "Which tag goes on the scope? " + s.tagWhy() },
				Opts: func(s State) []words.Option { return tagOptions(s.tagAdvised()) },
				Take: func(s *State, ev event.Event) { s.Tag = ev.Choice },
			},
		},
	}
}

func stoppingStage() *Stage {
	return &Stage{
		ID: StageStopping, Title: "make safe", Where: StandBeside,
		Header: Header{Stand: StandBehind, Tool: ToolLocks, Tube: TubeAsItIs, Beam: BeamOn, Card: CardWhole, Seat: SeatLeaves},
		Do: []string{
			"Card over the whole end. Locks snug, two fingers, before the tube is moved. Then level; the secondary's screws snug, key tethered.",
			"Laser off, then out; its cell out and counted. Cap on.",
		},
		Beware: []string{"Locks snug before the tube is moved. Nothing left in the tube.", "Cells away from children; swallowed, go to emergency care at once."},
		NoBack: "making safe: say yes when it is done, or undo if this was a slip",
		Steps: []Step{{
			ID: StepSafe, Want: WantConfirm,
			Say: func(State) string {
				return "Card over the end. Locks snug, then level, secondary snug. Laser off and out, cell out and counted, cap on. Yes when all is done."
			},
			Take: func(s *State, _ event.Event) {
				if s.Looks > 0 {
					s.Left = s.sighting() // nothing is claimed of what was turned and not looked at again
				}
				s.Laser.On, s.Tag, s.Outcome, s.Over = false, TagHoldBack, OutcomeStopped, true
			},
		}},
	}
}
