package scope

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"spotward/session/words"
)

// Form describes a scope or a kit by questions, one after another. Whatever
// cannot be told is left out, and taken as usual until it is measured or
// learnt. Nothing that was said is lost by going back and forth: the scope is
// made of the answers as they are.
type Form struct {
	base      Scope // what it began with, but for what the questions are about
	table     []Question
	isKit     bool
	edits     string            // the name of what is changed; "" = something new
	taken     map[string]string // names that cannot be given, in small letters, and why
	draft     string            // the name of its draft
	said      map[string]string // by key, as shown; what is not there is left out
	began     map[string]string // what was said when it was begun
	typed     map[string]string // by key, what stood in the line and was not taken
	at        int               // among the questions that are due; their number = looking it over
	once      bool              // back to looking it over after this one
	doubted   doubted           // the answer that a yes is wanted to
	Continued bool              // it was begun before, and goes on from there
}

// doubted is an unusual answer, as it was typed and as it would be shown; the
// zero one is none.
type doubted struct{ typed, shown string }

// FormStep is what an answer has led to.
type FormStep uint8

// Another question, all is said and to be kept, or the form is left as it is.
const (
	FormOn FormStep = iota
	FormKeep
	FormLeave
)

// Due returns the questions that are asked, as the answers stand.
func (f *Form) Due() []Question {
	s := f.Scope()
	var due []Question
	for _, q := range f.table {
		if q.due(s) {
			due = append(due, q)
		}
	}
	return due
}

// Scope returns the scope as it is described so far; of a kit's form, one with
// the kit's name and laser.
func (f *Form) Scope() Scope {
	s := f.base
	for _, q := range f.table {
		if text, ok := f.said[q.Key]; ok && q.due(s) {
			q.putShown(&s, text)
		}
	}
	return s
}

// Asked returns the question that is asked, its number from 1, and how many
// there are; false while all is looked over.
func (f *Form) Asked() (q Question, n, of int, ok bool) {
	due := f.Due()
	if f.at >= len(due) {
		return Question{}, len(due), len(due), false
	}
	return due[f.at], f.at + 1, len(due), true
}

// Said returns what was answered to q; "" where it is left out.
func (f *Form) Said(q Question) string { return f.said[q.Key] }

// Estimate returns what is taken for q while it is left out.
func (f *Form) Estimate(q Question) string { return q.estimate(f.Scope(), f.Inches()) }

// Usual returns between what a length mostly is, in words; "" where there is
// nothing to say.
func (f *Form) Usual(q Question) string {
	s := f.Scope()
	if q.sane == nil || !q.Must && (!s.Aperture.Given() || !s.FocalLength.Given()) {
		return ""
	}
	low, high := q.span(s)
	text := "Usually " + roundText(low, f.Inches()) + " to " + roundText(high, f.Inches()) + "."
	if !q.Must && !f.isKit {
		text += " Not measured? Say about before it."
	}
	return text
}

// Inches reports whether lengths are said in inches as well: the mirror's was.
func (f *Form) Inches() bool { return f.Scope().Aperture.Unit == "in" }

// Title returns the name of what is described; "" while it has none.
func (f *Form) Title() string { return f.Scope().Name }

// IsKit reports whether a kit is described, and no scope.
func (f *Form) IsKit() bool { return f.isKit }

// IsEdit reports whether something known here is changed, and nothing new
// described.
func (f *Form) IsEdit() bool { return f.edits != "" }

// Typed returns what stood in the line of the present question when it was
// left, to be put there again.
func (f *Form) Typed() string {
	if q, _, _, ok := f.Asked(); ok {
		return f.typed[q.Key]
	}
	return ""
}

// Back goes to the question before; line is what stands in the line and was
// not entered. It reports false at the first: the form is left.
func (f *Form) Back(line string) bool {
	if q, _, _, ok := f.Asked(); ok {
		f.note(q, line)
	}
	f.doubted = doubted{}
	switch {
	case f.once:
		f.once, f.at = false, len(f.Due())
	case f.at > 0 && !(f.IsEdit() && f.at == len(f.Due())):
		f.at--
	default:
		return false
	}
	return true
}

func (f *Form) note(q Question, line string) {
	if line = strings.TrimSpace(line); line == "" {
		delete(f.typed, q.Key)
		return
	}
	f.typed[q.Key] = line
}

// Take takes a line. What cannot be taken is an error of one line, and changes
// nothing. After a *DoubtError a yes takes the answer, and so does the same once
// more.
func (f *Form) Take(line string) (FormStep, error) {
	line = strings.TrimSpace(line)
	switch strings.ToLower(line) {
	case "back", "b":
		if !f.Back("") {
			return FormLeave, nil
		}
		return FormOn, nil
	case "quit", "q", "leave":
		return FormLeave, nil
	case "afresh":
		return FormOn, f.afresh()
	case "done", "keep":
		return FormOn, f.done()
	}
	q, _, _, asked := f.Asked()
	if !asked {
		return f.look(line)
	}
	if err := f.answer(q, line); err != nil {
		return FormOn, err
	}
	delete(f.typed, q.Key)
	f.next()
	return FormOn, nil
}

func (f *Form) next() {
	f.doubted = doubted{}
	f.at++
	if f.once {
		f.once, f.at = false, len(f.Due())
	}
}

// look takes a line while all is looked over: nothing keeps it, a number or a
// question's name asks that once more.
func (f *Form) look(line string) (FormStep, error) {
	if line == "" {
		return FormKeep, nil
	}
	due := f.Due()
	n, err := strconv.Atoi(line)
	if err != nil {
		n = 1 + slices.IndexFunc(due, func(q Question) bool { return SameName(q.Name, line) })
	}
	if n < 1 || n > len(due) {
		return FormOn, fmt.Errorf("%s is none of them: a number from 1 to %d changes that line, Enter keeps all", words.Show(line), len(due))
	}
	f.at, f.once = n-1, true
	return FormOn, nil
}

// done leaves out the rest.
func (f *Form) done() error {
	due := f.Due()
	for i, q := range due {
		if q.Must && f.said[q.Key] == "" {
			f.at = i
			return fmt.Errorf("%s is still needed", q.Name)
		}
	}
	f.at, f.once, f.doubted = len(due), false, doubted{}
	return nil
}

// afresh starts over.
func (f *Form) afresh() error {
	if f.IsEdit() {
		return errors.New("this one is known here already: change only what is wrong")
	}
	f.said, f.typed = map[string]string{}, map[string]string{}
	f.at, f.once, f.doubted, f.Continued = 0, false, doubted{}, false
	return nil
}

// answer takes an answer if all makes sense with it.
func (f *Form) answer(q Question, text string) error {
	before := f.doubted
	f.doubted = doubted{}
	switch {
	case before.typed != "" && text == "":
		f.doubted = before
		leave := "unknown leaves it out, "
		if q.Must {
			leave = ""
		}
		return fmt.Errorf("%s is not accepted yet: yes accepts it, %sor say another", before.shown, leave)
	case before.typed != "" && SameName(text, "yes"):
		text = before.typed
	case text == "" && q.Must && f.said[q.Key] == "":
		return errNeeded
	case text == "":
		return nil
	case SameName(text, "unknown"):
		if q.Must {
			return errNeeded
		}
		delete(f.said, q.Key)
		return nil
	}
	s, typed := f.Scope(), text
	text, rough := q.rough(text)
	if rough && f.isKit {
		return errors.New("all of a kit's figures count as measured: say the figure alone, or leave it out")
	}
	shown, err := q.set(&s, text)
	if err != nil {
		return err
	}
	if rough {
		shown = roughly + shown
	}
	if why, ok := f.taken[strings.ToLower(s.Name)]; ok && q.Key == "name" {
		return errors.New(why)
	}
	if err := f.together(s); err != nil {
		return err
	}
	if err := q.doubt(s, f.Inches()); err != nil && before.shown != shown {
		f.doubted = doubted{typed, shown}
		return err
	}
	f.said[q.Key] = shown
	return nil
}

// together holds what is described against itself, as far as it goes.
func (f *Form) together(s Scope) error {
	if f.isKit {
		return s.Laser.check()
	}
	if !s.Aperture.Given() || !s.FocalLength.Given() {
		return nil
	}
	return s.Check()
}
