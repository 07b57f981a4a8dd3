package teach

import (
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/optics"
	"spotward/session/scope"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

// PathPage is the way of the beam in large: a mirror is tilted, and the beam
// walks. It is nobody's alignment.
type PathPage struct {
	name   string
	Walk   walk
	err    error // the telescope has no beam at all
	Mirror optics.Mirror
	step   float64 // of an arrow key, rad
	held   bool    // by the mouse
	at     [2]int  // where it was last, column and row
	Zones  []mirrorZone
	failed error // of the last step that was no line
}

// mirrorZone is where the mouse takes hold of a mirror.
type mirrorZone struct {
	mirror optics.Mirror
	In     schematic.Rect
}

func newPathPage(scope scope.Scope) *PathPage {
	w, err := NewWalk(scope.Telescope())
	return &PathPage{name: scope.Name, Walk: w, err: err, Mirror: optics.Secondary, step: 0.2 * Mrad}
}

// tilt tilts a mirror and says what keeps it from being tilted.
func (s *PathPage) tilt(t TiltStep) error {
	s.Mirror = t.Mirror
	if t.Right == 0 && t.Up == 0 {
		return nil // it is only chosen
	}
	w, err := s.Walk.Step(t)
	s.Walk = w
	return err
}

func (s *PathPage) Echo(typed string) (string, bool) {
	t, err := ParseTilt(typed)
	switch {
	case err != nil:
		return "", false
	case t.Right == 0 && t.Up == 0:
		return "the arrows tilt the " + string(t.Mirror), true
	}
	return fmt.Sprintf("%s: %s", t.Mirror, tiltText(optics.Seen{Right: t.Right, Up: t.Up})), true
}

// Nudge tilts the mirror that is chosen, where nothing is typed.
func (s *PathPage) Nudge(typed string, right, up int) (string, bool) {
	if typed != "" {
		return "", false
	}
	s.failed = s.tilt(TiltStep{s.Mirror, float64(right) * s.step, float64(up) * s.step})
	return "", true
}

// Point takes no place.
func (s *PathPage) Point(frame.Sizes, float64, int, int) (string, bool) { return "", false }

// Drag tilts the mirror that the mouse has hold of: a cell is a step.
func (s *PathPage) Drag(m tea.MouseEvent) bool {
	switch {
	case m.Action == tea.MouseActionPress && m.Button == tea.MouseButtonLeft:
		for _, z := range s.Zones {
			if (frame.Zone{Rect: z.In}).Holds(m.X, m.Y) {
				s.held, s.Mirror, s.at = true, z.mirror, [2]int{m.X, m.Y}
				return true
			}
		}
		return false
	case !s.held:
		return false
	case m.Action == tea.MouseActionRelease:
		s.held = false
		return true
	}
	right, up := m.X-s.at[0], s.at[1]-m.Y
	s.at = [2]int{m.X, m.Y}
	s.failed = s.tilt(TiltStep{s.Mirror, float64(right) * s.step, float64(up) * s.step})
	return true
}

func (s *PathPage) Take(a *frame.App, text string) tea.Cmd {
	line := strings.ToLower(strings.TrimSpace(text))
	verb, rest, _ := strings.Cut(line, " ")
	s.failed = nil
	switch {
	case line == "q" || line == "quit" || line == "b" || line == "back":
		return a.Pop()
	case line == "":
		s.Mirror = otherMirror(s.Mirror)
		return nil
	case line == "square":
		a.Used()
		s.Walk, s.err = NewWalk(s.Walk.Tel)
		return nil
	case line == "undo" || line == "u":
		a.Used()
		s.Walk = s.Walk.undone()
		return nil
	case verb == "step":
		v, unit, ok := angle(strings.TrimSpace(rest))
		if unit == 0 {
			unit = Mrad
		}
		if !ok || v <= 0 || v*unit > FarthestTilt/3 {
			a.Fail(fmt.Errorf("a step is from 0 to %.0f mrad, as in: step 0.5", FarthestTilt/3/Mrad))
			return nil
		}
		a.Used()
		s.step = v * unit
		return nil
	}
	t, err := ParseTilt(line)
	if err == nil {
		err = s.tilt(t)
	}
	if err != nil {
		a.Fail(err)
		return nil
	}
	a.Used()
	return nil
}

func otherMirror(m optics.Mirror) optics.Mirror {
	if m == optics.Primary {
		return optics.Secondary
	}
	return optics.Primary
}

func (s *PathPage) Esc(a *frame.App) { a.Pop() }

func (s *PathPage) Foot(sz frame.Sizes) frame.Foot {
	f := frame.Foot{Prompt: "tilt?", Hint: "arrows tilt the " + string(s.Mirror) + ", " + strconv.FormatFloat(s.step/Mrad, 'g', 2, 64) + " mrad a step", Keys: []frame.Key{
		{F: "arrows", Word: "", Label: "tilt"}, {F: "enter", Word: "", Label: "the " + string(otherMirror(s.Mirror))}, {F: "square", Word: "", Label: "both"}, {F: "step 1", Word: "", Label: "mrad"},
		frame.KeyFor("help"), frame.KeyFor("large"), frame.KeyFor("theme"), {F: "esc", Word: "", Label: "back"},
	}}
	if s.failed != nil {
		f.Caution = align.Sentence(s.failed.Error())
	}
	if sz.Narrow() {
		f.Hint = "arrows: " + string(s.Mirror)
	}
	return f
}
