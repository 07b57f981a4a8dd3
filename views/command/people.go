package command

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"spotward/session/lesson"
	"spotward/session/shelf"
	"spotward/session/words"
	"spotward/views/teach"
)

func (c *cli) peopleCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use: "people", Short: "Who may do what, and since when", Args: cobra.NoArgs,
		Long: `Everybody whose lessons are saved here. It says who may align alone, since when
and until when, and who signed it.

--json has v and people. Each has name, may (align or learn), passed and of
(lessons), since, by, until (left out: for good) and ran_out.`,
		RunE: func(*cobra.Command, []string) error { return failed(c.people(asJSON)) },
	}
	jsonFlag(cmd, &asJSON)
	cmd.AddCommand(c.renamePersonCommand())
	return cmd
}

// person is one row of the list.
type person struct {
	Name   string     `json:"name"`
	May    string     `json:"may"`
	Passed int        `json:"passed"`
	Of     int        `json:"of"`
	Since  *time.Time `json:"since,omitempty"`
	By     string     `json:"by,omitempty"`
	Until  *time.Time `json:"until,omitempty"`
	RanOut bool       `json:"ran_out,omitempty"`
	words  string
}

// What somebody may do.
const (
	mayAlign = "align"
	mayLearn = "learn"
)

func (c *cli) people(asJSON bool) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	if l == nil {
		return fmt.Errorf("nothing is saved with --no-record")
	}
	people, err := peopleOf(l, time.Now())
	if err != nil {
		return err
	}
	if asJSON {
		return c.writeJSON("people", people)
	}
	if len(people) == 0 {
		fmt.Fprintln(c.streams.Out, "No lessons are saved here: practice lessons --who NAME saves them.")
		return nil
	}
	t := c.table()
	for _, p := range people {
		fmt.Fprintf(t, "%s\t%s\tlessons %d of %d\t%s\n", words.OneLine(p.Name), map[string]string{mayAlign: "may align alone", mayLearn: "learns"}[p.May], p.Passed, p.Of, p.words)
	}
	return t.Flush()
}

func peopleOf(l *shelf.Shelf, now time.Time) ([]person, error) {
	names, err := l.Trainees()
	if err != nil {
		return nil, err
	}
	people := []person{}
	for _, name := range names {
		results, err := l.LessonsOf(name)
		if err != nil {
			return nil, err
		}
		signed, err := l.SignedOf(name)
		if err != nil {
			return nil, err
		}
		p := person{Name: name, May: mayLearn, Of: len(lesson.All())}
		passed := map[string]bool{}
		for _, r := range results {
			if r.Passed && !passed[r.Lesson] {
				passed[r.Lesson] = true
				p.Passed++
			}
		}
		if len(signed) > 0 {
			last := signed[len(signed)-1]
			p.words, p.By, p.Since, p.RanOut = teach.SignedWords(last, now), last.By, &last.T, !last.Holds(now)
			if !last.Until.IsZero() {
				p.Until = &last.Until
			}
			if !p.RanOut {
				p.May = mayAlign
			}
		}
		people = append(people, p)
	}
	return people, nil
}
