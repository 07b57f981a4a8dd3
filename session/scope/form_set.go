package scope

import (
	"fmt"
	"slices"
	"strings"

	"spotward/session/words"
)

// Set answers a question of the form by its name or its key, as Take does when it
// is asked: "tube" or "tube.inner_radius". A doubtful answer is not taken.
func (f *Form) Set(name, text string) error {
	due := f.Due()
	n := slices.IndexFunc(due, func(q Question) bool { return SameName(q.Name, name) || q.Key == name })
	if n < 0 && slices.Contains(unasked[:], name) {
		return f.setUnasked(name, text)
	}
	if n < 0 {
		var names []string
		for _, q := range due {
			names = append(names, q.Name)
		}
		near := words.DidYouMean(name, names)
		if near == "" {
			near = ": expected one of " + strings.Join(names, ", ")
		}
		return fmt.Errorf("nothing called %s is asked here%s", words.Show(name), near)
	}
	if err := f.answer(due[n], text); err != nil {
		return fmt.Errorf("%s = %s: %w", due[n].Name, words.Show(text), err)
	}
	return nil
}

// unasked are the keys that no question is about and that are set by their name.
var unasked = [...]string{"check_days", "notes"}

func (f *Form) setUnasked(key, text string) error {
	fields := scopeFields
	at := fields[slices.IndexFunc(fields, func(f field) bool { return f.table == "" && f.key == key })]
	if SameName(text, "unknown") {
		at.clear(&f.base)
		return nil
	}
	var value any = text
	if v, ok := plainNumber(text); ok && key == "check_days" {
		value = v
	}
	s := f.base
	if err := at.set(&s, key, value); err != nil {
		return fmt.Errorf("%s = %s: expected %w", key, words.Show(text), err)
	}
	f.base = s
	return nil
}
