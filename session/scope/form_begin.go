package scope

import (
	"maps"
	"slices"
)

// FormOf says what a form is of.
type FormOf struct {
	From  Scope             // what its answers begin as
	IsKit bool              // of From, only the name and the laser count
	Edits string            // the name of what is changed; "" = something new
	Taken map[string]string // names that cannot be given, in small letters, and why
	Kits  []Kit             // that a scope can name
	Draft string            // the name of its draft
}

// Draft is what was answered in a form that is not kept yet, as it is written.
type Draft struct {
	V     int               `json:"v"`
	Said  map[string]string `json:"said"`
	Typed map[string]string `json:"typed,omitempty"` // in the line, not entered
	At    int               `json:"at"`
}

// NewForm begins a form.
func NewForm(of FormOf) *Form {
	from := of.From
	f := &Form{draft: of.Draft, edits: of.Edits, isKit: of.IsKit, taken: of.Taken}
	from.Format = FormatVersion
	if f.isKit { // what is usual of a laser is the same on any telescope
		f.table = kitQuestions()
		from.Aperture, from.FocalLength = MM(200), MM(1200)
	} else {
		f.table = scopeQuestions(of.Kits, from.Kit)
	}
	f.said, f.typed = map[string]string{}, map[string]string{}
	f.base = from
	for _, q := range f.table {
		if text := q.shown(from); text != "" {
			f.said[q.Key] = text
			if !q.due(from) {
				continue // it stays as it is, whatever it says there
			}
			key := q.keeps(from)
			q.fieldOf(key).clear(&f.base)
			f.base.Estimates = slices.DeleteFunc(slices.Clone(f.base.Estimates), func(k string) bool { return k == key })
		}
	}
	if f.IsEdit() { // the records are under its name
		f.base.Name = from.Name
		f.table = slices.DeleteFunc(f.table, func(q Question) bool { return q.Key == "name" })
		f.at = len(f.Due())
	}
	f.began = maps.Clone(f.said)
	return f
}

// KeepAs gives the form's draft another name.
func (f *Form) KeepAs(draft string) { f.draft = draft }

// DraftName returns the name of the form's draft.
func (f *Form) DraftName() string { return f.draft }

// Draft returns what was answered so far.
func (f *Form) Draft() Draft {
	return Draft{V: FormatVersion, Said: f.said, Typed: f.typed, At: f.at}
}

// TakeUp goes on with a draft. One of another version is of no use and changes
// nothing.
func (f *Form) TakeUp(d Draft) {
	if d.V != FormatVersion || d.At < 0 {
		return
	}
	for key := range f.said {
		if _, ok := d.Said[key]; !ok {
			delete(f.said, key)
		}
	}
	for _, q := range f.table {
		s := f.Scope()
		if text, ok := d.Said[q.Key]; ok {
			if q.putShown(&s, text); f.together(s) == nil && q.text(s) != "" {
				f.said[q.Key] = q.shown(s)
			}
		}
		if text, ok := d.Typed[q.Key]; ok {
			f.typed[q.Key] = text
		}
	}
	f.at = min(d.At, len(f.Due()))
	f.Continued = f.Changed()
}

// Changed reports whether there is anything in a form to be kept.
func (f *Form) Changed() bool { return !maps.Equal(f.said, f.began) || len(f.typed) > 0 }
