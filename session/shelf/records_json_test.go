package shelf

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

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
	for _, line := range lines {
		var want session.Record
		if json.Unmarshal([]byte(line), &want) != nil {
			want = session.Record{}
		}
		require.Equal(t, want, recordIn([]byte(line)), line)
	}
}
