package terminal

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/session"
	"spotward/session/scope"
	"spotward/views/terminal/past"
	"spotward/views/terminal/teach"
)

// An instructor sets up a fault, hands it over, holds it and shows the truth;
// the same telescope stands there when the session is taken up again.
func TestBenchFromTheFrontPage(t *testing.T) {
	p, _ := atFront(t, 80, 24)
	p.enters("bench")
	p.enters("1") // a number alone is its word, to be gone on with
	require.Equal(t, "spot ", p.Top().Line.String())
	p.enters("20")
	require.False(t, p.Bad, p.Note)
	p.enters("stuck primary B")
	p.enters("stuck B")
	require.True(t, p.Bad)
	require.Contains(t, p.Note, "say the mirror")
	p.press(tea.KeyCtrlU)
	p.enters("name Ann")
	require.Contains(t, plainView(p), "for Ann")
	p.enters("hand over")
	s := p.align()
	require.NotNil(t, s)
	require.Equal(t, "bench:easy,spot=20,stuck=primary.B", s.State().World.Level)
	require.Equal(t, "Ann", s.State().Who)
	p.plays(to(session.StageFirstLook, "p", false))

	before := len(s.State().Events())
	p.enters("freeze")
	p.enters("4:30 12")
	require.True(t, p.Bad)
	require.Contains(t, p.Note, "say go on")
	require.Equal(t, "4:30 12", p.Top().Line.String(), "what was typed stays")
	require.Len(t, s.State().Events(), before)
	p.press(tea.KeyCtrlU)
	require.NotContains(t, plainView(p), "where is it", "frozen, nothing else is to be seen")
	p.enters("truth")
	require.Contains(t, plainView(p), "spot 20 mm, stuck primary B", "as it was set up")
	p.enters("")
	view := plainView(p)
	require.Contains(t, view, "20 mm from the ring's centre")
	require.Contains(t, view, "not known just now")
	p.press(tea.KeyEsc)
	p.enters("go on")
	p.enters(p.answer())
	require.Greater(t, len(s.State().Events()), before)
	p.enters("truth")
	require.Contains(t, plainView(p), "typed")
	p.enters("")
	require.NotContains(t, plainView(p), "spot not known just now")
	p.press(tea.KeyEsc)
	p.enters("steps")
	require.IsType(t, &past.Screen{}, p.Top().Screen)
	p.press(tea.KeyEsc)

	truth := s.Work.Bench.World().Truth()
	require.Equal(t, "seized", string(truth.Faults.Screws[0].Is))
	p.enters("quit")
	again, err := p.Desk.TakeUp(s.State().ID)
	require.NoError(t, err)
	require.Equal(t, truth.Pose, again.Bench.World().Truth().Pose)
	require.Equal(t, truth.Faults, again.Bench.World().Truth().Faults)
}

func TestWhatIsSetUpIsSeen(t *testing.T) {
	p, _ := atFront(t, 80, 24)
	p.enters("bench")
	plainView(p)
	p.enters("reversed primary")
	require.Contains(t, plainView(p), "reversed * primary")
	p.enters("slope 6")
	require.Contains(t, plainView(p), "slope * 6 mrad")
}

func TestAdviceAtTheBench(t *testing.T) {
	p, _ := atFront(t, 80, 24)
	p.enters("bench")
	p.enters("hand over")
	p.plays(to(session.StageSecondary, "p", true))
	p.enters("freeze")
	p.enters("hide")
	require.False(t, p.Bad, p.Note)
	require.True(t, p.align().Work.AdviceHidden())
	p.enters("show")
	require.False(t, p.align().Work.AdviceHidden())
}

// What the page shows is the exact trace, and what it says to be first order is
// the closed form; both agree for the small tilts that are met.
func TestWalkIsTheTrace(t *testing.T) {
	tel := scope.Builtin().Telescope()
	tel.FocuserDeg = 0
	rapid.Check(t, func(t *rapid.T) {
		w, err := teach.NewWalk(tel)
		require.NoError(t, err)
		for range rapid.IntRange(1, 6).Draw(t, "steps") {
			m := rapid.SampledFrom([]optics.Mirror{optics.Primary, optics.Secondary}).Draw(t, "mirror")
			next, err := w.Step(teach.TiltStep{Mirror: m, Right: rapid.Float64Range(-1e-3, 1e-3).Draw(t, "right"), Up: rapid.Float64Range(-1e-3, 1e-3).Draw(t, "up")})
			require.NoError(t, err)
			w = next
		}
		exact, err := tel.Trace(w.Now.Pose(tel))
		require.NoError(t, err)
		require.Equal(t, exact.P, w.Spots.P)
		require.Equal(t, exact.T, w.Spots.T)
		require.Equal(t, tel.FirstOrder(w.Now.Pose(tel)).P, w.First.P)
		require.InDelta(t, w.Spots.P.X, w.First.P.X, 0.3)
		require.InDelta(t, w.Spots.T.Y, w.First.T.Y, 0.3)
	})
}

// A ray turns by twice the mirror's turn, by the law of reflection. So 1 mrad at the
// primary moves the return spot by 2 x 1 mrad x the path; at the secondary the
// spot on the primary by 2 x 1 mrad x the distance along the fold, and by half
// of that across it.
func TestTheFiguresOfOneTilt(t *testing.T) {
	tel := scope.Builtin().Telescope()
	for _, c := range []struct {
		typed      string
		spot, back optics.Dial
		says       string
	}{
		{"primary 1 up", optics.Dial{}, optics.Dial{Up: 2 * tel.PathMM() * teach.Mrad}, "2 x 1.0 mrad x 1215 mm = 2.4 mm"},
		{"primary 1 left", optics.Dial{}, optics.Dial{Right: -2 * tel.PathMM() * teach.Mrad}, "2 x 1.0 mrad x 1215 mm = 2.4 mm"},
		{"secondary 1 up", optics.Dial{Up: 2 * tel.FromPrimaryMM * teach.Mrad}, optics.Dial{Up: -2 * (2 - 1000./1200) * 1215 * teach.Mrad}, "2.4 mm come from the way there, 0.4 mm from the way back, 2.8 mm in all"},
		{"secondary 1 right", optics.Dial{Right: tel.FromPrimaryMM * teach.Mrad}, optics.Dial{Right: -(2 - 1000./1200) * 1215 * teach.Mrad}, "1 x 1.0 mrad x 1000 mm = 1.0 mm"},
	} {
		step, err := teach.ParseTilt(c.typed)
		require.NoError(t, err)
		w, err := teach.NewWalk(tel)
		require.NoError(t, err)
		w, err = w.Step(step)
		require.NoError(t, err)
		p, back := w.Tel.TubeToDial(optics.FacePrimary, w.Spots.P), w.Tel.TubeToDial(optics.FaceTarget, w.Spots.T)
		// The glass hangs below its pivot: 2 % more (first order, pivot 40 of 1000 mm).
		assert.InDelta(t, c.spot.Up, p.Up, 0.05, c.typed)
		assert.InDelta(t, c.spot.Right, p.Right, 0.05, c.typed)
		assert.InDelta(t, c.back.Up, back.Up, 0.1, c.typed)
		assert.InDelta(t, c.back.Right, back.Right, 0.1, c.typed)
		said := ""
		for _, l := range w.Why() {
			said += l + " "
		}
		assert.Contains(t, said, c.says, c.typed)
	}
}

func TestTiltsTyped(t *testing.T) {
	for _, c := range []struct {
		typed     string
		right, up float64
	}{
		{"secondary 0.2 up", 0, 0.2 * teach.Mrad}, {"primary right 1", teach.Mrad, 0}, {"Secondary 0,5 mrad down", 0, -0.5 * teach.Mrad},
		{"primary 3' left", -3 * teach.Arcmin, 0}, {"primary 3 min left", -3 * teach.Arcmin, 0}, {"primary -3min left", 3 * teach.Arcmin, 0}, {"secondary", 0, 0},
	} {
		got, err := teach.ParseTilt(c.typed)
		require.NoError(t, err, c.typed)
		assert.InDelta(t, c.right, got.Right, 1e-12, c.typed)
		assert.InDelta(t, c.up, got.Up, 1e-12, c.typed)
	}
	for _, typed := range []string{"", "1 up", "primary up", "primary 1", "primary 1 up left", "primary 1 2 up", "primary secondary 1 up", "primary nan up", "primary 99 up", "primary 1 sideways"} {
		_, err := teach.ParseTilt(typed)
		assert.Error(t, err, typed)
	}
}

func FuzzParseTilt(f *testing.F) {
	for _, s := range []string{"secondary 0.2 up", "primary 3' right", "primary", "primary inf up"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		s, err := teach.ParseTilt(typed)
		if err == nil && !(math.Hypot(s.Right, s.Up) <= teach.FarthestTilt) {
			t.Fatalf("%q: %+v", typed, s)
		}
	})
}

// The arrows and the mouse tilt the mirror that is meant, and undo goes back.
func TestTiltingByKeysAndMouse(t *testing.T) {
	p, _ := atFront(t, 120, 36)
	p.enters("bench")
	p.enters("light path")
	s := p.Top().Screen.(*teach.PathPage)
	before := p.View()
	for range 5 {
		p.press(tea.KeyUp)
	}
	require.InDelta(t, teach.Mrad, s.Walk.Now.Secondary.Up, 1e-12)
	require.Zero(t, s.Walk.Was, "five steps one way are one change")
	require.NotEqual(t, before, p.View())
	p.press(tea.KeyF8)
	require.Zero(t, s.Walk.Now.Secondary.Up)
	p.press(tea.KeyEnter)
	require.Equal(t, optics.Primary, s.Mirror)
	p.press(tea.KeyRight)
	require.InDelta(t, 0.2*teach.Mrad, s.Walk.Now.Primary.Right, 1e-12)

	p.View()
	at := s.Zones[0].In // the secondary
	mouse := func(x, y int, action tea.MouseAction) {
		p.Update(tea.MouseMsg{X: x, Y: y, Action: action, Button: tea.MouseButtonLeft})
	}
	mouse(at.X+2, at.Y+2, tea.MouseActionPress)
	mouse(at.X+2, at.Y, tea.MouseActionMotion)
	mouse(at.X+2, at.Y, tea.MouseActionRelease)
	mouse(at.X+2, at.Y-4, tea.MouseActionMotion) // let go: nothing follows
	require.InDelta(t, 0.4*teach.Mrad, s.Walk.Now.Secondary.Up, 1e-12)
	for range 200 {
		p.press(tea.KeyDown)
	}
	require.Contains(t, plainView(p), "as far as a mirror is tilted here")
	p.enters("square")
	require.NotContains(t, plainView(p), "as far as a mirror is tilted here")
}

// A tilt both ways does not run into the other mirror's.
func TestTiltsKeepApart(t *testing.T) {
	p, _ := atFront(t, 80, 24)
	p.enters("bench")
	p.enters("light path")
	p.enters("secondary 0.2 up")
	p.enters("secondary 0.2 right")
	require.Contains(t, plainView(p), "0.2 up, 0.2 right mrad primary square")
}

// What is said of a tilt of the secondary is what the trace shows, its pivot
// above the fold and all: the parts add up to the figures beside them.
func TestTheWhyAddsUpToTheTrace(t *testing.T) {
	tel := scope.Builtin().Telescope()
	require.Positive(t, tel.PivotAboveMM)
	w, err := teach.NewWalk(tel)
	require.NoError(t, err)
	w, err = w.Step(teach.TiltStep{Mirror: optics.Secondary, Up: 3 * teach.Mrad})
	require.NoError(t, err)
	why := strings.Join(w.Why(), " ")
	require.InDelta(t, 6.1, w.Spots.P.Len(), 0.05)
	require.Contains(t, why, "= 6.0 mm, and 0.1 as its pivot lies above it.")
	require.Contains(t, why, fmt.Sprintf("%.1f mm in all.", w.Spots.T.Len()))
}

// Behind the blank screen nothing of what is set up is to be seen, typed or not.
func TestNobodySeesWhatIsSetUp(t *testing.T) {
	p, _ := atFront(t, 120, 36)
	p.enters("bench")
	require.Contains(t, plainView(p), "LASER AND HOLDER")
	p.enters("blank")
	for _, line := range []string{"stuck primary B", "spot 20", "stuck nowhere", "stuck"} {
		p.types(line)
		require.NotContains(t, plainView(p), "stuck")
		require.NotContains(t, plainView(p), "20")
		p.press(tea.KeyEnter)
		view := plainView(p)
		for _, word := range []string{"stuck", "primary", "20 mm", "spot"} {
			require.NotContains(t, view, word, line)
		}
		p.press(tea.KeyCtrlU)
	}
	p.enters("hand over")
	require.Equal(t, "bench:easy,stuck=primary.B,spot=20", p.align().State().World.Level)
	require.NotContains(t, plainView(p), "stuck")
	before := p.align().State().ID
	p.plays(to(session.StageFirstLook, "p", false))
	p.press(tea.KeyF12)
	require.NotEqual(t, before, p.align().State().ID)
	require.Equal(t, "bench:easy,stuck=primary.B,spot=20", p.align().State().World.Level, "the same telescope")
	require.Equal(t, session.StageReady, p.align().State().Stage().ID)
	require.Len(t, p.Stack, 3, "in the place of the one before")
}

func TestAClassCallsAndThenTheTruth(t *testing.T) {
	p, _ := atFront(t, 120, 36)
	p.enters("bench")
	p.enters("hand over")
	p.enters("calls")
	require.True(t, p.Bad)
	require.Contains(t, p.Note, "no spot is asked for")
	p.press(tea.KeyCtrlU)
	p.plays(to(session.StageFirstLook, "p", false))
	before := len(p.align().State().Events())
	right := p.answer()
	p.enters("calls")
	for _, line := range []string{"Ann " + right, "Bo 12 60", "6 60"} {
		p.enters(line)
		require.False(t, p.Bad, p.Note)
	}
	p.enters("Cy nowhere")
	require.True(t, p.Bad)
	p.press(tea.KeyCtrlU)
	view := plainView(p)
	for _, word := range []string{"calls: 3", "Ann ", "Bo ", "3 6:00"} {
		require.Contains(t, view, word)
	}
	require.NotContains(t, view, "true")
	p.enters("")
	view = plainView(p)
	require.Contains(t, view, "true")
	require.Contains(t, view, "good")
	p.press(tea.KeyEsc)
	require.Len(t, p.align().State().Events(), before, "calls are no answers")
}

// Beside a session the light path is that telescope's, as it stands, and moves as
// a screw of it turns; the telescope itself stays as it is.
func TestTheLightPathOfThisTelescope(t *testing.T) {
	p, _ := atFront(t, 120, 36)
	p.enters("bench")
	for _, line := range []string{"spot 20", "return 12", "hand over"} {
		p.enters(line)
	}
	world := p.align().Work.Bench.World()
	truth := world.Truth()
	p.enters("light path")
	path, ok := p.Top().Screen.(*teach.PathPage)
	require.True(t, ok)
	require.InDelta(t, truth.Spots.P.Len(), path.Walk.Spots.P.Len(), 1e-6)
	require.InDelta(t, truth.Spots.T.Len(), path.Walk.Spots.T.Len(), 1e-6)
	own := world.Clone()
	own.TurnExactly(optics.Secondary, 1, 1./32)
	p.enters("B")
	p.press(tea.KeyUp)
	require.InDelta(t, own.Truth().Spots.P.Len(), path.Walk.Spots.P.Len(), 0.05, "as the screw moves it")
	require.NotEqual(t, truth.Spots.P, path.Walk.Spots.P)
	p.press(tea.KeyDown)
	require.InDelta(t, truth.Spots.P.Len(), path.Walk.Spots.P.Len(), 0.2, "and back, but for its play")
	p.enters("D 1/8")
	require.True(t, p.Bad)
	p.press(tea.KeyCtrlU)
	require.Equal(t, truth.Pose, world.Truth().Pose, "the trainee's telescope stays as it is")
	p.enters("back")
	require.NotNil(t, p.align())
}
