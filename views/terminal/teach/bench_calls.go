package teach

import (
	"errors"
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/optics"
	"spotward/session/reading"
	"spotward/session/words"
	"spotward/views/practice"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// callsPage is a class at one telescope: each calls where the spot is, all calls
// are drawn, and then where it is.
type callsPage struct {
	align *align.Screen
	face  optics.Face
	calls []call
	truth bool // it is shown
}

// call is what one of the class calls.
type call struct {
	who string
	at  practice.Compared
}

var errNoFace = errors.New("no spot is asked for just now: calls are for a question that asks where one is")

// showCalls has a class call where the spot is that is asked for.
func showCalls(a *frame.App, s *align.Screen) {
	ask := s.State().Ask()
	if ask.Face == "" {
		a.Fail(errNoFace)
		return
	}
	a.Push(&callsPage{align: s, face: ask.Face})
}

// called understands a name and a place, or a place alone.
func (s *callsPage) called(typed string) (call, error) {
	st := s.align.State()
	in := reading.Context{Tel: st.Tel, Face: s.face}
	typed = strings.TrimSpace(typed)
	said, err := reading.Parse(typed, in)
	who, rest, named := strings.Cut(typed, " ")
	if (err != nil || !said.HasPlace()) && named {
		said, err = reading.Parse(rest, in)
	} else {
		who = fmt.Sprint(len(s.calls) + 1)
	}
	switch {
	case err != nil:
		return call{}, err
	case !said.HasPlace():
		return call{}, errors.New("say a name and where it is, as in Ann 4:30 8")
	}
	return call{who, s.align.Work.Bench.Compare(st, s.face, said.At)}, nil
}

func (s *callsPage) Echo(typed string) (string, bool) {
	c, err := s.called(typed)
	if err != nil {
		return "", false
	}
	return c.who + ": " + words.PlaceWords(s.face, c.at.Read, c.at.Read.Len()), true
}

func (s *callsPage) Take(a *frame.App, text string) tea.Cmd {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "", "truth":
		a.Used()
		s.truth = !s.truth
		return nil
	case "b", "back", "q", "quit", "calls":
		return a.Pop()
	case "undo":
		a.Used()
		s.calls = s.calls[:max(0, len(s.calls)-1)]
		return nil
	case "clear":
		a.Used()
		s.calls, s.truth = nil, false
		return nil
	}
	c, err := s.called(text)
	if err != nil {
		a.Fail(err)
		return nil
	}
	a.Used()
	s.calls = append(s.calls, c)
	return nil
}

func (s *callsPage) Esc(a *frame.App) { a.Pop() }

func (s *callsPage) Draw(p *frame.Page, typed string) {
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.Pal.Heading("where is it?"))
	p.TextRight(p.Cols-1, 0, theme.Label, fmt.Sprintf("calls: %d", len(s.calls)))
	st := s.align.State()
	look := s.align.Work.Bench.Look(s.face)
	list := schematic.Rect{X: p.Cols - callsList, Y: 2, W: callsList - 1, H: p.Sizes.Rule.Y - 2}
	dials := []schematic.FaceSpec{s.dial(p, look)}
	if p.Cols >= twoLists {
		bare := align.SightOf(st.Tel, s.face, look, p.Sizes)
		bare.Standing, bare.FocuserWord, bare.GroundWord = nil, "", ""
		if bare.RimMM = max(bare.RimMM, dials[0].RimMM); bare.RimMM > dials[0].RimMM { // held side by side
			dials[0].RimMM = bare.RimMM
			align.Measured(&dials[0], st.Tel, s.face, p.Sizes)
		}
		align.Measured(&bare, st.Tel, s.face, p.Sizes)
		dials = append([]schematic.FaceSpec{bare}, dials...)
	}
	w := (p.Cols - callsList) / len(dials)
	for i, spec := range dials {
		box := schematic.Rect{X: i * w, Y: 1, W: w, H: p.Sizes.Rule.Y - 1}
		spec.Within = box
		if len(dials) > 1 {
			p.TextMax(box.X+1, box.Y, box.W, theme.Label, []string{"as one sees it", "as it was called"}[i])
		}
		p.Face(schematic.Place{Col: box.X + box.W/2, Row: box.Y + box.H/2, R: float64(min(box.W/2-5, box.H-5)) - 0.25}, spec)
	}
	f := p.Flow(list)
	for _, c := range s.calls {
		line := c.who + "  " + words.ReadingText(c.at.Read)
		if s.truth {
			line += "  " + worth(c.at)
		}
		f.Say(theme.You, line)
	}
	if s.truth && look.Visible {
		f.Skip(1)
		p.Typed(f.ForTyped(), words.ReadingText(st.Tel.ToDial(s.face, look.Seen)))
		f.Say(theme.Head, "It is at "+words.PlaceWords(s.face, st.Tel.ToDial(s.face, look.Seen), st.Tel.ToDial(s.face, look.Seen).Len())+".")
	} else if s.truth {
		f.Skip(1)
		f.Say(theme.Head, look.Words)
	}
}

// callsList is how many columns the list of calls takes.
const callsList = 31

// worth says in a word how good a call was.
func worth(c practice.Compared) string {
	switch {
	case c.Good():
		return "good"
	case c.Swapped():
		return "left for right"
	case c.HoursOff() > 0.5:
		return "hour off"
	}
	return "distance off"
}

// dial is the thing with all that was called, and the truth where it is shown.
func (s *callsPage) dial(p *frame.Page, look practice.View) schematic.FaceSpec {
	st := s.align.State()
	spec := align.SeenFrom(st.Tel, s.face, p.Sizes)
	spec.Standing, spec.FocuserWord, spec.GroundWord = nil, "", ""
	spec.Object = align.Quiet(spec.Object)
	for _, c := range s.calls {
		spec.Calls = append(spec.Calls, schematic.Mark{At: c.at.Read, Word: c.who})
	}
	if s.truth && look.Visible {
		spec.Now = &schematic.Mark{At: st.Tel.ToDial(s.face, look.Seen), Word: "true"}
	}
	spec.RimMM = align.RimOf(spec, st.Tel, s.face)
	align.Measured(&spec, st.Tel, s.face, p.Sizes)
	return spec
}

func (s *callsPage) Foot(frame.Sizes) frame.Foot {
	f := frame.Foot{Prompt: "call?", Hint: "a name and a place, as in Ann 4:30 8", Keys: []frame.Key{
		{F: "enter", Word: "", Label: "the truth"}, {F: "undo", Word: "", Label: "one back"}, {F: "clear", Word: "", Label: "all"}, frame.KeyFor("help"), frame.KeyFor("theme"), {F: "esc", Word: "", Label: "back"},
	}}
	if s.truth {
		f.Keys[0].Label = "hide it"
	}
	return f
}
