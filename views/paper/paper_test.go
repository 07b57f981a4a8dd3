package paper_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/mirrors"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/paper"
	"spotward/views/schematic"
	"spotward/views/theme"
)

// played is a session played to its end at the practice telescope.
func played(t testing.TB, seed uint64, level virtual.Level) paper.Sheet {
	t.Helper()
	l, err := shelf.Open(t.TempDir())
	require.NoError(t, err)
	now := time.Date(2026, 3, 1, 19, 0, 0, 0, time.UTC)
	d := &desk.Desk{Library: l, Who: "A. Volunteer", Program: "test", Now: func() time.Time {
		now = now.Add(20 * time.Second)
		return now
	}}
	w, err := d.Practice(scope.Builtin(), event.World{Seed: seed, Level: string(level)})
	require.NoError(t, err)
	for n := 0; !w.Over(); n++ {
		require.Less(t, n, 300)
		line := ""
		if ask := w.State().Ask(); ask.Want == session.WantReading && ask.Told == nil {
			line = w.Bench.World().Eyes(ask.Face).String()
		}
		_, err := w.Line(line)
		require.NoError(t, err)
	}
	id, err := w.Close()
	require.NoError(t, err)
	r, err := l.Record(id)
	require.NoError(t, err)
	lines, _, err := l.ReadJournal(id)
	require.NoError(t, err)
	return paper.Sheet{Record: r, Scope: scope.Builtin(), Journal: lines, Program: "(test)"}
}

func pageOf(t require.TestingT, s paper.Sheet) string {
	var out bytes.Buffer
	require.NoError(t, s.Write(&out))
	return out.String()
}

// drawings are the drawings of a page, each as XML.
func drawings(t require.TestingT, page string) []string {
	found := regexp.MustCompile(`(?s)<figure>.*?</figure>`).FindAllString(page, -1)
	require.Len(t, found, 4)
	for _, f := range found {
		wellFormed(t, f)
	}
	return found
}

func wellFormed(t require.TestingT, text string) {
	dec := xml.NewDecoder(strings.NewReader(text))
	for {
		_, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		require.NoError(t, err, text)
	}
}

func TestPage(t *testing.T) {
	s := played(t, 3, virtual.Easy)
	s.Record.Labels = map[optics.Mirror]string{optics.Primary: mirrors.LabelsReversed}
	page := pageOf(t, s)
	if dir := os.Getenv("PAGES"); dir != "" { // to be looked at in a browser
		require.NoError(t, os.WriteFile(filepath.Join(dir, "page.html"), []byte(page), 0o644))
		var label bytes.Buffer
		require.NoError(t, paper.WriteLabels(&label, []paper.Sheet{s}))
		require.NoError(t, os.WriteFile(filepath.Join(dir, "label.html"), label.Bytes(), 0o644))
		require.NoError(t, os.WriteFile(filepath.Join(dir, "long.html"), []byte(pageOf(t, played(t, 4, virtual.Usual))), 0o644))
	}
	for _, want := range []string{
		"<h1>Dunlin</h1>", "Practice: on a telescope that is not there.", "A. Volunteer", s.Record.ID,
		">" + words.Tag(s.Record.Tag) + "<", "<b>" + s.Record.Upshot.Words() + "</b>", "Cautions passed", "Never touch the centre bolt", "together", "The way of the spot",
		"everything was counted back", "letters: primary reversed",
		fmt.Sprintf("%.1f mm, at most %.1f", s.Record.Left.AxisErrorMM, s.Record.Left.AxisErrorMaxMM),
	} {
		assert.Contains(t, page, want)
	}
	var names []string
	for _, dt := range regexp.MustCompile(`<dt>(.*?)</dt>`).FindAllStringSubmatch(page, -1) {
		names = append(names, dt[1])
	}
	assert.Equal(t, []string{"found", "done", "left", "known", "not known", "next"}, names)
	for i := range s.Record.Looks {
		assert.Contains(t, page, fmt.Sprintf("<li><b>%d</b>", i+1))
	}
	drawings(t, page)

	var label bytes.Buffer
	require.NoError(t, paper.WriteLabels(&label, []paper.Sheet{s}))
	for _, want := range []string{"<h1>Dunlin</h1>", "ready", s.Record.ID, "1 March 2026"} {
		assert.Contains(t, label.String(), want)
	}
	assert.Less(t, label.Len(), 8<<10)
}

// A page asks nothing of any network and runs nothing.
func TestPageStandsAlone(t *testing.T) {
	page := pageOf(t, played(t, 3, virtual.Easy))
	for _, never := range []string{"http:", "https:", "src=", "href", "<script", "@import", "url(", "//"} {
		assert.NotContains(t, page, never)
	}
	assert.Contains(t, page, "default-src 'none'")
}

// Without its journal, or with one that breaks off, a record is still a page.
func TestPageOfLittle(t *testing.T) {
	s := played(t, 3, virtual.Easy)
	for _, journal := range [][]event.Line{nil, s.Journal[:5], s.Journal[3:]} {
		s.Journal = journal
		drawings(t, pageOf(t, s))
	}
	s.Record = session.Record{}
	drawings(t, pageOf(t, s))
}

// Whatever was typed stands on the page as text: nothing of it is markup or
// turns the writing round.
func TestPageOfAnything(t *testing.T) {
	s := played(t, 3, virtual.Easy)
	s.Journal = s.Journal[:30] // no text that is drawn below stands in it
	why := `<p class="why"></p>`
	plain := strings.Replace(tags(pageOf(t, s)), why, "", 1)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{
			`<script>alert(1)</script>`, `"><svg onload=x>`, "</style><b>", "\x1b[2J", "\u202eabc", "a\nb", `{{.ID}}`, "&lt;", "'", "javascript:x",
		})).Draw(t, "text")
		r := s.Record
		r.Who, r.Kit, r.TagWhy, r.Scope, r.ID = text+".", text+".", text+".", text+".", text+"."
		odd := s
		odd.Record, odd.Program = r, text
		page := pageOf(t, odd)
		require.Equal(t, plain, strings.Replace(tags(page), why, "", 1))
		for _, c := range page {
			require.True(t, c == '\n' || unicode.IsPrint(c), "%U", c)
		}
	})
}

// tags is the markup of a page alone.
func tags(page string) string {
	return strings.Join(regexp.MustCompile(`<[^>]*>`).FindAllString(page, -1), "")
}

var end = regexp.MustCompile(`<circle class="(found|left)" cx="([-0-9.]+)" cy="([-0-9.]+)"`)

// A spot stands on the page where the terminal draws it.
func TestDrawingsAreTheTerminals(t *testing.T) {
	const cols, rows, radius = 121, 61, 28.
	for seed := range uint64(6) {
		s := played(t, seed, virtual.Easy)
		tel := s.Scope.Telescope()
		for n, figure := range drawings(t, pageOf(t, s)) {
			face, marks := optics.FacePrimary, map[string]*session.Mark{"found": s.Record.Found.P, "left": s.Record.Left.P}
			if n >= 2 {
				face, marks = optics.FaceTarget, map[string]*session.Mark{"found": s.Record.Found.T, "left": s.Record.Left.T}
			}
			rim := number(t, regexp.MustCompile(`rim (\d+) mm`).FindStringSubmatch(figure)[1])
			for _, m := range end.FindAllStringSubmatch(figure, -1) {
				at := tel.ToDial(face, optics.Seen{Right: marks[m[1]].Right, Up: marks[m[1]].Up})
				c := schematic.New(cols, rows, schematic.Options{})
				c.Face(schematic.Place{Col: cols / 2, Row: rows / 2, R: 2 * radius}, schematic.FaceSpec{RimMM: rim, Now: &schematic.Mark{At: at}, Bare: true})
				col, row := middleOf(t, c, cols, rows)
				x, y := number(t, m[2])/50*2*radius, number(t, m[3])/50*2*radius
				assert.InDelta(t, x, col-cols/2, 2.5+0.05*math.Abs(x), "seed %d, %s", seed, figure)
				assert.InDelta(t, y, 2*(row-rows/2), 2.5+0.05*math.Abs(y), "seed %d, %s", seed, figure)
			}
		}
	}
}

func number(t require.TestingT, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// middleOf is the middle of the spot on a canvas, in columns and rows.
func middleOf(t require.TestingT, c *schematic.Canvas, cols, rows int) (col, row float64) {
	n := 0.
	for y := range rows {
		for x := range cols {
			if _, role := c.Cell(x, y); role == theme.Light {
				col, row, n = col+float64(x), row+float64(y), n+1
			}
		}
	}
	require.NotZero(t, n)
	return col / n, row / n
}
