package terminal

import (
	"fmt"
	"math"
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
		s.scene(p, st) // nothing is read after it
	} else {
		p.Face(p.sizes.Face, s.faceSpec(p.sizes, typed))
	}
	told := ask.Told
	callOut(p, st, told.Moves[0])
	stopAndThen(p, st, ask)
	figures(p, st, ask)
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
	p.at(p.AboutWord, theme.Label, "about")
	amount := session.TurnsText(m.Turns)
	size := p.BigFit(amount, p.Cols-p.Amount.X, p.AmountSize, schematic.Small)
	p.Big(p.Amount.X, p.Amount.Y, schematic.BigSpec{Text: amount, Size: size, Role: theme.Huge, Low: size == schematic.Small && p.AboutWord.Y == p.Amount.Y-1 && !p.narrow()})
	sense := session.SenseWords(m.Turns)
	if p.SenseBig {
		bigSense(p, m.Turns)
		p.at(p.ScrewAt, theme.Act, sense)
		return
	}
	p.Paragraph(p.Sense, theme.Act, sense)
	where := placeOf(st, m)
	if p.ASCII() {
		where = schematic.TopGoes(m.Turns)
	}
	p.at(p.ScrewAt, theme.Label, where)
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

// placeOf says where a screw stands as one faces it.
func placeOf(st session.State, m session.ToldMove) string {
	name := m.Screw + m.Lock
	i, err := st.Index(m.Turn)
	if err != nil || st.Tel.Cell(m.Mirror).PlacesKnown == optics.Unknown {
		return fmt.Sprintf("%s on the %s", name, m.Mirror)
	}
	at := session.ClockText(st.Tel.ScrewDial(m.Mirror, i))
	if m.Lock != "" {
		return "beside " + name + ", at " + at
	}
	return name + " is at " + at
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
	stop, at, ok := lastStop(st, told, ask.Face)
	if !ok {
		return
	}
	before, place := stopWords(ask.Face, at, stop.As)
	if p.narrow() {
		place = strings.Replace(place, "from the ", "from ", 1)
	}
	if p.StopBig.W > 0 {
		bigStop(p, ask.Face, at, stop.As)
		return
	}
	p.at(stopWord, theme.Label, p.pal.Heading("stop"))
	p.at(schematic.Rect{X: stopAt.X, Y: stopAt.Y, W: p.Cols - 1 - stopAt.X, H: 1}, theme.Ink, before)
	p.at(schematic.Rect{X: stopAt.X, Y: stopAt.Y + 1, W: p.Cols - 1 - stopAt.X, H: 1}, theme.Act, place)
}

// moreWords says the moves after the first, in full where that fits: those that
// go alike in one breath.
func moreWords(more []session.ToldMove, width int) string {
	alike := true
	var names, full, short []string
	for _, m := range more {
		alike = alike && m.Turns == more[0].Turns
		name := m.Screw + m.Lock
		names = append(names, name)
		full = append(full, name+" "+session.TurnsText(m.Turns)+", "+session.SenseWords(m.Turns))
		short = append(short, name+" "+session.TurnsText(m.Turns)+" "+strings.NewReplacer(" (", ", ", ")", "").Replace(session.SenseWords(m.Turns)))
	}
	if alike && len(more) > 1 {
		return strings.Join(names, " and ") + " the same: " + session.TurnsText(more[0].Turns) + " each"
	}
	if words := strings.Join(full, "; "); schematic.Width(words) <= width {
		return words
	}
	return strings.Join(short, "; ")
}

// lastStop is where the last of the moves is to stop.
func lastStop(st session.State, told *session.Told, f optics.Face) (session.ToldStop, optics.Dial, bool) {
	for i := len(told.Moves) - 1; i >= 0; i-- {
		if m := told.Moves[i]; m.Stop != nil && m.Mirror.SpotFace() == f {
			return *m.Stop, st.Tel.ToDial(f, optics.Seen{Right: m.Stop.Right, Up: m.Stop.Up}), true
		}
	}
	return session.ToldStop{}, optics.Dial{}, false
}

// stopWords says where to stop in two parts, the second the one that counts.
func stopWords(f optics.Face, at optics.Dial, as optics.StopKind) (before, place string) {
	switch as {
	case optics.StopBearing:
		return "when the spot stands at", session.HourWords(at) + " from " + middle(f)
	case optics.StopClosest:
		return "where the spot comes nearest", "to " + middle(f)
	}
	return "when the spot stands at", placeText(f, at)
}

// placeText says a place briefly: "4:30, 9 mm from the hole".
func placeText(f optics.Face, at optics.Dial) string {
	if at.Len() < 0.25 {
		return "at " + middle(f)
	}
	return fmt.Sprintf("%s, %s mm from %s", session.ClockText(at), mmText(at.Len()), middle(f))
}

// mmText rounds a length to what eyes can use.
func mmText(mm float64) string {
	if mm < 9.5 {
		return strings.TrimSuffix(fmt.Sprintf("%.1f", math.Round(2*mm)/2), ".0")
	}
	return fmt.Sprintf("%.0f", mm)
}

// middle is what readings on a face are measured from, briefly.
func middle(f optics.Face) string {
	switch f {
	case optics.FaceTarget:
		return "the hole"
	case optics.FaceSecondary:
		return "the other spot"
	}
	return "the middle"
}

// bigStop writes where to stop in big letters.
func bigStop(p *page, f optics.Face, at optics.Dial, as optics.StopKind) {
	clock, rest := session.ClockText(at), "from "+middle(f)
	label := "stop when the spot stands at"
	switch as {
	case optics.StopClosest:
		p.Paragraph(p.StopWord, theme.Label, "stop where the spot comes")
		p.TextMax(p.StopBig.X, p.StopBig.Y+1, p.Cols-1-p.StopBig.X, theme.Act, "nearest to "+middle(f))
		return
	case optics.StopPoint:
		rest = mmText(at.Len()) + " mm " + rest
		if p.Projector {
			clock, rest = clock+" "+mmText(at.Len())+" mm", "from "+middle(f)
		}
	}
	p.Paragraph(p.StopWord, theme.Label, label)
	size := p.BigFit(clock, p.StopBig.W, bigFor(p.StopBig.H), schematic.Small)
	end := p.Big(p.StopBig.X, p.StopBig.Y, schematic.BigSpec{Text: clock, Size: size, Role: theme.Huge, Low: p.StopWord.H > 1})
	mm := p.StopMM
	if p.Projector {
		mm.X = end + 2
		mm.W = p.Cols - 1 - mm.X
	}
	p.at(mm, theme.Act, rest)
}

// bigFor is the letter size that a block of that height holds.
func bigFor(rows int) schematic.BigSize {
	if rows >= 7 {
		return schematic.SmallDouble
	}
	return schematic.Small
}

// figures writes where the spot is, how far from good enough, and why this
// move.
func figures(p *page, st session.State, ask session.Ask) {
	if marks := readings(st, ask.Face); len(marks) > 0 && known(st, ask.Face) {
		at := p.Spot
		if p.SpotWord.W > 0 {
			p.at(p.SpotWord, theme.Label, "spot")
			text := placeText(ask.Face, marks[len(marks)-1].At)
			if p.narrow() {
				text = strings.Replace(text, "from the ", "from ", 1)
			}
			p.at(at, theme.Ink, text)
		} else {
			p.at(at, theme.Head, "spot  "+placeText(ask.Face, marks[len(marks)-1].At))
		}
	}
	axisRow(p, st)
	p.at(p.WhyWord, theme.Label, "why")
	p.Paragraph(p.Why, theme.Ink, ask.Told.Why+" ("+sure(ask.Told.Trust)+")")
}

// axisRow draws the axis error as a bar with a post at what is allowed.
func axisRow(p *page, st session.State) {
	if p.Axis.W <= 0 {
		return
	}
	allowed := st.AllowedMM()
	mm, _, ok := st.AxisError()
	r := p.Axis
	p.at(p.AxisWord, theme.Label, "axis")
	if !ok {
		text := "not known until both are seen"
		if p.narrow() {
			text = "not known yet"
		}
		if p.AxisWord.W == 0 {
			text = "axis  " + text
		}
		p.at(r, theme.Label, text)
		return
	}
	text := fmt.Sprintf("%.1f mm, %.1f allowed", mm, allowed)
	if r.H > 1 { // the bar above its words
		p.Bar(r.X, r.Y, r.W-8, axisBar(mm, allowed))
		p.TextMax(r.X, r.Y+1, r.W, theme.Head, "axis  "+text)
		return
	}
	bar := min(10, max(4, r.W-schematic.Width(text)-1))
	p.Bar(r.X, r.Y, bar, axisBar(mm, allowed))
	p.TextMax(r.X+bar+1, r.Y, r.W-bar-1, theme.Ink, text)
}

// axisBar is the bar of an axis error; three times what is allowed at least
// find room.
func axisBar(mm, allowed float64) schematic.BarSpec {
	role := theme.Ink
	if mm <= allowed {
		role = theme.Good
	}
	return schematic.BarSpec{Value: mm, Allowed: allowed, Full: math.Max(1.15*mm, 3*allowed), Role: role}
}

// sure says a probability in words.
func sure(trust float64) string {
	switch {
	case trust >= 0.9:
		return "sure"
	case trust >= 0.7:
		return "fairly sure"
	}
	return "a try: it will tell"
}
