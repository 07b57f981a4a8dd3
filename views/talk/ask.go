package talk

import (
	"strings"

	"fmt"

	"spotward/optics"
	"spotward/session"
	"spotward/session/header"
	"spotward/session/words"
)

// welcome says what this is and how to get help.
func (t *talk) welcome() {
	s := t.work.State()
	t.sayf("Scope %s, %.0f mm, f/%.1f.", s.Scope.Name, s.Tel.ApertureMM, s.Tel.FocalRatio())
	if t.work.Bench != nil {
		t.sayf("This is practice: a telescope that is not real. Level %s, seed %d.", s.World.Level, s.World.Seed)
	}
	t.say(t.work.Notice)
	if t.work.Bench != nil {
		t.say(words.NumberPad)
	}
	t.say("Type an answer and Enter. Type help for what can be said, stop safely to make safe at any time.")
}

// ask puts the question that is pending: what has changed since the last one,
// the moves, and the question itself last.
func (t *talk) ask() {
	ask := t.work.Shown().Ask()
	t.place(ask)
	t.cautions(ask)
	t.question(ask)
}

// again puts the pending question with everything that belongs to it.
func (t *talk) again() {
	ask := t.work.Shown().Ask()
	t.header, t.goal = header.HeaderWords{}, ""
	t.place(ask)
	t.question(ask)
}

// place says the stage, and of where to stand, tool, tube and laser what has
// changed.
func (t *talk) place(ask session.Ask) {
	if ask.Stage.ID != t.stage {
		t.stage, t.goal = ask.Stage.ID, ""
		t.say("Stage: " + full(ask.Stage.Title))
	}
	for _, h := range []struct {
		what    string
		was, is header.Wording
	}{
		{"Stand", t.header.Stand, ask.Heading.Stand},
		{"Tool", t.header.Tool, ask.Heading.Tool},
		{"Tube", t.header.Tube, ask.Heading.Tube},
		{"Laser", t.header.Laser, ask.Heading.Laser},
	} {
		if h.is != h.was && h.is.Long != "" {
			t.say(h.what + ": " + full(h.is.Long))
		}
	}
	if moved := ask.Heading.Stand != t.header.Stand; moved {
		t.focuser(ask.Header.Stand)
	}
	t.header = ask.Heading
}

// focuser says where the focuser is from where one stands.
func (t *talk) focuser(stand header.Stand) {
	at, ok := map[header.Stand]optics.Station{header.StandSky: optics.SkyEnd, header.StandBehind: optics.Behind}[stand]
	if ok {
		t.say("From here the focuser is at " + words.HourWords(t.work.State().Tel.FocuserDial(at)) + ".")
	}
}

// screw says where a screw or lock is, as one faces the heads, the first time it
// is to be turned.
func (t *talk) screw(turn optics.Turn) {
	s := t.work.State()
	i, err := s.Index(turn)
	name := string(turn.Mirror) + " " + turn.Screw + turn.Lock
	if err != nil || t.placed[name] || s.Tel.Cell(turn.Mirror).PlacesKnown == optics.Unknown {
		return
	}
	if t.placed == nil {
		t.placed = map[string]bool{}
	}
	t.placed[name] = true
	what := "Screw " + turn.Screw
	if turn.Lock != "" {
		what = "Lock " + turn.Lock + ", like its screw,"
	}
	t.say(what + " is at " + words.HourWords(s.Tel.ScrewDial(turn.Mirror, i)) + " as you face the heads.")
}

// cautions says what a stage asks to be done and to beware of, the first time
// it is come to.
func (t *talk) cautions(ask session.Ask) {
	if t.warned[ask.Stage.ID] || ask.Step == session.StepMoved {
		return
	}
	t.warned[ask.Stage.ID] = true
	t.doing(ask.Stage)
	t.beware(ask.Stage)
}

func (t *talk) doing(st *session.Stage) {
	for _, do := range st.Do {
		t.say(do)
	}
}

func (t *talk) beware(st *session.Stage) {
	for _, caution := range st.Beware {
		t.sayWhole("Caution: " + caution)
	}
}

func (t *talk) question(ask session.Ask) {
	if ask.Beam != "" && ask.Beam != t.beam {
		t.beam = ask.Beam
		t.sayWhole("Caution: " + t.beam)
	}
	if ask.Told != nil {
		t.moves(ask)
		if ask.Told.Watch && t.work.Bench == nil {
			t.say("An equals sign says that it stands there.")
		}
		if t.work.Bench != nil {
			s := t.work.State()
			for _, how := range s.TurnBriefly(s.Working()) {
				t.say(strings.ToUpper(how[:1]) + how[1:] + ".")
			}
			if ask.Told.Watch {
				t.say("Enter turns it so, then you look. An equals sign says at once that the spot stands there. Or say what you turned instead, as in: B -1/4.")
			} else {
				t.say("Enter when it is turned as told. Or say what you turned instead, as in: B -1/4.")
			}
			return
		}
	}
	if see := t.work.See(); see != "" {
		t.say("You see: " + see)
	}
	t.wanted(ask)
	t.say(ask.Say)
	if ask.Note != "" {
		t.sayWhole(ask.Note)
	}
	for i, o := range ask.Options {
		t.sayf("%d: %s", i+1, full(o.Words))
	}
	if ask.Want == session.WantConfirm {
		t.say("Enter when that is done.")
	}
}

// wanted says where the spot is wanted and how near counts, when that is new.
func (t *talk) wanted(ask session.Ask) {
	if !ask.HasGoal || ask.Want != session.WantReading {
		return
	}
	s := t.work.State()
	goal := "Wanted: " + aimWords(s.Tel, ask.Face, ask.Goal) + "."
	if goal != t.goal {
		t.goal = goal
		t.say(goal)
	}
}

func aimWords(tel optics.Telescope, f optics.Face, g optics.Goal) string {
	within := fmt.Sprintf("within %s of ", mm(g.InsideMM))
	if g.At.Len() < 0.5 {
		return within + "the middle"
	}
	at := tel.TubeToDial(f, g.At)
	return within + "a place at " + words.PlaceWords(f, at, at.Len())
}
