package talk

import (
	"bufio"
	"errors"
	"io"
	"strings"

	"spotward/session"
	"spotward/session/lesson"
	"spotward/views/desk"
	"spotward/views/practice"
	"spotward/views/teach"
)

// Lesson plays a lesson over typed lines until it is over, quit, or r ends,
// and closes it.
func Lesson(c *teach.Class, r io.Reader, out io.Writer) error {
	t := &teaching{class: c, lines: bufio.NewReader(r), voice: newVoice(out)}
	t.say("Lesson: " + full(c.Lesson.Title))
	t.say(c.Lesson.Aim)
	t.say("Done when: " + c.Lesson.Done)
	for !c.Over() && t.err == nil {
		err := t.task()
		if errors.Is(err, errLeft) || errors.Is(err, io.EOF) {
			t.say("The lesson was left. Nothing of it is saved.")
			return t.err
		}
		if err != nil {
			return err
		}
	}
	unkept := c.Close() // what is said to have come of it is on disk
	t.summary()
	return errors.Join(t.err, unkept)
}

type teaching struct {
	class *teach.Class
	lines *bufio.Reader
	voice
}

func (t *teaching) task() error {
	task, n := t.class.Task()
	t.sayf("Task %d of %d.", n, len(t.class.Lesson.Tasks))
	t.say(task.Say)
	if w := t.class.Work(); w != nil {
		return t.play(task, w)
	}
	t.pose(task)
	for {
		line, err := readLine(t.lines)
		if err != nil {
			return err
		}
		switch strings.ToLower(line) {
		case "q", "quit":
			return errLeft
		case "see", "view", "v", "where", "repeat":
			t.say(task.Say)
			t.pose(task)
			continue
		case "h", "help", "?":
			t.help()
			continue
		}
		reply, err := t.class.Line(line)
		if err != nil {
			t.say("Not accepted: " + full(err.Error()))
			continue
		}
		if reply != "" {
			t.say(reply)
		}
		if t.class.Over() {
			return nil
		}
		if _, now := t.class.Task(); now != n {
			return nil
		}
		if t.class.Can() != nil {
			t.say("You see: " + t.class.See())
		}
	}
}

func (t *teaching) pose(task lesson.Task) {
	if before := t.class.Before(); before != "" {
		t.say("Before: " + before)
		t.say("Now: " + t.class.See())
	} else if see := t.class.See(); see != "" {
		t.say("You see: " + see)
	}
	if task.Picture == lesson.Named {
		for _, part := range task.Parts {
			t.sayf("%s: %s; %s", part.Word, part.Where, full(part.Says))
		}
	}
	for i, o := range task.Options {
		t.sayf("%d: %s", i+1, full(o.Words))
	}
	if task.Kind == lesson.TaskShow {
		t.say("Enter goes on.")
	}
}

func (t *teaching) help() {
	if can := t.class.Can(); can != nil {
		t.sayWhole("You can say: " + practice.ActWords(can) + ".")
	}
	switch task, _ := t.class.Task(); task.Kind {
	case lesson.TaskReading:
		t.readingHelp(task.Face)
	case lesson.TaskWay:
		t.sayWhole("Say the way it went, as in: 4:30. Or: low right.")
	case lesson.TaskQuestion:
		t.sayWhole("Say the number of an answer.")
	}
	t.sayWhole("See says it all again. Quit leaves the lesson.")
}

// play plays a task that is work, as any session is played.
func (t *teaching) play(task lesson.Task, w *desk.Work) error {
	s := &talk{work: w, lines: t.lines, voice: t.voice, warned: map[session.StageID]bool{}}
	s.say(w.Felt())
	s.ask()
	for {
		line, err := readLine(t.lines)
		if err != nil {
			return err
		}
		if s.word(line) {
			continue
		}
		if !s.take(line) {
			continue
		}
		if w.Over() && !w.State().Over {
			return errLeft
		}
		done, reply, err := t.class.Played()
		if err != nil {
			return err
		}
		if done {
			t.say(reply)
			if task.From == session.StageReady { // a whole alignment: how it truly came out
				for _, line := range w.Bench.Afterwards() {
					t.say(line)
				}
			}
			return nil
		}
		s.ask()
	}
}

// summary says what came of the lesson, for the trainee and the instructor.
func (t *teaching) summary() {
	r := t.class.Result()
	if r.Passed {
		t.say("Passed.")
	} else {
		t.say("Not passed yet. Take it again when you like: it gets easier each time.")
	}
	t.say(teach.ResultWords(r))
	if r.Lesson == lesson.Exam {
		for _, line := range teach.ReadingWords(r) {
			t.say(line)
		}
	}
	for _, praise := range teach.Praise(r) {
		t.say(praise)
	}
	for _, deed := range r.Deeds {
		t.say("For next time: " + full(deed))
	}
}
