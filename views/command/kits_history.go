package command

import (
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"spotward/session/history"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/session/words"
)

// kitHistory says how a kit is judged, and what was done with it and to it, oldest
// first, as comments under its file.
func (c *cli) kitHistory(l *shelf.Shelf, k scope.Kit) error {
	stock, _ := l.Shelf()
	t := tableOn(c.streams.Out)
	lines := 0
	work := history.JobsOfKit(stock.Work, k.Name)
	workUntil := func(until time.Time) {
		for ; len(work) > 0 && !work[0].T.After(until); work = work[1:] {
			fmt.Fprintf(t, "#   %s\twork\t\t%s\n", day(work[0].T), work[0].Words())
			lines++
		}
	}
	fmt.Fprintln(t, "\n# Its history:")
	for _, r := range (history.Pick{Kit: k.Name}).Of(stock.Records) {
		if r.Practice {
			continue
		}
		workUntil(r.Began)
		what := history.OutcomeWords(r)
		if r.CircleMM != nil {
			what += fmt.Sprintf("; its laser turned round, a circle of %.1f mm", *r.CircleMM)
		}
		if r.SeatMM > 0 {
			what += fmt.Sprintf("; put back %.1f mm off", r.SeatMM)
		}
		fmt.Fprintf(t, "#   %s\t%s\t%s\t%s\n", day(r.Began), words.OneLine(r.Scope), words.OneLine(words.Tag(r.Tag)), what)
		lines++
	}
	workUntil(time.Now().AddDate(100, 0, 0))
	if lines == 0 {
		fmt.Fprintln(t, "#   never used")
	}
	for _, row := range stock.FleetAt(time.Now()).Kits {
		if !scope.SameName(row.Kit, k.Name) {
			continue
		}
		if say := row.Say(); say != "" {
			fmt.Fprintf(t, "# %s\n", words.OneLine(say))
		}
		if !row.Due.IsZero() {
			fmt.Fprintf(t, "# Its laser is to be turned round again by %s, every %d days.\n", day(row.Due), row.EveryDays)
		}
	}
	return t.Flush()
}

// mayMeanKit adds to an error a kit's name that may have been meant.
func (c *cli) mayMeanKit(err error, said string) error {
	n, _ := c.names()
	return fmt.Errorf("%w%s", err, strings.Replace(words.DidYouMean(said, n.kits), ": did", "; did", 1))
}

func (c *cli) retireKit(name string) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	k, err := l.Kit(name)
	if err != nil {
		return c.mayMeanKit(err, name)
	}
	if err := l.RetireKit(name); err != nil {
		return err
	}
	fmt.Fprintf(c.streams.Out, "%s is off the shelf. What was read with it stays; its file is among those in %s.\n", words.OneLine(k.Name), filepath.Join(l.Dir(), "kits", "retired"))
	scopes, _ := l.Scopes()
	if names := scopesOfKit(scopes, k); len(names) > 0 {
		fmt.Fprintf(c.streams.Out, "Still named by %s: give each another kit by spotward scopes edit NAME.\n", words.OneLine(strings.Join(names, ", ")))
	}
	return nil
}

func (c *cli) copyKit(from, to string) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	if err := scope.CheckName(to); err != nil {
		return fmt.Errorf("%q: expected %w", words.OneLine(to), err)
	}
	k, err := l.Kit(from)
	if err != nil {
		return c.mayMeanKit(err, from)
	}
	n, err := c.names()
	if err != nil {
		return err
	}
	retired, _ := l.RetiredKits()
	for _, r := range retired {
		n.kits = append(n.kits, r.Name)
	}
	for _, known := range n.kits {
		if scope.SameName(known, to) {
			return fmt.Errorf("there is, or was, a kit called %s: its records would count for the copy, give it another name", words.OneLine(known))
		}
	}
	k.Name = to
	if err := l.SaveKit(k); err != nil {
		return err
	}
	fmt.Fprintf(c.streams.Out, "%s is saved. What differs is changed by: spotward kits edit %q\n", to, to)
	return nil
}
