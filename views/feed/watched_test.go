package feed_test

import (
	"bufio"
	"encoding/json"
	"io"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/views/feed"
)

// wire is a session of the feed, line by line.
type wire struct {
	t   *testing.T
	in  *io.PipeWriter
	out *bufio.Scanner
}

func onWire(t *testing.T, sc scope.Scope) wire {
	t.Helper()
	s, err := session.Start(event.Event{ID: "test", Scope: &sc}, nil)
	require.NoError(t, err)
	inR, inW := io.Pipe()
	outR, outW := io.Pipe()
	go func() {
		_, err := feed.Run(direct{s}, inR, outW, func() (string, error) { return "test", nil })
		outW.CloseWithError(err)
	}()
	t.Cleanup(func() { inW.Close() })
	return wire{t, inW, bufio.NewScanner(outR)}
}

func (w wire) read() (o said) {
	w.t.Helper()
	require.True(w.t, w.out.Scan())
	require.NoError(w.t, json.Unmarshal(w.out.Bytes(), &o))
	return o
}

func (w wire) say(line string) said {
	w.t.Helper()
	_, err := io.WriteString(w.in, line+"\n")
	require.NoError(w.t, err)
	return w.read()
}

// toMove plays on to the secondary's first move, with the spot on the primary
// read so.
func (w wire) toMove(onPrimary string) said {
	w.t.Helper()
	o := w.read()
	for n := 0; o.Advice == nil; n++ {
		require.Less(w.t, n, 20)
		switch {
		case o.Want == session.WantChoice && o.Stage == session.StageVerdict:
			o = w.say(`{"choice":"both"}`)
		case o.Want == session.WantChoice:
			o = w.say(`{"choice":"` + o.Options[0] + `"}`)
		case o.Want == session.WantConfirm:
			o = w.say(`{"confirm":true}`)
		case o.Face == "primary":
			o = w.say(onPrimary)
		default:
			o = w.say(`{"gone":true}`)
		}
	}
	return o
}

// The feed begins by amount; watching brings cues that lead, and each answer to
// them is taken where it makes sense and nowhere else.
func TestWatchingOverTheWire(t *testing.T) {
	w := onWire(t, scope.Builtin())
	o := w.toMove(`{"reading":{"right":20,"up":9}}`)
	assert.False(t, o.Advice.Watch)
	assert.Contains(t, w.say(`{"reading":{"right":2,"up":1,"watched":true}}`).Error, "watch")
	assert.Contains(t, w.say(`{"manner":"slowly"}`).Error, "watching")

	n := o.N
	o = w.say(`{"manner":"watching"}`)
	require.Empty(t, o.Error)
	assert.Equal(t, n+1, o.N, "the question returns with a number of its own")
	require.True(t, o.Advice.Watch)
	last := o.Advice.Moves[len(o.Advice.Moves)-1]
	require.NotNil(t, last.Toward)
	assert.InDelta(t, 1, math.Hypot(last.Toward.Right, last.Toward.Up), 0.02)
	require.NotNil(t, last.Stop)

	assert.Contains(t, w.say(`{"went":{"clock":7}}`).Error, "screw")
	assert.Contains(t, w.say(`{"went":{"screw":"Z","clock":7}}`).Error, "not told")
	assert.Contains(t, w.say(`{"went":{"screw":"`+last.Screw+`","clock":15}}`).Error, "hours")
	n = o.N
	o = w.say(`{"went":{"screw":"` + last.Screw + `","clock":7}}`)
	require.Empty(t, o.Error)
	assert.Equal(t, n+1, o.N)
	require.NotNil(t, o.Advice, "told anew")

	o = w.say(`{"manner":"amount"}`)
	assert.False(t, o.Advice.Watch)
	o = w.say(`{"manner":"watching"}`)
	stop := o.Advice.Moves[len(o.Advice.Moves)-1].Stop
	o = w.say(`{"cued":true}`)
	require.Empty(t, o.Error)
	if o.Face == "primary" { // else it came to where it is wanted, and the return spot is next
		require.NotNil(t, o.Spot)
		assert.InDelta(t, math.Atan2(stop.Right, stop.Up), math.Atan2(o.Spot.Right, o.Spot.Up), 0.05)
	}
	if o.Advice == nil {
		assert.Contains(t, w.say(`{"cued":true}`).Error, "stop")
	}
}

// Turns are the whole of a move, in so many equal goes.
func TestGoesOverTheWire(t *testing.T) {
	w := onWire(t, scope.Builtin())
	o := w.toMove(`{"reading":{"right":48,"up":20}}`)
	for _, m := range o.Advice.Moves {
		require.Greater(t, m.Goes, 1)
		assert.LessOrEqual(t, m.Turns/float64(m.Goes), 0.125+1e-9)
	}
}
