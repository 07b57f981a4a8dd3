package command

import (
	"github.com/spf13/cobra"

	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/views/talk"
	"spotward/views/terminal"
)

// newCommand describes a scope or a kit that is not known yet.
func newCommand(short string, complete cobra.CompletionFunc, describe func(like string) error) *cobra.Command {
	var like string
	cmd := &cobra.Command{
		Use: "new", Short: short, Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return failed(describe(like)) },
	}
	cmd.Flags().StringVar(&like, "like", "", "begin with what is known of this one")
	_ = cmd.RegisterFlagCompletionFunc("like", complete) // the flag is there
	return cmd
}

// describe asks a form's questions: on the drawn screens, or a line each where
// there is no terminal for them.
func (c *cli) describe(open func(*shelf.Shelf) (*scope.Form, error)) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	defer d.Library.LeaveDrafts()
	f, err := open(d.Library)
	if err != nil {
		return err
	}
	if !c.plain() && c.onTerminal() {
		return c.drawn(d, terminal.Options{Start: terminal.StartForm, Form: f})
	}
	kept, err := talk.Describe(d.Library, f, !c.onTerminal(), c.streams.In, c.streams.Out)
	if err == nil && !kept {
		c.exit = ExitFailed
	}
	return err
}
