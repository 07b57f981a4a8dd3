package home

import "spotward/views/terminal/frame"

// Help says what can be typed at a form.
func (s *Form) Help() []frame.HelpGroup {
	return []frame.HelpGroup{
		{Head: "answer the question", Rows: [][2]string{
			{"250   10\"   9 1/4\"", "a length, in mm or in inches"},
			{"about 40 cm", "not measured: it is marked, and learnt later"},
			{"unknown", "takes an answer out again"},
			{"2   behind", "the number of an answer, or its word"},
			{"Enter", "goes on; on an empty line the question is left out"},
		}},
		{Head: "find your way", Rows: [][2]string{
			{"back", "to the question before; nothing is lost"},
			{"4", "while all is looked over: that line again"},
			{"done", "leaves out the rest, and looks it all over"},
			{"keep", "to the end: all is looked over, and Enter writes the file"},
			{"Esc", "leaves; what you answered is there next time"},
		}},
	}
}

// Help says what can be typed at a scope's page.
func (s *ScopePage) Help() []frame.HelpGroup {
	return []frame.HelpGroup{{Head: "choose", Rows: [][2]string{
		{"2", "the number before a line"},
		{"Enter", "the first of them"},
		{"Esc", "back to the front page"},
	}}}
}
