package frame

// HelpGroup is what can be typed for one purpose: words, and what each does.
type HelpGroup struct {
	Head string
	Rows [][2]string
}

// helped is a screen that says itself what can be typed at it.
type helped interface{ Help() []HelpGroup }

// helpFor is the help page of a screen: its own groups, then what holds
// everywhere.
func helpFor(s Screen) *Sheet {
	const wide = 18
	sh := &Sheet{Title: "help", isHelp: true}
	sh.Parts = append(sh.Parts, Part{Text: "Type a word or a reading and press Enter. Letters do nothing by themselves, so nothing can go wrong while you type. The F-keys enter the word beside them. F1 again: what the words mean, and a picture of the telescope."})
	var groups []HelpGroup
	if own, ok := s.(helped); ok {
		groups = own.Help()
	}
	for _, g := range append(groups, helpAlways()) {
		sh.Parts = append(sh.Parts, Part{Head: g.Head})
		for _, r := range g.Rows {
			sh.Parts = append(sh.Parts, Part{Mark: Pad(r[0], wide), Text: r[1]})
		}
	}
	return sh
}

func helpAlways() HelpGroup {
	return HelpGroup{"the screen", [][2]string{
		{"theme   F4", "dark, night (deep red), day, projector"},
		{"large   F9", "large letters, in a window of 120 x 36 or more"},
		{"mouse", "give the mouse to the terminal, or take it back; shift-drag selects text"},
		{"ctrl-u   ctrl-y", "clear the line; what was cleared or typed over, back again"},
		{"ctrl-l", "draw everything again"},
		{"ctrl-c", "leave at once; what was accepted is saved"},
	}}
}
