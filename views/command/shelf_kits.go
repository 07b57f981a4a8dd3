package command

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/session/words"
)

func (c *cli) kitsCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use: "kits", Short: "Lasers and their holders", Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return failed(c.listKits(asJSON)) },
	}
	jsonFlag(cmd, &asJSON)
	cmd.AddCommand(
		c.newCommand("Describe a laser and its holder, question by question", c.completeKits, (*shelf.Shelf).DescribeKit),
		c.editCommand("Change what is said of a kit", c.completeKits, (*shelf.Shelf).EditKit),
		&cobra.Command{
			Use: "show NAME", Short: "A kit's file, the scopes that name it, and its history", Args: cobra.ExactArgs(1), ValidArgsFunction: c.completeKits,
			RunE: func(_ *cobra.Command, args []string) error { return failed(c.showKit(args[0])) },
		},
		&cobra.Command{
			Use: "retire NAME", Short: "Take a kit off the shelf; what was read with it stays", Args: cobra.ExactArgs(1), ValidArgsFunction: c.completeKits,
			RunE: func(_ *cobra.Command, args []string) error { return failed(c.retireKit(args[0])) },
		},
		&cobra.Command{
			Use: "copy NAME NEW", Short: "A kit's file under a new name, as the start of another", Args: cobra.ExactArgs(2), ValidArgsFunction: c.completeKits,
			RunE: func(_ *cobra.Command, args []string) error { return failed(c.copyKit(args[0], args[1])) },
		},
		c.renameCommand("Rename a kit, with all its records", c.completeKits, (*shelf.Shelf).RenameKit),
	)
	return cmd
}

func (c *cli) listKits(asJSON bool) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	kits, errs := l.Kits()
	scopes, more := l.Scopes()
	if asJSON {
		c.warn(append(errs, more...))
		list := []scope.Scope{}
		for _, k := range kits {
			list = append(list, k.Scope())
		}
		return c.writeJSON("kits", list)
	}
	t := c.table()
	fmt.Fprintln(t, "NAME\tCLASS\tFACE\tRINGS\tSCOPES")
	for _, k := range kits {
		tel := scope.Scope{Laser: k.Laser}.Telescope().Target
		face := "slanted"
		if tel.Flat {
			face = "flat"
		}
		fmt.Fprintf(t, "%s\t%s\t%.0f mm, %s\t%d, %.3g mm apart\t%s\n", words.OneLine(k.Name), orDash(k.Class), 2*tel.FaceRadiusMM, face,
			tel.RingCount, tel.RingStepMM, orDash(strings.Join(scopesOfKit(scopes, k), ", ")))
	}
	t.Flush()
	c.warn(append(errs, more...))
	return nil
}

// scopesOfKit returns the names of the scopes whose files name the kit.
func scopesOfKit(scopes []scope.Scope, k scope.Kit) []string {
	var out []string
	for _, s := range scopes {
		if scope.SameName(s.Kit, k.Name) {
			out = append(out, s.Name)
		}
	}
	return out
}

func (c *cli) showKit(name string) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	k, err := l.Kit(name)
	if err != nil {
		return c.mayMeanKit(err, name)
	}
	if _, err := c.streams.Out.Write(scope.EncodeKit(k)); err != nil {
		return err
	}
	scopes, errs := l.Scopes()
	if names := scopesOfKit(scopes, k); len(names) > 0 {
		fmt.Fprintf(c.streams.Out, "\n# Named by %s\n", strings.Join(names, ", "))
	}
	c.warn(errs)
	return c.kitHistory(l, k)
}

func (c *cli) completeKits(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	l, err := c.library()
	if err != nil || l == nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	kits, _ := l.Kits()
	var names []string
	for _, k := range kits {
		names = append(names, k.Name)
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}
