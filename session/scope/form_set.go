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
