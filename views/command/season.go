package command

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"spotward/session/history"
	"spotward/session/words"
	"spotward/views/paper"
)

// seasonCommand sums a time up for those who were not there.
func (c *cli) seasonCommand() *cobra.Command {
	var p picking
	var to string
	var asJSON bool
	cmd := &cobra.Command{
		Use: "season", Short: "A season's summary for a committee: looks, each scope's trend, what was done", Args: cobra.NoArgs,
		Long: `What was done from --since to --until. It says how often each scope was looked at,
and how often it was found within what is allowed. It says whether the scope is
getting worse, and what was done to it. A trend takes eight looks: it compares
the later half with the earlier one.

--json has v and season, a list of: scope, looks, home, of, aligned, trend, tag, work.`,
		RunE: func(*cobra.Command, []string) error { return failed(c.season(p, to, asJSON)) },
	}
	c.pickFlags(cmd, &p)
	jsonFlag(cmd, &asJSON)
	cmd.Flags().StringVar(&to, "to", "", "a page to print, as an HTML file, or - for standard output")
	cmd.MarkFlagsMutuallyExclusive("json", "to")
	return cmd
}

// seasonRow is a scope with the keys of --json.
type seasonRow struct {
	Scope   string   `json:"scope"`
	Looks   int      `json:"looks"`
	Home    int      `json:"home"`
	Of      int      `json:"of"`
	Aligned int      `json:"aligned"`
	Trend   string   `json:"trend"`
	Tag     string   `json:"tag,omitempty"`
	Work    []string `json:"work,omitempty"`
}

func (c *cli) season(p picking, to string, asJSON bool) error {
	pick, err := c.pick(p, nil)
	if err != nil {
		return err
	}
	l, err := c.library()
	if err != nil {
		return err
	}
	stock, errs := l.Shelf()
	c.warn(errs)
	season := stock.SeasonOf(pick)
	if asJSON {
		rows := []seasonRow{}
		for _, r := range season.Rows {
			rows = append(rows, seasonRow{r.Scope, r.Looks, r.Home, r.Of, r.Aligned, string(r.Trend), r.Tag, workWords(r.Work)})
		}
		return c.writeJSON("season", rows)
	}
	sum := fmt.Sprintf("%s at %s by %s; aligned %d times.", count(season.Looks, "look"), count(len(season.Rows), "scope"), people(season.People), season.Aligned)
	columns := []string{"scope", "looks", "found good", "as found", "trend", "tag", "work"}
	if to == "" {
		t := c.table()
		fmt.Fprintln(t, strings.ToUpper(strings.Join(columns, "\t")))
		for _, r := range season.Rows {
			fmt.Fprintln(t, strings.Join(c.seasonCells(r), "\t"))
		}
		t.Flush()
		fmt.Fprintf(c.streams.Out, "\n%s\nAS FOUND: the last %d looks, %s.\n", sum, sparkLooks, c.sparkWords())
		return nil
	}
	list := paper.List{Title: "The season", Under: span(p) + sum, Program: Version(), Columns: columns}
	for _, r := range season.Rows {
		list.Rows = append(list.Rows, paper.ListRow{Strong: r.Trend == history.TrendWorse, Cells: c.seasonCells(r)})
	}
	return c.writeTo(to, func(w io.Writer) (string, error) { return count(len(list.Rows), "scope"), list.Write(w) })
}

func (c *cli) seasonCells(r history.SeasonRow) []string {
	good := "-"
	if r.Of > 0 {
		good = fmt.Sprintf("%d of %d", r.Home, r.Of)
	}
	return []string{words.OneLine(r.Scope), fmt.Sprint(r.Looks), good, cmp.Or(c.spark(r.Found), "-"), string(r.Trend), orDash(words.Tag(r.Tag)), orDash(strings.Join(workWords(r.Work), "; "))}
}

func workWords(jobs []history.Job) []string {
	var out []string
	for _, j := range jobs {
		out = append(out, day(j.T)+" "+j.Words())
	}
	return out
}

func people(n int) string {
	if n == 1 {
		return "1 person"
	}
	return fmt.Sprintf("%d people", n)
}

// span says the time that was asked for.
func span(p picking) string {
	var out string
	if p.since != "" {
		out = "From " + p.since + " "
	}
	if p.until != "" {
		out += "to " + p.until + " "
	}
	if out == "" {
		return ""
	}
	return words.OneLine(strings.ToUpper(out[:1])+strings.TrimSpace(out[1:])) + ": "
}
