package teach

import (
	"errors"

	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

// instructor stands by a session: freezes it, shows how the telescope truly
// stands, and looks back.
type instructor struct {
	align  *align.Screen
	frozen bool
}

var errFrozen = errors.New("the instructor has frozen it: say go on, and type it again")

func (b *instructor) Words() map[string]func(a *frame.App) {
	words := map[string]func(a *frame.App){
		"freeze": func(a *frame.App) {
			b.frozen = true
			a.Say("FROZEN: answers are ignored. Type go on")
		},
		"truth":      func(a *frame.App) { a.Push(&truthPage{align: b.align}) },
		"steps":      func(a *frame.App) { showSteps(a, b.align.Work) },
		"light path": func(a *frame.App) { a.Push(newPathPage(b.align.State().Scope)) },
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

func (b *instructor) Taken(*frame.App) bool { return false }

func (b *instructor) Foot(f frame.Foot, sz frame.Sizes) frame.Foot {
	freeze := frame.Key{F: "freeze", Word: "", Label: ""}
	if b.frozen {
		freeze = frame.Key{F: "go on", Word: "", Label: "let go"}
		f.Prompt, f.Hint, f.Caution = "frozen", "go on, truth or steps", "Frozen by the instructor: what is typed is not taken."
		if schematic.Width(f.Hint) > sz.Understood.W {
			f.Hint = "go on"
		}
	}
	own := []frame.Key{f.Keys[0], freeze, {F: "truth", Word: "", Label: "show"}, {F: "steps", Word: "", Label: "look back"}}
	f.Keys = append(own, f.Keys[1:]...)
	return f
}
