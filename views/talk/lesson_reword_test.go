package talk_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/session/lesson"
	"spotward/session/sessiontest"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/teach"
	"spotward/views/teach/teachtest"
)

func otherWords(string) string { return fmt.Sprintf("%x.", rand.Uint64()) }

// reworded is a lesson with every text of it another one.
func reworded(l lesson.Lesson) lesson.Lesson {
	l.Title, l.Aim, l.Done = otherWords(l.Title), otherWords(l.Aim), otherWords(l.Done)
	tasks := append([]lesson.Task(nil), l.Tasks...)
	for i := range tasks {
		t := &tasks[i]
		t.Say, t.Why = otherWords(t.Say), otherWords(t.Why)
		t.Options = append([]words.Option(nil), t.Options...)
		for j := range t.Options {
			t.Options[j].Words = otherWords(t.Options[j].Words)
		}
	}
	l.Tasks = tasks
	return l
}

// What comes of a lesson hangs on what was done: with every sentence of the
// lesson and of its sessions another one, each trainee has the same result.
func TestLessonsDoNotHangOnWords(t *testing.T) {
	sessiontest.Whole(t)
	for name, trainee := range map[string]func() teachtest.Trainee{"good": teachtest.Good, "clumsy": teachtest.Clumsy, "wrong": teachtest.Wrong} {
		if name != "good" && !sessiontest.Long() {
			continue
		}
		for _, l := range lesson.All() {
			if whole(l) {
				continue
			}
			plain, _ := take(t, &desk.Desk{Now: ticking()}, l, trainee())
			answer, asked := trainee(), false
			other, _ := take(t, &desk.Desk{Now: ticking()}, reworded(l), func(c *teach.Class) string {
				if w := c.Work(); w != nil {
					w.Session.Reword(otherWords)
					asked = true
				}
				return answer(c)
			})
			assert.Equal(t, plain.Result(), other.Result(), "%s, %s", l.ID, name)
			assert.Equal(t, asked, hasWork(l), l.ID)
		}
	}
}

func hasWork(l lesson.Lesson) bool {
	for _, t := range l.Tasks {
		if t.Kind == lesson.TaskWork {
			return true
		}
	}
	return false
}
