package history_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/mirrors"
	"spotward/session/scope"
	"spotward/session/sessiontest"
)

func TestExportCSV(t *testing.T) {
	circle := 2.5
	r := session.Record{
		ID: sessiontest.NthID(1), Scope: "Heron", Who: `O'Neil, "Ada"`, Kit: "Loan 1", Outcome: "aligned", AllowedMM: 0.55,
		Began: time.Date(2026, 3, 1, 19, 0, 0, 0, time.UTC),
		Found: session.Moment{
			P: &session.Mark{Saw: event.SawPlace, Right: -8.5, Up: 3, Sigma: 1.5},
			T: &session.Mark{Saw: event.SawGone},
		},
		Left:     session.Moment{P: &session.Mark{Saw: event.SawInRing}, Claimed: true, AxisErrorMM: 0.4, AxisErrorMaxMM: 1.2, Strehl: 0.98},
		CircleMM: &circle, NetTurns: map[string]float64{"primary B": -0.5, "primary A": 0.1875},
		Labels:  map[optics.Mirror]string{optics.Primary: mirrors.LabelsAsAsked, optics.Secondary: mirrors.LabelsReversed},
		Finer:   []session.Finer{{Check: session.StageStar, Words: "a star is even"}},
		Skips:   []session.Skipped{{Stage: session.StageSwing, Why: "no\nroom"}},
		Trouble: []string{"=1+1"},
	}
	var out bytes.Buffer
	require.NoError(t, history.ExportCSV(&out, []session.Record{r, {}}))
	lines, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	require.Len(t, lines, 3)
	got := map[string]string{}
	for i, name := range lines[0] {
		_, twice := got[name]
		require.False(t, twice, name)
		got[name] = lines[1][i]
	}
	for name, want := range map[string]string{
		"id": sessiontest.NthID(1), "who": `O'Neil, "Ada"`, "began": "2026-03-01T19:00:00Z", "allowed_mm": "0.55",
		"found_p_right_mm": "-8.5", "found_p_up_mm": "3", "found_p_sigma_mm": "1.5", "found_p_saw": "place",
		"found_t_saw": "gone", "found_t_right_mm": "", "found_axis_error_mm": "",
		"left_p_right_mm": "0", "left_t_saw": "", "left_axis_error_mm": "0.4", "left_axis_error_max_mm": "1.2", "left_strehl": "0.98",
		"laser_circle_mm": "2.5", "net_turns": "primary A +0.1875; primary B -0.5", "left_out": "swing: no room", "labels": "secondary reversed; primary as asked", "finer": "a star is even", "noted": "'=1+1",
	} {
		assert.Equal(t, want, got[name], name)
	}
}

// Whatever was typed, no cell is a formula and every line has all columns.
func TestExportCSVOfAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"=x", " =x", "+1", "-2", "@a", "\t=x", "\r=x", "＝1+1", "＠a", "", "\x1b]0;x\a", "a\nb"}))
		r := session.Record{Scope: text.Draw(t, "scope"), Who: text.Draw(t, "who"), TagWhy: text.Draw(t, "why"), Trouble: []string{text.Draw(t, "noted")}}
		var out bytes.Buffer
		require.NoError(t, history.ExportCSV(&out, []session.Record{r}))
		lines, err := csv.NewReader(&out).ReadAll()
		require.NoError(t, err)
		require.Len(t, lines, 2)
		for i, cell := range lines[1] {
			require.NotRegexp(t, `^\s*[=+@＝＋＠－-]`, cell, lines[0][i])
			require.NotRegexp(t, `[\x00-\x1f\x7f-\x9f]`, cell)
		}
	})
}

func TestExportJSON(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	_, err := l.Scope(sessiontest.ScopesDir + "/heron.toml")
	require.NoError(t, err)
	require.NoError(t, l.SaveKit(scope.Kit{Name: "Loan 1", Laser: scope.Laser{Class: "2"}}))
	sessiontest.Stopped(t, l, sessiontest.NthID(1), "heron")
	shelf, errs := l.Shelf()
	require.Empty(t, errs)
	var out bytes.Buffer
	require.NoError(t, shelf.ExportJSON(&out))
	var back struct {
		V       int
		Scopes  []scope.Scope
		Kits    []map[string]any
		Records []session.Record
	}
	require.NoError(t, json.Unmarshal(out.Bytes(), &back))
	assert.Equal(t, 1, back.V)
	assert.Equal(t, shelf.Scopes, back.Scopes)
	assert.Equal(t, []map[string]any{{"format": 1., "name": "Loan 1", "laser": map[string]any{"class": "2"}}}, back.Kits)
	require.Len(t, back.Records, 1)
	assert.Equal(t, sessiontest.NthID(1), back.Records[0].ID)

	out.Reset()
	require.NoError(t, history.Stock{}.ExportJSON(&out))
	assert.NotContains(t, out.String(), "null")
}

func TestPick(t *testing.T) {
	day := func(n int) time.Time { return time.Date(2026, 3, n, 12, 0, 0, 0, time.UTC) }
	records := []session.Record{
		{ID: "1", Scope: "Heron", Who: "Ada", Began: day(1)},
		{ID: "2", Scope: "Wren", Who: "Ada", Began: day(2)},
		{ID: "3", Scope: "HERON", Who: "Ben", Began: day(3)},
	}
	for want, pick := range map[string]history.Pick{
		"123": {}, "13": {Scope: "heron"}, "12": {Who: "ADA"}, "23": {Since: day(2)}, "1": {Until: day(2)},
		"3": {Scope: "heron", Since: day(2)}, "2": {Since: day(2), Until: day(3)}, "": {Who: "Ad"},
	} {
		got := ""
		for _, r := range pick.Of(records) {
			got += r.ID
		}
		assert.Equal(t, want, got)
	}
	assert.Len(t, records, 3)
}
