package shelf

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/session"
)

// A line is read as encoding/json reads it, whoever has written it.
func TestRecordsAreReadAsJSONHasThem(t *testing.T) {
	const id = `"id":"20260101T000000Z-0001"`
	whole := `{"v":1,` + id + `,"scope":"Heron","practice":true,"way":2,"began":"2026-01-01T18:00:20Z","tag_why":"é","upshot":{"kind":"as_near","text":"x"},"allowed_mm":0.55296,"found":{"p":{"saw":"place","right":-1.5e-3,"up":0,"sigma_mm":0.5},"claimed":false},"left":{"axis_error_mm":0.65,"claimed":true},"laser_circle_mm":0,"looks":2,"net_turns":{"primary A":-0.25},"labels":{"primary":"as_asked"},"trouble":["a \"b\" ]"],"learnt":{"primary":{"mirror":"primary","per_turn":[{"X":1,"Y":-2}],"spread":[{"XX":1,"XY":0,"YY":2}],"hand":0.5}}}`
	lines := []string{
		whole, `{}`, `{` + id + `}`, `{` + id + `,"looks":01}`, `{` + id + `,"looks":1.5}`, `{` + id + `,"allowed_mm":+1}`, `{` + id + `,"allowed_mm":0x1p4}`,
		`{` + id + `,"allowed_mm":1.}`, `{` + id + `,"later":[1,2]}`, `{` + id + `,"SCOPE":"Wren"}`, `{` + id + `,"scope":null}`, `{` + id + `,"scope":"a\u00e9"}`,
		`{ ` + id + ` }`, `{` + id + `}}`, `{` + id + `,}`, `{` + id + `,"learnt":{}}`, `{` + id + `,"trouble":[]}`, "{" + id + ",\"scope\":\"a\tb\"}", "{" + id + ",\"scope\":\"\xff\"}",
	}
	var dec decoder
	same := func(t require.TestingT, line string) {
		var want session.Record
		if json.Unmarshal([]byte(line), &want) != nil {
			want = session.Record{}
		}
		require.Equal(t, want, dec.record([]byte(line)), line)
	}
	for _, line := range lines {
		same(t, line)
	}
	dec.record([]byte(strings.Replace(whole, `\"b\"`, "b", 1)))
	require.False(t, dec.bad, "the quick way")
	rapid.Check(t, func(t *rapid.T) {
		line := []byte(whole)
		for range rapid.IntRange(1, 3).Draw(t, "changes") {
			at := rapid.IntRange(0, len(line)-1).Draw(t, "at")
			if rapid.Bool().Draw(t, "cut") {
				line = append(line[:at:at], line[at+1:]...)
			} else {
				line[at] = rapid.SampledFrom([]byte(`"{}[]:,.-e019 \x`)).Draw(t, "byte")
			}
		}
		same(t, string(line))
	})
}
