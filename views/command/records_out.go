package command

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"spotward/session/history"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/session/words"
	"spotward/views/paper"
)

func (c *cli) printCommand() *cobra.Command {
	var to string
	var label bool
	cmd := &cobra.Command{
		Use: "print ID... --to FILE.html", Short: "A session as one page, for a printer, a phone or a mail", Args: cobra.MinimumNArgs(1), ValidArgsFunction: c.completeRecords,
		Long: `A session as one page. With --label a small label for the tube instead; of several
ids or scopes, a sheet of labels.`,
		RunE: func(_ *cobra.Command, args []string) error {
			switch {
			case label:
				return failed(c.labels(args, to))
			case len(args) > 1:
				return usage("one page at a time: --label prints many labels on one sheet")
			}
			return failed(c.print(args[0], to))
		},
	}
	toFlag(cmd, &to)
	cmd.Flags().BoolVar(&label, "label", false, "small labels for the tubes instead")
	return cmd
}

// sheet returns what a page of a record is made of.
func (c *cli) sheet(l *shelf.Shelf, id string) (paper.Sheet, error) {
	r, err := l.Record(id)
	if err != nil {
		return paper.Sheet{}, c.mayMean(err, id)
	}
	sheet := paper.Sheet{Record: r, Program: Version()}
	sheet.Scope, err = l.ScopeUsed(r)
	return sheet, err
}

func (c *cli) print(id, to string) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	sheet, err := c.sheet(l, id)
	if err != nil {
		return err
	}
	lines, _, err := l.ReadJournal(sheet.Record.ID)
	if err != nil {
		c.warn([]error{fmt.Errorf("without the way of the spot: %w", err)})
	}
	sheet.Journal = lines
	return c.writeTo(to, func(w io.Writer) (string, error) { return "a page of " + sheet.Record.Scope, sheet.Write(w) })
}

// labels prints a label for each of the sessions.
func (c *cli) labels(ids []string, to string) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	fleet, err := c.fleet(picking{})
	if err != nil {
		return err
	}
	var sheets []paper.Sheet
	for _, id := range ids {
		sheet, err := c.sheet(l, id)
		if err != nil {
			return err
		}
		for _, row := range fleet.Scopes {
			if scope.SameName(row.Scope, sheet.Record.Scope) {
				sheet.Due = row.Due
			}
		}
		sheets = append(sheets, sheet)
	}
	return c.writeTo(to, func(w io.Writer) (string, error) {
		if len(sheets) == 1 {
			return "a label for " + sheets[0].Record.Scope, paper.WriteLabels(w, sheets)
		}
		return count(len(sheets), "label"), paper.WriteLabels(w, sheets)
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
		ValidArgsFunction: c.completeNames(func(n names) []string { return n.people }),
		Long: `Takes a person's name out of the records and out of the journals' lines that say
who came. It goes out of the notes of who held a session too. It finds the name however
it was typed, also among other names. A place with the name in it goes as well.
Ids, times and all that was done stay, and every journal can still be read.
What somebody typed stays and is listed. So is what a trainee of that name has
learnt, and every other file here with the name in it. What was printed, exported
or packed before is not reached.`,
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
	c.stillNamed(l, f)
	fmt.Fprintln(out, "Packs, exports and pages made before still have it.")
	if len(errs) > 0 {
		c.exit = ExitFailed
	}
	return nil
}

// stillNamed says where a name still stands.
func (c *cli) stillNamed(l *shelf.Shelf, f shelf.Forgotten) {
	out := c.streams.Out
	for _, id := range f.Mentions {
		fmt.Fprintf(out, "Left as typed: session %s has the name in its notes.\n", id)
	}
	for _, name := range f.Trainees {
		if dir, err := l.TraineeDir(name); err == nil {
			fmt.Fprintf(out, "Left: what the trainee of that name has learnt, in %s; delete that folder to forget it.\n", words.OneLine(dir))
		}
	}
	for _, path := range f.Files {
		fmt.Fprintf(out, "Left: %s has the name in it; edit or delete that file.\n", words.OneLine(filepath.Join(l.Dir(), path)))
	}
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
