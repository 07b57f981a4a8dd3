package command

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"spotward/views/talk"
)

func (c *cli) replayCommand() *cobra.Command {
	return &cobra.Command{
		Use: "replay ID", Short: "A session told again, step by step", Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			d, err := c.desk()
			if err != nil {
				return err
			}
			if d.Library == nil {
				return usage("there is nothing to replay with --no-record")
			}
			frames, report, err := d.Replay(args[0])
			if err != nil {
				return failed(err)
			}
			if note := report.String(); note != "" {
				c.warn([]error{errors.New(note)})
			}
			if err := talk.Replay(frames, c.streams.In, c.streams.Out); err != nil {
				return failed(fmt.Errorf("replay: %w", err))
			}
			return nil
		},
	}
}
