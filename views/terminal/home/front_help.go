package home

import (
	"spotward/views/terminal/frame"
)

func (f *Front) Help() []frame.HelpGroup {
	return []frame.HelpGroup{{Head: "choose", Rows: [][2]string{
		{"2", "the number before a line"},
		{"practise", "a telescope that is not real, to learn on"},
		{"align heron", "straight to work on the scope of that name"},
		{"check heron", "only look: is it worth touching?"},
		{"records", "what was done; compare 1 2 and replay 1 in there"},
		{"fleet", "how each scope holds, and what it needs"},
		{"new", "describe a scope"},
	}}}
}
