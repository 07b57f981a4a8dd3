package align

import (
	"spotward/views/terminal/frame"
)

func (s *Screen) Help() []frame.HelpGroup {
	var groups []frame.HelpGroup
	add := func(head string, rows ...[2]string) { groups = append(groups, frame.HelpGroup{Head: head, Rows: rows}) }
	if s.practising() {
		add("on the practice telescope",
			[2]string{"Enter", "after a told move: it was turned as told"},
			[2]string{"B -1/4", "turned so instead"},
			[2]string{"knock", "tap both cells with a knuckle, where a screw is sticky"},
			[2]string{"card on   laser on", "also: card off, laser off, snug locks, snug screws, swing, turn laser, re-seat"},
			[2]string{"hide   show", "the advice, to turn what you think right; and back"})
	}
	add("say where the spot is, from the middle of ring or hole",
		[2]string{"4:30 12", "half past 4, 12 mm off; 430 12 and 4,5 12 are the same"},
		[2]string{"4 2r", "at 4, two ring widths off; on the laser's face, printed rings"},
		[2]string{"4 on   in 4", "on the ring; inside it toward 4; in: somewhere inside"},
		[2]string{"430*12   430/2", "on a number pad: 4:30, 12 mm; 4:30, two ring widths"},
		[2]string{"+ . * *4 0 -4", "there: at the cue; dead centre, or even; inside; inside toward 4; gone; set off toward 4"},
		[2]string{"low right 8", "by words; up 5 left 3; on the laser's face: toward the tube 3"},
		[2]string{"home   home 2", "down the hole; brighter at 2; home even: even all round"},
		[2]string{"gone   cant see", "not on this face; too bright or too dim"},
		[2]string{"same   F5", "as last time; it stands at the cue"},
		[2]string{"photo PATH", "a picture of it; or drop the file here; in practice photo alone"},
		[2]string{"your own words", "if it may mean two things, you are asked"},
		[2]string{"arrows   mouse", "step round and in or out what is typed; point at a drawing"})
	add("say what really happened",
		[2]string{"B -1/4", "turned so instead of as told; minus is anticlockwise"},
		[2]string{"other way", "turned as told, but the other way"},
		[2]string{"wrong C", "C was turned instead"},
		[2]string{"not done", "nothing was turned"},
		[2]string{"stuck B", "also: free, end, slipped, sticky, stripped"},
		[2]string{"dead laser", "its battery is flat"})
	add("find your way",
		[2]string{"do   F6", "what to do here and what to beware of, in full"},
		[2]string{"why   F2", "what the move rests on, and what was learnt of each screw"},
		[2]string{"view   F3", "turn the drawing, for a screen that lies another way"},
		[2]string{"watching", "stop by the spot; by amount: by the turn, then look"},
		[2]string{"call", "two people: the sentence to call to the one at the screw"},
		[2]string{"focuser 9:30", "where it is really seen from there; after a walk the arrow keys turn it"},
		[2]string{"undo   F8   redo", "undoes what was typed, never what a hand did"},
		[2]string{"back   F7", "to the stage before"},
		[2]string{"skip WHY", "leaves a stage out, with your reason in the record"})
	add("stop",
		[2]string{"pause   Esc", "nothing is lost"},
		[2]string{"stop safely  F10", "laser off and out, locks snug, cap on"},
		[2]string{"quit", "leave it unfinished; it can be taken up again"})
	return groups
}
