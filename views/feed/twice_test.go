package feed_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/views/feed"
)

// typist answers anything that is asked, and now and then says what is not: the
// lines that it has said are kept.
type typist struct {
	dice  *rand.Rand
	left  int
	asked said
	lines []string
	rest  string
}

func (p *typist) Write(b []byte) (int, error) {
	var o said
	err := json.Unmarshal(b, &o)
	if o.Error == "" { // else the question before it stands
		p.asked = o
	}
	return len(b), err
}

func (p *typist) Read(b []byte) (int, error) {
	if p.rest == "" {
		if p.left == 0 {
			return 0, io.EOF
		}
		p.left--
		line := p.next()
		p.lines, p.rest = append(p.lines, line), line+"\n"
	}
	n := copy(b, p.rest)
	p.rest = p.rest[n:]
	return n, nil
}

func (p *typist) next() string {
	if p.dice.IntN(8) == 0 {
		stray := []string{`{"undo":true}`, `{"redo":true}`, `{"back":true}`, `{"skip":"no time"}`, `{"reading":{"clock":4,"mm":12}}`, `{"moon":1}`, `no`, `{"stop":true}`}
		return stray[p.dice.IntN(len(stray))]
	}
	switch p.asked.Want {
	case session.WantChoice:
		return fmt.Sprintf(`{"choice":%q}`, p.asked.Options[p.dice.IntN(len(p.asked.Options))])
	case session.WantReading:
		return fmt.Sprintf(`{"reading":{"right":%d,"up":%d}}`, p.dice.IntN(19)-9, p.dice.IntN(19)-9)
	}
	return `{"confirm":true}`
}

// The same lines sent twice bring the same lines out, to the byte, and no line sent
// is without one.
func TestTheSameFeedTwice(t *testing.T) {
	play := func(in io.Reader, also io.Writer) string {
		sc := scope.Builtin()
		s, err := session.Start(event.Event{ID: "test", Scope: &sc}, nil)
		require.NoError(t, err)
		var out bytes.Buffer
		_, _ = feed.Run(direct{s}, in, io.MultiWriter(&out, also), func() (string, error) { return "test", nil })
		return out.String()
	}
	for seed := range uint64(sessiontest.Of(1, 5, 2000)) {
		dice := rand.New(rand.NewPCG(seed, 1))
		p := &typist{dice: dice, left: 1 + dice.IntN(40)}
		first := play(p, p)
		sent := strings.Join(p.lines, "\n") + "\n"
		require.Equal(t, first, play(strings.NewReader(sent), io.Discard), "%d", seed)
		require.GreaterOrEqual(t, strings.Count(first, "\n"), len(p.lines), "%d", seed)
	}
}
