package align

import (
	"errors"
	"maps"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/lex"
	"spotward/session/reading"
	"spotward/session/shelf"
	"spotward/views/desk"
	"spotward/views/terminal/frame"
)

// align is a session in hand: it draws the session's state and sends it what is
// typed. Of its own it holds only how the drawings are turned.
type Screen struct {
	Work  *desk.Work
	By    beside       // who stands by; nil = nobody
	Turn  int          // how the dial is turned: an index into turns
	stood header.Stand // where one stood at the last answer; "" = none yet
	Gone  bool
	zoom  zoom
}

func New(w *desk.Work) *Screen { return &Screen{Work: w} }

func (s *Screen) State() session.State { return s.Work.Shown() }

// practising reports whether the telescope is not there.
func (s *Screen) practising() bool { return s.Work.Bench != nil }

// Take takes a line: the words that only change what is shown, then whatever
// the session understands.
func (s *Screen) Take(a *frame.App, text string) tea.Cmd {
	word := reading.Command(text)
	if show, ok := s.shows()[word]; ok && !s.Begins(word) {
		a.Used()
		show(a)
		return nil
	}
	switch word {
	case "q", "quit":
		return s.quit(a)
	}
	if s.By != nil && s.By.Holds() != nil {
		a.Fail(s.By.Holds())
		return nil
	}
	stood := s.State().Ask().Header.Stand
	_, turning := s.turnsFocuser(text)
	echo, err := s.Work.Line(text)
	if err != nil {
		a.Fail(err)
		return nil
	}
	if _, ok := s.pictured(); ok { // it is drawn, and asked
		a.Used()
		return nil
	}
	if !turning { // turned, it is still to be agreed to
		s.stood = stood
	}
	a.Used()
	a.Say(s.said(text, echo))
	if s.By != nil && s.By.Taken(a) {
		return nil
	}
	if s.State().Over {
		s.over(a)
	}
	return nil
}

// said is what was understood; of an undo also what it cannot take back.
func (s *Screen) said(text, echo string) string {
	events := s.State().Events()
	if word := strings.ToLower(strings.TrimSpace(text)); word != "u" && word != "undo" || len(events) == 0 {
		return echo
	}
	switch events[len(events)-1].Kind {
	case event.KindTurned, event.KindHand:
		return "the answer is undone; what was turned stays turned"
	}
	return echo
}

var errNoView = errors.New("this drawing is from the side: one from an end of the tube can be turned")

// Begins reports whether a word that is a command elsewhere begins an answer here.
func (s *Screen) Begins(word string) bool { return answer.Begins(s.State().Ask(), word) }

// shows are the words that change what is shown, and nothing else.
func (s *Screen) shows() map[string]func(a *frame.App) {
	why := func(a *frame.App) { a.Push(whyPage(s)) }
	view := func(a *frame.App) {
		if s.State().Ask().Header.Stand == header.StandBeside {
			a.Fail(errNoView)
			return
		}
		s.Turn = (s.Turn + 1) % len(turns)
		a.Say(turns[s.Turn].words)
	}
	words := map[string]func(a *frame.App){
		"w": why, "why": why,
		"v": view, "view": view,
		"do": func(a *frame.App) { a.Push(doPage(s)) }, "what to do": func(a *frame.App) { a.Push(doPage(s)) },
		"call":  func(a *frame.App) { a.Push(callPage(s)) },
		"pause": s.Esc,
	}
	if s.By != nil {
		maps.Copy(words, s.By.Words())
	}
	return words
}

// over ends the work and shows what it came to.
func (s *Screen) over(a *frame.App) {
	id, err := s.Work.Close()
	s.Gone = true
	end := &EndPage{State: s.State(), record: id}
	if s.practising() {
		end.after = s.Work.Bench.Afterwards()
	}
	a.Exit = frame.ExitDone
	if end.State.Outcome == session.OutcomeStopped {
		a.Exit = frame.ExitUnfinished
	}
	a.Replace(end)
	if err != nil {
		a.Fail(err)
	}
}

func (s *Screen) Esc(a *frame.App) { a.Push(newPause(s)) }

// quit leaves the session to be taken up again.
func (s *Screen) quit(a *frame.App) tea.Cmd {
	if err := s.Work.Send(event.Event{Kind: event.KindQuit}); err != nil {
		a.Fail(err)
		return nil
	}
	s.Abandon(a)
	a.Exit = frame.ExitUnfinished
	return a.Pop()
}

// Abandon closes what is kept and says what must not be forgotten.
func (s *Screen) Abandon(a *frame.App) {
	if s.Gone {
		return
	}
	s.Gone = true
	st := s.State()
	if _, err := s.Work.Close(); err != nil {
		a.Farewell = append(a.Farewell, err.Error())
	}
	if st.Laser.On && !s.practising() {
		a.Farewell = append(a.Farewell, "The laser was on: switch it off. Snug the locks before the tube is moved.")
	}
	if s.Work.Session.Kept() {
		a.Farewell = append(a.Farewell, "Left unfinished. To go on: "+s.goOn(a))
	}
}

// goOn is the command that takes the session up again.
func (s *Screen) goOn(a *frame.App) string {
	verb := "align"
	if s.practising() {
		verb = "practice"
	}
	words := "spotward " + verb + " --resume " + s.State().ID
	if dir := a.Desk.Library.Dir(); dir != shelf.DefaultDir() {
		if strings.ContainsAny(dir, " '\"$\\") {
			dir = strconv.Quote(dir)
		}
		words += " --data " + dir
	}
	return words
}

// Echo understands a line as it is typed.
func (s *Screen) Echo(typed string) (string, bool) {
	word := strings.ToLower(strings.TrimSpace(typed))
	if _, ok := s.shows()[word]; ok && !s.Begins(word) {
		return word, true
	}
	if echo, ok := pictureEcho(typed); ok {
		return echo, true
	}
	got, err := answer.Line(s.State(), typed)
	if err == nil {
		return got.Echo, true
	}
	var part *lex.Error
	if errors.As(err, &part) {
		return part.Why, false
	}
	return "", false
}
