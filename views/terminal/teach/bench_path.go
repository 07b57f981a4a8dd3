package teach

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session/scope"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

// PathPage is the light path in large: a mirror is tilted, and the beam
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

	world *virtual.World // whose mirrors these are: its screws may be turned; nil = nobody's
	begun optics.Pose    // as it stood at first
	screw string         // that the arrow keys turn; "" = they tilt the mirror
	times float64        // by how much misses are enlarged; 0 = not chosen yet
	tilts float64        // and tilts
	less  bool           // they were made less, or the beam would have left the tube
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

// newPathOf is the light path of a practice telescope as it stands.
func newPathOf(name string, w *virtual.World) *PathPage {
	own := w.Clone()
	truth := own.Truth()
	walk, err := newWalkAt(truth.Telescope, truth.Pose)
	return &PathPage{name: name, Walk: walk, err: err, Mirror: optics.Secondary, step: 0.2 * Mrad, world: own, begun: truth.Pose}
}

// finestTurn is what an arrow key turns a screw by.
const finestTurn = 1. / 32

// turn turns a screw of the mirror that is marked.
func (s *PathPage) turn(label string, turns float64) error {
	i := slices.IndexFunc(s.Walk.Tel.Cell(s.Mirror).Labels, func(l string) bool { return strings.EqualFold(l, label) })
	if i < 0 {
		return fmt.Errorf("the %s has no screw %s", s.Mirror, label)
	}
	before := tiltsOf(s.Walk.Tel, s.world.Truth().Pose)
	did := s.world.TurnExactly(s.Mirror, i, turns)
	s.screw = strings.ToUpper(label)
	if did.Turns == 0 {
		return fmt.Errorf("%s does not turn", s.screw)
	}
	after := tiltsOf(s.Walk.Tel, s.world.Truth().Pose)
	step := TiltStep{Mirror: s.Mirror, Right: after.Secondary.Right - before.Secondary.Right, Up: after.Secondary.Up - before.Secondary.Up}
	if s.Mirror == optics.Primary {
		step.Right, step.Up = after.Primary.Right-before.Primary.Right, after.Primary.Up-before.Primary.Up
	}
	return s.tilt(step)
}

// turned understands a screw and how far, or a screw alone.
func (s *PathPage) turned(line string) (label string, turns float64, ok bool) {
	label, rest, _ := strings.Cut(line, " ")
	if s.world == nil || !slices.ContainsFunc(s.Walk.Tel.Cell(s.Mirror).Labels, func(l string) bool { return strings.EqualFold(l, label) }) {
		return "", 0, false
	}
	if rest = strings.TrimSpace(rest); rest == "" {
		return label, 0, true
	}
	sign, parts := 1.0, strings.TrimLeft(rest, "+-")
	if strings.HasPrefix(rest, "-") {
		sign = -1
	}
	up, down, fraction := strings.Cut(parts, "/")
	n, err := strconv.ParseFloat(up, 64)
	if err == nil && fraction {
		var d float64
		d, err = strconv.ParseFloat(down, 64)
		n /= d
	}
	return label, sign * n, err == nil && n > 0 && n <= 1
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
	if label, turns, ok := s.turned(strings.ToLower(strings.TrimSpace(typed))); ok && turns == 0 {
		return "the arrows turn screw " + strings.ToUpper(label), true
	} else if ok {
		return fmt.Sprintf("%s: screw %s %+.3g turns", s.Mirror, strings.ToUpper(label), turns), true
	}
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
	if s.screw != "" {
		s.failed = s.turn(s.screw, float64(right+up)*finestTurn)
		return "", true
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
	case line == "q" || line == "quit" || line == "b" && s.world == nil || line == "back": // else B is a screw
		return a.Pop()
	case line == "":
		s.Mirror, s.screw = otherMirror(s.Mirror), ""
		return nil
	case line == "square":
		a.Used()
		s.Walk, s.err = NewWalk(s.Walk.Tel)
		s.screw, s.world, s.times, s.less = "", nil, 0, false
		return nil
	case line == "tilt":
		a.Used()
		s.screw = ""
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
	if label, turns, ok := s.turned(line); ok {
		if turns == 0 {
			s.screw = strings.ToUpper(label)
		} else if err := s.turn(label, turns); err != nil {
			a.Fail(err)
			return nil
		}
		a.Used()
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
	if s.world != nil {
		f.Keys = append(f.Keys[:2:2], append([]frame.Key{{F: "B", Word: "", Label: "a screw"}}, f.Keys[2:]...)...)
	}
	if s.screw != "" {
		f.Hint = fmt.Sprintf("up tightens screw %s of the %s, down eases it, 1/32 a step; tilt leaves it", s.screw, s.Mirror)
	}
	if s.failed != nil {
		f.Caution = align.Sentence(s.failed.Error())
	}
	if sz.Narrow() {
		f.Hint = "arrows: " + string(s.Mirror)
	}
	return f
}
