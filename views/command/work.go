package command

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"spotward/session/history"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/session/words"
)

func (c *cli) workCommand() *cobra.Command {
	var part, on string
	var asJSON bool
	cmd := &cobra.Command{
		Use: "work [NAME [WHAT]]", Short: "The log of work and notes: on a scope, a kit or a session", Args: cobra.MaximumNArgs(2),
		ValidArgsFunction: c.completeNames(func(n names) []string { return slices.Concat(n.scopes, n.kits) }),
		Long: `The log of work: what was done, when and by whom. With WHAT a line is added to
it; none is ever changed. NAME is a scope, a kit, or the id of a session.

With --part that part counts afresh. What moved before says nothing about the
scope any more, and a look is due. The parts: primary, secondary, ring (on the glass),
focuser, laser. Without it the line is a note.

--json has v and work, a list of: t, scope or kit or session, part, what, who.`,
		Example: `  spotward records work heron "spring C replaced" --part primary --who Ida
  spotward records work "Red box" "a new switch" --part laser --on 2026-05-01
  spotward records work heron "the focuser is sticky"
  spotward records work heron`,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 2 {
				return failed(c.addWork(args[0], args[1], part, on))
			}
			if part != "" || on != "" {
				return usage("--part and --on need a line to add: say NAME and WHAT")
			}
			return failed(c.listWork(args, asJSON))
		},
	}
	cmd.Flags().StringVar(&part, "part", "", "what was worked on, and counts afresh: "+strings.Join(history.Parts(), ", "))
	cmd.Flags().StringVar(&on, "on", "", "the day it was done (default: now)")
	cmd.Flags().StringVar(&c.who, "who", "", "who did it")
	jsonFlag(cmd, &asJSON)
	_ = cmd.RegisterFlagCompletionFunc("part", cobra.FixedCompletions(history.Parts(), cobra.ShellCompDirectiveNoFileComp)) // the flag is there
	return cmd
}

func (c *cli) addWork(name, what, part, on string) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	j := history.Job{V: history.ExportVersion, T: time.Now().UTC().Truncate(time.Second), Part: part, What: words.OneLine(what), Who: words.OneLine(c.who)}
	if part != "" && !slices.Contains(history.Parts(), part) {
		return usage("--part %q is not known%s", words.OneLine(part), orOneOf(part, history.Parts()))
	}
	if on != "" {
		if j.T, _, err = dayOf("on", on); err != nil {
			return err
		}
		j.T = j.T.UTC()
	}
	if err := c.workOn(l, &j, name); err != nil {
		return err
	}
	switch {
	case j.Kit != "" && part != "" && part != history.PartLaser:
		return usage("a kit's only --part is laser: the others are a scope's")
	case j.Session != "" && part != "":
		return usage("--part is for a scope or a kit: a session has notes only")
	}
	if err := l.AddWork(j); err != nil {
		return err
	}
	fmt.Fprintf(c.streams.Out, "Noted of %s, %s: %s.\n", workName(j), day(j.T), j.Words())
	if part != "" {
		fmt.Fprintf(c.streams.Out, "Its %s counts afresh from then on.\n", part)
	}
	return nil
}

// workOn finds out whose work it is: a scope's, a kit's or a session's.
func (c *cli) workOn(l *shelf.Shelf, j *history.Job, name string) error {
	n, err := c.names()
	if err != nil {
		return err
	}
	same := func(s string) bool { return scope.SameName(s, name) }
	if at := slices.IndexFunc(n.scopes, same); at >= 0 {
		j.Scope = n.scopes[at]
		return nil
	}
	if at := slices.IndexFunc(n.kits, same); at >= 0 {
		j.Kit = n.kits[at]
		return nil
	}
	if r, err := l.Record(name); err == nil {
		j.Session = r.ID
		return nil
	}
	all := slices.Concat(n.scopes, n.kits)
	return fmt.Errorf("no scope, kit or session %s here%s", words.Show(name), orOneOf(name, all))
}

func workName(j history.Job) string {
	if j.Session != "" {
		return "session " + j.Session
	}
	return words.OneLine(j.Scope + j.Kit)
}

func (c *cli) listWork(args []string, asJSON bool) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	work, err := l.Work()
	if err != nil {
		return err
	}
	if len(args) > 0 {
		var of history.Job
		if err := c.workOn(l, &of, args[0]); err != nil {
			return err
		}
		work = slices.DeleteFunc(work, func(j history.Job) bool {
			return !scope.SameName(j.Scope, of.Scope) || !scope.SameName(j.Kit, of.Kit) || j.Session != of.Session
		})
	}
	slices.SortStableFunc(work, func(a, b history.Job) int { return a.T.Compare(b.T) })
	if asJSON {
		return c.writeJSON("work", append([]history.Job{}, work...))
	}
	if len(work) == 0 {
		fmt.Fprintln(c.streams.Out, "No work is logged here: records work NAME WHAT adds a line.")
		return nil
	}
	t := c.table()
	fmt.Fprintln(t, "DATE\tOF\tPART\tWHAT\tWHO")
	for _, j := range work {
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\n", day(j.T), workName(j), orDash(j.Part), words.OneLine(j.What), orDash(j.Who))
	}
	return t.Flush()
}
