package shelf

import (
	"fmt"
	"os"

	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/words"
)

func (t *taker) scope(_ string, data []byte) error {
	s, err := scope.DecodeScope(data)
	if err != nil {
		return err
	}
	if known, ok := find(t.scopes, s.Name); ok {
		return t.same("scope", known.name, scope.Difference(known.value, s), func() error {
			s.Name = known.name
			return t.l.SaveScopeFile(s, data)
		})
	}
	if retired, ok := find(t.retired, s.Name); ok && t.prefer != PreferTheirs {
		return t.same("scope", retired.name, []string{"retired here, in use there"}, nil)
	}
	path, err := t.create(scopesDir, s.Name+".toml", data)
	if err == nil {
		t.scopes = append(t.scopes, named[scope.Scope]{path, s.Name, s})
		t.taken.Scopes++
	}
	return err
}

// retiredScope takes a scope that is out of use there; it goes to those out of
// use here, whatever is in use under its name.
func (t *taker) retiredScope(_ string, data []byte) error {
	s, err := scope.DecodeScope(data)
	if err != nil {
		return err
	}
	if known, ok := find(t.retired, s.Name); ok {
		return t.same("retired scope", known.name, scope.Difference(known.value, s), nil)
	}
	if err := os.MkdirAll(t.l.path(retiredDir), 0o755); err != nil {
		return journal.CannotKeep("scope "+words.Show(s.Name), err)
	}
	path, err := t.create(retiredDir, s.Name+".toml", data)
	if err == nil {
		t.retired = append(t.retired, named[scope.Scope]{path, s.Name, s})
		t.taken.Scopes++
	}
	return err
}

func (t *taker) kit(stem string, data []byte) error {
	k, err := packedKit(stem, data)
	if err != nil {
		return err
	}
	if known, ok := find(t.kits, k.Name); ok {
		return t.same("kit", known.name, scope.Difference(known.value.Scope(), k.Scope()), func() error {
			k.Name = known.name
			return t.l.SaveKit(k)
		})
	}
	if retired, ok := find(t.retiredKits, k.Name); ok && t.prefer != PreferTheirs {
		return t.same("kit", retired.name, []string{"retired here, in use there"}, nil)
	}
	path, err := t.create(kitsDir, k.Name+".toml", data)
	if err == nil {
		t.kits = append(t.kits, named[scope.Kit]{path, k.Name, k})
		t.taken.Kits++
	}
	return err
}

// retiredKit takes a kit that is out of use there, as retiredScope does.
func (t *taker) retiredKit(stem string, data []byte) error {
	k, err := packedKit(stem, data)
	if err != nil {
		return err
	}
	if known, ok := find(t.retiredKits, k.Name); ok {
		return t.same("retired kit", known.name, scope.Difference(known.value.Scope(), k.Scope()), nil)
	}
	if err := os.MkdirAll(t.l.path(retiredKitsDir), 0o755); err != nil {
		return journal.CannotKeep("kit "+words.Show(k.Name), err)
	}
	path, err := t.create(retiredKitsDir, k.Name+".toml", data)
	if err == nil {
		t.retiredKits = append(t.retiredKits, named[scope.Kit]{path, k.Name, k})
		t.taken.Kits++
	}
	return err
}

func packedKit(stem string, data []byte) (scope.Kit, error) {
	k, err := scope.DecodeKit(data, stem)
	if err != nil {
		return k, err
	}
	if err := scope.CheckName(k.Name); err != nil {
		return k, fmt.Errorf("name = %s: expected %w", words.Show(k.Name), err)
	}
	return k, nil
}

// same counts a description that is here already. Where it differs the preferred
// one counts; replace puts the pack's in the place of the one here, nil where that
// is not done.
func (t *taker) same(what, name string, differs []string, replace func() error) error {
	if len(differs) == 0 {
		t.taken.Known++
		return nil
	}
	t.taken.Differ = append(t.taken.Differ, Differ{what, name, differs})
	switch {
	case t.prefer == PreferTheirs && replace != nil:
		return replace()
	case t.prefer != PreferNone:
		return nil
	}
	return fmt.Errorf("another %s %s is here, with other content: the one here stays as it is", what, words.Show(name))
}
