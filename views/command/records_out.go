package command

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"spotward/session/history"
	"spotward/session/words"
	"spotward/views/paper"
)

func (c *cli) printCommand() *cobra.Command {
	var to string
	var label bool
	cmd := &cobra.Command{
		Use: "print ID --to FILE.html", Short: "A session as one page, for a printer, a phone or a mail", Args: cobra.ExactArgs(1), ValidArgsFunction: c.completeRecords,
		RunE: func(_ *cobra.Command, args []string) error { return failed(c.print(args[0], to, label)) },
	}
	toFlag(cmd, &to)
	cmd.Flags().BoolVar(&label, "label", false, "a small label for the tube instead")
	return cmd
}

func (c *cli) print(id, to string, label bool) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	r, err := l.Record(id)
	if err != nil {
		return err
	}
	sheet := paper.Sheet{Record: r, Program: Version()}
	if sheet.Scope, err = l.ScopeUsed(r); err != nil {
		return err
	}
	lines, _, err := l.ReadJournal(r.ID)
	if err != nil {
		c.warn([]error{fmt.Errorf("without the way of the spot: %w", err)})
	}
	sheet.Journal = lines
	return c.writeTo(to, func(w io.Writer) (string, error) {
		if label {
			return "a label for " + r.Scope, sheet.WriteLabel(w)
		}
		return "a page of " + r.Scope, sheet.Write(w)
	})
}

func (c *cli) exportCommand() *cobra.Command {
	var pick picking
	var to, format string
	cmd := &cobra.Command{
		Use: "export [SCOPE] --to FILE", Short: "Records for a spreadsheet (csv), or scopes, kits and records as JSON", Args: cobra.MaximumNArgs(1), ValidArgsFunction: c.completeScopes,
		RunE: func(_ *cobra.Command, args []string) error { return failed(c.export(args, pick, to, format)) },
	}
	c.pickFlags(cmd, &pick)
	toFlag(cmd, &to)
	cmd.Flags().StringVar(&format, "format", "", "csv or json (default: by the file's ending, else csv)")
	return cmd
}

func (c *cli) export(args []string, p picking, to, format string) error {
	if format == "" {
		format = "csv"
		if strings.HasSuffix(strings.ToLower(to), ".json") {
			format = "json"
		}
	}
	if format != "csv" && format != "json" {
		return usage("--format %q is not known: expected csv or json", words.OneLine(format))
	}
	pick, err := c.pick(p, args)
	if err != nil {
		return err
	}
	l, err := c.library()
	if err != nil {
		return err
	}
	shelf, errs := l.Shelf()
	c.warn(errs)
	shelf.Records = pick.Of(shelf.Records)
	return c.writeTo(to, func(w io.Writer) (string, error) {
		says := count(len(shelf.Records), "record")
		if format == "json" {
			return fmt.Sprintf("%s, %s, %s", says, count(len(shelf.Scopes), "scope"), count(len(shelf.Kits), "kit")), shelf.ExportJSON(w)
		}
		return says, history.ExportCSV(w, shelf.Records)
	})
}

func (c *cli) forgetCommand() *cobra.Command {
	return &cobra.Command{
		Use: "forget NAME", Short: "Take a person's name out of records and journals", Args: cobra.ExactArgs(1),
		Long: `Takes a person's name out of what is kept here: out of the records, out of the
lines of the journals that say who came, and out of the notes of who held a
session. Ids, times and all that was done stay, and every journal can be read
as before. What somebody typed is left as it is and named; so is what a trainee
of that name has learnt, and what was printed, exported or packed before.`,
		RunE: func(_ *cobra.Command, args []string) error { return failed(c.forget(args[0])) },
	}
}

func (c *cli) forget(name string) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	f, errs := l.Forget(name)
	c.warn(errs)
	out := c.streams.Out
	fmt.Fprintf(out, "The name was taken out of %s and %s. All else in them stays.\n", count(f.Records, "record"), count(f.Journals, "journal"))
	for _, id := range f.Mentions {
		fmt.Fprintf(out, "Left as typed: session %s has the name in its notes.\n", id)
	}
	if f.Trainee {
		dir, err := l.TraineeDir(name)
		if err == nil {
			fmt.Fprintf(out, "Left: what the trainee of that name has learnt, in %s; delete that folder to forget it.\n", dir)
		}
	}
	fmt.Fprintln(out, "Packs, exports and pages made before still have it.")
	if len(errs) > 0 {
		c.exit = ExitFailed
	}
	return nil
}

// completeRecords completes the ids of records, newest first.
func (c *cli) completeRecords(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	l, err := c.library()
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	records, _ := l.Records()
	var out []string
	for i := len(records) - 1; i >= 0; i-- {
		out = append(out, records[i].ID+"\t"+records[i].Scope)
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}
