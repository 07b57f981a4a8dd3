package feed_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/views/feed"
)

// direct sends events straight to a session.
type direct struct{ *session.Session }

func (d direct) Send(events ...event.Event) error {
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
	// circle is what is answered to how wide a circle the laser makes, and
	// turned where the session has the laser stand turned; "" and nil: true.
	circle string
	turned func() session.State
	at     *float64
}

func (a answerer) answer(o said) map[string]any {
	a.do(o)
	switch o.Want {
	case session.WantConfirm:
		return map[string]any{"confirm": true}
	case session.WantChoice:
		if o.Stage == session.StageLaserIn && a.circle != "" {
			return map[string]any{"choice": a.circle}
		}
		return map[string]any{"choice": o.Options[0]}
	}
	if a.turned != nil {
		deg := a.turned().LaserTurnedDeg()
		a.world.TurnLaser(deg - *a.at)
		*a.at = deg
	}
	switch r := a.world.Eyes(o.Face); r.Told {
	case virtual.Home:
		return inTheHole(a.tel, r)
	case virtual.InRing:
		return map[string]any{"in_ring": true}
	case virtual.Gone:
		return elsewhere(a.world, o)
	case virtual.CantSee, virtual.LaserDead:
		return map[string]any{"cant_see": true}
	default:
		return map[string]any{"reading": map[string]any{"right": r.Seen.Right, "up": r.Seen.Up}}
	}
}

// do does what answering says was done, and makes the moves before it.
func (a answerer) do(o said) {
	if slices.Contains(o.Do, session.DeedEaseLocks) {
		easeLocks(a.world, a.tel.Primary.Locks)
	}
	if o.Advice != nil {
		a.turn(o.Advice.Moves)
	}
	if slices.Contains(o.Do, session.DeedSnugPrimary) {
		a.world.Snug(optics.Primary)
	}
	if slices.Contains(o.Do, session.DeedSnugSecondary) {
		a.world.Snug(optics.Secondary)
	}
	if slices.Contains(o.Do, session.DeedSwingBack) {
		a.world.Swing()
	}
	if slices.Contains(o.Do, session.DeedLaserIn) {
		a.world.Card(true)
		a.world.LaserOn(true)
	}
}

// easeLocks eases all locks by a quarter turn each.
func easeLocks(w *virtual.World, locks int) {
	for i := range locks {
		w.TurnLock(i, -0.25)
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
func play(t *testing.T, scope scope.Scope, a answerer) said {
	t.Helper()
	s, err := session.Start(event.Event{ID: "test", Scope: &scope}, nil)
	require.NoError(t, err)
	return playWith(t, s, a)
}

func playWith(t *testing.T, s *session.Session, a answerer) said {
	t.Helper()
	a.at = new(float64)
	return playBy(t, s, a, a.answer)
}

// playBy plays a whole session with other answers than those of a.
func playBy(t *testing.T, s *session.Session, a answerer, answer func(said) map[string]any) said {
	t.Helper()
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
		reply := answer(o)
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

func scopeOf(t *testing.T, name string) scope.Scope {
	t.Helper()
	if name == "dunlin" {
		return scope.Builtin()
	}
	data, err := os.ReadFile("../../testdata/scopes/" + name + ".toml")
	require.NoError(t, err)
	s, err := scope.DecodeScope(data)
	require.NoError(t, err)
	return s
}

func TestWholeAlignments(t *testing.T) {
	for _, name := range []string{"dunlin", "heron", "wren", "avocet"} {
		t.Run(name, func(t *testing.T) {
			scope := scopeOf(t, name)
			tel := scope.Telescope()
			seeds := uint64(sessiontest.Of(2, 4, 20))
			var aligned, within uint64
			for seed := range seeds {
				w := virtual.New(tel, virtual.Easy, seed)
				last := play(t, scope, answerer{world: w, tel: tel})
				truth := w.Truth()
				bound := math.Inf(1)
				if last.AxisErrorMaxMM != nil {
					bound = *last.AxisErrorMaxMM
				}
				t.Logf("seed %d: %s, %s, %s; e %.2f within %.2f, %.2f allowed; p %.1f, t %.1f; looks %d, moves %d, nips %d", seed, last.Verdict, last.Outcome, last.Tag,
					truth.ErrorMM, bound, last.AllowedMM, truth.Spots.P.Len(), truth.Spots.T.Len(), last.Looks, last.Moves, last.Nips)
				if last.Outcome == session.OutcomeAligned || last.Outcome == session.OutcomeLeft {
					aligned++
				}
				if truth.ErrorMM <= bound {
					within++
				}
			}
			// In 95 of 100 the bound holds, so of twenty it may fail three times.
			assert.GreaterOrEqual(t, aligned, seeds-1, "of %d aligned or rightly left", seeds)
			assert.GreaterOrEqual(t, within, seeds-seeds/6, "of %d with the true axis error within the claimed bound", seeds)
		})
	}
}

// The whole of one session as it goes over the wire, to be read by whoever
// writes a script against it.
func TestTranscript(t *testing.T) {
	const path = "../../testdata/feed/dunlin.txt"
	scope := scope.Builtin()
	var got bytes.Buffer
	a := answerer{world: virtual.New(scope.Telescope(), virtual.Easy, 3), tel: scope.Telescope(), log: &got}
	play(t, scope, a)
	if sessiontest.Update() {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, got.Bytes(), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(want), got.String(), "go test . -run Transcript -update writes it anew")
}

func TestLinesThatCannotBeTaken(t *testing.T) {
	for line, says := range map[string]string{
		``:                                     "ends too early",
		`yes`:                                  "bad JSON",
		`{"yes":true}`:                         `unknown key "yes"`,
		`{"confirm":true} {"confirm":true}`:    "more than one",
		`{"confirm":true,"home":true}`:         "2 answers",
		`{}`:                                   "0 answers",
		`{"confirm":false}`:                    "takes true",
		`{"confirm":"yes"}`:                    "cannot be",
		`{"reading":{"right":1}}`:              "a reading is",
		`{"reading":{"clock":13,"mm":1}}`:      `"clock" is in hours`,
		`{"reading":{"right":1,"up":2}}`:       "choice is wanted",
		`{"reading":{"right":1,"up":2,"x":3}}`: "unknown key",
		`{"reading":{"right":1,"up":2,"sigma_mm":-1}}`: "sigma_mm",
		`{"screw":"B"}`:                     "go together",
		`{"screw":"B","is":"sad"}`:          "nothing a screw says",
		`{"laser":"hot"}`:                   `"dead"`,
		`{"choice":"lunch"}`:                "not one of the answers",
		`{"turned":[{"mirror":"primary"}]}`: "no screw or lock",
		`{"turned":[{"mirror":"primary","screw":"A","turns":1e300}]}`: "how far again",
		`{"skip":""}`:   "cannot be left out",
		`{"redo":true}`: "nothing to redo",
		`{"undo":true}`: "nothing to undo",
	} {
		scope := scope.Builtin()
		s, err := session.Start(event.Event{ID: "test", Scope: &scope}, nil)
		require.NoError(t, err)
		var out bytes.Buffer
		ended, err := feed.Run(direct{s}, strings.NewReader(line+"\n"), &out, func() (string, error) { return "", nil })
		require.NoError(t, err)
		assert.False(t, ended)
		lines := strings.Split(strings.TrimSpace(out.String()), "\n")
		require.Len(t, lines, 2, line)
		var wrong feed.Wrong
		require.NoError(t, json.Unmarshal([]byte(lines[1]), &wrong))
		assert.Contains(t, wrong.Error, says, line)
		assert.Equal(t, 1, wrong.N, "the pending line's number")
		assert.Equal(t, session.WantChoice, wrong.Want)
	}
}

func TestOverlongLineIsDropped(t *testing.T) {
	scope := scope.Builtin()
	s, err := session.Start(event.Event{ID: "test", Scope: &scope}, nil)
	require.NoError(t, err)
	var out bytes.Buffer
	in := strings.Repeat(" ", 1<<20) + `{"choice":"routine"}` + "\n" + `{"choice":"routine"}` + "\n" + `{"quit":true}` + "\n"
	ended, err := feed.Run(direct{s}, strings.NewReader(in), &out, func() (string, error) { return "", nil })
	require.NoError(t, err)
	assert.True(t, ended)
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	require.Len(t, lines, 4)
	assert.Contains(t, lines[1], "more than")
	assert.Contains(t, lines[2], `"laser_in"`)
	assert.Contains(t, lines[3], `"done":true`)
	assert.Contains(t, lines[3], `"outcome":"stopped"`)
}

func FuzzLine(f *testing.F) {
	for _, seed := range []string{`{"confirm":true}`, `{"reading":{"right":1,"up":-2}}`, `{"reading":{"clock":4.5,"mm":12}}`,
		`{"turned":[{"mirror":"primary","screw":"B","turns":-0.2}]}`, `{"choice":"both"}`, `{"skip":"dark"}`, `{"undo":true}`, `[`, `{"within":null}`} {
		f.Add([]byte(seed))
	}
	scope := scope.Builtin()
	f.Fuzz(func(t *testing.T, line []byte) {
		s, err := session.Start(event.Event{ID: "test", Scope: &scope}, nil)
		require.NoError(t, err)
		for _, l := range []string{`routine`, `none`, `still`} {
			typed, err := answer.Line(s.State(), l)
			require.NoError(t, err)
			require.NoError(t, s.Do(typed.Events[0]))
		}
		var out bytes.Buffer
		_, err = feed.Run(direct{s}, bytes.NewReader(append(line, '\n')), &out, func() (string, error) { return "", nil })
		require.NoError(t, err)
		for _, l := range bytes.Split(bytes.TrimSpace(out.Bytes()), []byte("\n")) {
			require.True(t, json.Valid(l), "%s", l)
		}
	})
}
