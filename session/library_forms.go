package session

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"slices"
	"strings"
)

// draftsDir holds what was answered in forms that are not kept yet.
const draftsDir = "drafts"

// formDraft is a draft's file.
type formDraft struct {
	V     int               `json:"v"`
	Said  map[string]string `json:"said"`
	Typed map[string]string `json:"typed,omitempty"` // in the line, not entered
	At    int               `json:"at"`
}

// DescribeScope returns the form of a new scope, of one like another if that is
// named; it goes on where one was left unfinished. known are scopes beside
// those kept here.
func (l *Library) DescribeScope(like string, known ...Scope) (*Form, error) {
	scopes, _ := l.Scopes()
	retired, _ := l.RetiredScopes()
	f := &Form{draft: "new scope", taken: map[string]string{}}
	for _, s := range retired {
		f.taken[strings.ToLower(s.Name)] = fmt.Sprintf("%s is retired here, and its records are under that name: give this one another", s.Name)
	}
	var from Scope
	for _, s := range append(scopes, known...) {
		f.taken[strings.ToLower(s.Name)] = fmt.Sprintf("there is a scope called %s here: give this one another name", s.Name)
		if like != "" && SameName(s.Name, like) {
			from = s
			f.draft += " like " + s.Name
		}
	}
	if like != "" && from.Name == "" {
		return nil, fmt.Errorf("no scope %s here: spotward scopes lists those known", show(like))
	}
	from.Name = ""
	return f, l.scopeForm(f, from)
}

// EditScope returns the form of a scope that is kept here, with what its file
// says filled in.
func (l *Library) EditScope(name string) (*Form, error) {
	files, unread := l.scopeFiles(scopesDir)
	known, ok := find(files, name)
	if b := Builtin(); !ok && SameName(b.Name, name) {
		return nil, fmt.Errorf("%s is always as it is: describe another by spotward scopes new --like %s", b.Name, b.Name)
	}
	if !ok {
		if err := l.whyUnknown(name, unread); err != nil {
			return nil, err
		}
		return nil, fmt.Errorf("%s: expected the name of a scope known here, not a path", show(name))
	}
	return l.editForm(known.value)
}

func (l *Library) editForm(s Scope) (*Form, error) {
	f := &Form{draft: "scope " + s.Name, edits: s.Name}
	return f, l.scopeForm(f, s)
}

func (l *Library) scopeForm(f *Form, from Scope) error {
	kits, _ := l.Kits()
	f.table = scopeQuestions(kits, from.Kit)
	return l.begin(f, from)
}

// DescribeKit returns the form of a new kit, as DescribeScope does.
func (l *Library) DescribeKit(like string) (*Form, error) {
	kits, _ := l.Kits()
	f := &Form{draft: "new kit", isKit: true, taken: map[string]string{}}
	var from Scope
	found := like == ""
	for _, k := range kits {
		f.taken[strings.ToLower(k.Name)] = fmt.Sprintf("there is a kit called %s here: give this one another name", k.Name)
		if like != "" && SameName(k.Name, like) {
			from.Laser, found = k.Laser, true
			f.draft += " like " + k.Name
		}
	}
	if !found {
		return nil, fmt.Errorf("no kit %s here: spotward kits lists those known", show(like))
	}
	f.table = kitQuestions()
	return f, l.begin(f, from)
}

// EditKit returns the form of a kit that is kept here.
func (l *Library) EditKit(name string) (*Form, error) {
	k, err := l.Kit(name)
	if err != nil {
		return nil, err
	}
	f := &Form{draft: "kit " + k.Name, edits: k.Name, isKit: true, table: kitQuestions()}
	return f, l.begin(f, Scope{Name: k.Name, Laser: k.Laser})
}

// begin fills a form in with what it begins with, or with its draft.
func (l *Library) begin(f *Form, from Scope) error {
	from.Format = FormatVersion
	if f.isKit { // what is usual of a laser is the same on any telescope
		from.Aperture, from.FocalLength = MM(200), MM(1200)
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
	return l.readDraft(f)
}

func (l *Library) draftPath(f *Form) string { return l.path(draftsDir, f.draft+".json") }

// readDraft goes on with a draft, if there is one that can be read.
func (l *Library) readDraft(f *Form) error {
	data, err := os.ReadFile(l.draftPath(f))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return cannotRead(l.draftPath(f), err)
	}
	var d formDraft
	if json.Unmarshal(data, &d) != nil || d.V != FormatVersion || d.At < 0 {
		return nil // of no use: it is written anew
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
	return nil
}

// Changed reports whether there is anything in a form to be kept.
func (f *Form) Changed() bool { return !maps.Equal(f.said, f.began) || len(f.typed) > 0 }

// KeepDraft keeps what was answered so far, so that nothing is to be said
// twice.
func (l *Library) KeepDraft(f *Form) error {
	if !f.Changed() {
		return l.DropDraft(f)
	}
	data, err := json.Marshal(formDraft{V: FormatVersion, Said: f.said, Typed: f.typed, At: f.at})
	if err == nil {
		err = os.MkdirAll(l.path(draftsDir), 0o755)
	}
	if err == nil {
		err = writeWhole(l.draftPath(f), data)
	}
	if err != nil {
		return cannotKeep("what was answered", err)
	}
	return nil
}

// KeepForm keeps the scope or the kit that a form describes, and drops its
// draft.
func (l *Library) KeepForm(f *Form) error {
	s := f.Scope()
	var err error
	if f.isKit {
		err = l.SaveKit(Kit{Name: s.Name, Laser: s.Laser})
	} else {
		err = l.SaveScope(s)
	}
	if err != nil {
		return err
	}
	return l.DropDraft(f)
}

// DropDraft forgets what was answered in a form.
func (l *Library) DropDraft(f *Form) error {
	if err := os.Remove(l.draftPath(f)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return cannotKeep("that the form is done", err)
	}
	return nil
}
