package shelf

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"github.com/gofrs/flock"

	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/words"
)

// draftsDir holds what was answered in forms that are not kept yet.
const draftsDir = "drafts"

// maxDraftBytes is more than any form's answers take.
const maxDraftBytes = 256 << 10

// DescribeScope returns the form of a new scope, of one like another if that is
// named; it goes on where one was left unfinished. known are scopes beside
// those kept here.
func (l *Shelf) DescribeScope(like string, known ...scope.Scope) (*scope.Form, error) {
	scopes, _ := l.Scopes()
	retired, _ := l.RetiredScopes()
	form := scope.FormOf{Draft: "new scope", Taken: map[string]string{}}
	for _, s := range retired {
		form.Taken[strings.ToLower(s.Name)] = fmt.Sprintf("%s is retired here, and its records are under that name: give this one another", s.Name)
	}
	for _, s := range append(scopes, known...) {
		form.Taken[strings.ToLower(s.Name)] = fmt.Sprintf("there is a scope called %s here: give this one another name", s.Name)
		if like != "" && scope.SameName(s.Name, like) {
			form.From = s
			form.Draft += " like " + s.Name
		}
	}
	if like != "" && form.From.Name == "" {
		return nil, fmt.Errorf("no scope %s here: spotward scopes lists those known", words.Show(like))
	}
	form.From.Name = ""
	return l.begin(form)
}

// EditScope returns the form of a scope that is kept here, with what its file
// says filled in.
func (l *Shelf) EditScope(name string) (*scope.Form, error) {
	files, unread := l.scopeFiles(scopesDir)
	known, ok := find(files, name)
	if b := scope.Builtin(); !ok && scope.SameName(b.Name, name) {
		return nil, fmt.Errorf("%s is always as it is: describe another by spotward scopes new --like %s", b.Name, b.Name)
	}
	if !ok {
		if err := l.whyUnknown(name, unread); err != nil {
			return nil, err
		}
		return nil, fmt.Errorf("%s: expected the name of a scope known here, not a path", words.Show(name))
	}
	return l.editForm(known.value)
}

func (l *Shelf) editForm(s scope.Scope) (*scope.Form, error) {
	return l.begin(scope.FormOf{Draft: "scope " + s.Name, Edits: s.Name, From: s})
}

// DescribeKit returns the form of a new kit, as DescribeScope does.
func (l *Shelf) DescribeKit(like string) (*scope.Form, error) {
	kits, _ := l.Kits()
	form := scope.FormOf{Draft: "new kit", IsKit: true, Taken: map[string]string{}}
	found := like == ""
	for _, k := range kits {
		form.Taken[strings.ToLower(k.Name)] = fmt.Sprintf("there is a kit called %s here: give this one another name", k.Name)
		if like != "" && scope.SameName(k.Name, like) {
			form.From.Laser, found = k.Laser, true
			form.Draft += " like " + k.Name
		}
	}
	if !found {
		return nil, fmt.Errorf("no kit %s here: spotward kits lists those known", words.Show(like))
	}
	return l.begin(form)
}

// EditKit returns the form of a kit that is kept here.
func (l *Shelf) EditKit(name string) (*scope.Form, error) {
	k, err := l.Kit(name)
	if err != nil {
		return nil, err
	}
	return l.begin(scope.FormOf{Draft: "kit " + k.Name, Edits: k.Name, IsKit: true, From: k.Scope()})
}

// begin makes a form, and goes on with its draft, if there is one that can be
// read.
func (l *Shelf) begin(of scope.FormOf) (*scope.Form, error) {
	if !of.IsKit {
		of.Kits, _ = l.Kits()
	}
	f := scope.NewForm(of)
	f.KeepAs(l.ownDraft(f.DraftName()))
	data, err := readPlain(l.draftPath(f), maxDraftBytes)
	if errors.Is(err, fs.ErrNotExist) {
		return f, nil
	}
	if err != nil {
		return f, journal.CannotRead(l.draftPath(f), err)
	}
	var d scope.Draft
	if json.Unmarshal(data, &d) != nil {
		return f, nil // of no use: it is written anew
	}
	f.TakeUp(d)
	return f, nil
}

// maxDrafts is how many forms of one kind can be open at once with a draft each.
const maxDrafts = 20

// ownDraft returns the name of a draft that no other program works on: the one
// asked for, or it with a number. One that was left goes before a new one.
func (l *Shelf) ownDraft(name string) string {
	if os.MkdirAll(l.path(draftsDir), 0o755) != nil {
		return name // nothing can be kept there, and that is said when it is to be
	}
	var left, fresh []string
	for n := 1; n <= maxDrafts; n++ {
		try := name
		if n > 1 {
			try = fmt.Sprintf("%s %d", name, n)
		}
		if _, err := os.Lstat(l.path(draftsDir, try+draftEnding)); err == nil {
			left = append(left, try)
		} else {
			fresh = append(fresh, try)
		}
	}
	for _, try := range append(left, fresh...) {
		if l.holdDraft(try) {
			return try
		}
	}
	return name
}

// holdDraft keeps other programs from a draft for as long as this one works on
// it. One that this program holds already is its own.
func (l *Shelf) holdDraft(name string) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.drafts[name] != nil {
		return true
	}
	path := l.path(draftsDir, name+".lock")
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return false
	}
	lock := flock.New(path, flock.SetPermissions(0o666))
	if got, err := lock.TryLock(); err != nil || !got {
		return err != nil // no locks here: as if alone
	}
	if l.drafts == nil {
		l.drafts = map[string]*flock.Flock{}
	}
	l.drafts[name] = lock
	return true
}

func (l *Shelf) releaseDraft(name string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if lock := l.drafts[name]; lock != nil {
		_ = lock.Close()
		delete(l.drafts, name)
	}
}

// LeaveDrafts lets other programs go on with the drafts that this one has.
func (l *Shelf) LeaveDrafts() {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, lock := range l.drafts {
		_ = lock.Close()
	}
	clear(l.drafts)
}

const draftEnding = ".json"

func (l *Shelf) draftPath(f *scope.Form) string { return l.path(draftsDir, f.DraftName()+draftEnding) }

// KeepDraft keeps what was answered so far, so that nothing is to be said
// twice.
func (l *Shelf) KeepDraft(f *scope.Form) error {
	if !f.Changed() {
		return l.removeDraft(f)
	}
	data, err := json.Marshal(f.Draft())
	if err == nil {
		err = os.MkdirAll(l.path(draftsDir), 0o755)
	}
	if err == nil {
		err = writeWhole(l.draftPath(f), data)
	}
	if err != nil {
		return journal.CannotKeep("what was answered", err)
	}
	return nil
}

// KeepForm keeps the scope or the kit that a form describes, and drops its
// draft.
func (l *Shelf) KeepForm(f *scope.Form) error {
	s := f.Scope()
	var err error
	if f.IsKit() {
		err = l.SaveKit(scope.KitOf(s))
	} else {
		err = l.SaveScope(s)
	}
	if err != nil {
		return err
	}
	return l.DropDraft(f)
}

// DropDraft forgets what was answered in a form that is done.
func (l *Shelf) DropDraft(f *scope.Form) error {
	defer l.releaseDraft(f.DraftName())
	return l.removeDraft(f)
}

func (l *Shelf) removeDraft(f *scope.Form) error {
	if err := os.Remove(l.draftPath(f)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return journal.CannotKeep("that the form is done", err)
	}
	return nil
}
