package desk_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/lesson"
	"spotward/session/shelf"
	"spotward/views/desk"
	"spotward/views/teach"
)

// class begins a lesson at the task of that number, from 1.
func class(t *testing.T, id string, task int) *teach.Class {
	t.Helper()
	l, err := lesson.ByName(id)
	require.NoError(t, err)
	l.Tasks = l.Tasks[task-1 : task]
	c, err := teach.Begin(classDesk(t), l)
	require.NoError(t, err)
	return c
}

// says types lines at a lesson's work until it is done, and returns the reply.
func says(t *testing.T, c *teach.Class, lines ...string) string {
	t.Helper()
	for _, line := range lines {
		_, err := c.Work().Line(line)
		require.NoError(t, err, line)
		done, reply, err := c.Played()
		require.NoError(t, err)
		if done {
			return reply
		}
	}
	t.Fatalf("not done after %q", lines)
	return ""
}

func TestTheCardByDeed(t *testing.T) {
	tests := []struct {
		name        string
		deeds       []string
		passed      bool
		lit, carded int
	}{
		{"card first", []string{"card on", "laser on"}, true, 1, 1},
		{"after looking about", []string{"swing", "knock", "card on", "laser on"}, true, 1, 1},
		{"no card", []string{"laser on"}, false, 1, 0},
		{"card off again", []string{"card on", "card off", "laser on"}, false, 1, 0},
	}
	for _, tt := range tests {
		c := class(t, "safe", 6)
		for _, deed := range tt.deeds {
			require.False(t, c.Over(), tt.name)
			_, err := c.Line(deed)
			require.NoError(t, err)
		}
		require.True(t, c.Over(), tt.name)
		r := c.Result()
		assert.Equal(t, tt.passed, r.Passed, tt.name)
		assert.Equal(t, tt.lit, r.Lit, tt.name)
		assert.Equal(t, tt.carded, r.Carded, tt.name)
	}
	c := class(t, "safe", 6)
	_, err := c.Line("look")
	assert.ErrorContains(t, err, "say what you do")
}

// What is asked unprompted must not be prompted.
func TestNobodySaysTheCard(t *testing.T) {
	c := class(t, "safe", 6)
	task, _ := c.Task()
	assert.NotContains(t, task.Say+c.See(), "card")
}

func TestATestBeforeTheAnswer(t *testing.T) {
	c := class(t, "lies", 2)
	answer := func() error { _, err := c.Line("laser"); return err }
	do := func(deeds ...string) {
		for _, deed := range deeds {
			_, err := c.Line(deed)
			require.NoError(t, err)
		}
	}
	assert.ErrorContains(t, answer(), "that would be a guess")
	do("turn laser", "re-seat")
	assert.ErrorContains(t, answer(), "that would be a guess", "in the dark nothing was seen")
	do("card on", "laser on", "laser off")
	require.NoError(t, answer())
	assert.True(t, c.Over())
	assert.True(t, c.Result().Passed)
}

func TestWhichOneLies(t *testing.T) {
	for n, want := range []string{"hardly moves", "runs round in a circle", "hardly moves"} {
		c := class(t, "lies", n+1)
		var seen []string
		for _, deed := range []string{"card on", "laser on", "turn laser", "laser off", "re-seat", "laser on"} {
			reply, err := c.Line(deed)
			require.NoError(t, err)
			seen = append(seen, c.See())
			if deed == "turn laser" {
				assert.Contains(t, reply, want, "task %d", n+1)
			}
		}
		assert.Equal(t, n == 2, seen[1] != seen[5], "task %d: it comes back to where it was, but in a holder that lies", n+1)
	}
}

func TestWhatWentWrongIsSaidAndAnswered(t *testing.T) {
	tests := []struct {
		task   int
		turns  bool // what is told, first
		say    string
		answer string // in the echo or in the session's next words
	}{
		{1, true, "stuck A", "don't force it"},
		{2, false, "end B", "back off"},
		{3, false, "free B", "until it just touches"},
		{4, true, "stripped A", "leave it alone"},
		{5, true, "other way", ""},
		{6, true, "dead laser", "The session answers: "},
	}
	for _, tt := range tests {
		c := class(t, "wrong", tt.task)
		w := c.Work()
		if tt.turns {
			_, err := w.Line("")
			require.NoError(t, err)
		}
		echo, err := w.Line(tt.say)
		require.NoError(t, err, tt.say)
		done, reply, err := c.Played()
		require.NoError(t, err)
		assert.True(t, done, tt.say)
		assert.Contains(t, echo+reply, tt.answer, tt.say)
		assert.Contains(t, reply, "That is it.", tt.say)
		assert.True(t, c.Result().Passed, tt.say)
	}
}

func TestClumsyHandsTurnTheOtherWay(t *testing.T) {
	c := class(t, "wrong", 5)
	w := c.Work()
	told := w.State().Told().Moves[0]
	i, err := w.State().Index(told.Turn)
	require.NoError(t, err)
	before := w.Bench.World().Truth().Primary.Turns[i]
	_, err = w.Line("")
	require.NoError(t, err)
	assert.Negative(t, told.Turns*(w.Bench.World().Truth().Primary.Turns[i]-before))
}

func TestWhatWentWrongAndWasNotSaid(t *testing.T) {
	c := class(t, "wrong", 2)
	assert.Contains(t, says(t, c, "2 7", "screw B sticky"), "Not this time.")
	c = class(t, "wrong", 2)
	assert.Contains(t, says(t, c, "2 7", "", "2 7", "", "2 7", "", "2 7"), "Not this time.", "nothing was said at all")
	assert.False(t, c.Result().Passed)
}

// A lesson that is to be clean is not passed by one who leaves the spot where it
// is wanted and has done what would have done harm.
func TestACleanLesson(t *testing.T) {
	for _, deeds := range [][]string{nil, {"laser off", "card off", "laser on", "card on"}} {
		c := class(t, "ring", 1)
		for _, deed := range deeds {
			_, err := c.Work().Line(deed)
			require.NoError(t, err)
		}
		for done := false; !done; {
			w := c.Work()
			if told, ok := w.Bench.AsTold(w.State(), ""); ok { // the spot is read after the turn
				require.NoError(t, w.Send(told.Events...))
			}
			require.NoError(t, w.Send(w.Bench.Ideal(w.State(), session.VerdictSecondary)))
			var err error
			done, _, err = c.Played()
			require.NoError(t, err)
		}
		assert.Zero(t, c.Result().Wrong, "the spot is where it is wanted")
		assert.Equal(t, len(deeds) == 0, c.Result().Passed, "%q: %q", deeds, c.Result().Deeds)
	}
}

func TestWhatWasNotSeenDoesNotCount(t *testing.T) {
	c := class(t, "rough", 1)
	assert.Contains(t, says(t, c, "2 8", "", "2 8"), "what you said is not what there is to see")
	assert.False(t, c.Result().Passed)
	c = class(t, "ring", 1)
	assert.Contains(t, says(t, c, "B -1/4", "dead", "dead", "dead", "dead"), "Not this time")
}

func TestThePrimaryDoneFirstIsSeenThrough(t *testing.T) {
	c := class(t, "first", 1)
	var reply string
	for n := 0; !c.Over(); n++ {
		require.Less(t, n, 30)
		classTypes(t, c.Work())
		var err error
		_, reply, err = c.Played()
		require.NoError(t, err)
	}
	assert.True(t, c.Result().Passed)
	assert.Contains(t, reply, "But go to the sky end and look. ")
	assert.Regexp(t, `missed the middle of the field by 1\.8 mm before\. Now it misses by [34]\.[0-9] mm`, reply, "worse, and it looks perfect")
}

func classDesk(t testing.TB) *desk.Desk {
	l, err := shelf.Open(t.TempDir())
	require.NoError(t, err)
	now := time.Date(2026, 3, 1, 19, 0, 0, 0, time.UTC)
	return &desk.Desk{Library: l, Who: "a volunteer", Program: "test", Now: func() time.Time {
		now = now.Add(20 * time.Second)
		return now
	}}
}

// typeNext types what one types next who reads every spot as it is and turns
// what is told.
func classTypes(t *testing.T, w *desk.Work) {
	t.Helper()
	ask, line := w.State().Ask(), ""
	if ask.Want == session.WantReading && ask.Told == nil {
		line = w.Bench.World().Eyes(ask.Face).String()
	}
	_, err := w.Line(line)
	require.NoError(t, err, "%q at %s %s", line, ask.Stage.ID, ask.Step)
}

// What was taken back is no reading, and what was turned as it was told is
// nobody's fault.
func TestNeitherUndoneNorToldIsHeldAgainstATrainee(t *testing.T) {
	c := class(t, "ring", 1)
	w := c.Work()
	line := func(text string) {
		_, err := w.Line(text)
		require.NoError(t, err, text)
	}
	line("")
	line("12 60")
	require.Equal(t, 1, w.Bench.Tally().Placed)
	line("undo")
	assert.Zero(t, w.Bench.Tally().Placed, "it was taken back")

	c = class(t, "wrong", 2) // its screw is at its end
	w = c.Work()
	require.NotEmpty(t, w.Bench.World().Deeds(), "the lesson has forced it")
	assert.Empty(t, w.Bench.Deeds(), "and not the trainee")
	w = class(t, "ring", 1).Work()
	line("")
	assert.Empty(t, w.Bench.Deeds(), "it was told")
	w = class(t, "hole", 1).Work()
	line("lock A +1")
	assert.NotEmpty(t, w.Bench.Deeds(), "nobody told that")
}

// Where it is asked what a hand feels there is something to feel, and its name is
// not said.
func TestWhatIsAskedOfAHandIsFelt(t *testing.T) {
	l, err := lesson.ByName("wrong")
	require.NoError(t, err)
	for seed := range draws(2, 4, 20) {
		for _, task := range l.Drawn(seed).Tasks {
			if task.Turn.Screw == "" {
				continue
			}
			one := l
			one.Tasks = []lesson.Task{task}
			c, err := teach.Begin(classDesk(t), one)
			require.NoError(t, err)
			assert.NotEmpty(t, c.Work().Felt(), "%s, seed %d", task.World.Level, task.World.Seed)
			assert.NotRegexp(t, "free|end", c.Work().Felt())
		}
	}
}
