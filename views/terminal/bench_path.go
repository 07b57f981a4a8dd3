package terminal

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/charmbracelet/bubbletea"

	"spotward/optics"
	"spotward/session/scope"
	"spotward/views/schematic"
)

// pathPage is the way of the beam in large: a mirror is tilted, and the beam
// walks. It is nobody's alignment.
type pathPage struct {
	name   string
	walk   walk
	err    error // the telescope has no beam at all
	mirror optics.Mirror
	step   float64 // of an arrow key, rad
	held   bool    // by the mouse
	at     [2]int  // where it was last, column and row
	zones  []mirrorZone
	failed error // of the last step that was no line
}

// mirrorZone is where the mouse takes hold of a mirror.
type mirrorZone struct {
	mirror optics.Mirror
	in     schematic.Rect
}

func newPathPage(scope scope.Scope) *pathPage {
	w, err := newWalk(scope.Telescope())
	return &pathPage{name: scope.Name, walk: w, err: err, mirror: optics.Secondary, step: 0.2 * mrad}
}

// tilt tilts a mirror and says what keeps it from being tilted.
func (s *pathPage) tilt(t tiltStep) error {
	s.mirror = t.mirror
	if t.right == 0 && t.up == 0 {
		return nil // it is only chosen
	}
	w, err := s.walk.step(t)
	s.walk = w
	return err
}

func (s *pathPage) echo(typed string) (string, bool) {
	t, err := parseTilt(typed)
	switch {
	case err != nil:
		return "", false
	case t.right == 0 && t.up == 0:
		return "the arrows tilt the " + string(t.mirror), true
	}
	return fmt.Sprintf("%s: %s", t.mirror, tiltText(optics.Seen{Right: t.right, Up: t.up})), true
}

// nudge tilts the mirror that is chosen, where nothing is typed.
func (s *pathPage) nudge(typed string, right, up int) (string, bool) {
	if typed != "" {
		return "", false
	}
	s.failed = s.tilt(tiltStep{s.mirror, float64(right) * s.step, float64(up) * s.step})
	return "", true
}

// point takes no place.
func (s *pathPage) point(sizes, float64, int, int) (string, bool) { return "", false }

// drag tilts the mirror that the mouse has hold of: a cell is a step.
func (s *pathPage) drag(m tea.MouseEvent) bool {
	switch {
	case m.Action == tea.MouseActionPress && m.Button == tea.MouseButtonLeft:
		for _, z := range s.zones {
			if (zone{Rect: z.in}).holds(m.X, m.Y) {
				s.held, s.mirror, s.at = true, z.mirror, [2]int{m.X, m.Y}
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
	s.failed = s.tilt(tiltStep{s.mirror, float64(right) * s.step, float64(up) * s.step})
	return true
}

func (s *pathPage) take(a *app, text string) tea.Cmd {
	line := strings.ToLower(strings.TrimSpace(text))
	verb, rest, _ := strings.Cut(line, " ")
	s.failed = nil
	switch {
	case line == "q" || line == "quit" || line == "b" || line == "back":
		return a.pop()
	case line == "":
		s.mirror = otherMirror(s.mirror)
		return nil
	case line == "square":
		a.used()
		s.walk, s.err = newWalk(s.walk.tel)
		return nil
	case line == "undo" || line == "u":
		a.used()
		s.walk = s.walk.undone()
		return nil
	case verb == "step":
		v, unit, ok := angle(strings.TrimSpace(rest))
		if unit == 0 {
			unit = mrad
		}
		if !ok || v <= 0 || v*unit > farthestTilt/3 {
			a.fail(fmt.Errorf("a step is from 0 to %.0f mrad, as in: step 0.5", farthestTilt/3/mrad))
			return nil
		}
		a.used()
		s.step = v * unit
		return nil
	}
	t, err := parseTilt(line)
	if err == nil {
		err = s.tilt(t)
	}
	if err != nil {
		a.fail(err)
		return nil
	}
	a.used()
	return nil
}

func otherMirror(m optics.Mirror) optics.Mirror {
	if m == optics.Primary {
		return optics.Secondary
	}
	return optics.Primary
}

func (s *pathPage) esc(a *app) { a.pop() }

func (s *pathPage) foot(sz sizes) foot {
	f := foot{prompt: "tilt?", hint: "arrows tilt the " + string(s.mirror) + ", " + strconv.FormatFloat(s.step/mrad, 'g', 2, 64) + " mrad a step", keys: []key{
		{"arrows", "", "tilt"}, {"enter", "", "the " + string(otherMirror(s.mirror))}, {"square", "", "both"}, {"step 1", "", "mrad"},
		keyFor("help"), keyFor("large"), keyFor("theme"), {"esc", "", "back"},
	}}
	if s.failed != nil {
		f.caution = sentence(s.failed.Error())
	}
	if sz.narrow() {
		f.hint = "arrows: " + string(s.mirror)
	}
	return f
}
