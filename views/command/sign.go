package command

import (
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"spotward/session/lesson"
	"spotward/session/words"
	"spotward/views/paper"
	"spotward/views/teach"
)

func (c *cli) signCommand() *cobra.Command {
	var by, to string
	var days int
	cmd := &cobra.Command{
		Use: "sign TRAINEE", Short: "Sign off a trainee, or print who signed", Args: cobra.ExactArgs(1),
		Long: `Without --by: how the trainee stands against what is signed off, and who has
signed. With --by: you sign that this person may align alone. It is
saved with the trainee, and goes with packs.`,
		Example: `  spotward practice sign Ann
  spotward practice sign Ann --by Ida --for 365
  spotward practice sign Ann --to ann.html`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if days < 0 {
				return usage("--for is a number of days, as in --for 365")
			}
			if by != "" && !cmd.Flags().Changed("for") {
				last, err := c.lastFor()
				if err != nil {
					return failed(err)
				}
				days = last
			}
			return failed(c.sign(args[0], by, days, to))
		},
	}
	cmd.Flags().StringVar(&by, "by", "", "the instructor who signs")
	cmd.Flags().IntVar(&days, "for", 0, "how many days it holds; 0: for good (default: as the newest sign-off)")
	cmd.Flags().StringVar(&to, "to", "", "a page to print, as an HTML file, or - for standard output")
	return cmd
}

// lastFor is for how many days the newest sign-off of anybody was given, 0 for good:
// so a club says it once.
func (c *cli) lastFor() (int, error) {
	l, err := c.library()
	if err != nil || l == nil {
		return 0, err
	}
	names, err := l.Trainees()
	if err != nil {
		return 0, err
	}
	var newest lesson.Signed
	for _, name := range names {
		signed, err := l.SignedOf(name)
		if err != nil {
			return 0, err
		}
		for _, s := range signed {
			if s.T.After(newest.T) {
				newest = s
			}
		}
	}
	return newest.Days(), nil
}

func (c *cli) sign(trainee, by string, days int, to string) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	if l == nil {
		return fmt.Errorf("nothing is saved with --no-record: leave it out to sign")
	}
	results, err := l.LessonsOf(trainee)
	if err != nil {
		return err
	}
	if len(results) == 0 {
		return fmt.Errorf("no lessons of %s here: practice lessons --who %s keeps them", words.Show(trainee), words.OneLine(trainee))
	}
	if by != "" {
		d, err := c.desk()
		if err != nil {
			return err
		}
		d.Who = trainee
		if _, err := teach.Sign(d, words.OneLine(by), days); err != nil {
			return err
		}
	}
	signed, err := l.SignedOf(trainee)
	if err != nil {
		return err
	}
	if to != "" {
		if len(signed) == 0 {
			return fmt.Errorf("nobody has signed for %s yet: --by NAME does", trainee)
		}
		return c.writeTo(to, func(w io.Writer) (string, error) {
			return "who signed for " + trainee, signedPage(trainee, signed[len(signed)-1]).Write(w)
		})
	}
	c.writeSigned(trainee, results, signed)
	return nil
}

func (c *cli) writeSigned(trainee string, results []lesson.Result, signed []lesson.Signed) {
	out := c.streams.Out
	fmt.Fprintf(out, "%s, to sign off:\n", trainee)
	for _, k := range lesson.SignOff(results) {
		fmt.Fprintf(out, "  %-8s %s\n", map[bool]string{true: "yes", false: "not yet"}[k.Met], k.Words)
	}
	for _, s := range signed {
		fmt.Fprintln(out, teach.SignedWords(s, time.Now()))
	}
	if len(signed) == 0 {
		fmt.Fprintln(out, "Nobody has signed yet.")
	}
}

const dayLayout = "2006-01-02"

// signedPage is the page to print.
func signedPage(trainee string, s lesson.Signed) paper.List {
	page := paper.List{
		Title: trainee + " may align alone", Under: teach.SignedWords(s, time.Now()), Program: Version(),
		Columns: []string{"shown", "on the practice telescopes", "last"},
	}
	for _, k := range s.Shown {
		page.Rows = append(page.Rows, paper.ListRow{Cells: []string{k.What, strings.Join(k.On, ", "), k.T.Local().Format(dayLayout)}})
	}
	page.Rows = append(page.Rows, paper.ListRow{Strong: true, Cells: []string{"signature of " + s.By, "", ""}})
	return page
}
