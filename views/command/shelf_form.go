package command

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/session/words"
	"spotward/views/talk"
	"spotward/views/terminal"
)

// newCommand describes a scope or a kit that is not known yet.
func (c *cli) newCommand(short string, complete cobra.CompletionFunc, open func(l *shelf.Shelf, like string) (*scope.Form, error)) *cobra.Command {
	var like string
	var set []string
	cmd := &cobra.Command{
		Use: "new", Short: short, Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			return failed(c.describe(set, func(l *shelf.Shelf) (*scope.Form, error) { return open(l, like) }))
		},
	}
	setFlag(cmd, &set)
	cmd.Flags().StringVar(&like, "like", "", "begin with what is known of this one")
	_ = cmd.RegisterFlagCompletionFunc("like", complete) // the flag is there
	return cmd
}

// editCommand changes what is said of a scope or a kit.
func (c *cli) editCommand(short string, complete cobra.CompletionFunc, open func(l *shelf.Shelf, name string) (*scope.Form, error)) *cobra.Command {
	var set []string
	cmd := &cobra.Command{
		Use: "edit NAME", Short: short, Args: cobra.ExactArgs(1), ValidArgsFunction: complete,
		RunE: func(_ *cobra.Command, args []string) error {
			return failed(c.describe(set, func(l *shelf.Shelf) (*scope.Form, error) { return open(l, args[0]) }))
		},
	}
	setFlag(cmd, &set)
	return cmd
}

func setFlag(cmd *cobra.Command, set *[]string) {
	cmd.Flags().StringArrayVar(set, "set", nil, `answer this question alone, as in --set tube='9 1/4"'; once for each`)
}

// setAll answers some of a form's questions and keeps it. A draft that somebody
// left is not mixed with them.
func (c *cli) setAll(l *shelf.Shelf, f *scope.Form, set []string) error {
	if f.Continued {
		return errors.New("a form of it was left unfinished: go on with that first, by the same command without --set")
	}
	for _, s := range set {
		name, text, ok := strings.Cut(s, "=")
		if !ok {
			return usage("--set %s: expected a name and an answer, as in tube='9 1/4\"'", words.OneLine(s))
		}
		if err := f.Set(strings.TrimSpace(name), strings.TrimSpace(text)); err != nil {
			return err
		}
	}
	if _, err := f.Take("done"); err != nil {
		return err
	}
	if err := l.KeepForm(f); err != nil {
		return err
	}
	fmt.Fprintf(c.streams.Out, "%s is saved.\n", words.OneLine(f.Title()))
	return nil
}

// describe asks a form's questions: on the drawn screens, or a line each where
// there is no terminal for them; or sets the answers that are given.
func (c *cli) describe(set []string, open func(*shelf.Shelf) (*scope.Form, error)) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	defer d.Library.LeaveDrafts()
	f, err := open(d.Library)
	if err != nil {
		return err
	}
	if len(set) > 0 {
		return c.setAll(d.Library, f, set)
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
