package command

import (
	"fmt"

	"github.com/spf13/cobra"

	"spotward/session"
	"spotward/session/shelf"
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
	for _, line := range []struct {
		name string
		of   func(session.Record) string
	}{
		{"session", func(r session.Record) string { return r.ID }},
		{"scope", scopeText},
		{"when", func(r session.Record) string { return minute(r.Began) }},
		{"who", func(r session.Record) string { return r.Who }},
		{"where", func(r session.Record) string { return r.Where }},
		{"kit", func(r session.Record) string { return r.Kit }},
		{"why", func(r session.Record) string { return idWords(r.Reason) }},
		{"verdict", func(r session.Record) string { return idWords(r.Verdict) }},
		{"outcome", func(r session.Record) string { return idWords(r.Outcome) }},
		{"tag", func(r session.Record) string { return idWords(r.Tag) }},
		{"allowed", func(r session.Record) string { return fmt.Sprintf("%.2f mm", r.AllowedMM) }},
		{"found", func(r session.Record) string { return momentText(r, r.Found) }},
		{"left", func(r session.Record) string { return momentText(r, r.Left) }},
		{"looks, moves, nips", func(r session.Record) string { return fmt.Sprintf("%d, %d, %d", r.Looks, r.Moves, r.Nips) }},
	} {
		fmt.Fprintf(t, "%s\t%s\t%s\n", line.name, orDash(line.of(a)), orDash(line.of(b)))
	}
	t.Flush()
	c.between(l, a, b)
	return nil
}

func momentText(r session.Record, m session.Moment) string {
	if !m.Claimed || r.AllowedMM <= 0 {
		return errorText(m)
	}
	return fmt.Sprintf("%s, %.1fx", errorText(m), m.AxisErrorMM/r.AllowedMM)
}

func orDash(text string) string {
	if text == "" {
		return "-"
	}
	return oneLine(text)
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
