package command

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"spotward/session"
	"spotward/session/history"
	"spotward/session/shelf"
	"spotward/session/words"
)

func (c *cli) compareCommand() *cobra.Command {
	var plain bool
	cmd := &cobra.Command{
		Use: "compare ID ID", Short: "Two sessions side by side", Args: cobra.ExactArgs(2), ValidArgsFunction: c.completeRecords,
		RunE: func(_ *cobra.Command, args []string) error {
			if c.drawsBack(plain) {
				return c.lookBack(args)
			}
			return failed(c.compareRecords(args[0], args[1]))
		},
	}
	cmd.Flags().BoolVar(&plain, "plain", false, "as a table, without drawings")
	return cmd
}

// comparedRows are the rows of two records that are set side by side.
var comparedRows = []history.RowKey{
	history.RowSession, history.RowScope, history.RowWhen, history.RowWho, history.RowWhere, history.RowKit, history.RowReason, history.RowVerdict,
	history.RowOutcome, history.RowTag, history.RowAllowed, history.RowFound, history.RowLeft, history.RowWork,
}

// compareRecords sets two sessions side by side, the older one first; of two on
// the same scope it says what happened between.
func (c *cli) compareRecords(idA, idB string) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	a, err := l.Record(idA)
	if err != nil {
		return err
	}
	b, err := l.Record(idB)
	if err != nil {
		return err
	}
	if b.Began.Before(a.Began) {
		a, b = b, a
	}
	t := c.table()
	both := [2]map[string]string{}
	var names []string
	for i, r := range []session.Record{a, b} {
		both[i] = map[string]string{}
		for _, row := range history.PickRows(history.RecordRows(r, history.RowsOf{Zone: time.Local}), comparedRows...) {
			if both[0][row.Name] == "" && both[i][row.Name] == "" {
				names = append(names, row.Name)
			}
			both[i][row.Name] = row.Text
		}
	}
	for _, name := range names {
		fmt.Fprintf(t, "%s\t%s\t%s\n", name, orDash(both[0][name]), orDash(both[1][name]))
	}
	t.Flush()
	c.between(l, a, b)
	return nil
}

func orDash(text string) string {
	if text == "" {
		return "-"
	}
	return words.OneLine(text)
}

// between says how a scope was found by b against how a had left it.
func (c *cli) between(l *shelf.Shelf, a, b session.Record) {
	i, others, ok := shelf.Between(l, a, b)
	if !ok {
		return
	}
	sc, err := l.ScopeUsed(b)
	if err != nil {
		c.warn([]error{err})
		return
	}
	tel := sc.Telescope()
	fmt.Fprintf(c.streams.Out, "\nBetween them %.0f days: the spot on the primary %s, the return spot %s.\n", i.Days(), i.PrimaryWords(tel), i.ReturnWords(tel))
	if others > 0 {
		fmt.Fprintf(c.streams.Out, "Of %d sessions in between this says nothing.\n", others)
		return
	}
	fmt.Fprintf(c.streams.Out, "That points to: %s.\n", i.Cause.Words())
}
