package talk

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/views/desk"
	"spotward/views/practice"
)

// Replay tells a session again, a step for each Enter, forward and back.
func Replay(frames []desk.Frame, r io.Reader, out io.Writer) error {
	p := &player{voice: voice{out: out}, steps: steps(frames)}
	if len(p.steps) == 0 {
		p.say("Nothing stands in this journal.")
		return p.err
	}
	p.begin(frames[0])
	lines := bufio.NewReader(r)
	for p.err == nil {
		line, err := readLine(lines)
		if errors.Is(err, io.EOF) {
			return p.err
		}
		if err != nil {
			return fmt.Errorf("reading what was typed: %w", err)
		}
		switch strings.ToLower(line) {
		case "", "next", "n":
			p.goOn(1)
		case "b", "back":
			p.goOn(-1)
		case "all":
			for p.at < len(p.steps)-1 && p.err == nil {
				p.goOn(1)
			}
		case "status", "s":
			p.status()
		case "h", "help", "?":
			p.say("Enter tells the next step. Back tells the one before. All tells the rest. Status says how things stood. Quit leaves.")
		case "q", "quit":
			return p.err
		default:
			p.say("Not taken: Enter, back, all, status or quit.")
		}
	}
	return p.err
}

// step is what belongs together: what the person did, and what was told then.
type step struct {
	frames []desk.Frame
	stage  session.StageID // it was done in
}

// steps puts what the hands truly did, and what was implied, with the answer
// that it belongs to, and what was told after it.
func steps(frames []desk.Frame) []step {
	var out []step
	var open []desk.Frame
	for i, f := range frames[min(1, len(frames)):] {
		stage := frames[i].State.Ask().Stage.ID
		switch {
		case f.Event.Kind == session.KindAdvised && len(out) > 0 && len(open) == 0:
			last := &out[len(out)-1]
			last.frames = append(last.frames, f)
			continue
		case f.Event.Kind == session.KindHand || f.Event.Implied:
			open = append(open, f)
			continue
		}
		out = append(out, step{append(open, f), stage})
		open = nil
	}
	if open != nil {
		out = append(out, step{open, frames[len(frames)-1].State.Ask().Stage.ID})
	}
	return out
}

type player struct {
	voice
	steps []step
	at    int // the step told last; -1 before any
}

func (p *player) begin(f desk.Frame) {
	p.at = -1
	s := f.State
	p.sayf("Session %s on %s, %s.", s.ID, s.Scope.Name, f.T.Local().Format("2 January 2006 at 15:04"))
	if s.Who != "" {
		p.sayf("At the scope: %s.", s.Who)
	}
	if s.World != nil {
		p.sayf("Practice, level %s, seed %d.", s.World.Level, s.World.Seed)
	}
	p.sayf("%d steps. Enter tells the next one, help what else can be typed.", len(p.steps))
}

// goOn goes on by one step, or back.
func (p *player) goOn(by int) {
	to := p.at + by
	switch {
	case to < 0:
		p.say("This is the beginning.")
		return
	case to >= len(p.steps):
		p.say("That was all.")
		return
	}
	before := session.StageID("")
	if to > 0 {
		before = p.steps[to-1].stage
	}
	p.at = to
	p.tell(p.steps[to], before)
}

func (p *player) tell(st step, before session.StageID) {
	if st.stage != before || p.at == 0 {
		if row := session.StageRow(st.stage); row != nil {
			p.say("Stage: " + full(row.Title))
		}
	}
	p.sayWhole(fmt.Sprintf("Step %d, %s.", p.at+1, st.frames[0].T.Local().Format("15:04:05")))
	for _, f := range st.frames {
		p.say(full(eventWords(f)))
		if f.Event.Kind == session.KindHand {
			p.say(f.Felt)
		}
	}
	last := st.frames[len(st.frames)-1]
	if e, most, ok := last.State.AxisError(); ok {
		p.sayWhole(fmt.Sprintf("Known then: the axis error is about %s, at most %s.", mm(e), mm(most)))
	}
	if last.State.Over {
		p.say(outcomeWords(last.State))
	} else if last.See != "" {
		p.say("Then to be seen: " + last.See)
	}
}

// eventWords says what happened.
func eventWords(f desk.Frame) string {
	ev, s := f.Event, f.State
	switch ev.Kind {
	case session.KindConfirm:
		return "Done, it was said"
	case session.KindChoice:
		return "Answer: " + strings.ReplaceAll(ev.Choice, "_", " ")
	case session.KindReading:
		return "Read: " + readingWords(s, ev)
	case session.KindTurned:
		return "Said to be turned: " + turnsWords(ev.Turned)
	case session.KindHand:
		return "Truly turned: " + turnsWords(ev.Turned)
	case session.KindAdvised:
		return "Told: " + toldWords(*ev.Told)
	case session.KindScrew:
		return "Said of screw " + ev.Screw + ": " + strings.ReplaceAll(string(ev.Is), "_", " ")
	case session.KindSkip:
		return "Left out: " + ev.Why
	case session.KindLaser:
		return "The laser died"
	case practice.KindAct:
		return "Done besides: " + ev.Text
	case session.KindResume:
		return "Taken up again"
	}
	return "Said: " + string(ev.Kind)
}

func readingWords(s session.State, ev session.Event) string {
	switch ev.Saw {
	case session.SawPlace, session.SawOffGlass:
		d := s.Tel.ToDial(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up})
		return session.PlaceWords(ev.Face, d, d.Len())
	}
	return strings.ReplaceAll(string(ev.Saw), "_", " ") + ", on the " + string(ev.Face)
}

func turnsWords(turns []session.Turn) string {
	words := make([]string, len(turns))
	for i, t := range turns {
		words[i] = session.MoveWords(t)
	}
	if len(words) == 0 {
		return "nothing"
	}
	return strings.Join(words, ", then ")
}

func toldWords(t session.Told) string {
	turns := make([]session.Turn, len(t.Moves))
	for i, m := range t.Moves {
		turns[i] = m.Turn
	}
	words := turnsWords(turns)
	if t.Why != "" {
		words += ". Because: " + t.Why
	}
	return words
}

func (p *player) status() {
	if p.at < 0 {
		p.say("Nothing has happened yet.")
		return
	}
	frames := p.steps[p.at].frames
	p.standing(frames[len(frames)-1].State)
}
