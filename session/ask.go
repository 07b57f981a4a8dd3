package session

import (
	"spotward/optics"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/words"
)

// Ask is what the session waits for: everything a face needs to put the
// question and to draw it.
type Ask struct {
	Stage    *Stage
	Step     StepID
	Want     Want
	Face     optics.Face  // of a reading
	Focus    optics.Focus // of a look at a star out of focus; "" elsewhere
	Header   header.Header
	Heading  header.HeaderWords // the header in words
	Say      string
	Question string         // the question of Say alone, without the moves before it
	Note     string         // what to know before answering, or ""
	Beware   []string       // cautions, the most pressing first
	Brief    string         // the most pressing one in at most 56 characters
	Beam     string         // of them, where the beam leaves by the open end; "" = nowhere
	Options  []words.Option // of a choice, the ordinary way on first
	Dial     bool           // a choice that also takes a distance
	HasGoal  bool           // Goal says where the spot is wanted
	Goal     optics.Goal    // in the tube's frame of Face
	Again    bool           // the last reading cannot be so: look again
	Yes      bool           // a reading in place of which a yes is taken
	Aside    bool           // a reading that says nothing of the mirrors
	Whether  bool           // a reading of a spot that may not be there at all: "no" is an answer
	Faces    []optics.Face  // of a reading: where the spot may be as well, the likeliest first; Face is the first
	Deeds    []Deed         // what answering says was done, in order
	Told     *event.Told    // moves to make before answering; nil: none
}

// Named reports whether an answer has to be named: Enter alone claims nothing that
// eyes depend on.
func (a Ask) Named() bool { return a.Step == StepClass }

// Ask returns what is waited for now. When the session is over it returns the
// zero Ask. It is made once, when the state is: asking costs nothing.
func (s State) Ask() Ask {
	if s.asked == nil { // an event is being taken
		return s.wordAsk(s.ask())
	}
	return *s.asked
}

// settled has what is asked made anew, after something was changed.
func (s *State) settled() {
	a := s.wordAsk(s.ask())
	s.asked = &a
}

// goal returns where the spot is wanted, nil for nowhere.
func (a Ask) goal() *optics.Goal {
	if !a.HasGoal {
		return nil
	}
	return &a.Goal
}

// answering returns the question that the event which is being taken answers: as
// it stood before anything of it was taken.
func (s *State) answering() Ask { return s.history.before.Load().Ask() }

func (s State) ask() Ask {
	switch {
	case s.way.plan == nil:
		return Ask{Stage: &Stage{ID: StagePutAway}}
	case s.Over:
		return Ask{Stage: s.Row(StagePutAway)}
	}
	st := s.Stage()
	if s.way.askMoved {
		head := st.Header
		if head.Card == header.CardHalf { // what was moved may send the beam anywhere
			head.Card = header.CardWhole
		}
		return Ask{
			Stage: st, Step: StepMoved, Want: WantChoice, Header: head, Heading: head.Words(),
			Say: s.cardFirst() + "Was the scope moved, or a screw touched, since?",
			Options: []words.Option{
				{ID: MovedNo, Words: "no: it stands as it was left"},
				{ID: MovedYes, Words: "yes"},
				{ID: AnswerUnknown, Words: "not sure"},
			},
		}
	}
	step := s.step()
	if step == nil {
		return Ask{Stage: st}
	}
	step = s.seenFrom(st, step)
	a := Ask{
		Stage: st, Step: step.ID, Want: step.Want, Face: step.Face, Header: st.Header,
		Say: step.say(s), Note: s.note(), Dial: step.Dial, Yes: step.Yes, Aside: step.Aside, Whether: step.asksWhether(), Again: s.Doubt.Of != nil, Told: s.Told(),
	}
	a.Question, a.Deeds = a.Say, step.deeds(s)
	if s.Due != nil && step.Question != "" {
		a.Question = step.Question
	}
	if s.untold {
		a.Say = "Turn what you think right, as in: B 1/8, or A -1/8 B 1/8, or lock B -1/4." + s.ScrewsAt(s.Working())
	}
	if s.SetBack != "" {
		a.Say = s.SetBack + words.SetBackTo(string(st.ID)) + a.Say
	}
	if step.ID == StepSides || step.ID == StepFinger {
		a.Focus = s.finer.focus
	}
	if step.Header != nil {
		a.Header = *step.Header
	}
	if s.Due != nil && s.Working() == optics.Primary {
		screws := s.Due.Of()
		a.Header.Tool = a.Header.Tool.Turning(screws > 0, screws < len(s.Due.Moves))
	}
	if s.Laser.On && a.Header.Seat == header.SeatEmpty { // gone back to: an eye comes to the focuser
		a.Say = "Laser off and out of the focuser first. " + a.Say
	}
	if a.Header.Stand == header.StandSky {
		out := s.Outlet()
		a.Header.Card = covered(a, out)
		a.Beam = s.Beam(out)
	}
	a.Beware, a.Brief = s.beware(st, step, a.Beam)
	a.Heading = a.Header.Words()
	if a.Faces = step.faces(s); step.ID == StepReturn && len(a.Faces) > 0 {
		a.Face = a.Faces[0]
	}
	if step.Opts != nil {
		a.Options = step.Opts(s)
	}
	if step.Goal != nil {
		a.Goal, a.HasGoal = step.Goal(s), true
	}
	if offer := s.endless(); offer != "" {
		a.Say = offer + " " + a.Say
	}
	if a.Again {
		a.Say = s.doubtWords() + " " + a.Say
	}
	return a
}

// say returns what to do now at the step.
func (st *Step) say(s State) string {
	if st.Say == nil {
		return sayLoop(s, st.Question)
	}
	return st.Say(s)
}

// cardFirst says what comes before anything else where the laser was left on.
func (s State) cardFirst() string {
	if !s.Laser.On {
		return ""
	}
	return "The laser was on when this was left: card over the open end before anybody leans in. "
}

// doubtWords asks for a second look.
func (s State) doubtWords() string {
	if s.Doubt.Either {
		return "This reading and the one before it do not agree. Perhaps left and right are swapped in one. Look again, and say where the spot is."
	}
	if s.Moves == 0 {
		return "So far out it is off what you look at. Look again, and say where the spot is."
	}
	return "This turn cannot have put it there. Look again, and say where the spot is."
}
