package command

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"spotward/session"
	"spotward/session/words"
)

func (c *cli) unfinishedCommand() *cobra.Command {
	return &cobra.Command{
		Use: "unfinished", Short: "Sessions that were left before their end", Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return failed(c.listUnfinished()) },
	}
}

func (c *cli) listUnfinished() error {
	l, err := c.library()
	if err != nil {
		return err
	}
	open, errs := l.Unfinished("")
	t := c.table()
	fmt.Fprintln(t, "ID\tSCOPE\tBEGUN\tLAST\tWHO\tGOES ON")
	for _, u := range open {
		name, on := words.OneLine(u.Scope), "--resume "+u.ID
		if u.World != nil {
			name += " (practice)"
		}
		if !session.Folds(u.Way) {
			on = "no: other questions then"
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\n", u.ID, name, minute(u.Began), minute(u.Last), words.OneLine(u.Who), on)
	}
	t.Flush()
	c.warn(errs)
	return nil
}

func (c *cli) dropCommand() *cobra.Command {
	return &cobra.Command{
		Use: "drop ID", Short: "Close an unfinished session; it is saved as not finished", Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			l, err := c.library()
			if err != nil {
				return failed(err)
			}
			r, err := l.Drop(args[0], time.Now)
			if err != nil {
				return failed(err)
			}
			fmt.Fprintf(c.streams.Out, "%s of %s is saved as not finished. What was done in it stays in its journal.\n", r.ID, words.OneLine(r.Scope))
			return nil
		},
	}
}
