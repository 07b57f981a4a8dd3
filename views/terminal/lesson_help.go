package terminal

import (
	"spotward/session/lesson"
)

// help says what can be typed at the task in hand.
func (s *lessonPage) help() []helpGroup {
	rows := [][2]string{
		{"2", "the number of an answer"},
		{"4:30 2r", "a place: half past 4, two ring widths from the middle"},
		{"low right 8", "a place by words, and mm"},
		{"4:30   low right", "a way that a spot went"},
	}
	if s.phase == lessonAsked {
		task, _ := s.class.Task()
		can := s.class.Can()
		if task.Kind == lesson.TaskDeed {
			rows = nil
		}
		for _, act := range can {
			rows = append(rows, [2]string{act.Word, act.Echo})
		}
	}
	return []helpGroup{{"in this lesson", append(rows,
		[2]string{"Enter", "goes on; to the telescope, where that is asked"},
		[2]string{"Esc", "leaves it; nothing is kept of a lesson that was left"})}}
}
