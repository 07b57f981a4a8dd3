package answer_test

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/reading"
)

// phrase is a line of the table: what was typed at which question, and what may
// have been meant.
type phrase struct{ at, typed, meant string }

func phrases(t *testing.T, file string) []phrase {
	t.Helper()
	f, err := os.Open("testdata/" + file)
	require.NoError(t, err)
	defer f.Close()
	var all []phrase
	lines := bufio.NewScanner(f)
	for n := 0; lines.Scan(); n++ {
		cols := strings.Split(lines.Text(), "\t")
		require.Len(t, cols, 3, "%s:%d", file, n+1)
		if n > 0 {
			all = append(all, phrase{cols[0], cols[1], cols[2]})
		}
	}
	require.NoError(t, lines.Err())
	return all
}

// What became of a phrase.
const (
	understood = "understood"
	askedBack  = "asked back"
	helped     = "refused, with a way to say it"
	unhelped   = "refused"
	wrongly    = "taken wrongly"
	opposite   = "taken the wrong way round"
)

// judge sends a phrase and says what became of it.
func judge(s session.State, p phrase) (verdict, said string) {
	line := p.typed
	if line == "<enter>" {
		line = ""
	}
	meanings := strings.Split(p.meant, "|")
	if opts := s.Ask().Options; len(opts) > 0 {
		if n, err := strconv.Atoi(p.typed); err == nil && n <= len(opts) { // counted on the list that stood there
			meanings = append(meanings, "choice:"+opts[n-1].ID)
		}
	}
	for _, m := range meanings {
		if m == reading.Command(line) || m == "again" && reading.Command(line) == "where" {
			return understood, m
		}
	}
	typed, err := answer.Line(s, line)
	if err == nil {
		for _, m := range meanings {
			if means(s, typed, m) {
				return understood, typed.Echo
			}
		}
		if wayRound(s, typed, meanings) {
			return opposite, typed.Echo
		}
		return wrongly, typed.Echo
	}
	return refusal(s, meanings, err), err.Error()
}

// wayRound reports whether a line was taken for the opposite of a meaning: a screw
// the other way, a place across the dial, a yes for a no.
func wayRound(s session.State, typed answer.Typed, meanings []string) bool {
	ev := typed.Events[0]
	for _, m := range meanings {
		kind, rest, _ := strings.Cut(m, ":")
		switch kind {
		case "turned":
			for i, want := range strings.Split(rest, ",") {
				_, turns, _ := strings.Cut(want, ":")
				if i < len(ev.Turned) && strings.HasPrefix(turns, "-") != (ev.Turned[i].Turns < 0) {
					return true
				}
			}
		case "place", "on", "in", "out", "wall":
			hour, err := strconv.ParseFloat(strings.Split(rest, ":")[0], 64)
			at := s.Tel.ToDial(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up})
			if err == nil && ev.Kind == event.KindReading && at.Len() > 0 && math.Abs(math.Remainder(at.Hour()-hour, 12)) > 3 {
				return true
			}
		case "ask", "tell":
			if ev.Kind == event.KindConfirm {
				return true
			}
		}
	}
	return false
}

// means reports whether a line was taken for that meaning.
func means(s session.State, typed answer.Typed, meaning string) bool {
	ev := typed.Events[0]
	kind, rest, _ := strings.Cut(meaning, ":")
	switch kind {
	case "place":
		return placed(s, ev, rest)
	case "width":
		mm, err := strconv.ParseFloat(rest, 64)
		return err == nil && math.Abs(ev.WidthMM-mm) < 0.02*mm
	}
	line, ok := canonical(kind, rest)
	if !ok {
		return false
	}
	want, err := answer.Line(s, line)
	if err != nil {
		return false
	}
	return same(want.Events[0], ev)
}

func same(a, b event.Event) bool {
	a.Text, b.Text = "", ""
	if a.Kind == event.KindReading && a.Kind == b.Kind && a.Saw == b.Saw && a.Face == b.Face {
		return math.Hypot(a.Right-b.Right, a.Up-b.Up) < 0.01
	}
	if a.Kind == event.KindWent && a.Kind == b.Kind {
		return a.Screw == b.Screw && math.Hypot(a.Right-b.Right, a.Up-b.Up) < 0.01
	}
	return fmt.Sprintf("%+v", plainEvent(a)) == fmt.Sprintf("%+v", plainEvent(b))
}

// plainEvent writes an event with what its pointers point to.
func plainEvent(ev event.Event) string {
	cov := [3]float64{}
	if ev.Cov != nil {
		cov = *ev.Cov
	}
	ev.Cov = nil
	return fmt.Sprintf("%+v %.6f", ev, cov)
}

// canonical returns the line in which a meaning is said everywhere.
func canonical(kind, rest string) (string, bool) {
	switch kind {
	case "done":
		return "yes", true
	case "choice":
		return strings.ReplaceAll(rest, "_", " "), true
	case "home", "in", "dead", "same", "many", "undo", "stop", "quit", "back", "finer":
		return strings.TrimSpace(kind + " " + rest), true
	case "skip":
		return "skip no room", true
	case "went":
		return "went " + rest, true
	case "gone":
		return "not there", true
	case "cantsee":
		return "cant see", true
	case "mid":
		return "middle", true
	case "in0":
		return "in", true
	case "cued":
		return "=", true
	case "on", "out", "wall":
		return kind + " " + rest, true
	case "says":
		screw, is, _ := strings.Cut(rest, ":")
		return is + " " + lockName(screw), true
	case "other_way", "wrong":
		return strings.TrimSpace(strings.ReplaceAll(kind, "_", " ") + " " + rest), true
	case "not_done":
		return "not done", true
	case "not_turned":
		return "not turned", true
	case "laser":
		return rest + " laser", true
	case "focuser":
		return "focuser " + rest, true
	case "face":
		return "on the face " + strings.ReplaceAll(rest, ":", " "), true
	case "turned":
		var words []string
		for _, t := range strings.Split(rest, ",") {
			screw, turns, _ := strings.Cut(t, ":")
			if !strings.HasPrefix(turns, "-") {
				turns = "+" + turns
			}
			words = append(words, lockName(screw)+" "+turns)
		}
		return strings.Join(words, " "), true
	}
	return "", false
}

func lockName(s string) string {
	if l, ok := strings.CutPrefix(s, "lock"); ok {
		return "lock " + l
	}
	return s
}

// placed reports whether a reading stands at hour:mm or hour:from-to.
func placed(s session.State, ev event.Event, want string) bool {
	if ev.Kind != event.KindReading || ev.Saw != event.SawPlace {
		return false
	}
	hour, dist, _ := strings.Cut(want, ":")
	h, err := strconv.ParseFloat(hour, 64)
	if err != nil {
		return false
	}
	d := s.Tel.ToDial(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up})
	low, high, ranged := strings.Cut(dist, "-")
	from, _ := strconv.ParseFloat(low, 64)
	to := from
	if ranged {
		to, _ = strconv.ParseFloat(high, 64)
	}
	off := math.Abs(math.Mod(d.Hour()-h+18, 12) - 6)
	return off < 0.3 && d.Len() > 0.98*from-0.1 && d.Len() < 1.02*to+0.1
}

// refusal says whether a phrase was rightly asked back, or refused with a way to
// say what was meant.
func refusal(s session.State, meanings []string, err error) string {
	question := strings.Contains(err.Error(), "?")
	for _, m := range meanings {
		if word, ok := strings.CutPrefix(m, "tell:"); ok && strings.Contains(strings.ToLower(err.Error()), word) {
			return helped
		}
		switch m {
		case "ask":
			if question {
				return askedBack
			}
		case "tell", "again", "help", "why":
			return helped
		}
	}
	for _, ex := range offered(err) {
		typed, err := answer.Line(s, ex)
		if err != nil {
			continue
		}
		for _, m := range meanings {
			if alike(s, typed.Events[0], m) {
				return helped
			}
		}
	}
	return unhelped
}

// offered returns the lines that an error says one may say.
func offered(err error) []string {
	_, list, ok := strings.Cut(err.Error(), "say ")
	if !ok {
		return nil
	}
	list = strings.ReplaceAll(list, " or ", ", ")
	return strings.Split(list, ", ")
}

// alike reports whether an event says the same kind of thing as a meaning.
func alike(s session.State, ev event.Event, meaning string) bool {
	kind, rest, _ := strings.Cut(meaning, ":")
	switch kind {
	case "place", "on", "out", "in", "wall":
		return ev.Kind == event.KindReading && (ev.Saw == event.SawPlace || ev.Saw == event.SawOffGlass)
	case "turned":
		return ev.Kind == event.KindTurned
	case "width":
		return ev.WidthMM > 0
	case "choice":
		return ev.Kind == event.KindChoice
	case "gone", "cantsee":
		return ev.Saw == event.SawGone || ev.Saw == event.SawCantSee
	case "says":
		_, is, _ := strings.Cut(rest, ":")
		return ev.Kind == event.KindScrew && string(ev.Is) == is
	}
	return means(s, answer.Typed{Events: []event.Event{ev}}, meaning)
}

// What of a table must be understood or rightly asked back, what may be taken for
// something else, and in how many refusals a way to say it must stand.
const (
	leastUnderstood = 0.80
	mostWrongly     = 0.01
	leastHelped     = 0.90
)

// TestPhrases sends what people typed at each kind of question, each to a session
// that stands there, and counts what became of it. -v shows the counts, and every
// phrase that was not understood.
func TestPhrases(t *testing.T) {
	states := questions(t)
	for _, file := range []string{"phrases.tsv", "phrases_more.tsv", "phrases_fresh.tsv", "phrases_later.tsv"} {
		t.Run(file, func(t *testing.T) {
			var kinds []string
			counts := map[string]map[string]int{}
			for _, p := range phrases(t, file) {
				s, ok := states[p.at]
				require.True(t, ok, p.at)
				v, said := judge(s, p)
				if counts[p.at] == nil {
					counts[p.at] = map[string]int{}
					kinds = append(kinds, p.at)
				}
				for _, k := range []string{p.at, ""} {
					if counts[k] == nil {
						counts[k] = map[string]int{}
					}
					counts[k][v]++
				}
				assert.NotEqual(t, opposite, v, "%s: %q was taken for: %s", p.at, p.typed, said)
				if v != understood && v != askedBack {
					t.Logf("%s: %s: %q (%s): %s", v, p.at, p.typed, p.meant, said)
				}
			}
			for _, k := range append(kinds, "") {
				c := counts[k]
				t.Logf("%-26s %3d: understood %3d, asked back %3d, refused with a way to say it %3d, without %2d, taken wrongly %2d",
					k, sum(c), c[understood], c[askedBack], c[helped], c[unhelped], c[wrongly])
			}
			all := counts[""]
			n := float64(sum(all))
			assert.GreaterOrEqual(t, float64(all[understood]+all[askedBack]), leastUnderstood*n)
			assert.LessOrEqual(t, float64(all[wrongly]), mostWrongly*n)
			assert.GreaterOrEqual(t, float64(all[helped]), leastHelped*float64(all[helped]+all[unhelped]))
		})
	}
}

func sum(c map[string]int) (n int) {
	for _, v := range c {
		n += v
	}
	return n
}
