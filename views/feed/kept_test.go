package feed_test

import (
	"flag"
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
)

var reword = flag.Bool("reword", false, "write today's words into the kept sessions, where nothing else differs")

const anew = "meant to be so? cd views/feed && go test -run Kept -update; words alone: -reword"

// keptSessions is how many sessions are kept, at least.
const keptSessions = 200

// What went into the kept sessions, all of them with -long, is sent again, and what comes out is what
// came out then, to the byte. Words are told apart from all else: a sentence
// may be written better while nothing that it says has changed.
func TestKeptSessions(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("kept on amd64; other processors round otherwise in the last digit")
	}
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // the states of a session are short-lived: a fifth less to do
	kept, scopes := readKept(t), keptScopes(t)
	if sessiontest.Update() {
		playAnew(t, kept, scopes)
		return
	}
	require.GreaterOrEqual(t, len(kept), keptSessions)
	if !*reword {
		kept = oneIn(sessiontest.Of(24, 16, 1), kept)
	}
	today := make([]keptSession, len(kept))
	each(len(kept), func(i int) {
		today[i] = keptSession{kept[i].name, replay(scopes, kept[i].lines)}
	})
	facts, words := differences(kept, today)
	if *reword && len(facts) == 0 {
		writeKept(t, today)
		fmt.Printf("%d sessions written in today's words\n%s\n", len(words), report(words, len(words)))
		return
	}
	t.Run("facts", func(t *testing.T) {
		if len(facts) > 0 {
			t.Errorf("%d of %d kept sessions go another way.\n%s\n%s", len(facts), len(kept), report(facts, 8), anew)
		}
	})
	t.Run("words", func(t *testing.T) {
		if len(words) > 0 {
			t.Errorf("words only: %d of %d kept sessions say the same in other words.\n%s\n%s", len(words), len(kept), report(words, 4), anew)
		}
	})
}

// oneIn returns one session of n.
func oneIn(n int, kept []keptSession) (some []keptSession) {
	for i := 0; i < len(kept); i += n {
		some = append(some, kept[i])
	}
	return some
}

// differences returns the first difference of each session that has one. One
// that goes another way is not told of again for its words.
func differences(kept, today []keptSession) (facts, words []difference) {
	for i, k := range kept {
		f, w := compare(k, today[i].lines)
		switch {
		case f != nil:
			facts = append(facts, *f)
		case w != nil:
			words = append(words, *w)
		}
	}
	return facts, words
}

// report tells of the first differences in full and names the other sessions.
func report(ds []difference, most int) string {
	var text, names []string
	for i, d := range ds {
		if i < most {
			text = append(text, d.String())
		} else {
			names = append(names, d.name)
		}
	}
	if len(names) > 0 {
		text = append(text, "and "+strings.Join(names, ", "))
	}
	return strings.Join(text, "\n")
}

// each does something for every number below n, on all processors.
func each(n int, do func(int)) {
	var next atomic.Int64
	var work sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		work.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	work.Wait()
}

// playAnew plays all sessions before virtual telescopes, writes them, and
// tells which differ from those that were kept, and where first.
func playAnew(t *testing.T, was []keptSession, scopes map[string]scope.Scope) {
	plans := keptPlans(scopes)
	now := make([]keptSession, len(plans))
	each(len(plans), func(i int) {
		now[i] = keptSession{plans[i].name(), plans[i].play(scopes)}
	})
	byName := map[string][]string{}
	for _, k := range now {
		byName[k.name] = k.lines
	}
	var both, then []keptSession
	known := map[string]bool{}
	for _, k := range was {
		known[k.name] = true
		if lines, ok := byName[k.name]; ok {
			both, then = append(both, keptSession{k.name, lines}), append(then, k)
		} else {
			fmt.Println("no longer played:", k.name)
		}
	}
	for _, k := range now {
		if !known[k.name] {
			fmt.Println("new:", k.name)
		}
		for _, l := range k.lines {
			assert.False(t, strings.HasPrefix(l, markFault), "%s: %s", k.name, l)
		}
	}
	facts, words := differences(then, both)
	if len(facts)+len(words) > 0 || len(both) != len(was) || len(now) != len(was) {
		writeKept(t, now)
	}
	fmt.Printf("%d sessions played; %d go another way\n%s\n", len(now), len(facts), report(facts, len(facts)))
	fmt.Printf("%d differ in words only\n%s\n", len(words), report(words, len(words)))
}

// The kept sessions are worth keeping: every stage, every kind of answer and
// every order is in one of them.
func TestKeptSessionsHoldAllThatIsSaid(t *testing.T) {
	var all strings.Builder
	for _, k := range readKept(t) {
		all.WriteString(strings.Join(k.lines, "\n") + "\n")
	}
	text := all.String()
	want := []string{
		`"again":true`, `"error":`, `"learning":true`, `"ask":`, `"then":`, `"lock":`, `"as":"bearing"`, `"as":"point"`,
		`"faces":["secondary","mouth","card"]`, `"do":["laser_in","card_whole","laser_on"]`, `"do":["ease_locks"]`, `"snug_secondary"`, `"swing_back"`,
		`"stand":"sky"`, `{"all":true,"gone":true}`, `{"hole":"even"}`, `"hole":"side"`, `{"face":"secondary"`, `"face":"mouth"`, `"face":"secondary"`, `"face":"card"`, `"face":"target"`, `"face":"primary"`,
	}
	for _, id := range []session.StageID{
		session.StageReady, session.StageEmpty, session.StageLaserIn, session.StageFirstLook, session.StageVerdict, session.StageLabels,
		session.StageSecondary, session.StageLaserFit, session.StageLocks, session.StageRough, session.StageHome, session.StageRetighten,
		session.StageSwing, session.StagePutAway, session.StageStopping, session.StagePlace, session.StageShadow, session.StageStar,
	} {
		want = append(want, fmt.Sprintf(`"stage":"%s"`, id))
	}
	for _, answer := range []string{
		"confirm", "reading", "within", "in_ring", "home", "gone", "cant_see", "choice", "screw", "laser", "turned", "skip", "back", "undo", "redo",
		"finer", "stop", "quit",
	} {
		want = append(want, fmt.Sprintf("%s{%q:", markIn, answer))
	}
	for _, is := range []event.Says{
		event.SaysStuck, event.SaysFree, event.SaysEnd, event.SaysSlipped, event.SaysSticky, event.SaysStripped,
		event.SaysOtherWay, event.SaysNotDone, event.SaysUnturned,
	} {
		want = append(want, fmt.Sprintf(`{"is":%q,"screw":`, is))
	}
	for _, laser := range []string{"dead", "weak", "fresh"} {
		want = append(want, fmt.Sprintf(`{"laser":%q}`, laser))
	}
	for _, order := range []string{orderAgain, orderUp, orderFull, orderLong, orderLost} {
		want = append(want, "\n"+markOrder+order+"\n")
	}
	for _, outcome := range []string{session.OutcomeAligned, session.OutcomeLeft, session.OutcomeStopped, session.OutcomeNotToday} {
		want = append(want, fmt.Sprintf(`"outcome":%q`, outcome))
	}
	for _, w := range want {
		assert.True(t, strings.Contains(text, w), "in no kept session: %s", w)
	}
}
