package command

import (
	"fmt"

	"github.com/spf13/cobra"

	"spotward/session/lesson"
	"spotward/views/desk"
	"spotward/views/talk"
	"spotward/views/teach"
	"spotward/views/terminal"
)

func (c *cli) lessonsCommand() *cobra.Command {
	var who string
	cmd := &cobra.Command{
		Use: "lessons [LESSON]", Short: "Short exercises, from safe hands to a whole alignment", Args: cobra.MaximumNArgs(1),
		Long: "Without a lesson: the ladder, and with --who how far that trainee has come. A lesson is a number or a name.",
		RunE: func(_ *cobra.Command, args []string) error {
			d, err := c.desk()
			if err != nil {
				return err
			}
			d.Who = who
			drawn := c.onTerminal() && !c.plain()
			if len(args) == 0 && drawn {
				return c.drawn(d, terminal.Options{Start: terminal.StartLessons})
			}
			if len(args) == 0 {
				return failed(c.ladder(d))
			}
			l, err := lesson.ByName(args[0])
			if err != nil {
				return usage("%s", err)
			}
			if drawn {
				return c.drawn(d, terminal.Options{Start: terminal.StartLessons, Lesson: l.ID})
			}
			class, err := teach.Begin(d, teach.Draw(d, l, d.NewSeed()))
			if err != nil {
				return failed(err)
			}
			if err := talk.Lesson(class, c.streams.In, c.streams.Out); err != nil {
				return failed(err)
			}
			if !class.Over() || !class.Result().Passed {
				c.exit = ExitFailed
			}
			return nil
		},
	}
	cmd.ValidArgsFunction = completeLessons
	cmd.Flags().StringVar(&who, "who", "", "the trainee's name: progress is saved under it")
	return cmd
}

// ladder lists the lessons; with a trainee's name, also how far that one has
// come and what can be signed off.
func (c *cli) ladder(d *desk.Desk) error {
	results, err := teach.Results(d)
	if err != nil {
		return err
	}
	best := teach.Progress(results)
	t := c.table()
	for i, l := range lesson.All() {
		how := ""
		if r, ok := best[l.ID]; ok {
			how = teach.PassedWords(r) + "\t" + teach.ResultWords(r)
		}
		fmt.Fprintf(t, "%d\t%s\t%s\t%s\n", i, l.ID, l.Title, how)
	}
	if len(results) > 0 {
		fmt.Fprintln(t, "\nTo sign off:")
		for _, s := range lesson.SignOff(results) {
			fmt.Fprintf(t, "  %s\t%s\n", map[bool]string{true: "yes", false: "not yet"}[s.Met], s.Words)
		}
	}
	return t.Flush()
}
