package command

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"spotward/optics"
	"spotward/session/history"
	"spotward/session/words"
)

func (c *cli) fleetCommand() *cobra.Command {
	var p picking
	var asJSON bool
	cmd := &cobra.Command{
		Use: "fleet", Short: "Every scope and every kit, how they hold and what they need", Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			fleet, err := c.fleet(p)
			switch {
			case err != nil:
				return failed(err)
			case asJSON:
				return failed(c.writeFleetJSON(fleet))
			}
			c.writeFleet(fleet)
			return nil
		},
	}
	c.pickFlags(cmd, &p)
	jsonFlag(cmd, &asJSON)
	return cmd
}

// fleet returns the scopes and kits that the flags pick out.
func (c *cli) fleet(p picking) (history.Fleet, error) {
	pick, err := c.pick(p, nil)
	if err != nil {
		return history.Fleet{}, err
	}
	l, err := c.library()
	if err != nil {
		return history.Fleet{}, err
	}
	shelf, errs := l.Shelf()
	c.warn(errs)
	return shelf.FleetAt(time.Now()).Pick(pick), nil
}

func (c *cli) writeFleet(f history.Fleet) {
	out := c.streams.Out
	if len(f.Scopes) == 0 {
		fmt.Fprintln(out, "No scopes yet: spotward align FILE.toml brings one in.")
	}
	t := c.table()
	if len(f.Scopes) > 0 {
		fmt.Fprintln(t, "SCOPE\tTAG\tLAST LOOK\tFOUND\tLEFT\tMIRROR\tHOLDS\tAS FOUND\tSUSPICION\tDUE\tNEEDS")
	}
	for _, row := range f.Scopes {
		last, due, holds, suspicion := "never", "now", "-", "-"
		if !row.Last.IsZero() {
			last = day(row.Last)
		}
		if !row.Due.IsZero() {
			due = day(row.Due)
		}
		if row.Drift.Of > 0 {
			holds = fmt.Sprintf("%d of %d", row.Drift.Holds, row.Drift.Of)
		}
		if row.Suspicion != nil {
			suspicion = row.Suspicion.Short
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", words.OneLine(row.Scope), orDash(words.Tag(row.Tag)), last,
			timesText(row.Found), timesText(row.Left), orDash(words.ID(row.Mirror)), holds, c.spark(row.Series), suspicion, due, orDash(row.Needs))
	}
	t.Flush()
	c.writeKits(f.Kits)
	if f.Hands != nil {
		fmt.Fprintf(out, "\n%s %s\n", words.OneLine(f.Hands.Say), f.Hands.Do)
	}
	fmt.Fprintf(out, "\nFOUND and LEFT in times what is allowed. HOLDS: found as it was left. AS FOUND: the last %d looks, %s.\n", sparkLooks, c.sparkWords())
}

func (c *cli) writeKits(kits []history.KitRow) {
	if len(kits) == 0 {
		return
	}
	fmt.Fprintln(c.streams.Out)
	t := c.table()
	fmt.Fprintln(t, "KIT\tTAG\tLAST USED\tLOOKS\tSCOPES\tCIRCLE\tPUT BACK\tSUSPICION\tNEEDS")
	for _, k := range kits {
		last, circle, seat, suspicion, needs := "never", "-", "-", "-", "-"
		if !k.Last.IsZero() {
			last = day(k.Last)
		}
		if k.CircleMM != nil {
			circle = "still"
			if *k.CircleMM > 0 {
				circle = fmt.Sprintf("%.1f mm", *k.CircleMM)
			}
		}
		if k.SeatMM > 0 {
			seat = fmt.Sprintf("%.1f mm off", k.SeatMM)
		}
		if !k.Known {
			needs = "a description: kits new"
		}
		if k.Suspicion != nil {
			suspicion, needs = fmt.Sprintf("%s (%d since %s)", k.Suspicion.Short, k.Suspicion.N, day(k.Suspicion.Since)), k.Suspicion.Needs
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%d\t%d\t%s\t%s\t%s\t%s\n", words.OneLine(k.Kit), orDash(words.Tag(k.Tag)), last, k.Looks, k.Scopes, circle, seat, suspicion, needs)
	}
	t.Flush()
	for _, k := range kits {
		if say := k.Say(); say != "" {
			fmt.Fprintf(c.streams.Out, "\n%s\n", words.OneLine(say))
		}
	}
}

func day(t time.Time) string { return t.Local().Format("2006-01-02") }

func timesText(t history.Times) string {
	if !t.Claimed() {
		return "-"
	}
	return fmt.Sprintf("%.1fx", float64(t))
}

// sparkLooks is how many looks a scope's small plot shows.
const sparkLooks = 8

// spark is how far out a scope was found, look by look.
func (c *cli) spark(series []history.Times) string {
	steps := []rune("▁▂▃▄▅▆▇█")
	unknown := '·'
	if c.letters() {
		steps, unknown = []rune("012345678"), '-'
	}
	var out strings.Builder
	for _, t := range series[max(0, len(series)-sparkLooks):] {
		if !t.Claimed() {
			out.WriteRune(unknown)
			continue
		}
		out.WriteRune(steps[min(int(t), len(steps)-1)])
	}
	return out.String()
}

func (c *cli) sparkWords() string {
	if c.letters() {
		return "in times what is allowed, 8 or more as 8, - not claimed"
	}
	return "low is within what is allowed, full 7 times or more, · not claimed"
}

// letters reports whether bars are to be drawn in plain letters.
func (c *cli) letters() bool { return c.ascii || c.plain() || os.Getenv("TERM") == "dumb" }

func (c *cli) driftCommand() *cobra.Command {
	return &cobra.Command{
		Use: "drift SCOPE", Short: "How a scope was found against how it was left, and what that points to",
		Args: cobra.ExactArgs(1), ValidArgsFunction: c.completeScopes,
		RunE: func(_ *cobra.Command, args []string) error { return failed(c.drift(args[0])) },
	}
}

func (c *cli) drift(name string) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	records, errs := l.Records()
	records = history.Pick{Scope: name}.Of(records)
	if len(records) == 0 {
		return c.mayMean(fmt.Errorf("no records of %s here: spotward records lists all", words.OneLine(name)), name)
	}
	sc, err := l.ScopeUsed(records[len(records)-1])
	if err != nil {
		return err
	}
	kits, _ := l.Kits()
	tel := history.Stock{Kits: kits}.Telescopes(sc)
	work, err := l.Work()
	if err != nil {
		errs = append(errs, err)
	}
	writeDrift(c.streams.Out, history.DriftOf(records, tel, history.JobsOfScope(work, name)), sc.Telescope())
	c.warn(errs)
	return nil
}

func writeDrift(out io.Writer, d history.Drift, tel optics.Telescope) {
	t := tableOn(out)
	work := d.Work
	workUntil := func(until time.Time) {
		for len(work) > 0 && !work[0].T.After(until) {
			fmt.Fprintf(t, "%s\twork\t\t\t\t%s\n", day(work[0].T), work[0].Words())
			work = work[1:]
		}
	}
	if len(d.Intervals)+len(work) > 0 {
		fmt.Fprintln(t, "FOUND\tAFTER\tKIT\tON THE PRIMARY\tRETURN SPOT\tPOINTS TO")
	}
	for _, i := range d.Intervals {
		workUntil(i.Found)
		fmt.Fprintf(t, "%s\t%.0f days\t%s\t%s\t%s\t%s\n", day(i.Found), i.Days(), orDash(i.FoundKit),
			i.PrimaryWords(tel), i.ReturnWords(tel), i.Cause.Words())
	}
	for _, j := range work {
		workUntil(j.T)
	}
	t.Flush()
	fmt.Fprintf(out, "\nHeld %d of %d times. 3 mm on the primary and 2 mm on the laser's face count. Which way is as seen, 12 straight up.\n", d.Holds, d.Of)
	for _, h := range d.Hints {
		fmt.Fprintf(out, "\n%s (%d of %d)\n%s\n%s\n", strings.ToUpper(h.Short[:1])+h.Short[1:], h.N, h.Of, h.Say, h.Do)
	}
	if len(d.Hints) == 0 {
		fmt.Fprintln(out, "What moves it is not told yet: it takes three intervals or more that agree.")
	}
}
