package command

import (
	"os"

	"github.com/spf13/cobra"

	"spotward/views/desk"
	"spotward/views/talk"
	"spotward/views/terminal"
)

func (c *cli) frontPage() error {
	if c.plain() {
		return c.talkFront()
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	if d.Library != nil {
		d.Library.CatchUp()
	}
	return c.drawn(d, terminal.Options{})
}

func (c *cli) inTerminal(d *desk.Desk, w *desk.Work) error {
	if c.plain() {
		return c.inTalk(d, w)
	}
	return c.drawn(d, terminal.Options{Start: terminal.StartWork, Work: w})
}

// drawn shows the drawn screens, from what o says on.
func (c *cli) drawn(d *desk.Desk, o terminal.Options) error {
	if !c.onTerminal() {
		return errNoTerminal
	}
	o.Theme, o.Projector, o.ASCII, o.NoMouse = c.theme, c.projector, c.ascii, c.noMouse
	o.Input, o.Output = c.streams.In, c.streams.Out
	exit, err := terminal.Run(d, o)
	c.exit = exit
	return failed(err)
}

// plain reports whether plain dialogue is to take the place of the drawn
// screens: on a terminal that cannot draw, or for somebody who has set
// ACCESSIBLE or said --plain.
func (c *cli) plain() bool {
	return c.inWords || os.Getenv("ACCESSIBLE") != "" || os.Getenv("TERM") == "dumb" && c.onTerminal()
}

func (c *cli) talkCommand() *cobra.Command {
	return c.sessionFlags(&cobra.Command{
		Use: "talk [SCOPE]", Short: "Plain questions and answers, a line each", Args: cobra.MaximumNArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 && c.resume == "" {
				return c.talkFront()
			}
			return c.play(args, c.align(false), c.inTalk)
		},
	})
}

func (c *cli) inTalk(_ *desk.Desk, w *desk.Work) error {
	err := talk.Run(w, c.streams.In, c.streams.Out)
	c.exit = exitOf(w.State())
	return err
}

func (c *cli) talkFront() error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	w, err := talk.Front(d, c.streams.In, c.streams.Out)
	if w != nil {
		c.exit = exitOf(w.State())
	}
	return failed(err)
}
