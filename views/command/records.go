package command

import (
	"fmt"
	"io"
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
	cmd := &cobra.Command{
		Use: "records [SCOPE]", Short: "What was done", Args: cobra.MaximumNArgs(1), ValidArgsFunction: c.completeScopes,
		Long: `What was done. Where an ID is asked for, the last four of it or more will do,
or a scope's name: the last record of it is meant then.`,
		Example: `  spotward records                             all, oldest first
  spotward records heron --since 2026-03-01    one scope, from that day on
  spotward records fleet                       how every scope and kit is
  spotward records drift heron                 what a scope did from look to look
  spotward records print ID --to heron.html    a page to print or to send`,
		RunE: func(_ *cobra.Command, args []string) error { return failed(c.listRecords(args, pick)) },
	}
	pick.flags(cmd)
	cmd.AddCommand(
		&cobra.Command{
			Use: "show ID", Short: "A session in full", Args: cobra.ExactArgs(1), ValidArgsFunction: c.completeRecords,
			RunE: func(_ *cobra.Command, args []string) error { return failed(c.showRecord(args[0])) },
		},
		c.compareCommand(),
		c.replayCommand(), c.fleetCommand(), c.driftCommand(), c.printCommand(), c.exportCommand(), c.forgetCommand(),
		c.packCommand(), c.takeCommand(),
	)
	return cmd
}

// picking is the flags that pick records out.
type picking struct{ who, since, until string }

func (p *picking) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&p.who, "who", "", "only those of this person")
	cmd.Flags().StringVar(&p.since, "since", "", "only those from this day on: 2026-03-01, 2026-03 or 2026")
	cmd.Flags().StringVar(&p.until, "until", "", "only those up to this day and with it, or up to the end of that month or year")
}

func (p picking) pick(args []string) (history.Pick, error) {
	out := history.Pick{Who: p.who}
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
	return out, err
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
	return begins, ends, usage("--%s %q is no day: expected one like 2026-03-01, a month like 2026-03 or a year", flag, oneLine(text))
}

func (c *cli) listRecords(args []string, p picking) error {
	pick, err := p.pick(args)
	if err != nil {
		return err
	}
	l, err := c.library()
	if err != nil {
		return err
	}
	records, errs := l.Records()
	t := c.table()
	fmt.Fprintln(t, "ID\tSCOPE\tDATE\tOUTCOME\tFOUND\tLEFT\tALLOWED\tTAG\tWHO")
	for _, r := range pick.Of(records) {
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%.1f mm\t%s\t%s\n", r.ID, scopeText(r), minute(r.Began),
			idWords(r.Outcome), errorText(r.Found), errorText(r.Left), r.AllowedMM, idWords(r.Tag), oneLine(r.Who))
	}
	t.Flush()
	c.warn(errs)
	return nil
}

func scopeText(r session.Record) string {
	if r.Practice {
		return oneLine(r.Scope) + " (practice)"
	}
	return oneLine(r.Scope)
}

func minute(t time.Time) string { return t.Local().Format("2006-01-02 15:04") }

// words returns an id of the records as one reads it.
func idWords(id string) string { return oneLine(strings.ReplaceAll(id, "_", " ")) }

// errorText says an axis error, or that none is claimed.
func errorText(m session.Moment) string {
	if !m.Claimed {
		return "-"
	}
	return fmt.Sprintf("%.1f mm", m.AxisErrorMM)
}

func (c *cli) showRecord(id string) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	r, records, err := l.RecordAmong(id)
	if err != nil {
		return err
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
	return nil
}

// fullRecord is a record and what it takes to say all of it.
type fullRecord struct {
	session.Record
	tel   *optics.Telescope  // nil: not known
	total map[string]float64 // net turns of each screw since the first record
}

// row is a line of a table with a name.
type row struct{ name, text string }

func (r fullRecord) write(w io.Writer) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	defer t.Flush()
	for _, line := range r.rows() {
		if line.text != "" {
			fmt.Fprintf(t, "%s\t%s\n", line.name, oneLine(line.text))
		}
	}
}

func (r fullRecord) rows() []row {
	out := []row{
		{"session", r.ID},
		{"scope", scopeText(r.Record)},
		{"kit", r.Kit},
		{"who", r.Who},
		{"where", r.Where},
		{"when", minute(r.Began) + " to " + r.Ended.Local().Format("15:04")},
		{"why", idWords(r.Reason)},
		{"verdict", idWords(r.Verdict)},
		{"outcome", idWords(r.Outcome)},
		{"tag", strings.TrimSpace(idWords(r.Tag) + "  " + r.TagWhy)},
		{"allowed", fmt.Sprintf("%.2f mm of axis error", r.AllowedMM)},
		{"the method sees", fmt.Sprintf("to %.1f mm, 95 of 100", r.BudgetMM)},
	}
	out = append(out, r.moment("found", r.Found)...)
	out = append(out, r.moment("before the swing", r.BeforeSw)...)
	out = append(out, r.moment("left", r.Left)...)
	if r.CircleMM != nil {
		out = append(out, row{"laser turned round", circleText(*r.CircleMM)})
	}
	if r.SeatMM > 0 {
		out = append(out, row{"laser put back", fmt.Sprintf("%.1f mm from where it was", r.SeatMM)})
	}
	if labels := history.LabelsWords(r.Record); len(labels) > 0 {
		out = append(out, row{"letters", strings.Join(labels, ", ")})
	}
	out = append(out, row{"looks, moves, nips", fmt.Sprintf("%d, %d, %d", r.Looks, r.Moves, r.Nips)})
	for _, screw := range history.NetTurnsWords(r.Record) {
		name := screw[:strings.LastIndex(screw, " ")]
		out = append(out, row{"net turns", fmt.Sprintf("%s (%+.4g in all records)", screw, r.total[name])})
	}
	out = append(out, r.taught()...)
	for _, k := range r.Skips {
		out = append(out, row{"left out", string(k.Stage) + ": " + k.Why})
	}
	for _, f := range r.Finer {
		out = append(out, row{string(f.Check), f.Words})
	}
	for _, s := range r.Trouble {
		out = append(out, row{"noted", s})
	}
	return out
}

// circleText says what the spot did while the laser was turned in its holder.
func circleText(radiusMM float64) string {
	if radiusMM == 0 {
		return "spot still"
	}
	return fmt.Sprintf("a circle of %.1f mm in radius", radiusMM)
}

// moment is both spots and the axis error at one time.
func (r fullRecord) moment(name string, m session.Moment) []row {
	if m.P == nil && m.T == nil {
		return nil
	}
	out := []row{{name, "axis error not claimed"}}
	if m.Claimed {
		out[0].text = fmt.Sprintf("axis error %.2f mm, at most %.1f; %.1f times what is allowed; Strehl %.2f in the middle",
			m.AxisErrorMM, m.AxisErrorMaxMM, m.AxisErrorMM/r.AllowedMM, m.Strehl)
	}
	if r.tel == nil {
		return out
	}
	return append(out,
		row{"  on the primary", history.SpotWords(*r.tel, optics.FacePrimary, m.P) + give(m.P)},
		row{"  return spot", history.SpotWords(*r.tel, optics.FaceTarget, m.T) + give(m.T)},
	)
}

// give is the error of a reading.
func give(m *session.Mark) string {
	if m == nil || m.Sigma == 0 {
		return ""
	}
	return fmt.Sprintf(" (give or take %.1f mm)", m.Sigma)
}

// taught is what the screws and locks did, mm a turn.
func (r fullRecord) taught() []row {
	if r.tel == nil {
		return nil
	}
	var out []row
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		l := r.Learnt[m]
		if l == nil {
			continue
		}
		labels := r.tel.Cell(m).Labels
		say := func(name string, at optics.Tube) {
			d := r.tel.TubeToDial(m.SpotFace(), at)
			out = append(out, row{name, fmt.Sprintf("a turn moves the spot %.0f mm toward %s", at.Len(), words.HourWords(d))})
		}
		for i := range min(len(l.PerTurn), len(labels)) {
			say(string(m)+" "+labels[i], l.PerTurn[i])
		}
		for i := range min(len(l.LockPull), len(labels)) {
			say("lock "+labels[i], l.LockPull[i])
		}
	}
	return out
}
