package teach

import (
	"spotward/session/lesson"
	"spotward/views/terminal/frame"
)

// Help says what can be typed at the task in hand.
func (s *LessonPage) Help() []frame.HelpGroup {
	rows := [][2]string{
		{"2", "the number of an answer"},
		{"4:30 2r", "a place: half past 4, two ring widths from the middle"},
		{"low right 8", "a place by words, and mm"},
		{"4:30   low right", "a way that a spot went"},
	}
	if s.Phase == LessonAsked {
		task, _ := s.Class.Task()
		can := s.Class.Can()
		if task.Kind == lesson.TaskDeed {
			rows = nil
		}
		for _, act := range can {
			rows = append(rows, [2]string{act.Word, act.Echo})
		}
	}
	return []frame.HelpGroup{{Head: "in this lesson", Rows: append(rows,
		[2]string{"Enter", "goes on; to the telescope, where that is asked"},
		[2]string{"Esc", "leaves it; nothing is saved of a lesson that was left"})}}
}
