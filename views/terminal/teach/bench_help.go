package teach

import (
	"spotward/views/terminal/frame"
)

func (s *benchPage) Help() []frame.HelpGroup {
	return []frame.HelpGroup{{Head: "set up a telescope and hand it over", Rows: [][2]string{
		{"spot 20", "the word of a line and what it is set to; 1 20 is the same"},
		{"stuck primary B", "a screw, with its mirror"},
		{"weak   weak off", "on; and left to the level again"},
		{"clear", "leaves all to the level"},
		{"level usual", "easy, usual or hard: what is not set by hand"},
		{"seed 7", "the same seed makes the same telescope"},
		{"name Ann", "who is at the scope, for the record"},
		{"blank   list", "hides what is set up from a class; shows it again"},
		{"hand over", "begins; then: freeze, go on, truth, calls, steps, hide, show"},
		{"calls", "a class at it: each calls a place, then the truth"},
		{"anew   F12", "the same telescope from the beginning"},
		{"light path", "the light path, in large"},
	}}}
}

func (s *PathPage) Help() []frame.HelpGroup {
	return []frame.HelpGroup{{Head: "tilt a mirror and watch the beam", Rows: [][2]string{
		{"arrows", "tilt the mirror that is marked, a step each"},
		{"Enter", "marks the other mirror"},
		{"secondary 0.2 up", "by so many mrad, the way its spot goes as drawn"},
		{"primary 3' right", "by so many minutes of arc"},
		{"step 0.5", "how far an arrow key goes, mrad"},
		{"B   B -1/8", "beside a session: the arrows turn that screw; so far at once"},
		{"square", "sets both mirrors back"},
		{"undo   F8", "as it was before"},
		{"mouse", "drag a mirror: a step for each cell"},
	}}}
}

func (s *LadderPage) Help() []frame.HelpGroup {
	return []frame.HelpGroup{{Head: "choose a lesson", Rows: [][2]string{
		{"3   dial", "a lesson by its number or name"},
		{"Enter", "the next that is not passed"},
		{"results", "the figures of each, and what can be signed off"},
		{"sign Ida", "an instructor, by the own name, signs the trainee off"},
		{"name Bo", "another trainee"},
		{"more", "the rest of the list, in a small window"},
	}}}
}
