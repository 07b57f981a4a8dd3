package command

import (
	"github.com/spf13/cobra"

	"spotward/optics/virtual"
	"spotward/session/scope"
	"spotward/views/terminal"
	"spotward/views/terminal/teach"
)

func (c *cli) benchCommand() *cobra.Command {
	var seed uint64
	var level string
	var blank bool
	cmd := &cobra.Command{
		Use: "bench [SCOPE]", Short: "For an instructor: set up faults, hand over, show what is true", Args: cobra.MaximumNArgs(1),
		Long: "A practice telescope on which faults are set up one by one. It is then handed over to a trainee. " +
			"While the trainee works, the instructor may freeze it, look back, and show how it truly stands. " +
			"It also draws the light path large, for the back row.",
		RunE: func(cmd *cobra.Command, args []string) error {
			if c.plain() || !c.onTerminal() {
				return usage("the bench is drawn: it needs a terminal. A fault can be practised without one: spotward practice --level hard")
			}
			l, err := virtual.ParseLevel(level)
			if err != nil {
				return usage("%w", err)
			}
			d, err := c.desk()
			if err != nil {
				return err
			}
			b := teach.Bench{Scope: scope.Builtin(), Level: l, Blank: blank}
			if len(args) > 0 {
				if b.Scope, err = c.scope(d, args[0]); err != nil {
					return failed(err)
				}
			}
			if cmd.Flags().Changed("seed") {
				b.Seed = &seed
			}
			return c.drawn(d, terminal.Options{Start: terminal.StartBench, Bench: b})
		},
	}
	cmd.Flags().Uint64Var(&seed, "seed", 0, "the same seed makes the same telescope (default: a new one)")
	cmd.Flags().StringVar(&level, "level", string(virtual.Easy), "what is not set up is as on this level: easy, usual or hard")
	cmd.Flags().BoolVar(&blank, "blank", false, "behind a blank screen: a class does not see what is set up (also with --theme projector)")
	cmd.Flags().StringVar(&c.who, "who", "", "who is at the scope, for the record")
	cmd.Flags().BoolVar(&c.noRecord, "no-record", false, "keep nothing on disk")
	cmd.ValidArgsFunction = c.completeScopes
	return cmd
}
