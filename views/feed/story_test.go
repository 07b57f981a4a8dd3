package feed_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/views/feed"
)

// direct sends events straight to a session.
type direct struct{ *session.Session }

func (d direct) Send(events ...session.Event) error {
	for _, ev := range events {
		if err := d.Do(ev); err != nil {
			return err
		}
	}
	return nil
}

// said is a line out, as a program outside would decode it.
type said struct {
	feed.Out
	Done    bool   `json:"done"`
	Error   string `json:"error"`
	Outcome string `json:"outcome"`
	Verdict string `json:"verdict"`
	Tag     string `json:"tag"`
	Moves   int    `json:"moves"`
	Nips    int    `json:"nips"`
	Looks   int    `json:"looks"`
}

// answerer stands at the telescope: it turns what is told and reads what is
// seen.
type answerer struct {
	world *virtual.World
	tel   optics.Telescope
	log   io.Writer
}

func (a answerer) answer(o said) map[string]any {
	if o.Advice != nil {
		a.turn(o.Advice.Moves)
	}
	switch o.Want {
	case session.WantConfirm:
		if o.Stage == session.StageSwing {
			a.world.Swing()
		}
		if o.Stage == session.StageLaserIn {
			a.world.LaserOn(true)
			a.world.Card(true)
		}
		return map[string]any{"confirm": true}
	case session.WantChoice:
		return map[string]any{"choice": o.Options[0]}
	}
	if o.Stage == session.StageSecondary && o.Advice == nil {
		a.world.Snug(optics.Secondary)
	}
	switch r := a.world.Eyes(o.Face); r.Told {
	case virtual.Home:
		return map[string]any{"home": true}
	case virtual.InRing:
		return map[string]any{"in_ring": true}
	case virtual.Gone:
		return map[string]any{"gone": true}
	case virtual.CantSee, virtual.LaserDead:
		return map[string]any{"cant_see": true}
	default:
		return map[string]any{"reading": map[string]any{"right": r.Seen.Right, "up": r.Seen.Up}}
	}
}

func (a answerer) turn(moves []feed.Move) {
	for _, m := range moves {
		turns := m.Turns
		if m.Sense == "anticlockwise" {
			turns = -turns
		}
		for i, l := range a.tel.Cell(m.Mirror).Labels {
			if l == m.Lock {
				a.world.TurnLock(i, turns)
			}
			if l == m.Screw {
				a.world.Turn(m.Mirror, i, turns)
			}
		}
	}
}

// play plays a whole session over the feed and returns its last line.
func play(t *testing.T, scope session.Scope, a answerer) said {
	t.Helper()
	s, err := session.Start(session.Event{ID: "test", Scope: &scope}, nil)
	require.NoError(t, err)
	inR, inW := io.Pipe()
	outR, outW := io.Pipe()
	go func() {
		_, err := feed.Run(direct{s}, inR, outW, func() (string, error) { return "test", nil })
		outW.CloseWithError(err)
	}()
	enc, lines := json.NewEncoder(inW), bufio.NewScanner(outR)
	for n := 0; lines.Scan(); n++ {
		if a.log != nil {
			fmt.Fprintln(a.log, lines.Text())
		}
		var o said
		require.NoError(t, json.Unmarshal(lines.Bytes(), &o))
		require.Empty(t, o.Error)
		if o.Done {
			return o
		}
		require.Less(t, n, 150, "no end in sight at %s", o.Stage)
		reply := a.answer(o)
		if a.log != nil {
			b, _ := json.Marshal(reply)
			fmt.Fprintf(a.log, "  > %s\n", b)
		}
		require.NoError(t, enc.Encode(reply))
	}
	require.NoError(t, lines.Err())
	t.Fatal("the feed ended without a last line")
	return said{}
}

func scopeOf(t *testing.T, name string) session.Scope {
	t.Helper()
	if name == "dunlin" {
		return session.Builtin()
	}
	data, err := os.ReadFile("../../testdata/scopes/" + name + ".toml")
	require.NoError(t, err)
	s, err := session.DecodeScope(data)
	require.NoError(t, err)
	return s
}

func TestWholeAlignments(t *testing.T) {
	for _, name := range []string{"dunlin", "heron", "wren", "avocet"} {
		t.Run(name, func(t *testing.T) {
			scope := scopeOf(t, name)
			tel := scope.Telescope()
			aligned, within := 0, 0
			const seeds = 20
			for seed := range uint64(seeds) {
				w := virtual.New(tel, virtual.Easy, seed)
				a := answerer{world: w, tel: tel}
				if os.Getenv("FEED_LOG") == fmt.Sprintf("%s%d", name, seed) {
					a.log = os.Stdout
				}
				last := play(t, scope, a)
				truth := w.Truth()
				t.Logf("%s %d: %s %s %s e %.2f claimed %v<%v allowed %.2f p %.1f t %.1f looks %d moves %d nips %d", name, seed, last.Verdict, last.Outcome, last.Tag, truth.ErrorMM,
					deref(last.AxisErrorMM), deref(last.AxisErrorMaxMM), last.AllowedMM, truth.Spots.P.Len(), truth.Spots.T.Len(), last.Looks, last.Moves, last.Nips)
				if last.Outcome == session.OutcomeAligned || last.Outcome == session.OutcomeLeft {
					aligned++
				}
				if last.AxisErrorMaxMM != nil && truth.ErrorMM <= *last.AxisErrorMaxMM {
					within++
				}
			}
			assert.GreaterOrEqual(t, aligned, seeds-1, "of %d aligned or rightly left", seeds)
			assert.GreaterOrEqual(t, within, seeds-3, "of %d with the true axis error within the claimed bound", seeds)
		})
	}
}

func deref(p *float64) float64 {
	if p == nil {
		return -1
	}
	return *p
}

var _ = time.Now
