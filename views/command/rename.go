package command

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/session/words"
)

// renameCommand calls a scope or a kit by another name.
func (c *cli) renameCommand(short string, complete cobra.CompletionFunc, rename func(l *shelf.Shelf, name, to string, merge bool) (shelf.Renamed, []error)) *cobra.Command {
	var merge bool
	cmd := &cobra.Command{
		Use: "rename NAME NEW", Short: short, Args: cobra.ExactArgs(2), ValidArgsFunction: complete,
		Long: short + `. Its file, its records and journals and the log of work
say NEW from then on. With --merge, NEW may exist already: the two become one,
described as NEW is. Other laptops keep the old name until it is renamed there.`,
		RunE: func(_ *cobra.Command, args []string) error {
			l, err := c.library()
			if err != nil {
				return err
			}
			done, errs := rename(l, args[0], args[1], merge)
			if len(errs) > 0 {
				n, _ := c.names()
				c.warn(errs[1:])
				return failed(fmt.Errorf("%w%s", errs[0], meant(args[0], slices.Concat(n.scopes, n.kits))))
			}
			fmt.Fprintf(c.streams.Out, "%s is %s now, in %s and %s.\n", words.OneLine(args[0]), words.OneLine(args[1]), count(done.Records, "record"), count(done.Journals, "journal"))
			return nil
		},
	}
	cmd.Flags().BoolVar(&merge, "merge", false, "also where NEW exists already: the two become one")
	return cmd
}

// meant says what may have been meant, nothing where the name is known.
func meant(said string, among []string) string {
	if slices.ContainsFunc(among, func(s string) bool { return scope.SameName(s, said) }) {
		return ""
	}
	return words.DidYouMean(said, among)
}

// renamePersonCommand calls a person by another name: one who was written in two
// ways is one then.
func (c *cli) renamePersonCommand() *cobra.Command {
	var merge bool
	cmd := &cobra.Command{
		Use: "rename NAME NEW", Short: "Rename a person, in all that is saved here", Args: cobra.ExactArgs(2),
		ValidArgsFunction: c.completeNames(func(n names) []string { return n.people }),
		RunE:              func(_ *cobra.Command, args []string) error { return failed(c.renamePerson(args[0], args[1], merge)) },
	}
	cmd.Flags().BoolVar(&merge, "merge", false, "also where NEW exists already: the two become one")
	return cmd
}

func (c *cli) renamePerson(name, to string, merge bool) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	n, err := c.names()
	if err != nil {
		return err
	}
	trainees, err := l.Trainees()
	if err != nil {
		return err
	}
	people := slices.Concat(n.people, trainees)
	is := func(p words.Person) func(string) bool {
		return func(s string) bool { _, among := p.Among(s, ""); return among || p.Is(s) }
	}
	if !slices.ContainsFunc(people, is(words.PersonOf(name))) {
		return fmt.Errorf("no person %s here%s", words.Show(name), orOneOf(name, people))
	}
	if !merge && !words.PersonOf(to).Is(name) && slices.ContainsFunc(people, is(words.PersonOf(to))) {
		return &shelf.KnownNameError{Name: to}
	}
	f, errs := l.RenamePerson(name, to)
	if len(errs) > 0 && f.Records+f.Journals == 0 {
		return errs[0]
	}
	c.warn(errs)
	fmt.Fprintf(c.streams.Out, "%s is %s now, in %s and %s.\n", words.OneLine(name), words.OneLine(to), count(f.Records, "record"), count(f.Journals, "journal"))
	if !words.PersonOf(to).Is(name) {
		c.stillNamed(l, f)
	}
	if len(errs) > 0 {
		c.exit = ExitFailed
	}
	return nil
}
