package command

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"spotward/session"
	"spotward/session/shelf"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/talk"
	"spotward/views/terminal"
)

func (c *cli) replayCommand() *cobra.Command {
	var plain bool
	cmd := &cobra.Command{
		Use: "replay ID", Short: "A session told again, step by step", Args: cobra.ExactArgs(1), ValidArgsFunction: c.completeRecords,
		Example: `  spotward records replay ID           drawn, forward and back, or played
  spotward records replay ID --plain   in sentences, a step for each Enter`,
		RunE: func(_ *cobra.Command, args []string) error {
			if c.drawsBack(plain) {
				return c.lookBack(args)
			}
			return failed(c.tellAgain(args[0]))
		},
	}
	cmd.Flags().BoolVar(&plain, "plain", false, "in sentences, without drawings")
	return cmd
}

// drawsBack reports whether what is looked back at can be drawn: on a terminal
// that draws, unless plain words are asked for.
func (c *cli) drawsBack(plain bool) bool { return !plain && !c.plain() && c.onTerminal() }

// lookBack shows a session step by step, or two side by side.
func (c *cli) lookBack(ids []string) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	whole := make([]string, len(ids))
	for i, id := range ids {
		whole[i] = wholeID(d.Library, id)
	}
	return c.drawn(d, terminal.Options{Start: terminal.StartRecords, Records: whole})
}

// wholeID returns the id of the record that is meant; of a session that is not
// over, or that cannot be summed up, id is it.
func wholeID(l *shelf.Shelf, id string) string {
	if l == nil {
		return id
	}
	if r, err := l.Record(id); err == nil {
		return r.ID
	}
	return id
}

// tellAsTold lists what was said and told in a session that was asked other
// questions.
func (c *cli) tellAsTold(d *desk.Desk, id string, way error) error {
	frames, report, err := d.AsTold(id)
	if err != nil {
		return err
	}
	c.warn([]error{way})
	if note := report.String(); note != "" {
		c.warn([]error{errors.New(note)})
	}
	for _, f := range frames {
		at := f.T.Local().Format("15:04:05")
		if f.Event.Stage != "" {
			at += "  " + words.OneLine(words.ID(f.Event.Stage))
		}
		fmt.Fprintf(c.streams.Out, "%s  %s\n", at, words.OneLine(f.Words()))
	}
	return nil
}

// tellAgain tells a session in sentences.
func (c *cli) tellAgain(id string) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	if d.Library == nil {
		return usage("there is nothing to replay with --no-record")
	}
	frames, report, err := d.Replay(wholeID(d.Library, id))
	if way := (*session.WayError)(nil); errors.As(err, &way) {
		return c.tellAsTold(d, wholeID(d.Library, id), way)
	}
	if err != nil {
		return err
	}
	if note := report.String(); note != "" {
		c.warn([]error{errors.New(note)})
	}
	if err := talk.Replay(frames, c.streams.In, c.streams.Out); err != nil {
		return fmt.Errorf("replay: %w", err)
	}
	return nil
}
