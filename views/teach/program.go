package teach

import (
	"fmt"
	"slices"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/lesson"
)

// longProgram is more than the program's own session asks on any telescope.
const longProgram = 400

// programMoves returns how many moves the program tells on the telescope of a
// task, to somebody with the eyes of that level who turns what is told.
func (c *Class) programMoves(t lesson.Task) (int, error) {
	t.Alone, t.Against = false, false
	l := c.Lesson
	l.Tasks = []lesson.Task{t}
	own, err := Begin(c.desk, l)
	if err != nil {
		return 0, err
	}
	w := own.work
	for range longProgram {
		s := w.State()
		if t.Until(s) {
			return screwMoves(s), nil
		}
		line := "" // as told, or what is usual
		if ask := s.Ask(); ask.Want == session.WantReading && ask.Told == nil {
			line = w.Bench.World().Eyes(ask.Face).String()
		}
		if _, err := w.Line(line); err != nil {
			if err := w.Send(w.Bench.Ideal(s, "")); err != nil {
				return 0, err
			}
		}
	}
	return 0, fmt.Errorf("the program does not come to the end of %s %d", t.World.Level, t.World.Seed)
}

// overProgram reports whether an exam took more moves than it may.
func overProgram(r lesson.Result) bool {
	return r.Program > 0 && r.Moves > lesson.MayMove(r.Program)
}

// screwMoves is how many times screws were turned: locks, which go with them in
// one move or by themselves, are not counted.
func screwMoves(s session.State) int {
	n := 0
	for _, ev := range s.Events() {
		if ev.Kind == event.KindTurned && slices.ContainsFunc(ev.Turned, func(t optics.Turn) bool { return t.Screw != "" }) {
			n++
		}
	}
	return n
}
