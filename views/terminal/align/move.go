package align

import (
	"fmt"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// drawMove draws what to turn as one sentence beside the face: turn this by so
// much, that way, stop there, then that.
func (s *Screen) drawMove(p *frame.Page, typed string) {
	st := s.State()
	ask := st.Ask()
	if ask.Face == "" {
		s.scene(p, s.drawn(typed)) // nothing is read after it
	} else {
		p.Face(p.Sizes.Face, s.FaceSpec(p.Sizes, typed))
	}
	told := ask.Told
	callOut(p, st, told.Moves[0])
	s.figures(p, typed, stopAndThen(p, st, ask))
	screwPlate(p, st, told)
	if p.SenseBig { // between the amount and the sense
		p.Typed(schematic.Rect{X: p.Amount.X, Y: p.ScrewAt.Y + 1, W: p.Amount.W, H: p.Sense.Y - p.ScrewAt.Y - 1}, typed)
	}
	if p.Roomy() {
		s.sidePictures(p, st)
	}
}

// callOut draws the first of the moves: its letter in the ring that the key's
// handle goes round, and the amount.
func callOut(p *frame.Page, st session.State, m event.ToldMove) {
	letter := m.Screw + m.Lock
	if m.Lock != "" {
		lockWord(p, aboutWords(p, st, m))
	} else {
		p.At(p.TurnWord, theme.Label, p.Pal.Heading("turn"))
		p.At(p.AboutWord, theme.Label, aboutWords(p, st, m))
	}
	p.Key(p.Ring, schematic.KeySpec{Turns: m.Turns, Bold: p.Projector})
	letters(p, p.Letter, letter, p.LetterSize)
	amount := words.TurnsText(m.Turns)
	wide := p.Cols - p.Amount.X
	if p.StopBig.X > p.Amount.X && p.StopBig.Y < p.Amount.Y+p.Amount.H { // where to stop stands right of it
		const gap = 3 // columns, more than there are between letters
		wide = p.StopBig.X - gap - p.Amount.X
	}
	size := p.BigFit(amount, wide, p.AmountSize, schematic.Small, schematic.Slim)
	if p.BigWidth(amount, size) > wide {
		p.At(schematic.Rect{X: p.Amount.X, Y: p.Amount.Y + p.Amount.H/2, W: wide, H: 1}, theme.Act, amount)
	} else {
		p.Big(p.Amount.X, p.Amount.Y, schematic.BigSpec{Text: amount, Size: size, Role: theme.Huge, Low: size != p.AmountSize || size == schematic.Small && p.AboutWord.Y == p.Amount.Y-1 && !p.Narrow()})
	}
	sense, unit := words.SenseWords(m.Turns), words.TurnUnit(m.Turns)
	if p.ASCII() { // what is drawn of bars and dots is hard to read
		unit = amount + " " + unit
	}
	if p.SenseBig {
		p.At(schematic.Rect{X: p.ScrewAt.X, Y: p.ScrewAt.Y - 1, W: p.ScrewAt.W, H: 1}, theme.Act, unit)
		bigSense(p, m.Turns)
		col := p.At(p.ScrewAt, theme.Act, sense)
		p.TextMax(col+1, p.ScrewAt.Y, p.ScrewAt.X+p.ScrewAt.W-col-1, theme.Label, placeOf(st, m))
		return
	}
	if p.ScrewAt.W == 0 { // all of it in the rows of the sense
		p.Paragraph(p.Sense, theme.Act, unit+", "+sense)
		return
	}
	if p.Sense.H == 1 && schematic.Width(sense) > p.Sense.W {
		sense = words.SensePlain(m.Turns)
	}
	below := p.Sizes.Rule.Y // the row in which what comes next stands
	for _, r := range []schematic.Rect{p.StopWord, p.ThenWord} {
		if r.Y > p.Sense.Y {
			below = min(below, r.Y)
		}
	}
	where, under := placeOf(st, m), schematic.Rect{X: p.ScrewAt.X, Y: p.ScrewAt.Y, W: p.Sense.W, H: 1}
	if p.ScrewAt.Y+1 < below { // a row for each
		p.At(p.Sense, theme.Act, unit)
		p.At(under, theme.Act, sense)
		under.Y++
		p.At(under, theme.Label, where)
		return
	}
	if hour, ok := ScrewHour(st, m); ok {
		at := words.ClockText(optics.AtHour(hour, 1))
		where = fitting1(p.ScrewAt.W, unit+", "+where, unit+", at "+at, words.TurnsText(m.Turns)+" turn, at "+at, words.TurnsText(m.Turns)+" turn at "+at, unit)
	} else {
		where = unit
	}
	p.At(p.Sense, theme.Label, where)
	p.At(under, theme.Act, sense)
}

// lockWord says in large letters that it is a lock, not the screw beside it that
// has the same letter; it makes room for itself over the amount.
func lockWord(p *frame.Page, where string) {
	const word = "LOCK"
	size := p.BigFit(word, p.AboutWord.W, schematic.Small, schematic.Slim)
	rows := p.BigRows(size)
	top := p.TurnWord.Y
	if p.AboutWord.W == 0 || p.Amount.Y+1-top < rows || p.BigWidth(word, size) > p.AboutWord.W {
		p.At(schematic.Rect{X: p.TurnWord.X, Y: top, W: len(word), H: 1}, theme.Act, word)
		p.At(p.AboutWord, theme.Label, where)
		return
	}
	p.Big(p.AboutWord.X, top, schematic.BigSpec{Text: word, Size: size, Role: theme.Huge})
	if low := top + rows - p.Amount.Y; low > 0 {
		for _, r := range []*schematic.Rect{&p.Amount, &p.Sense, &p.ScrewAt} {
			r.Y += low
		}
		p.AboutWord.Y = 0 // nothing stands right over the amount
	}
}

// aboutWords stand over the amount; where the screw's place has no row of its
// own they say it too.
func aboutWords(p *frame.Page, st session.State, m event.ToldMove) string {
	hour, ok := ScrewHour(st, m)
	at := m.Screw + m.Lock + " at " + words.ClockText(optics.AtHour(hour, 1))
	switch {
	case p.ScrewAt.W == 0 && ok && m.Lock != "":
		return "beside " + at
	case m.Lock != "":
		return ""
	case p.ScrewAt.W > 0 || !ok:
		return "about"
	}
	return at + ", about"
}

// letters draws a screw's label; one that has no big form is written small.
func letters(p *frame.Page, r schematic.Rect, label string, size schematic.BigSize) {
	if w := p.BigWidth(label, size); w > 0 && w <= r.W+2 {
		p.Big(r.X+(r.W-w)/2, r.Y, schematic.BigSpec{Text: label, Size: size, Role: theme.Huge})
		return
	}
	p.TextMax(r.X, r.Y+r.H/2, r.W+2, theme.Act, label)
}

func bigSense(p *frame.Page, turns float64) {
	word := "CLOCKWISE"
	if turns < 0 {
		word = "ANTICLOCKWISE"
	}
	size := p.BigFit(word, p.Sense.W, p.SenseSize, schematic.Small)
	x := max(p.Sense.X, min(p.StopBig.X, p.Sense.X+p.Sense.W-p.BigWidth(word, size)))
	p.Big(x, p.Sense.Y, schematic.BigSpec{Text: word, Size: size, Role: theme.Huge})
}

// stopAndThen writes the rest of the sentence: what is taken up after it, where
// to stop, and what is foretold. It returns the first row that it leaves free
// above the figures, 0 where it stands nowhere near them.
func stopAndThen(p *frame.Page, st session.State, ask session.Ask) int {
	told := ask.Told
	stopAt, thenAt := p.Stop, p.Then
	stopWord, thenWord := p.StopWord, p.ThenWord
	free := 0
	if more := told.Moves[1:]; len(more) > 0 {
		thenAt.W = p.Cols - thenAt.X
		first := thenAt.Y
		if stopAt.W > 0 {
			first = stopAt.Y
		}
		lines := MoreLines(told.Moves, thenAt.W)
		if narrow := besidePlate(p, thenAt.X, first+len(lines)-1); narrow < thenAt.W-1 {
			thenAt.W = narrow
			lines = MoreLines(told.Moves, thenAt.W)
		}
		if stopAt.W > 0 { // the stop belongs to the last of them
			thenAt.Y, thenWord.Y = stopAt.Y, stopAt.Y
			stopAt.Y, stopWord.Y = stopAt.Y+len(lines), stopAt.Y+len(lines)
			free = stopAt.Y
		} else if over := thenAt.Y + len(lines) - p.Sizes.Rule.Y; over > 0 && p.StopBig.W > 0 { // they end above the rule, in the row of what the stop is measured from
			const label = 29 // that stands beside "stop when the spot stands at"
			p.StopMM = schematic.Rect{X: p.StopWord.X + label, Y: p.StopWord.Y, W: p.StopWord.W - label, H: 1}
			p.StopWord.W = label
			thenAt.Y, thenWord.Y = thenAt.Y-over, thenWord.Y-over
		}
		p.At(thenWord, theme.Label, p.Pal.Heading("then"))
		for i, l := range lines {
			p.TextMax(thenAt.X, thenAt.Y+i, thenAt.W, theme.Act, l)
		}
	} else if len(told.Then) > 0 {
		p.At(thenWord, theme.Label, "then")
		next := told.Then[0].Turn
		brief := next.Screw + next.Lock + " " + words.TurnsText(next.Turns) + " " + words.SenseWord(next.Turns)
		p.At(thenAt, theme.Ink, fitting1(max(thenAt.W, schematic.Width(brief)), words.MoveWords(next), brief))
	}
	if left := st.NipsLeft(); left > 0 && told.Moves[0].Lock != "" && told.Moves[0].Turns > 0 {
		p.At(stopWord, theme.Label, p.Pal.Heading("left"))
		if stopAt.W == 0 {
			stopAt = schematic.Rect{X: stopWord.X + 6, Y: stopWord.Y, W: 20}
		}
		p.At(stopAt, theme.Ink, roundsWords(left))
	}
	stop, at, ok := lastStop(st, told, ask.Face)
	if !ok {
		return free
	}
	if p.StopBig.W > 0 {
		bigStop(p, st.Tel, ask.Face, at, stop.As, told.Watch)
		return free
	}
	p.At(stopWord, theme.Label, p.Pal.Heading(cueWord(told)))
	width := func(line int) int { return besidePlate(p, stopAt.X, stopAt.Y+line) }
	lines := stopLines(p.Sizes, st.Tel, ask.Face, at, stop.As, told.Watch, width)
	for i, l := range lines {
		p.At(schematic.Rect{X: stopAt.X, Y: stopAt.Y + i, W: width(i), H: 1}, l.role, l.text)
	}
	return stopAt.Y + len(lines)
}

// roundsWords says how many rounds at the locks are left.
func roundsWords(left int) string {
	if left == 1 {
		return "the last round"
	}
	return fmt.Sprintf("%d rounds to go", left)
}

// MoreLines says the moves after the first, in full where that fits a row: those
// that go alike in one breath. None is ever left out.
func MoreLines(moves []event.ToldMove, width int) []string {
	for _, breath := range []bool{true, false} {
		parts := lockAndScrew(moves, breath)
		if parts != nil && (!breath || !slices.ContainsFunc(parts, func(p string) bool { return schematic.Width(p) >= width })) {
			return rows(parts, width)
		}
	}
	more := moves[1:]
	var names, full, short []string
	alike := len(more) > 1
	for _, m := range more {
		alike = alike && m.Turns == more[0].Turns
		name := m.Screw + m.Lock
		names = append(names, name)
		full = append(full, name+" "+words.TurnsText(m.Turns)+", "+words.SenseWords(m.Turns))
		short = append(short, name+" "+words.TurnsText(m.Turns)+" "+words.SenseWord(m.Turns))
	}
	each := words.TurnsText(more[0].Turns)
	whole := []string{strings.Join(full, "; ")}
	if alike {
		whole = []string{strings.Join(names, " and ") + ": " + each + " each, " + words.SenseWord(more[0].Turns), strings.Join(names, ", ") + " each " + each + " " + words.SenseWord(more[0].Turns)}
	} else if len(more) == 1 {
		whole = append(whole, names[0]+" "+each+", "+words.SensePlain(more[0].Turns))
	}
	for _, words := range whole {
		if schematic.Width(words) <= width {
			return []string{words}
		}
	}
	return rows(short, width)
}

// lockAndScrew says the moves after the first where locks are among them and
// screws as well: a lock has its screw's letter. nil where all are of one kind.
// In one breath those that go the same way are one part.
func lockAndScrew(moves []event.ToldMove, breath bool) []string {
	var parts []string
	mixed := false
	for i, m := range moves[1:] {
		before, lock := moves[i], m.Lock != ""
		amount := m.Screw + m.Lock + " " + words.TurnsText(m.Turns)
		same := (before.Lock != "") == lock
		mixed = mixed || !same
		if breath && same && i > 0 && words.SenseWord(before.Turns) == words.SenseWord(m.Turns) {
			last := &parts[len(parts)-1]
			*last = strings.TrimSuffix(*last, " "+words.SenseWord(m.Turns)) + ", " + amount + " " + words.SenseWord(m.Turns)
			continue
		}
		kind := "screw "
		if lock {
			kind = "lock "
		}
		parts = append(parts, kind+amount+" "+words.SenseWord(m.Turns))
	}
	if !mixed {
		return nil
	}
	return parts
}

// rows puts as many of the parts in a row as there is room for.
func rows(parts []string, width int) []string {
	lines := parts[:1:1]
	for _, item := range parts[1:] {
		last := &lines[len(lines)-1]
		if joined := *last + "; " + item; schematic.Width(joined) < width {
			*last = joined
			continue
		}
		*last += ";"
		lines = append(lines, item)
	}
	return lines
}
