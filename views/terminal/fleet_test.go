package terminal

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
	"spotward/views/desk"
	"spotward/views/terminal/past"
)

// keeper looks after scopes of the lending shed over the months.
type keeper struct {
	t    testing.TB
	desk *desk.Desk
	now  time.Time
}

// scopeOut is a scope that is lent, and the telescope that it truly is.
type scopeOut struct {
	scope scope.Scope
	world *virtual.World
}

func newKeeper(t testing.TB, dir string) *keeper {
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	k := &keeper{t: t, now: time.Date(2026, 4, 1, 19, 0, 0, 0, time.UTC)}
	k.desk = &desk.Desk{Library: lib, Who: "the shed", Program: "test", Now: func() time.Time {
		k.now = k.now.Add(20 * time.Second)
		return k.now
	}}
	return k
}

func (k *keeper) scope(file string, seed uint64) *scopeOut {
	scope, err := k.desk.Library.Scope(filepath.Join("../../testdata/scopes", file))
	require.NoError(k.t, err)
	return &scopeOut{scope, virtual.New(scope.Telescope(), virtual.Easy, seed)}
}

// align plays a whole session on a scope: what is told is turned, what is seen
// is typed.
func (k *keeper) align(s *scopeOut) string {
	w, err := k.desk.Align(s.scope, false)
	require.NoError(k.t, err)
	s.world.LaserOn(true)
	s.world.Card(true)
	for n := 0; !w.Over(); n++ {
		require.Less(k.t, n, 200, "no end in sight at %s", w.State().Stage().ID)
		ask := w.State().Ask()
		if ask.Told != nil {
			s.turn(ask.Told.Moves)
		}
		line := ""
		switch {
		case ask.Want == session.WantReading:
			if ask.Stage.ID == session.StageSecondary && ask.Told == nil {
				s.world.Snug(optics.Secondary)
			}
			line = s.world.Eyes(ask.Face).String()
		case ask.Want == session.WantConfirm && ask.Stage.ID == session.StageSwing:
			s.world.Swing()
		}
		_, err := w.Line(line)
		require.NoError(k.t, err, "%q at %s", line, ask.Stage.ID)
	}
	id, err := w.Close()
	require.NoError(k.t, err)
	return id
}

func (s *scopeOut) turn(moves []event.ToldMove) {
	for _, m := range moves {
		for i, label := range s.scope.Telescope().Cell(m.Mirror).Labels {
			switch label {
			case m.Screw:
				s.world.Turn(m.Mirror, i, m.Turns)
			case m.Lock:
				s.world.TurnLock(i, m.Turns)
			}
		}
	}
}

// shedDir returns a data directory with three scopes and their months: one
// whose secondary works loose, one that holds, one not looked at.
func shedDir(t testing.TB) string { return shed.copied(t, fillShed) }

func fillShed(t testing.TB, dir string) {
	k := newKeeper(t, dir)
	heron, avocet := k.scope("heron.toml", 5), k.scope("avocet.toml", 3)
	require.NoError(t, k.desk.Library.SaveKit(scope.Kit{Name: "Loan 1", Laser: avocet.scope.Laser}))
	avocet.scope.Kit, avocet.scope.Laser = "Loan 1", scope.Laser{}
	require.NoError(t, k.desk.Library.SaveScope(avocet.scope))
	k.scope("wren.toml", 1)
	k.align(heron)
	k.align(avocet)
	for visit := range 6 {
		k.now = k.now.AddDate(0, 0, 31+visit)
		heron.world.TurnExactly(optics.Secondary, visit%3, -0.22)
		heron.world.TurnExactly(optics.Secondary, (visit+1)%3, 0.22)
		k.align(heron)
		if visit%2 == 0 {
			k.align(avocet)
		}
	}
}

// inShed returns a player at the fleet's table.
func inShed(t testing.TB, dir string, cols, rows int, o Options, env func(string) string) *player {
	inUTC(t)
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	a, err := newApp(&desk.Desk{Library: lib, Now: func() time.Time { return time.Date(2026, 11, 1, 12, 0, 0, 0, time.UTC) }}, o, env)
	require.NoError(t, err)
	a.Crash.Dir = t.TempDir()
	p := &player{t, a}
	p.size(cols, rows)
	p.enters("fleet")
	return p
}

func TestFleetTable(t *testing.T) {
	dir := shedDir(t)
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	shelf, errs := lib.Shelf()
	require.Empty(t, errs)
	fleet := shelf.FleetAt(time.Date(2026, 11, 1, 12, 0, 0, 0, time.UTC))
	for _, size := range [][2]int{{60, 18}, {120, 36}, {80, 24}, {200, 50}}[:sessiontest.Of(1, 2, 4)] {
		p := inShed(t, dir, size[0], size[1], Options{}, env())
		view := p.View()
		for _, row := range fleet.Scopes {
			require.Contains(t, view, row.Scope)
			require.Contains(t, view, row.Needs, "%v", size)
			if size[0] >= 80 && row.Suspicion != nil {
				require.Contains(t, view, row.Suspicion.Short)
			}
			if row.Drift.Of > 0 {
				require.Contains(t, view, fmt.Sprintf("%d of %d", row.Drift.Holds, row.Drift.Of))
			}
		}
		require.Contains(t, view, "Loan 1")
		require.Regexp(t, `Heron +(ready|low power|with note|hold back) +19 Oct 26`, view)
		p.enters("heron")
		all := p.View()
		byName := all
		for p.Top().Screen.(*past.AlbumPage).Album.More() {
			p.press(tea.KeyRight)
			all += p.View()
		}
		all = strings.Join(strings.Fields(all), " ")
		require.Contains(t, all, "SECONDARY WORKS LOOSE", "%v", size)
		require.Contains(t, all, "leave the primary")
		require.Contains(t, all, "19 Oct 26 after")
		require.Contains(t, all, "2 May 26 after")
		p.press(tea.KeyEsc)
		require.Equal(t, view, p.View())
		p.enters("2")
		require.Equal(t, byName, p.View())
		p.press(tea.KeyEsc)
		p.enters("wren")
		require.Contains(t, p.View(), "No look at it is saved here")
		p.press(tea.KeyEsc)
		for _, typed := range []string{"0", "9", "crake"} {
			p.enters(typed)
			require.True(t, p.Bad)
			require.Equal(t, past.ErrFleet.Error(), p.Note)
			p.Top().Line.Set("")
		}
	}
}

// Where there are more scopes than fit they are paged, each once, the kits
// after them.
func TestFleetIsPaged(t *testing.T) {
	lib, err := shelf.Open(t.TempDir())
	require.NoError(t, err)
	heron, err := lib.Scope("../../testdata/scopes/heron.toml")
	require.NoError(t, err)
	for n := range 33 {
		heron.Name = fmt.Sprintf("Godwit %02d", n)
		require.NoError(t, lib.SaveScope(heron))
	}
	for _, size := range [][2]int{{60, 18}, {80, 24}, {200, 50}} {
		p := inShed(t, lib.Dir(), size[0], size[1], Options{}, env())
		s := p.Top().Screen.(*past.FleetPage)
		p.View()
		seen := p.View()
		for s.More() {
			p.enters("")
			seen += p.View()
		}
		for n := range 33 {
			require.Equal(t, 1, strings.Count(seen, fmt.Sprintf("Godwit %02d", n)), "%v", size)
		}
		for s.From > 0 {
			p.enters("back")
		}
		p.enters("")
		require.Equal(t, s.Shown < s.Rows(), s.From > 0)
	}
}

func TestFleetPointedAt(t *testing.T) {
	sessiontest.Whole(t)
	dir := shedDir(t)
	p := inShed(t, dir, 80, 24, Options{}, env())
	p.View()
	for _, y := range []int{5, 6} { // both lines of the second scope
		p.Update(tea.MouseMsg{X: 30, Y: y, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
		require.Equal(t, "2", p.Top().Line.String(), "%d", y)
		p.Top().Line.Set("")
	}
}

func TestFleetWithoutARecord(t *testing.T) {
	a, err := newApp(&desk.Desk{Now: noon}, Options{}, env())
	require.NoError(t, err)
	p := &player{t, a}
	p.size(80, 24)
	p.enters("fleet")
	require.True(t, p.Bad)
	require.Equal(t, past.ErrNoRecords.Error(), p.Note)
}

func TestSizesOfTheFleet(t *testing.T) {
	sessiontest.Whole(t)
	dir := shedDir(t)
	for _, o := range []Options{{}, {ASCII: true}, {Projector: true}} {
		p := inShed(t, dir, 80, 24, o, env("TERM", "xterm-256color"))
		sweep(t, p)
		p.enters("1")
		sweep(t, p)
	}
}
