package teach

import (
	"errors"

	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// instructor stands by a session: freezes it, shows how the telescope truly
// stands, and looks back.
type instructor struct {
	align  *align.Screen
	frozen bool
	again  func(a *frame.App) // hands the same telescope over once more
}

var errFrozen = errors.New("the instructor has frozen it: say go on, and type it again")

func (b *instructor) Words() map[string]func(a *frame.App) {
	words := map[string]func(a *frame.App){
		"freeze": func(a *frame.App) {
			b.frozen = true
			a.Say("FROZEN: answers are ignored. Type go on")
		},
		"truth":      func(a *frame.App) { a.Push(&truthPage{align: b.align, again: b.anew}) },
		"calls":      func(a *frame.App) { showCalls(a, b.align) },
		"anew":       b.anew,
		"steps":      func(a *frame.App) { showSteps(a, b.align.Work) },
		"light path": func(a *frame.App) { a.Push(newPathOf(b.align.State().Scope.Name, b.align.Work.Bench.World())) },
		"hide":       b.advice("hide"), // frozen or not
		"show":       b.advice("show"),
	}
	if b.frozen {
		words["go on"] = func(a *frame.App) {
			b.frozen = false
			a.Say("it goes on")
		}
	}
	return words
}

// anew begins again on the same telescope.
func (b *instructor) anew(a *frame.App) {
	b.align.Gone = true
	a.Pop()
	b.again(a)
}

// advice hides the advice from the trainee, or shows it again.
func (b *instructor) advice(word string) func(a *frame.App) {
	return func(a *frame.App) {
		echo, err := b.align.Work.Line(word)
		if err != nil {
			a.Fail(err)
			return
		}
		a.Say(echo)
	}
}

func (b *instructor) Holds() error {
	if b.frozen {
		return errFrozen
	}
	return nil
}

// Covers fills the screen while it is frozen, so that the back row sees it.
func (b *instructor) Covers(p *frame.Page) bool {
	if !b.frozen {
		return false
	}
	shout(p, "FROZEN", "Answers are ignored. Type go on to continue.")
	return true
}

// shout writes a word as large as there is room, and a line below it.
func shout(p *frame.Page, word, below string) {
	size := p.BigFit(word, p.Cols-4, schematic.SmallDouble, schematic.Tall, schematic.Small)
	x, y := max(1, (p.Cols-p.BigWidth(word, size))/2), max(1, (p.Sizes.Rule.Y-p.BigRows(size)-2)/2)
	p.Big(x, y, schematic.BigSpec{Text: word, Size: size, Role: theme.Huge})
	below = frame.CutWords(below, p.Cols-2)
	p.TextMax(max(1, (p.Cols-schematic.Width(below))/2), y+p.BigRows(size)+1, p.Cols-2, theme.Ink, below)
}

func (b *instructor) Taken(*frame.App) bool { return false }

func (b *instructor) Foot(f frame.Foot, sz frame.Sizes) frame.Foot {
	freeze := frame.Key{F: "freeze", Word: "", Label: ""}
	if b.frozen {
		freeze = frame.Key{F: "go on", Word: "", Label: "let go"}
		f.Prompt, f.Hint, f.Caution = "frozen", "go on, truth, calls or steps", "Frozen by the instructor."
		if schematic.Width(f.Hint) > sz.Understood.W {
			f.Hint = "go on"
		}
	}
	own := []frame.Key{freeze, {F: "truth", Word: "", Label: "show"}, frame.KeyFor("anew"), {F: "calls", Word: "", Label: "of a class"}, {F: "steps", Word: "", Label: "look back"}}
	if !b.frozen {
		own = append(f.Keys[:1:1], own...)
	}
	f.Keys = append(own, f.Keys[1:]...)
	return f
}
