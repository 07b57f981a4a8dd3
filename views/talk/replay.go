package talk

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"spotward/session"
	"spotward/views/desk"
)

// Replay tells a session again, a step for each Enter, forward and back.
func Replay(frames []desk.Frame, r io.Reader, out io.Writer) error {
	p := &player{voice: newVoice(out), steps: desk.Steps(frames)}
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
		case "first":
			p.goOn(-p.at)
		case "last":
			p.goOn(len(p.steps) - 1 - p.at)
		case "all":
			for p.at < len(p.steps)-1 && p.err == nil {
				p.goOn(1)
			}
		case "status", "s":
			p.status()
		case "h", "help", "?":
			p.say("Enter tells the next step. Back tells the one before. First, last, or step and its number go straight there. All tells the rest. Status says how things stood. Quit leaves.")
		case "q", "quit":
			return p.err
		default:
			if n, err := strconv.Atoi(strings.TrimSpace(strings.TrimPrefix(strings.ToLower(line), "step"))); err == nil && n >= 1 && n <= len(p.steps) {
				p.goOn(n - 1 - p.at)
				continue
			}
			p.sayf("Not accepted: Enter, back, step 1 to %d, first, last, all, status or quit.", len(p.steps))
		}
	}
	return p.err
}

type player struct {
	voice
	steps []desk.Step
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
		before = p.steps[to-1].Stage
	}
	p.at = to
	p.tell(p.steps[to], before)
}

func (p *player) tell(st desk.Step, before session.StageID) {
	if st.Stage != before || p.at == 0 {
		if row := session.StageRow(st.Stage); row != nil {
			p.say("Stage: " + full(row.Title))
		}
	}
	p.sayWhole(fmt.Sprintf("Step %d, %s.", p.at+1, st.Frames[0].T.Local().Format("15:04:05")))
	for _, f := range st.Frames {
		p.say(full(f.Words()))
		p.say(f.Felt)
	}
	last := st.Last()
	if e, most, ok := last.State.AxisError(); ok {
		p.sayWhole(fmt.Sprintf("Known then: the axis error is about %s, at most %s.", mm(e), mm(most)))
	}
	if last.State.Over {
		p.cameTo(last.State)
	} else if last.See != "" {
		p.say("Then to be seen: " + last.See)
	}
}

func (p *player) status() {
	if p.at < 0 {
		p.say("Nothing has happened yet.")
		return
	}
	p.standing(p.steps[p.at].Last().State)
}
