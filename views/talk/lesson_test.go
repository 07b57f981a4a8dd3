package talk_test

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/views/desk"
	"spotward/views/talk"
)

// pupil answers a lesson: reading is being asked.
type pupil struct {
	class  *desk.Class
	answer func(*desk.Class) string
	said   *bytes.Buffer
	lines  int
}

func (p *pupil) Read(b []byte) (int, error) {
	if p.lines++; p.lines > 150 {
		return 0, io.EOF
	}
	line := p.answer(p.class)
	fmt.Fprintf(p.said, "> %s\n", line)
	return copy(b, line+"\n"), nil
}

// good answers rightly, reads every spot as it is and turns what is told.
func good(c *desk.Class) string {
	task, _ := c.Task()
	switch task.Kind {
	case session.TaskQuestion:
		return task.Right
	case session.TaskReading:
		v := c.Bench().Look(task.Face)
		return session.ReadingText(telOf(task).ToDial(task.Face, v.Seen))
	case session.TaskWay:
		return session.ClockText(c.Bench().Went())
	}
	return goodWork(c)
}

func goodWork(c *desk.Class) string {
	w := c.Work()
	s := w.State()
	ask := s.Ask()
	if task, _ := c.Task(); strings.Contains(task.Say, "stop safely") && ask.Stage.ID != session.StageStopping {
		return "stop safely"
	}
	if ask.Want != session.WantReading || ask.Told != nil {
		if ask.Want == session.WantConfirm {
			return "yes"
		}
		return ""
	}
	if name, stuck := strings.CutSuffix(w.Felt(), " stops and will go no further: it is stuck."); stuck {
		return "lock " + name + " -1/8" // what blocks it is the lock beside it
	}
	v := w.Bench.Look(ask.Face)
	switch {
	case v.InHole && ask.Face == optics.FaceTarget:
		return "home"
	case !v.Visible:
		return "gone"
	}
	return session.ReadingText(s.Tel.ToDial(ask.Face, v.Seen))
}

func telOf(task session.Task) optics.Telescope {
	scope := session.Builtin()
	if task.FocuserAt != "" {
		scope.FocuserAt = task.FocuserAt
	}
	return scope.Telescope()
}

// clumsy gets each answer wrong once, and reads left for right at the first
// try.
func clumsy() func(*desk.Class) string {
	tried := map[int]bool{}
	return func(c *desk.Class) string {
		task, n := c.Task()
		if tried[n] || task.Kind == session.TaskWork {
			return good(c)
		}
		tried[n] = true
		switch task.Kind {
		case session.TaskQuestion:
			return wrongOption(task)
		case session.TaskReading:
			d := telOf(task).ToDial(task.Face, c.Bench().Look(task.Face).Seen)
			d.Right = -d.Right
			return session.ReadingText(d)
		}
		went := c.Bench().Went()
		return session.ClockText(optics.Dial{Right: -went.Right, Up: -went.Up})
	}
}

func wrongOption(task session.Task) string {
	for _, o := range task.Options {
		if o.ID != task.Right {
			return o.ID
		}
	}
	return ""
}

// wrong does what one should not: wherever there is a screw it is forced.
func wrong() func(*desk.Class) string {
	tried := map[string]bool{}
	return func(c *desk.Class) string {
		task, n := c.Task()
		key := fmt.Sprint(c.Lesson.ID, n)
		switch {
		case task.Kind == session.TaskReading:
			return "12 1"
		case task.Kind == session.TaskWay:
			went := c.Bench().Went()
			return session.ClockText(optics.Dial{Right: -went.Right, Up: -went.Up})
		case task.Kind == session.TaskWork && !tried[key]:
			tried[key] = true
			return "card off"
		case task.Kind == session.TaskWork && c.Work().State().Ask().Stage.ID == session.StageSecondary && !tried[key+"screw"]:
			tried[key+"screw"] = true
			return "A +1"
		case task.Kind == session.TaskWork && c.Work().State().Ask().Stage.ID == session.StageVerdict:
			return "both"
		case task.Kind == session.TaskQuestion && !tried[key]:
			tried[key] = true
			return wrongOption(task)
		}
		return good(c)
	}
}

func take(t *testing.T, d *desk.Desk, l session.Lesson, answer func(*desk.Class) string) (*desk.Class, string) {
	t.Helper()
	c, err := d.Teach(l)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, talk.Lesson(c, &pupil{class: c, answer: answer, said: &b}, &b))
	require.True(t, c.Over(), b.String())
	return c, b.String()
}

func TestLessonsOfAGoodTrainee(t *testing.T) {
	d := &desk.Desk{Library: library(t), Who: "Ann", Now: func() time.Time { return time.Date(2026, 3, 1, 20, 0, 0, 0, time.UTC) }}
	var all strings.Builder
	for _, l := range session.Lessons() {
		c, said := take(t, d, l, good)
		r := c.Result()
		if r.Tasks > 1 || l.Tasks[0].From != session.StageReady { // a whole alignment may end in part, honestly told
			assert.True(t, r.Passed, "%s: %+v\n%s", l.ID, r, said)
			assert.Zero(t, r.Wrong, l.ID)
		}
		assert.Equal(t, r.Readings, r.Good, l.ID)
		all.WriteString(said)
		if l.ID == "middle" {
			golden(t, "lesson", said)
		}
	}
	results, err := d.Library.LessonsOf("Ann")
	require.NoError(t, err)
	require.Len(t, results, len(session.Lessons()))
	for _, s := range session.SignOff(results) {
		assert.True(t, s.Met, s.Words)
	}
	records, errs := d.Library.Records()
	assert.Empty(t, errs)
	assert.Empty(t, records, "lessons are no records of scopes")
	open, _ := d.Library.Unfinished("")
	assert.Empty(t, open)
	assert.NotContains(t, all.String(), "%!")
}

func TestLessonsOfAClumsyTrainee(t *testing.T) {
	d := &desk.Desk{Library: library(t), Who: "Bo", Now: time.Now}
	for _, l := range session.Lessons()[:9] {
		c, said := take(t, d, l, clumsy())
		r := c.Result()
		hasQuestion := false
		for _, task := range l.Tasks {
			hasQuestion = hasQuestion || task.Kind == session.TaskQuestion
		}
		assert.Equal(t, !hasQuestion, r.Passed, "%s: a slip in reading may be made good, one in what is safe may not\n%s", l.ID, said)
	}
	results, err := d.Library.LessonsOf("Bo")
	require.NoError(t, err)
	dial := results[2]
	assert.Equal(t, "dial", dial.Lesson)
	assert.Equal(t, 4, dial.Wrong)
	assert.Equal(t, 8, dial.Readings)
	assert.Equal(t, 4, dial.Good)
	assert.Equal(t, 4, dial.Swapped)
}

func TestLessonsOfOneWhoDoesEverythingWrong(t *testing.T) {
	d := &desk.Desk{Library: library(t), Who: "Cy", Now: time.Now}
	for _, l := range session.Lessons()[:6] {
		c, said := take(t, d, l, wrong())
		r := c.Result()
		assert.False(t, r.Passed, "%s\n%s", l.ID, said)
		assert.Contains(t, said, "Not passed yet.", l.ID)
		if l.ID == "ring" {
			assert.Contains(t, strings.Join(r.Deeds, "; "), "centre bolt")
			assert.Contains(t, said, "For next time: ")
		}
	}
	results, err := d.Library.LessonsOf("Cy")
	require.NoError(t, err)
	for _, s := range session.SignOff(results) {
		assert.Equal(t, s.Words == "made safe when something was wrong", s.Met, s.Words)
	}
}

func TestALessonThatIsLeftIsNotKept(t *testing.T) {
	d := &desk.Desk{Library: library(t), Who: "Di", Now: time.Now}
	for _, typed := range []string{"", "quit\n", "nonsense\nsee\nhelp\n"} {
		c, err := d.Teach(session.Lessons()[0])
		require.NoError(t, err)
		var b bytes.Buffer
		require.NoError(t, talk.Lesson(c, strings.NewReader(typed), &b))
		assert.Contains(t, b.String(), "The lesson was left.")
	}
	results, err := d.Library.LessonsOf("Di")
	require.NoError(t, err)
	assert.Empty(t, results)
}
