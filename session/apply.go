package session

import (
	"errors"
	"fmt"
	"slices"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/mirrors"
	"spotward/session/words"
)

// Errors that Apply gives for an event which cannot be taken. Each is a whole
// line for the person.
var (
	ErrOver     = errors.New("this session is over; start a new one")
	ErrNoUndo   = errors.New("nothing to undo: this is the start")
	ErrNoRedo   = errors.New("nothing to redo")
	ErrNotBegun = errors.New("a journal begins with its begin line")
)

// Apply returns the state after ev. It is pure: no clock, no file, no
// terminal, and s is left as it was. An event that cannot be taken returns s
// and an error of one line.
func Apply(s State, ev event.Event) (State, error) {
	if s.way.plan == nil && ev.Kind != event.KindBegin {
		return s, ErrNotBegun
	}
	if ev.Kind == event.KindRecord {
		return s, nil // what the session came to, which the state says already
	}
	if s.Over {
		return s, ErrOver
	}
	switch ev.Kind {
	case event.KindUndo:
		return undo(s)
	case event.KindRedo:
		if s.redo == nil {
			return s, ErrNoRedo
		}
		return *s.redo, nil
	}
	if err := ev.Names(); err != nil {
		return s, err
	}
	take, ok := takers[ev.Kind]
	if !ok {
		return s, nil // kept in the journal, skipped here
	}
	next := s
	next.asked = nil
	next.history = s.happened(ev)
	next.redo, next.redoLeft = s.redoable(ev)
	if ev.Kind.Answers() && !s.way.askMoved {
		next.SetBack = ""
	}
	if err := take(&next, ev); err != nil {
		return s, err
	}
	if ev.Kind.Answers() {
		next.answers++
	}
	next.settle()
	next.settled()
	return next, nil
}

var takers = map[event.Kind]func(*State, event.Event) error{
	event.KindBegin:   begin,
	event.KindResume:  func(s *State, _ event.Event) error { s.way.askMoved = len(s.way.plan) > 0 && s.Looks > 0; return nil },
	event.KindConfirm: confirm,
	event.KindChoice:  choose,
	event.KindReading: read,
	event.KindScrew:   screwSays,
	event.KindLaser:   laserSays,
	event.KindTurned:  turned,
	event.KindAdvised: advised,
	event.KindSkip:    skip,
	event.KindBack:    func(s *State, _ event.Event) error { return back(s) },
	event.KindStop:    stop,
	event.KindQuit:    func(s *State, _ event.Event) error { return nil },
	event.KindManner:  manner,
	event.KindFiner:   askFiner,
	event.KindUnsure:  unsure,
	event.KindWent:    func(s *State, ev event.Event) error { return s.Went(ev) },
	event.KindFocuser: focuser,
	event.KindHand:    func(s *State, _ event.Event) error { return nil },
}

func begin(s *State, ev event.Event) error {
	if s.way.plan != nil {
		return errors.New("a session begins once")
	}
	if ev.Scope == nil {
		return errors.New("the begin line names no scope")
	}
	knew := event.Known{}
	if ev.Knew != nil {
		knew = *ev.Knew
	}
	s.Work = mirrors.New(*ev.Scope, knew, ev.Learnt)
	s.ID, s.Who, s.Where, s.Kit, s.World, s.Check = words.OneLine(ev.ID), words.OneLine(ev.Who), words.OneLine(ev.Where), words.OneLine(ev.Kit), ev.World, ev.Check
	for _, said := range ev.Before {
		s.Before = append(s.Before, words.OneLine(said))
	}
	s.Way, s.Dir, s.Count = ev.Way, words.OneLine(ev.Dir), ev.Count
	s.way.table, s.way.plan = stages, firstPlan()
	s.phased()
	s.Stops, s.Reckons = ev.Manner, ev.Way >= wayAtGoal
	s.StopBy(ev.Manner)
	return nil
}

func confirm(s *State, ev event.Event) error {
	ask := s.answering()
	if ask.Want != WantConfirm && !ask.Yes {
		return fmt.Errorf("a %s is wanted here, not a yes", ask.Want)
	}
	s.Made(false)
	s.Since.WantLook = false
	s.answer(ask, ev)
	return nil
}

func choose(s *State, ev event.Event) error {
	ask := s.answering()
	listed := slices.ContainsFunc(ask.Options, func(o words.Option) bool { return o.ID == ev.Choice })
	if !listed && s.Sayable(ev.Choice) {
		return s.sayVerdict(ev.Choice)
	}
	if ask.Want != WantChoice {
		return fmt.Errorf("a %s is wanted here, not a choice", ask.Want)
	}
	if ask.Step == StepCircle && ev.Choice == CircleSmall {
		ev.Choice = CircleHalf
	}
	for _, o := range ask.Options {
		if o.ID != ev.Choice {
			continue
		}
		if ask.Step == StepMoved {
			resumed(s, ev.Choice)
			return nil
		}
		s.answer(ask, ev)
		return nil
	}
	return fmt.Errorf("%q is not one of the answers here: %s", ev.Choice, optionIDs(ask.Options))
}

// read takes a reading: the moves told before it count as made.
func read(s *State, ev event.Event) error {
	ask := s.answering()
	if ask.Want != WantReading {
		return fmt.Errorf("a %s is wanted here, not a reading", ask.Want)
	}
	if ev.Face != ask.Face && !slices.Contains(ask.Faces, ev.Face) && !s.step().mayBeOn(ev.Face) {
		return fmt.Errorf("a reading on the %s is wanted here, not on the %s", ask.Face, ev.Face)
	}
	if err := s.inHole(ev); err != nil {
		return err
	}
	if err := s.onPicture(ev); err != nil {
		return err
	}
	if ev.Saw == event.SawPlace || ev.Saw == event.SawOffGlass {
		if err := ev.Sane(); err != nil {
			return err
		}
	}
	step := s.step() // what is turned may make another one due
	s.Made(ev.Cued || ev.Watched)
	if step.Start != nil && s.Doubt.Of == nil {
		step.Start(s)
	}
	if step.ID != StepOn && step.ID != StepRed { // where red shows is no look at a spot
		s.Looks++
	}
	if !step.Aside && !s.Look(mirrors.Question{Goal: ask.goal(), Faces: ask.Faces, Snug: ask.Step == StepSnug}, ev) {
		return nil // doubted: the same step again
	}
	s.Since.WantLook = false
	s.answer(ask, ev)
	return nil
}

// answer marks the step as answered and lets it draw its conclusions.
func (s *State) answer(ask Ask, ev event.Event) {
	st := s.Stage()
	s.way.held = ""
	for i := range st.Steps {
		if st.Steps[i].ID == ask.Step {
			s.way.answered |= 1 << i
			if st.Steps[i].Take != nil {
				st.Steps[i].Take(s, ev)
			}
			return
		}
	}
}

// settle walks on to the first step that is due.
func (s *State) settle() {
	for !s.Over && s.step() == nil {
		if s.Stage().ID == StageVerdict && s.Verdict == "" { // nothing to choose from: it is told
			s.verdictTold = true
			s.decide(VerdictBoth)
		}
		if s.way.at == len(s.way.plan)-1 {
			s.finish()
			return
		}
		s.offerFiner()
		s.enter(s.way.at + 1)
	}
}

// step returns the step that is due in the present stage, or nil.
func (s State) step() *Step {
	st := s.Stage()
	for i := range st.Steps {
		if s.way.held != "" && st.Steps[i].ID != s.way.held {
			continue
		}
		due := s.way.held != "" || !s.done(i)
		if f := st.Steps[i].Due; f != nil && s.way.held == "" {
			due = f(s)
		}
		if due {
			return &st.Steps[i]
		}
	}
	return nil
}

func (s *State) enter(at int) {
	s.FreshHeadway()
	s.way.at, s.way.answered, s.way.held = at, 0, ""
	s.phased()
	s.Due, s.Since.WantLook, s.Doubt.Of = nil, false, nil
	s.Locks.Nipped, s.Locks.Wrong, s.swing, s.Hole.Tries = 0, 0, swing{}, 0
}

// goTo leaves the rest of the plan and goes to a stage that ends the session.
func (s *State) goTo(ids ...StageID) {
	s.way.plan = append(s.way.plan[:s.way.at+1:s.way.at+1], ids...)
	s.enter(s.way.at + 1)
}

// advised notes what was told. In the rough search the next look is where the
// told moves should bring the spot; where none are told, on the face.
func advised(s *State, ev event.Event) error {
	if ev.Told == nil {
		return errors.New("an advice says what was told")
	}
	if len(ev.Told.Moves) == 0 && s.Search.Rung != optics.FaceTarget {
		s.Search.Rung = optics.FaceTarget
		return nil
	}
	s.Due = ev.Told
	if s.Search.Rung != optics.FaceTarget {
		after := s.Primary.Tracker
		for _, m := range ev.Told.Moves {
			if i, err := s.Index(m.Turn); err == nil && m.Lock == "" {
				after = after.Turn([]adviser.Move{{Mirror: m.Mirror, Screw: i, Turns: m.Turns}}, adviser.ByAmount)
			}
		}
		if after.Spot().At.Len() < s.Tel.Target.FaceRadiusMM {
			s.Search.Rung = optics.FaceTarget
		}
	}
	return nil
}
