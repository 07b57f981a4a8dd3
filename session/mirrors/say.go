package mirrors

import (
	"fmt"
	"math"
	"strings"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/words"
)

// SayTurn says how to make the told moves: in goes, with a touch first where the
// way is a guess, until the cue where the spot is watched.
func (s Work) SayTurn(m optics.Mirror) string {
	say := ""
	for i, t := range s.Due.Moves {
		if t.Goes < 2 {
			continue
		}
		each := words.TurnsText(math.Abs(t.Turns) / float64(t.Goes))
		say = fmt.Sprintf("%s at a time, %d goes. ", each, t.Goes)
		if other, ok := s.partner(i); ok && other.Goes == t.Goes {
			say = "By turns, " + say
		} else if t.Lock != "" {
			say = "Lock " + t.Lock + ": " + say
		} else {
			say = t.Screw + ": " + say
		}
		break
	}
	for _, t := range s.Due.Moves {
		if t.Touch && t.Toward != nil {
			say += s.sayTouch(t)
			break
		}
	}
	end := "Turn, key out, hands off, "
	switch {
	case s.Due.Snug && m == optics.Primary:
		end = "Turn. If one of the four screws hangs free, tighten it until it just touches. Key out, hands off, "
	case s.Due.Snug && !s.Due.Watch:
		end = "Turn. Then snug all three. Key out, hands off, "
	case s.Due.Snug:
		end = "Turn, stop at the cue. Then snug all three; if you stopped early, first the one you eased. Key out, hands off, "
	case s.Due.Watch:
		end = "Stop at the cue, key out, hands off, "
	}
	if s.Knocks(m) {
		end += "a knuckle on the cell, "
	}
	return say + end + "then look. "
}

// TurnBriefly says the same in clauses of a few words, the last the one that must not
// be missed: where there is too little room for all the first go. Of the locks' rounds
// the why says how.
func (s Work) TurnBriefly(m optics.Mirror) []string {
	var how []string
	for i, t := range s.Due.Moves {
		if t.Goes < 2 || t.Lock != "" {
			continue
		}
		each := words.TurnsText(math.Abs(t.Turns)/float64(t.Goes)) + " a go"
		if other, ok := s.partner(i); ok && other.Goes == t.Goes {
			each = "by turns, " + each
		} else {
			each = t.Screw + ": " + each
		}
		how = append(how, each)
		break
	}
	for _, t := range s.Due.Moves {
		if t.Touch && t.Toward != nil {
			toward := s.Tel.ToDial(m.SpotFace(), optics.Seen{Right: t.Toward.Right, Up: t.Toward.Up})
			how = append(how, fmt.Sprintf("first a touch of %s: toward %s", t.Screw, words.HourWords(toward)))
			break
		}
	}
	how = append(how, s.legBriefly(m)...)
	if s.Knocks(m) {
		how = append(how, "then knock on the cell")
	}
	switch {
	case s.Due.Snug && m == optics.Primary:
		how = append(how, "then take up a screw that hangs free")
	case s.Due.Snug:
		how = append(how, "then snug all three")
	}
	return how
}

// legBriefly says where the first of two watched legs ends; of the last the cue
// says it.
func (s Work) legBriefly(m optics.Mirror) []string {
	for _, t := range s.Due.Moves[:max(0, len(s.Due.Moves)-1)] {
		if t.Stop != nil && s.Due.Watch {
			at := s.Tel.ToDial(m.SpotFace(), optics.Seen{Right: t.Stop.Right, Up: t.Stop.Up})
			return []string{fmt.Sprintf("%s until %s, then on", t.Screw, words.HourWords(at))}
		}
	}
	return nil
}

// sayTouch says how a move begins whose way is a guess, and what to say where it
// is another.
func (s Work) sayTouch(m event.ToldMove) string {
	toward := s.Tel.ToDial(m.Mirror.SpotFace(), optics.Seen{Right: m.Toward.Right, Up: m.Toward.Up})
	most := "1/8"
	if m.Mirror == optics.Primary {
		most = "1/4"
	}
	return fmt.Sprintf("First a touch of %s, %s at most. The spot should set off toward %s. If it goes another way, stop and type which, as in: went 7. ", m.Screw, most, words.HourWords(toward))
}

// ScrewsAt says where the screws of mirror m are as one faces their heads, to be
// said after what is asked; "" where that is not known.
func (s Work) ScrewsAt(m optics.Mirror) string {
	cell := s.Tel.Cell(m)
	if cell.PlacesKnown == optics.Unknown {
		return ""
	}
	at := make([]string, len(cell.Labels))
	for i, label := range cell.Labels {
		at[i] = label + " " + words.ClockText(s.Tel.ScrewDial(m, i))
	}
	return " Where they are as you face them: " + strings.Join(at, ", ") + "."
}
