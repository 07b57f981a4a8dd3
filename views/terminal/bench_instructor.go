package terminal

import (
	"errors"

	"spotward/views/schematic"
)

// instructor stands by a session: freezes it, shows how the telescope truly
// stands, and looks back.
type instructor struct {
	align  *align
	frozen bool
}

var errFrozen = errors.New("the instructor has frozen it: say go on, and type it again")

func (b *instructor) words() map[string]func(a *app) {
	words := map[string]func(a *app){
		"freeze": func(a *app) {
			b.frozen = true
			a.say("frozen: nothing is taken until go on")
		},
		"truth":      func(a *app) { a.push(&truthPage{align: b.align}) },
		"steps":      func(a *app) { showSteps(a, b.align.work) },
		"light path": func(a *app) { a.push(newPathPage(b.align.state().Scope)) },
		"hide":       b.advice("hide"), // frozen or not
		"show":       b.advice("show"),
	}
	if b.frozen {
		words["go on"] = func(a *app) {
			b.frozen = false
			a.say("it goes on")
		}
	}
	return words
}

// advice hides the advice from the trainee, or shows it again.
func (b *instructor) advice(word string) func(a *app) {
	return func(a *app) {
		echo, err := b.align.work.Line(word)
		if err != nil {
			a.fail(err)
			return
		}
		a.say(echo)
	}
}

func (b *instructor) holds() error {
	if b.frozen {
		return errFrozen
	}
	return nil
}

func (b *instructor) taken(*app) bool { return false }

func (b *instructor) foot(f foot, sz sizes) foot {
	freeze := key{"freeze", "", "hold it"}
	if b.frozen {
		freeze = key{"go on", "", "let go"}
		f.prompt, f.hint, f.caution = "frozen", "go on, truth or steps", "Frozen by the instructor: what is typed is not taken."
		if schematic.Width(f.hint) > sz.Understood.W {
			f.hint = "go on"
		}
	}
	own := []key{f.keys[0], freeze, {"truth", "", "show"}, {"steps", "", "look back"}}
	f.keys = append(own, f.keys[1:]...)
	return f
}
