package command

import (
	"github.com/spf13/cobra"

	"spotward/optics/virtual"
	"spotward/session/lesson"
	"spotward/views/practice"
	"spotward/views/theme"
)

// completeFlags completes the values of all flags that have a few words for
// them, on every command below cmd.
func (c *cli) completeFlags(cmd *cobra.Command) {
	one := func(words ...string) cobra.CompletionFunc {
		return cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp)
	}
	var themes, faults []string
	for _, n := range theme.Names() {
		themes = append(themes, string(n))
	}
	faults = append(faults, practice.Faults()...)
	of := map[string]cobra.CompletionFunc{
		"theme": one(themes...), "fault": one(faults...), "format": one("csv", "json"),
		"level": one(string(virtual.Easy), string(virtual.Usual), string(virtual.Hard)),
		"who":   c.completeNames(func(n names) []string { return n.people }),
		"where": c.completeNames(func(n names) []string { return n.places }),
		"resume": func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return c.unfinishedIDs(), cobra.ShellCompDirectiveNoFileComp
		},
		"seed": one(), "since": one(), "until": one(),
		"data": func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return nil, cobra.ShellCompDirectiveFilterDirs
		},
	}
	var each func(*cobra.Command)
	each = func(cmd *cobra.Command) {
		for flag, values := range of {
			if cmd.Flags().Lookup(flag) != nil || cmd.PersistentFlags().Lookup(flag) != nil {
				_ = cmd.RegisterFlagCompletionFunc(flag, values) // one that has its own keeps it
			}
		}
		for _, sub := range cmd.Commands() {
			each(sub)
		}
	}
	each(cmd)
}

func (c *cli) completeNames(of func(names) []string) cobra.CompletionFunc {
	return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		n, _ := c.names()
		return of(n), cobra.ShellCompDirectiveNoFileComp
	}
}

func (c *cli) unfinishedIDs() []string {
	l, err := c.library()
	if err != nil || l == nil {
		return nil
	}
	open, _ := l.Unfinished("")
	var out []string
	for _, o := range open {
		out = append(out, o.ID+"\t"+o.Scope)
	}
	return out
}

// completeLessons completes the names of the lessons.
func completeLessons(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	var out []string
	for _, l := range lesson.All() {
		out = append(out, l.ID)
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}
