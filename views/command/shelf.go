package command

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/session/words"
)

func (c *cli) scopesCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use: "scopes", Short: "The scopes known here", Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return failed(c.listScopes(asJSON)) },
	}
	jsonFlag(cmd, &asJSON)
	cmd.AddCommand(
		c.addScopesCommand(),
		c.newCommand("Describe a scope, question by question", c.completeScopes, func(l *shelf.Shelf, like string) (*scope.Form, error) {
			return l.DescribeScope(like, scope.Builtin())
		}),
		c.editCommand("Measure what was estimated, mend what is wrong", c.completeScopes, (*shelf.Shelf).EditScope),
		&cobra.Command{
			Use: "show NAME", Short: "A scope's file, and what it leaves out", Args: cobra.ExactArgs(1), ValidArgsFunction: c.completeScopes,
			RunE: func(_ *cobra.Command, args []string) error { return failed(c.showScope(args[0])) },
		},
		&cobra.Command{
			Use: "retire NAME", Short: "Take a scope off the shelf; its records stay", Args: cobra.ExactArgs(1), ValidArgsFunction: c.completeScopes,
			RunE: func(_ *cobra.Command, args []string) error { return failed(c.retireScope(args[0])) },
		},
		c.copyScopeCommand(),
		c.renameCommand("Rename a scope, with all its records", c.completeScopes, (*shelf.Shelf).RenameScope),
	)
	return cmd
}

func (c *cli) copyScopeCommand() *cobra.Command {
	var asIs bool
	cmd := &cobra.Command{
		Use: "copy NAME NEW", Short: "A scope's file under a new name, as the start of another", Args: cobra.ExactArgs(2), ValidArgsFunction: c.completeScopes,
		RunE: func(_ *cobra.Command, args []string) error { return failed(c.copyScope(args[0], args[1], asIs)) },
	}
	cmd.Flags().BoolVar(&asIs, "as-is", false, "also under the name of a retired scope; its records then count for the new one")
	return cmd
}

// table returns a writer of columns; its Flush must be called.
func (c *cli) table() *tabwriter.Writer { return tableOn(c.streams.Out) }

func tableOn(w io.Writer) *tabwriter.Writer { return tabwriter.NewWriter(w, 0, 0, 2, ' ', 0) }

// warn says each error in a line of its own.
func (c *cli) warn(errs []error) {
	for _, err := range errs {
		fmt.Fprintf(c.streams.Err, "spotward: %s\n", words.OneLine(err.Error()))
	}
}

func (c *cli) listScopes(asJSON bool) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	scopes, errs := l.Scopes()
	if asJSON {
		c.warn(errs)
		return c.writeJSON("scopes", append([]scope.Scope{}, scopes...))
	}
	t := c.table()
	fmt.Fprintln(t, "NAME\tAPERTURE\tFOCAL RATIO\tUSE\tKIT\tESTIMATES")
	for _, s := range append([]scope.Scope{scope.Builtin()}, scopes...) {
		use := s.Use
		if use == "" {
			use = scope.UseAllRound + ", a guess"
		}
		fmt.Fprintf(t, "%s\t%s\tf/%.1f\t%s\t%s\t%d\n", s.Name, s.Aperture.Text(), s.Telescope().FocalRatio(), use, orDash(s.Kit), len(s.Guessed()))
	}
	t.Flush()
	c.warn(errs)
	return nil
}

func (c *cli) showScope(name string) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	s, err := c.shown(d.Library, name)
	if err != nil {
		return err
	}
	if _, err = c.streams.Out.Write(scope.EncodeScope(s)); err != nil {
		return err
	}
	full, err := d.Library.WithKit(s)
	if err != nil {
		c.warn([]error{err})
	} else if s.Kit != "" {
		fmt.Fprintf(c.streams.Out, "\n# The laser is that of kit %s: spotward kits show %q\n", s.Kit, s.Kit)
	}
	if guessed := s.Guessed(); len(guessed) > 0 {
		fmt.Fprintln(c.streams.Out, "\n# Left out; the usual figure is assumed until it is measured or learnt:")
		for _, g := range guessed {
			fmt.Fprintf(c.streams.Out, "#   %s\n", g)
		}
	}
	c.writeBudget(full)
	return nil
}

// budgetCells is how wide the budget's bars are for what is allowed.
const budgetCells = 20

// writeBudget draws what a laser can see on this telescope, as comments under
// its file: a bar a line, the post where the allowance ends.
func (c *cli) writeBudget(s scope.Scope) {
	t, m := s.Telescope(), s.Method()
	if t.LensInside {
		fmt.Fprintf(c.streams.Out, "\n# %s\n", t.BudgetWords(m))
		return
	}
	b := t.BudgetOf(m)
	fmt.Fprintf(c.streams.Out, "\n# What a laser can see of the axis error, in 95 of 100, in mm. | is the %.2f mm allowed (Strehl %.2f):\n",
		b.AllowedMM, t.Coma(b.AllowedMM).Strehl)
	row := func(what string, mm float64) {
		n := min(int(mm/b.AllowedMM*budgetCells+0.5), 2*budgetCells)
		bar := strings.Repeat("=", n) + strings.Repeat(" ", 2*budgetCells-n)
		bar = strings.TrimRight(bar[:budgetCells]+"|"+bar[budgetCells:], " ")
		fmt.Fprintf(c.streams.Out, "#   %-20s %5.2f  %s\n", what, mm, bar)
	}
	for _, l := range b.Lines {
		row(l.What, l.WithinMM())
	}
	row("together", b.WithinMM())
	fmt.Fprintf(c.streams.Out, "# %s\n", t.BudgetWords(m))
	for _, line := range scope.ProvableWords(s) {
		fmt.Fprintf(c.streams.Out, "# %s\n", line)
	}
}

func (c *cli) retireScope(name string) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	if err := l.RetireScope(name); err != nil {
		return err
	}
	fmt.Fprintf(c.streams.Out, "%s is off the shelf. Its records stay; its file is among those in %s.\n", words.OneLine(name), filepath.Join(l.Dir(), "scopes", "retired"))
	return nil
}

func (c *cli) copyScope(from, to string, asIs bool) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	if err := scope.CheckName(to); err != nil {
		return fmt.Errorf("%q: expected %w", words.OneLine(to), err)
	}
	s, err := c.scope(d, from)
	if err != nil {
		return err
	}
	known, errs := d.Library.Scopes()
	for _, k := range append(known, scope.Builtin()) {
		if scope.SameName(k.Name, to) {
			return fmt.Errorf("%s is known here already: give the copy another name", k.Name)
		}
	}
	c.warn(errs)
	if err := c.notRetired(d.Library, to); err != nil && !asIs {
		return err
	}
	s.Name = to
	if err := d.Library.SaveScope(s); err != nil {
		return err
	}
	fmt.Fprintf(c.streams.Out, "%s is saved. What differs is changed by: spotward scopes edit %q\n", to, to)
	return nil
}
