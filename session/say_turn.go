package session

import (
	"fmt"
	"math"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/words"
)

// sayTurn says how to make the told moves: in goes, with a touch first where the
// way is a guess, until the cue where the spot is watched.
func (s State) sayTurn() string {
	say := ""
	for i, m := range s.told.Moves {
		if m.Goes < 2 {
			continue
		}
		each := words.TurnsText(math.Abs(m.Turns) / float64(m.Goes))
		say = fmt.Sprintf("%s at a time, %d goes. ", each, m.Goes)
		if other, ok := s.partner(i); ok && other.Goes == m.Goes {
			say = "By turns, " + say
		} else {
			say = m.Screw + ": " + say
		}
		break
	}
	for _, m := range s.told.Moves {
		if m.Touch && m.Toward != nil {
			say += s.sayTouch(m)
			break
		}
	}
	end := "Turn, key out, hands off, "
	switch {
	case s.told.Snug && s.Working() == optics.Primary:
		end = "Turn; whichever of the four screws hangs free: take it up until it just touches. Key out, hands off, "
	case s.told.Snug:
		end = "Turn, stop at the cue; all three snug, what was eased first if you stopped early. Key out, hands off, "
	case s.told.Watch:
		end = "Stop at the cue, key out, hands off, "
	}
	if s.Knocks(s.Working()) {
		end += "a knuckle on the cell, "
	}
	return say + end + "then look. "
}

// sayTouch says how a move begins whose way is a guess, and what to say where it
// is another.
func (s State) sayTouch(m event.ToldMove) string {
	toward := s.Tel.ToDial(m.Mirror.SpotFace(), optics.Seen{Right: m.Toward.Right, Up: m.Toward.Up})
	most := "1/8"
	if m.Mirror == optics.Primary {
		most = "1/4"
	}
	return fmt.Sprintf("A touch of %s first, %s at most: it should set off toward %s. Another way? Stop, and say which, as in: went 7. ", m.Screw, most, words.HourWords(toward))
}
