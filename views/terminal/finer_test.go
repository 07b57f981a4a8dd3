package terminal

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/views/desk"
	"spotward/views/terminal/align"
)

// finerAnswer answers a finer check by what the practice telescope shows.
func finerAnswer(p *player) string {
	s := p.align()
	st, world := s.State(), s.Work.Bench.World()
	switch st.Ask().Step {
	case "outline":
		return sessiontest.OutlineOf(world.Place().AlongMM)
	case "picture":
		return sessiontest.PictureOf(st.Tel, world.Place().Picture)
	case "sides":
		return session.SideOf(world.Star(st.StarWaves()).Thin)
	}
	return p.answer()
}

func scopeNamed(t *testing.T, name string) scope.Scope {
	if name == "dunlin" {
		return scope.Builtin()
	}
	data, err := os.ReadFile("../../testdata/scopes/" + name + ".toml")
	require.NoError(t, err)
	scope, err := scope.DecodeScope(data)
	require.NoError(t, err)
	return scope
}

// Every finer check by keys, each of its questions at every size.
func TestFinerChecksByKeys(t *testing.T) {
	sessiontest.Whole(t)
	for _, c := range []struct {
		level, scope string
		steps        []session.StepID
	}{
		{"finer-ring", "heron", []session.StepID{"outline", "picture", "lens", "shadow", "star", "rings", "sides", "finger", "after", "ease", "turn", "nip"}},
		{"finer-laser", "dunlin", []session.StepID{"outline", "picture", "lens", "shadow", "star", "rings", "sides"}},
		{"finer-slipped", "dunlin", []session.StepID{"outline", "picture", "lens", "star"}},
		{"finer-turned", "dunlin", []session.StepID{"outline", "picture"}},
	} {
		t.Run(c.level, func(t *testing.T) {
			p := practising(t, 4, 80, 24, Options{}, env())
			d := &desk.Desk{Now: noon}
			w, err := d.Practice(scopeNamed(t, c.scope), event.World{Seed: 4, Level: c.level})
			require.NoError(t, err)
			p.align().Work = w
			p.enters("finer")
			seen := map[session.StepID]bool{}
			for n := 0; p.align() != nil; n++ {
				require.Less(t, n, 300, "no end is in sight")
				ask := p.align().State().Ask()
				if id := ask.Stage.ID; !seen[ask.Step] && (id == session.StagePlace || id == session.StageShadow || id == session.StageStar) {
					sweep(t, p)
				}
				seen[ask.Step] = true
				p.enters(finerAnswer(p))
				require.False(t, p.Bad, "%s: %s", ask.Step, p.Note)
			}
			for _, step := range c.steps {
				require.True(t, seen[step], "never asked: %s", step)
			}
			end := p.Top().Screen.(*align.EndPage)
			require.NotEmpty(t, end.State.Checks.Found)
			p.size(120, 50)
			first := strings.Fields(end.State.Checks.Found[0].Words)[1]
			require.Contains(t, p.View(), first)
			p.size(60, 18)
			fits(t, p, 60, 18)
		})
	}
}
