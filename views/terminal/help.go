package terminal

// helped is a screen that says itself what can be typed at it.
type helped interface {
	help() (head string, rows [][2]string)
}

// helpFor is the help page of a screen, grouped by what one wants.
func helpFor(s screen) *sheet {
	const wide = 18
	sh := &sheet{title: "help"}
	add := func(head string, rows ...[2]string) {
		sh.parts = append(sh.parts, part{head: head})
		for _, r := range rows {
			sh.parts = append(sh.parts, part{mark: pad(r[0], wide), text: r[1]})
		}
	}
	sh.parts = append(sh.parts, part{text: "Type a word or a reading and press Enter. Letters do nothing by themselves, so nothing can go wrong while you type. The F-keys enter the word beside them."})
	if own, ok := s.(helped); ok {
		head, rows := own.help()
		add(head, rows...)
		addAlways(add)
		return sh
	}
	work, ok := s.(*align)
	if !ok {
		add("choose",
			[2]string{"2", "the number before a line"},
			[2]string{"practise", "a telescope that is not there, to learn on"},
			[2]string{"align heron", "straight to work on the scope of that name"},
			[2]string{"check heron", "only look: is it worth touching?"},
			[2]string{"records", "what was done; compare 1 2 and replay 1 in there"},
			[2]string{"fleet", "how each scope holds, and what it needs"},
			[2]string{"new", "describe a scope"})
		addAlways(add)
		return sh
	}
	if work.practising() {
		add("on the practice telescope",
			[2]string{"Enter", "after a move was told: turned as told, as well as hands do"},
			[2]string{"B -1/4", "turned so instead"},
			[2]string{"knock", "a knuckle on both cells, where a screw is sticky"},
			[2]string{"card on   laser on", "also: card off, laser off, swing, turn laser, re-seat"},
			[2]string{"hide   show", "the advice, to turn what you think right; and back"})
	}
	add("say where the spot is, from the middle of ring or hole",
		[2]string{"4:30 12", "half past 4, 12 mm off; 430 12 and 4,5 12 are the same"},
		[2]string{"4 2r", "at 4, two ring widths off; on the laser's face, printed rings"},
		[2]string{"4 on   in 4", "on the ring; inside it toward 4; in: somewhere inside"},
		[2]string{"low right 8", "by words; up 5 left 3; on the laser's face: toward the tube 3"},
		[2]string{"home   home 2", "seen going down the hole; brighter at 2"},
		[2]string{"gone   cant see", "not on this face; too bright or too dim"},
		[2]string{"same   F5", "as last time; it stands as cued"},
		[2]string{"arrows   mouse", "move what is typed by half a mm; point at the drawing"})
	add("say what really happened",
		[2]string{"B -1/4", "turned so instead of as told; minus is anticlockwise"},
		[2]string{"other way", "turned as told, but the other way"},
		[2]string{"wrong C", "C was turned instead"},
		[2]string{"not done", "nothing was turned"},
		[2]string{"stuck B", "also: free, end, slipped, sticky, stripped"},
		[2]string{"dead laser", "its cell is empty"})
	add("find your way",
		[2]string{"do   F6", "what to do here and what to beware of, in full"},
		[2]string{"why   F2", "what the move rests on, and what was learnt of each screw"},
		[2]string{"view   F3", "turn the drawing, for a screen that lies another way"},
		[2]string{"call", "two people: the sentence to call to the one at the screw"},
		[2]string{"focuser 9:30", "where it is really seen from there; after a walk the arrow keys turn it"},
		[2]string{"undo   F8   redo", "takes back what was typed, never what a hand did"},
		[2]string{"back   F7", "to the stage before"},
		[2]string{"skip WHY", "leaves a stage out, with your reason in the record"})
	add("stop",
		[2]string{"pause   Esc", "nothing is lost"},
		[2]string{"stop safely  F10", "laser off and out, locks snug, cap on"},
		[2]string{"quit", "leave it unfinished; it can be taken up again"})
	addAlways(add)
	return sh
}

func addAlways(add func(head string, rows ...[2]string)) {
	add("the screen",
		[2]string{"theme   F4", "dark, night (deep red), day, projector"},
		[2]string{"large   F9", "large letters, in a window of 120 x 36 or more"},
		[2]string{"mouse", "give the mouse to the terminal, or take it back; shift-drag selects text"},
		[2]string{"ctrl-u   ctrl-y", "clear the line; what was cleared or typed over, back again"},
		[2]string{"ctrl-l", "draw everything anew"},
		[2]string{"ctrl-c", "leave at once; what was taken is kept"})
}
