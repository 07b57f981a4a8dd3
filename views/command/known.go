package command

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"spotward/session"
	"spotward/session/history"
	"spotward/session/scope"
	"spotward/session/words"
)

// tagNames returns the tags as they are said.
func tagNames() []string {
	var out []string
	for _, id := range []string{session.TagReady, "ready_low_power", session.TagWithNote, session.TagHoldBack} {
		out = append(out, words.Tag(id))
	}
	return out
}

// tagID returns the tag that was said, by its name or by its id.
func tagID(said string) string {
	for _, id := range []string{session.TagReady, "ready_low_power", session.TagWithNote, session.TagHoldBack} {
		if strings.EqualFold(said, words.Tag(id)) || strings.EqualFold(said, id) {
			return id
		}
	}
	return said
}

// orOneOf says what may have been meant, or else what there is.
func orOneOf(said string, names []string) string {
	if near := words.DidYouMean(said, names); near != "" {
		return near
	}
	if len(names) == 0 {
		return ""
	}
	const most = 8
	if len(names) > most {
		return ": expected one of " + words.OneLine(strings.Join(names[:most], ", ")) + " and others"
	}
	return ": expected one of " + words.OneLine(strings.Join(names, ", "))
}

// names are what records and files here are called.
type names struct{ scopes, kits, people, places []string }

func (c *cli) names() (names, error) {
	var n names
	l, err := c.library()
	if err != nil || l == nil {
		return n, err
	}
	add := func(to *[]string, name string) {
		if name != "" && !slices.ContainsFunc(*to, func(s string) bool { return scope.SameName(s, name) }) {
			*to = append(*to, name)
		}
	}
	add(&n.scopes, scope.Builtin().Name)
	scopes, _ := l.Scopes()
	for _, s := range scopes {
		add(&n.scopes, s.Name)
		add(&n.kits, s.Kit)
	}
	kits, _ := l.Kits()
	for _, k := range kits {
		add(&n.kits, k.Name)
	}
	records, _ := l.Records()
	for _, r := range records {
		add(&n.scopes, r.Scope)
		add(&n.kits, r.Kit)
		add(&n.people, r.Who)
		add(&n.places, r.Where)
	}
	return n, nil
}

// known returns an error for the first name in a pick that nothing here has.
func (c *cli) known(p history.Pick) error {
	if p.Scope == "" && p.Kit == "" && p.Who == "" && p.Where == "" {
		return nil
	}
	n, err := c.names()
	if err != nil {
		return err
	}
	for _, k := range []struct {
		what, said string
		among      []string
	}{{"scope", p.Scope, n.scopes}, {"kit", p.Kit, n.kits}, {"person", p.Who, n.people}, {"place", p.Where, n.places}} {
		if k.said != "" && !slices.ContainsFunc(k.among, func(s string) bool { return scope.SameName(s, k.said) }) {
			return failed(errors.New("no " + k.what + " " + words.Show(k.said) + " here" + orOneOf(k.said, k.among)))
		}
	}
	return nil
}

func jsonFlag(cmd *cobra.Command, to *bool) {
	cmd.Flags().BoolVar(to, "json", false, "as JSON, with the keys of records export")
}

// writeJSON writes one list under its name, with the version of its keys.
func (c *cli) writeJSON(name string, list any) error {
	out := json.NewEncoder(c.streams.Out)
	out.SetIndent("", " ")
	return out.Encode(map[string]any{"v": history.ExportVersion, name: list})
}

// completePicks completes the values of the flags that pick records out.
func (c *cli) completePicks(cmd *cobra.Command) {
	_ = cmd.RegisterFlagCompletionFunc("kit", c.completeNames(func(n names) []string { return n.kits }))
	_ = cmd.RegisterFlagCompletionFunc("tag", c.completeNames(func(names) []string { return tagNames() })) // the flags are there
}

func joined(args []string) string { return strings.Join(args, " ") }
