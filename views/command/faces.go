package command

import (
	"github.com/spf13/cobra"

	"spotward/views/desk"
)

func (c *cli) frontPage() error { return errNoTerminal }

func (c *cli) inTerminal(_ *desk.Desk, _ *desk.Work) error { return errNoTerminal }

func (c *cli) talkCommand() *cobra.Command {
	return c.sessionFlags(&cobra.Command{
		Use: "talk [SCOPE]", Short: "Plain questions and answers, a line each", Args: cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error { return c.play(args, c.align(false), c.inTerminal) },
	})
}
