package feed

import (
	"encoding/json"
	"errors"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
)

// deaf keeps nothing.
type deaf struct{}

func (deaf) Keep(...event.Event) error { return nil }

// What the README says of the feed is what the feed says and takes.
func TestReadmeIsTrue(t *testing.T) {
	data, err := os.ReadFile("README.md")
	require.NoError(t, err)
	_, text, ok := strings.Cut(string(data), "```json\n")
	require.True(t, ok)
	example, text, ok := strings.Cut(text, "\n```")
	require.True(t, ok)

	var o Out
	d := json.NewDecoder(strings.NewReader(example))
	d.DisallowUnknownFields()
	require.NoError(t, d.Decode(&o))
	require.NotNil(t, session.StageRow(o.Stage))
	require.NotNil(t, o.Advice)

	scope := scope.Builtin()
	s, err := session.Start(event.Event{ID: "readme", Scope: &scope}, deaf{})
	require.NoError(t, err)
	answers := 0
	for _, code := range regexp.MustCompile("`(\\{[^`]*\\})`").FindAllStringSubmatch(text, -1) {
		_, err := parse([]byte(code[1]), s.State(), func(string) (event.Event, error) { return event.Event{Kind: event.KindReading}, nil })
		if !errors.Is(err, errNotWatched) && !errors.Is(err, errNoCue) { // understood, and not asked for as it begins
			assert.NoError(t, err, code[1])
		}
		answers++
	}
	assert.Greater(t, answers, 20)

	list := regexp.MustCompile("`stage` is one of ([^;]*); and, [^,]*\\(.*?\\), ([^.]*)\\.").FindStringSubmatch(text)
	require.Len(t, list, 3)
	stages := strings.Split(list[1]+", "+list[2], ", ")
	assert.Len(t, stages, 18, "all of session.StageID")
	for _, id := range stages {
		assert.NotNil(t, session.StageRow(session.StageID(id)), id)
	}
}
