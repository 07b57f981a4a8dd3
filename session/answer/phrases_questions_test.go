package answer_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
)

// phraseScope is a telescope of a common size with locks and a printed face.
func phraseScope() scope.Scope {
	s := scope.Builtin()
	s.Name = "Wryneck"
	s.Aperture, s.Tube.InnerRadius, s.Secondary.MinorAxis = scope.MM(250), scope.MM(142), scope.MM(63)
	return s
}

// questions returns a state at each kind of question that phrases were collected
// at, with the moves told that stood there.
func questions(t *testing.T) map[string]session.State {
	t.Helper()
	at := func(stage session.StageID, step session.StepID, lines ...string) session.State {
		return play(t, phraseScope()).line(lines...).at(stage, step).State()
	}
	told := func(s session.State, moves ...event.ToldMove) session.State {
		s, err := session.Apply(s, event.Event{Kind: event.KindAdvised, Told: &event.Told{Moves: moves, Trust: 1}})
		require.NoError(t, err)
		return s
	}
	move := func(m optics.Mirror, screw string, turns, hour, mm float64) event.ToldMove {
		tel, f := phraseScope().Telescope(), m.SpotFace()
		seen := tel.ToSeen(f, tel.DialToTube(f, optics.AtHour(hour, mm)))
		return event.ToldMove{Turn: optics.Turn{Mirror: m, Screw: screw, Turns: turns}, Stop: &event.ToldStop{Right: seen.Right, Up: seen.Up, As: optics.StopPoint}}
	}
	looked := []string{"routine", "none", "still"}
	both := append(looked[:3:3], "4:30 12")
	locks := append(looked[:3:3], "dead", "2 9", "primary")
	eased := append(locks[:len(locks):len(locks)], "2 9")
	lost := append(looked[:3:3], "dead", "not there", "primary")
	home := at(session.StageHome, "t", eased...)
	until := func(p player, stage session.StageID) player {
		for n := 0; p.State().Stage().ID != stage; n++ {
			require.Less(t, n, 40, p.State().Stage().ID)
			p.line("home")
		}
		return p
	}
	nipped := until(play(t, phraseScope()).line(eased...), session.StageRetighten).State()
	snug := until(play(t, phraseScope()).line(eased...), session.StageSwing)
	up := snug.at(session.StageSwing, "up").State()
	back := snug.line("home").at(session.StageSwing, "swing").State()
	counted := append(looked[:3:3], "dead", "home", "leave")
	return map[string]session.State{
		"ready":                     at(session.StageReady, "why"),
		"laser on":                  at(session.StageLaserIn, "on", "routine"),
		"circle":                    at(session.StageLaserIn, "circle", "routine", "none"),
		"first look":                at(session.StageFirstLook, "p", looked...),
		"return at the face":        at(session.StageFirstLook, "t", append(looked[:3:3], "dead")...),
		"verdict":                   at(session.StageVerdict, "verdict", append(looked[:3:3], "4:30 2", "2 9")...),
		"move, secondary":           told(at(session.StageSecondary, "p", both...), move(optics.Secondary, "C", -0.125, 4.5, 10), move(optics.Secondary, "B", 0.125, 4, 6.4)),
		"locks":                     at(session.StageLocks, "ease", locks...),
		"move, primary (C +1/4)":    told(home, move(optics.Primary, "C", 0.25, 2.5, 7)),
		"move, primary (A -1/2)":    told(home, move(optics.Primary, "A", -0.5, 3, 7)),
		"move, primary (near home)": told(home, move(optics.Primary, "C", 0.0625, 2, 2)),
		"lost: face":                at(session.StageRough, "target", append(lost[:len(lost):len(lost)], "two 3 9")...),
		"lost: mouth":               at(session.StageRough, "mouth", append(lost[:len(lost):len(lost)], "not there")...),
		"lost: secondary":           at(session.StageRough, "secondary", lost...),
		"lost: card":                at(session.StageRough, "card", append(lost[:len(lost):len(lost)], "not there", "not there")...),
		"locks nipped":              nipped,
		"swing":                     up,
		"swing, primary":            snug.line("home").at(session.StageSwing, "p").State(),
		"swing, return":             back,
		"put away":                  at(session.StagePutAway, "tag", counted...),
		"tag":                       at(session.StagePutAway, "tag", counted...),
	}
}
