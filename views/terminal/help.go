package terminal

// helpGroup is what can be typed for one purpose: words, and what each does.
type helpGroup struct {
	head string
	rows [][2]string
}

// helped is a screen that says itself what can be typed at it.
type helped interface{ help() []helpGroup }

// helpFor is the help page of a screen: its own groups, then what holds
// everywhere.
func helpFor(s screen) *sheet {
	const wide = 18
	sh := &sheet{title: "help"}
	sh.parts = append(sh.parts, part{text: "Type a word or a reading and press Enter. Letters do nothing by themselves, so nothing can go wrong while you type. The F-keys enter the word beside them."})
	var groups []helpGroup
	if own, ok := s.(helped); ok {
		groups = own.help()
	}
	for _, g := range append(groups, helpAlways()) {
		sh.parts = append(sh.parts, part{head: g.head})
		for _, r := range g.rows {
			sh.parts = append(sh.parts, part{mark: pad(r[0], wide), text: r[1]})
		}
	}
	return sh
}

func helpAlways() helpGroup {
	return helpGroup{"the screen", [][2]string{
		{"theme   F4", "dark, night (deep red), day, projector"},
		{"large   F9", "large letters, in a window of 120 x 36 or more"},
		{"mouse", "give the mouse to the terminal, or take it back; shift-drag selects text"},
		{"ctrl-u   ctrl-y", "clear the line; what was cleared or typed over, back again"},
		{"ctrl-l", "draw everything anew"},
		{"ctrl-c", "leave at once; what was taken is kept"},
	}}
}
