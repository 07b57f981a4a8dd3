package terminal

import (
	"errors"
	"maps"
	"strconv"
	"strings"

	"github.com/charmbracelet/bubbletea"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/reading"
	"spotward/session/shelf"
	"spotward/views/desk"
)

// align is a session in hand: it draws the session's state and sends it what is
// typed. Of its own it holds only how the drawings are turned.
type align struct {
	work  *desk.Work
	by    beside        // who stands by; nil = nobody
	turn  int           // how the dial is turned: an index into turns
	stood session.Stand // where one stood at the last answer; "" = none yet
	gone  bool
}

func newAlign(w *desk.Work) *align { return &align{work: w} }

func (s *align) state() session.State { return s.work.Shown() }

// practising reports whether the telescope is not there.
func (s *align) practising() bool { return s.work.Bench != nil }

// take takes a line: the words that only change what is shown, then whatever
// the session understands.
func (s *align) take(a *app, text string) tea.Cmd {
	word := strings.ToLower(strings.TrimSpace(text))
	if show, ok := s.shows()[word]; ok && !s.begins(word) {
		a.used()
		show(a)
		return nil
	}
	switch word {
	case "q", "quit":
		return s.quit(a)
	}
	if s.by != nil && s.by.holds() != nil {
		a.fail(s.by.holds())
		return nil
	}
	stood := s.state().Ask().Header.Stand
	_, turning := s.turnsFocuser(text)
	echo, err := s.work.Line(text)
	if err != nil {
		a.fail(err)
		return nil
	}
	if !turning { // turned, it is still to be agreed to
		s.stood = stood
	}
	a.used()
	a.say(s.said(text, echo))
	if s.by != nil && s.by.taken(a) {
		return nil
	}
	if s.state().Over {
		s.over(a)
	}
	return nil
}

// said is what was understood; of an undo also what it cannot take back.
func (s *align) said(text, echo string) string {
	events := s.state().Events()
	if word := strings.ToLower(strings.TrimSpace(text)); word != "u" && word != "undo" || len(events) == 0 {
		return echo
	}
	switch events[len(events)-1].Kind {
	case event.KindTurned, event.KindHand:
		return "the answer is taken back; what was turned stays turned"
	}
	return echo
}

var errNoView = errors.New("drawn from beside there is nothing to turn: at an end of the tube there is")

// begins reports whether a word that is a command elsewhere begins an answer here.
func (s *align) begins(word string) bool { return s.state().Ask().Begins(word) }

// shows are the words that change what is shown, and nothing else.
func (s *align) shows() map[string]func(a *app) {
	why := func(a *app) { a.push(whyPage(s)) }
	view := func(a *app) {
		if s.state().Ask().Header.Stand == session.StandBeside {
			a.fail(errNoView)
			return
		}
		s.turn = (s.turn + 1) % len(turns())
		a.say(turns()[s.turn].words)
	}
	words := map[string]func(a *app){
		"w": why, "why": why,
		"v": view, "view": view,
		"do": func(a *app) { a.push(doPage(s)) }, "what to do": func(a *app) { a.push(doPage(s)) },
		"call":  func(a *app) { a.push(callPage(s)) },
		"pause": s.esc,
	}
	if s.by != nil {
		maps.Copy(words, s.by.words())
	}
	return words
}

// over ends the work and shows what it came to.
func (s *align) over(a *app) {
	id, err := s.work.Close()
	s.gone = true
	end := &endPage{state: s.state(), record: id}
	if s.practising() {
		end.after = s.work.Bench.Afterwards()
	}
	a.exit = exitDone
	if end.state.Outcome == session.OutcomeStopped {
		a.exit = exitUnfinished
	}
	a.replace(end)
	if err != nil {
		a.fail(err)
	}
}

func (s *align) esc(a *app) { a.push(newPause(s)) }

// quit leaves the session to be taken up again.
func (s *align) quit(a *app) tea.Cmd {
	if err := s.work.Send(event.Event{Kind: event.KindQuit}); err != nil {
		a.fail(err)
		return nil
	}
	s.abandon(a)
	a.exit = exitUnfinished
	return a.pop()
}

// abandon closes what is kept and says what must not be forgotten.
func (s *align) abandon(a *app) {
	if s.gone {
		return
	}
	s.gone = true
	st := s.state()
	if _, err := s.work.Close(); err != nil {
		a.farewell = append(a.farewell, err.Error())
	}
	if st.Laser.On && !s.practising() {
		a.farewell = append(a.farewell, "The laser was on: switch it off, and the locks want to be snug before the tube is moved.")
	}
	if s.work.Session.Kept() {
		a.farewell = append(a.farewell, "Left unfinished. To go on: "+s.goOn(a))
	}
}

// goOn is the command that takes the session up again.
func (s *align) goOn(a *app) string {
	verb := "align"
	if s.practising() {
		verb = "practice"
	}
	words := "spotward " + verb + " --resume " + s.state().ID
	if dir := a.desk.Library.Dir(); dir != shelf.DefaultDir() {
		if strings.ContainsAny(dir, " '\"$\\") {
			dir = strconv.Quote(dir)
		}
		words += " --data " + dir
	}
	return words
}

// echo understands a line as it is typed.
func (s *align) echo(typed string) (string, bool) {
	word := strings.ToLower(strings.TrimSpace(typed))
	if _, ok := s.shows()[word]; ok && !s.begins(word) {
		return word, true
	}
	got, err := s.state().ParseLine(typed)
	if err == nil {
		return got.Echo, true
	}
	var part *reading.Error
	if errors.As(err, &part) {
		return part.Why, false
	}
	return "", false
}

// beside is somebody who stands by a session while it is played: a lesson that
// it is played for, or an instructor.
type beside interface {
	// words are those that the session itself does not know.
	words() map[string]func(a *app)
	// holds says why nothing is taken just now; nil = it is.
	holds() error
	// taken is told of every line that the session took; true = it went on from
	// there by itself.
	taken(a *app) bool
	// foot changes what stands below the drawing.
	foot(f foot, sz sizes) foot
}
