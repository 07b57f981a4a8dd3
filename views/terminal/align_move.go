package terminal

import (
	"fmt"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/terminal/theme"
)

// drawMove draws what to turn as one sentence beside the face: turn this by so
// much, that way, stop there, then that.
func (s *align) drawMove(p *page, typed string) {
	st := s.state()
	ask := st.Ask()
	if ask.Face == "" {
		s.scene(p, s.drawn(typed)) // nothing is read after it
	} else {
		p.Face(p.sizes.Face, s.faceSpec(p.sizes, typed))
	}
	told := ask.Told
	callOut(p, st, told.Moves[0])
	stopAndThen(p, st, ask)
	s.figures(p, typed)
	if p.roomy() {
		s.sidePictures(p, st, told)
	}
}

// callOut draws the first of the moves: its letter in the ring that the key's
// handle goes round, and the amount.
func callOut(p *page, st session.State, m session.ToldMove) {
	word, letter := "turn", m.Screw
	if m.Lock != "" {
		word, letter = "lock", m.Lock
	}
	p.at(p.TurnWord, theme.Label, p.pal.Heading(word))
	p.Key(p.Ring, schematic.KeySpec{Turns: m.Turns, Bold: p.Projector})
	letters(p, p.Letter, letter, p.LetterSize)
	p.at(p.AboutWord, theme.Label, aboutWords(p, st, m))
	amount := session.TurnsText(m.Turns)
	size := p.BigFit(amount, p.Cols-p.Amount.X, p.AmountSize, schematic.Small)
	p.Big(p.Amount.X, p.Amount.Y, schematic.BigSpec{Text: amount, Size: size, Role: theme.Huge, Low: size == schematic.Small && p.AboutWord.Y == p.Amount.Y-1 && !p.narrow()})
	sense := session.SenseWords(m.Turns)
	if p.SenseBig {
		bigSense(p, m.Turns)
		col := p.at(p.ScrewAt, theme.Act, sense)
		p.TextMax(col+2, p.ScrewAt.Y, p.ScrewAt.X+p.ScrewAt.W-col-2, theme.Label, placeOf(st, m))
		return
	}
	if p.Sense.H == 1 && schematic.Width(sense) > p.Sense.W {
		sense = senseBriefly(m.Turns)
	}
	p.Paragraph(p.Sense, theme.Act, sense)
	p.at(p.ScrewAt, theme.Label, placeOf(st, m))
}

// aboutWords stand over the amount; where the screw's place has no row of its
// own they say it too.
func aboutWords(p *page, st session.State, m session.ToldMove) string {
	hour, ok := screwHour(st, m)
	if p.ScrewAt.W > 0 || !ok {
		return "about"
	}
	return m.Screw + m.Lock + " at " + session.ClockText(optics.AtHour(hour, 1)) + ", about"
}

// letters draws a screw's label; one that has no big form is written small.
func letters(p *page, r schematic.Rect, label string, size schematic.BigSize) {
	if w := p.BigWidth(label, size); w > 0 && w <= r.W+2 {
		p.Big(r.X+(r.W-w)/2, r.Y, schematic.BigSpec{Text: label, Size: size, Role: theme.Huge})
		return
	}
	p.TextMax(r.X, r.Y+r.H/2, r.W+2, theme.Act, label)
}

func bigSense(p *page, turns float64) {
	word := "CLOCKWISE"
	if turns < 0 {
		word = "ANTICLOCKWISE"
	}
	size := p.BigFit(word, p.Sense.W, p.SenseSize, schematic.Small)
	x := max(p.Sense.X, min(p.StopBig.X, p.Sense.X+p.Sense.W-p.BigWidth(word, size)))
	p.Big(x, p.Sense.Y, schematic.BigSpec{Text: word, Size: size, Role: theme.Huge})
}

// stopAndThen writes the rest of the sentence: what is taken up after it, where
// to stop, and what is foretold.
func stopAndThen(p *page, st session.State, ask session.Ask) {
	told := ask.Told
	stopAt, thenAt := p.Stop, p.Then
	stopWord, thenWord := p.StopWord, p.ThenWord
	if more := told.Moves[1:]; len(more) > 0 {
		if stopAt.W > 0 { // the stop belongs to the last of them
			thenAt.Y, thenWord.Y = stopAt.Y, stopAt.Y
			stopAt.Y, stopWord.Y = stopAt.Y+1, stopAt.Y+1
		}
		p.at(thenWord, theme.Label, p.pal.Heading("then"))
		thenAt.W = p.Cols - thenAt.X
		p.at(thenAt, theme.Act, moreWords(more, thenAt.W))
	} else if len(told.Then) > 0 {
		p.at(thenWord, theme.Label, "then")
		p.at(thenAt, theme.Ink, session.MoveWords(told.Then[0].Turn))
	}
	if n, of, due := st.NipRound(); due && told.Moves[0].Lock != "" && told.Moves[0].Turns > 0 {
		p.at(stopWord, theme.Label, p.pal.Heading("round"))
		if stopAt.W == 0 {
			stopAt = schematic.Rect{X: stopWord.X + 6, Y: stopWord.Y, W: 20}
		}
		p.at(stopAt, theme.Ink, fmt.Sprintf("%d of %d", n, of))
	}
	stop, at, ok := lastStop(st, told, ask.Face)
	if !ok {
		return
	}
	if p.StopBig.W > 0 {
		bigStop(p, st.Tel, ask.Face, at, stop.As)
		return
	}
	p.at(stopWord, theme.Label, p.pal.Heading("stop"))
	for i, l := range stopLines(p.sizes, st.Tel, ask.Face, at, stop.As) {
		p.at(schematic.Rect{X: stopAt.X, Y: stopAt.Y + i, W: p.Cols - 1 - stopAt.X, H: 1}, l.role, l.text)
	}
}

// briefly says the moves after the first in as few words as will do.
func briefly(more []session.ToldMove) string {
	var names []string
	for _, m := range more {
		if m.Turns != more[0].Turns {
			var each []string
			for _, m := range more {
				each = append(each, m.Screw+m.Lock+" "+session.TurnsText(m.Turns)+" "+senseWord(m.Turns))
			}
			return strings.Join(each, "; ")
		}
		names = append(names, m.Screw+m.Lock)
	}
	if len(more) > 1 {
		return strings.Join(names, ", ") + " each " + session.TurnsText(more[0].Turns) + " " + senseWord(more[0].Turns)
	}
	return names[0] + " " + session.TurnsText(more[0].Turns) + ", " + senseBriefly(more[0].Turns)
}

// senseBriefly says the sense of a turn without brackets.
func senseBriefly(turns float64) string {
	return strings.NewReplacer(" (", ", ", ")", "").Replace(session.SenseWords(turns))
}

func senseWord(turns float64) string {
	if turns < 0 {
		return "ease"
	}
	return "tighten"
}

// moreWords says the moves after the first, in full where that fits: those that
// go alike in one breath.
func moreWords(more []session.ToldMove, width int) string {
	if width < 30 { // "clockwise" is drawn and told with the first
		return briefly(more)
	}
	alike := true
	var names, full, short []string
	for _, m := range more {
		alike = alike && m.Turns == more[0].Turns
		name := m.Screw + m.Lock
		names = append(names, name)
		full = append(full, name+" "+session.TurnsText(m.Turns)+", "+session.SenseWords(m.Turns))
		short = append(short, name+" "+session.TurnsText(m.Turns)+" "+senseBriefly(m.Turns))
	}
	if alike && len(more) > 1 {
		return strings.Join(names, " and ") + " the same: " + session.TurnsText(more[0].Turns) + " each"
	}
	if words := strings.Join(full, "; "); schematic.Width(words) <= width {
		return words
	}
	return strings.Join(short, "; ")
}
