package command

import (
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"

	"spotward/session/words"
)

// manCommand writes the man page of one command, or those of all of them.
func (c *cli) manCommand() *cobra.Command {
	var to string
	cmd := &cobra.Command{
		Use: "man [COMMAND...]", Short: "The man page of a command, or with --to a directory of all", Hidden: true,
		Example: `  spotward man records todo | man -l -
  spotward man --to ./man1`,
		RunE: func(cmd *cobra.Command, args []string) error {
			head := &doc.GenManHeader{Section: "1", Source: "spotward " + Version(), Manual: "spotward", Date: &time.Time{}}
			if to != "" {
				return failed(doc.GenManTree(cmd.Root(), head, to))
			}
			of, left, err := cmd.Root().Find(args)
			if err != nil || len(left) > 0 {
				return usage("no command %q here: spotward --help lists them", words.OneLine(joined(args)))
			}
			return failed(doc.GenMan(of, head, c.streams.Out))
		},
	}
	cmd.Flags().StringVar(&to, "to", "", "the directory for all pages; it must be there")
	return cmd
}
