package command

import (
	"fmt"
	"io"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"spotward/session"
	"spotward/session/history"
	"spotward/session/words"
	"spotward/views/paper"
)

// eveningCommand prints one page for whoever hands the scopes out.
func (c *cli) eveningCommand() *cobra.Command {
	var p picking
	var to string
	cmd := &cobra.Command{
		Use: "evening --to FILE.html", Short: "An evening's sheet: every scope with its tag, its kit and what to beware of", Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			fleet, err := c.fleet(p)
			if err != nil {
				return failed(err)
			}
			now := time.Now()
			list := paper.List{Title: "The evening's scopes", Under: day(now), Program: Version(), Columns: []string{"scope", "tag", "kit", "beware"}}
			for _, row := range fleet.Scopes {
				held := row.Tag == session.TagHoldBack
				tag := orDash(words.Tag(row.Tag))
				if held {
					tag = "HOLD BACK"
				}
				list.Rows = append(list.Rows, paper.ListRow{Strong: held, Cells: []string{row.Scope, tag, orDash(row.LastKit()), beware(fleet, row, now)}})
			}
			return failed(c.writeTo(to, func(w io.Writer) (string, error) { return count(len(list.Rows), "scope"), list.Write(w) }))
		},
	}
	c.pickFlags(cmd, &p)
	toFlag(cmd, &to)
	return cmd
}

// beware says in a few words what is against lending a scope as it is.
func beware(f history.Fleet, row history.FleetRow, now time.Time) string {
	var out string
	add := func(text string) {
		if out != "" {
			out += " "
		}
		out += text + "."
	}
	if row.Last.IsZero() {
		add("Never looked at")
	}
	if row.Needs != "" {
		add("Needs " + row.Needs)
	}
	if !row.Due.IsZero() && row.Due.Before(now) {
		add("Due since " + day(row.Due))
	}
	if n := slices.IndexFunc(f.Kits, func(k history.KitRow) bool { return k.Kit == row.LastKit() && k.Tag != "" }); n >= 0 {
		add(fmt.Sprintf("Its kit, %s, is held back", f.Kits[n].Kit))
	}
	if row.Notes != "" {
		add(row.Notes)
	}
	return out
}
