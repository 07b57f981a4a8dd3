package command

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"
	"time"

	"github.com/spf13/cobra"

	"spotward/optics"
	"spotward/session"
	"spotward/session/history"
	"spotward/session/words"
)

func (c *cli) recordsCommand() *cobra.Command {
	var pick picking
	var asJSON bool
	cmd := &cobra.Command{
		Use: "records [SCOPE]", Short: "What was done", Args: cobra.MaximumNArgs(1), ValidArgsFunction: c.completeScopes,
		Long: `What was done. Where an ID is asked for, its last four characters or more will do.
A scope's name will do as well: it means the scope's last record.`,
		Example: `  spotward records                             all, oldest first
  spotward records heron --since 2026-03-01    one scope, from that day on
  spotward records todo                        what is to be done, the most pressing first
  spotward records fleet                       how every scope and kit is
  spotward records people                      who may align alone, and since when
  spotward records drift heron                 what a scope did from look to look
  spotward records work heron "spring C replaced" --part primary --who Ida
  spotward records print ID --to heron.html    a page to print or to send`,
		RunE: func(_ *cobra.Command, args []string) error { return failed(c.listRecords(args, pick, asJSON)) },
	}
	c.pickFlags(cmd, &pick)
	jsonFlag(cmd, &asJSON)
	cmd.AddCommand(
		c.showRecordCommand(),
		c.compareCommand(),
		c.replayCommand(), c.fleetCommand(), c.todoCommand(), c.eveningCommand(), c.seasonCommand(), c.driftCommand(), c.peopleCommand(), c.printCommand(), c.exportCommand(), c.forgetCommand(),
		c.workCommand(), c.packCommand(), c.takeCommand(),
		c.unfinishedCommand(), c.dropCommand(),
	)
	return cmd
}

func (c *cli) showRecordCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use: "show ID", Short: "A session in full", Args: cobra.ExactArgs(1), ValidArgsFunction: c.completeRecords,
		RunE: func(_ *cobra.Command, args []string) error { return failed(c.showRecord(args[0], asJSON)) },
	}
	jsonFlag(cmd, &asJSON)
	return cmd
}

// picking is the flags that pick records out.
type picking struct{ who, where, kit, tag, since, until string }

func (c *cli) pickFlags(cmd *cobra.Command, p *picking) {
	cmd.Flags().StringVar(&p.who, "who", "", "only those of this person")
	cmd.Flags().StringVar(&p.where, "where", "", "only those at this place")
	cmd.Flags().StringVar(&p.kit, "kit", "", "only those with this kit")
	cmd.Flags().StringVar(&p.tag, "tag", "", "only those with this tag: "+strings.Join(tagNames(), ", "))
	cmd.Flags().StringVar(&p.since, "since", "", "only those from this day on: 2026-03-01, 2026-03 or 2026")
	cmd.Flags().StringVar(&p.until, "until", "", "only those up to this day and with it, or up to the end of that month or year")
	c.completePicks(cmd)
}

// pick returns what the flags and the scope named in args pick out. A name that
// nothing here has is an error: an empty list would look like an answer.
func (c *cli) pick(p picking, args []string) (history.Pick, error) {
	out := history.Pick{Who: p.who, Where: p.where, Kit: p.kit, Tag: tagID(p.tag)}
	if out.Tag != "" && !slices.Contains(tagNames(), p.tag) && !slices.Contains(tagNames(), words.Tag(out.Tag)) {
		return out, usage("--tag %q is not known%s", words.OneLine(p.tag), orOneOf(p.tag, tagNames()))
	}
	if len(args) > 0 {
		out.Scope = args[0]
	}
	var err error
	if p.since != "" {
		out.Since, _, err = dayOf("since", p.since)
	}
	if p.until != "" && err == nil {
		_, out.Until, err = dayOf("until", p.until)
	}
	if err != nil {
		return out, err
	}
	return out, c.known(out)
}

// dayOf reads a day, a month or a year, here and now, and returns where it
// begins and where the next one does.
func dayOf(flag, text string) (begins, ends time.Time, err error) {
	for _, form := range []struct {
		layout              string
		years, months, days int
	}{{"2006-01-02", 0, 0, 1}, {"2006-01", 0, 1, 0}, {"2006", 1, 0, 0}} {
		if t, err := time.ParseInLocation(form.layout, text, time.Local); err == nil {
			return t, t.AddDate(form.years, form.months, form.days), nil
		}
	}
	return begins, ends, usage("--%s %q is no day: expected one like 2026-03-01, a month like 2026-03 or a year", flag, words.OneLine(text))
}

func (c *cli) listRecords(args []string, p picking, asJSON bool) error {
	pick, err := c.pick(p, args)
	if err != nil {
		return err
	}
	l, err := c.library()
	if err != nil {
		return err
	}
	records, errs := l.Records()
	c.warn(errs)
	if asJSON {
		return c.writeJSON("records", append([]session.Record{}, pick.Of(records)...))
	}
	t := c.table()
	fmt.Fprintln(t, "ID\tSCOPE\tDATE\tOUTCOME\tFOUND\tLEFT\tALLOWED\tTAG\tWHO\tWHERE\tKIT")
	for _, r := range pick.Of(records) {
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%.1f mm\t%s\t%s\t%s\t%s\n", r.ID, words.OneLine(history.ScopeOf(r)), minute(r.Began),
			history.OutcomeWords(r), errorText(r.Found), errorText(r.Left), r.AllowedMM, words.OneLine(words.Tag(r.Tag)), words.OneLine(r.Who), orDash(r.Where), orDash(r.Kit))
	}
	return t.Flush()
}

func minute(t time.Time) string { return t.Local().Format("2006-01-02 15:04") }

// errorText says an axis error, or that none is claimed.
func errorText(m session.Moment) string {
	if !m.Claimed {
		return "-"
	}
	return fmt.Sprintf("%.1f mm", m.AxisErrorMM)
}

func (c *cli) showRecord(id string, asJSON bool) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	r, records, err := l.RecordAmong(id)
	if err != nil {
		return c.mayMean(err, id)
	}
	if asJSON {
		return c.writeJSON("record", r)
	}
	full := fullRecord{Record: r, total: map[string]float64{}}
	if sc, err := l.ScopeUsed(r); err == nil {
		tel := sc.Telescope()
		full.tel = &tel
	} else {
		c.warn([]error{fmt.Errorf("the spots cannot be put into words: %w", err)})
	}
	for _, other := range (history.Pick{Scope: r.Scope}).Of(records) {
		if other.Practice == r.Practice && !other.Began.After(r.Began) {
			for screw, n := range other.NetTurns {
				full.total[screw] += n
			}
		}
	}
	full.write(c.streams.Out)
	work, err := l.Work()
	for _, j := range history.NotesOf(work, r.ID) {
		fmt.Fprintf(c.streams.Out, "noted %s: %s\n", day(j.T), j.Words())
	}
	return err
}

// fullRecord is a record and what it takes to say all of it.
type fullRecord struct {
	session.Record
	tel   *optics.Telescope  // nil: not known
	total map[string]float64 // net turns of each screw since the first record
}

func (r fullRecord) write(w io.Writer) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	defer t.Flush()
	for _, line := range history.RecordRows(r.Record, history.RowsOf{Tel: r.tel, Total: r.total, Zone: time.Local}) {
		fmt.Fprintf(t, "%s\t%s\n", line.Name, words.OneLine(line.Text))
	}
}
