package command

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/feed"
	"spotward/views/practice"
)

func (c *cli) alignCommand() *cobra.Command {
	return c.sessionFlags(&cobra.Command{
		Use: "align [SCOPE]", Short: "A guided alignment", Args: cobra.MaximumNArgs(2),
		RunE: func(_ *cobra.Command, args []string) error { return c.onScreen(args, c.align(false)) },
	})
}

func (c *cli) checkCommand() *cobra.Command {
	return c.sessionFlags(&cobra.Command{
		Use: "check [SCOPE]", Short: "The first look alone: is the scope worth touching?", Args: cobra.MaximumNArgs(2),
		RunE: func(_ *cobra.Command, args []string) error { return c.onScreen(args, c.align(true)) },
	})
}

func (c *cli) practiceCommand() *cobra.Command {
	var world event.World
	var fault string
	cmd := c.sessionFlags(&cobra.Command{
		Use: "practice [SCOPE]", Aliases: []string{"practise"}, Short: "The same session on a telescope that is not real", Args: cobra.MaximumNArgs(2),
		RunE: func(cmd *cobra.Command, args []string) error {
			if !cmd.Flags().Changed("seed") {
				world.Seed = desk.NewSeed()
			}
			if _, err := virtual.ParseLevel(world.Level); err != nil {
				return usage("%w", err)
			}
			if fault != "" {
				if !slices.Contains(practice.Faults(), fault) {
					return usage("--fault is one of: %s", strings.Join(practice.Faults(), ", "))
				}
				world.Level = practice.FaultLevel(fault)
			}
			return c.onScreen(args, c.practise(world))
		},
	})
	cmd.Flags().Uint64Var(&world.Seed, "seed", 0, "the same seed makes the same telescope (default: a new one)")
	cmd.Flags().StringVar(&world.Level, "level", string(virtual.Easy), "easy, usual or hard")
	cmd.Flags().StringVar(&fault, "fault", "", "an easy telescope that only a finer check finds out: "+strings.Join(practice.Faults(), ", "))
	cmd.PersistentFlags().BoolVar(&c.inWords, "plain", false, "the same telescope in words: plain questions and answers, lessons too")
	cmd.AddCommand(c.lessonsCommand(), c.signCommand(), c.benchCommand())
	return cmd
}

func (c *cli) feedCommand() *cobra.Command {
	return c.sessionFlags(&cobra.Command{
		Use: "feed SCOPE", Short: "JSON lines, for a camera script or a test", Args: cobra.MaximumNArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 && c.resume == "" {
				return usage("feed takes a scope: a name known here or a path to its file")
			}
			return c.play(args, c.script(), c.overFeed)
		},
	})
}

// opener begins a session on a scope.
type opener func(d *desk.Desk, scope scope.Scope) (*desk.Work, error)

func (c *cli) align(check bool) opener {
	return func(d *desk.Desk, scope scope.Scope) (*desk.Work, error) { return d.Align(scope, check) }
}

// script is an alignment that a script plays.
func (c *cli) script() opener {
	return func(d *desk.Desk, scope scope.Scope) (*desk.Work, error) {
		d.Script = true
		return d.Align(scope, false)
	}
}

func (c *cli) practise(world event.World) opener {
	return func(d *desk.Desk, scope scope.Scope) (*desk.Work, error) { return d.Practice(scope, world) }
}

// face plays a session and returns whether it came to its end.
type face func(d *desk.Desk, w *desk.Work) error

// onScreen plays a session on the drawn screens, once it is sure that there is
// a terminal for them.
func (c *cli) onScreen(args []string, open opener) error {
	if !c.plain() && !c.onTerminal() {
		return errNoTerminal
	}
	return c.play(args, open, c.inTerminal)
}

// named takes the id of a session out of the arguments that follow a --resume,
// and makes sure that no more than a scope is left.
func (c *cli) named(args []string) ([]string, error) {
	var left []string
	for _, a := range args {
		if c.resume == newest && journal.ValidID(a) {
			c.resume = a
		} else {
			left = append(left, a)
		}
	}
	if len(left) > 1 {
		return nil, usage("one scope at a time: %q is one too many", left[1])
	}
	return left, nil
}

// play opens or takes up a session and hands it to a face.
func (c *cli) play(args []string, open opener, to face) error {
	args, err := c.named(args)
	if err != nil {
		return err
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	w, err := c.begin(d, args, open)
	var unkept *journal.UnkeptError
	if errors.As(err, &unkept) {
		err = fmt.Errorf("%w (--no-record)", err)
	}
	if err != nil {
		return failed(err)
	}
	if w.Notice != "" {
		fmt.Fprintf(c.streams.Err, "spotward: %s\n", words.OneLine(w.Notice))
	}
	return failed(to(d, w))
}

func (c *cli) begin(d *desk.Desk, args []string, open opener) (*desk.Work, error) {
	if c.resume != "" {
		return c.takeUp(d, args)
	}
	scope := scope.Builtin()
	if len(args) > 0 {
		var err error
		if scope, err = c.scope(d, args[0]); err != nil {
			return nil, err
		}
	}
	return open(d, scope)
}

// scope finds the scope that is meant. Of a path with other content than the
// scope of that name here, the path wins: it is what was asked for just now.
func (c *cli) scope(d *desk.Desk, nameOrPath string) (scope.Scope, error) {
	if b := scope.Builtin(); scope.SameName(nameOrPath, b.Name) {
		if own, ok := c.ownOf(d, b.Name); ok {
			fmt.Fprintf(c.streams.Err, "spotward: %s is the one kept here, not the practice telescope of that name\n", words.OneLine(own.Name))
			return own, nil
		}
		return b, nil
	}
	if d.Library == nil {
		data, err := os.ReadFile(nameOrPath)
		if err != nil {
			return scope.Scope{}, fmt.Errorf("%s cannot be read: with --no-record a scope is a path to its file", nameOrPath)
		}
		return scope.DecodeScope(data)
	}
	scope, err := d.Library.Scope(nameOrPath)
	var other *shelf.OtherContentError
	var unkept *journal.UnkeptError
	switch {
	case errors.As(err, &other):
		fmt.Fprintf(c.streams.Err, "spotward: %s: its file is used this time; the one kept here stays\n", words.OneLine(other.Error()))
		return scope, nil
	case errors.As(err, &unkept):
		fmt.Fprintf(c.streams.Err, "spotward: %s\n", words.OneLine(unkept.Error()))
		return scope, nil
	case err != nil:
		return scope, c.mayMean(err, nameOrPath)
	}
	return scope, nil
}

// ownOf returns the scope that is kept here under a name.
func (c *cli) ownOf(d *desk.Desk, name string) (scope.Scope, bool) {
	if d.Library == nil {
		return scope.Scope{}, false
	}
	own, _ := d.Library.Scopes()
	for _, s := range own {
		if scope.SameName(s.Name, name) {
			return s, true
		}
	}
	return scope.Scope{}, false
}

func (c *cli) takeUp(d *desk.Desk, args []string) (*desk.Work, error) {
	id := c.resume
	if id == newest {
		name := "" // any
		if len(args) > 0 {
			scope, err := c.scope(d, args[0])
			if err != nil {
				return nil, err
			}
			name = scope.Name
		}
		all, _ := d.Library.Unfinished(name)
		open := slices.DeleteFunc(slices.Clone(all), func(u history.Unfinished) bool { return !session.Folds(u.Way) })
		if len(open) == 0 && len(all) > 0 {
			return nil, fmt.Errorf("session %s: %w", all[0].ID, &session.WayError{Way: all[0].Way})
		}
		if len(open) == 0 {
			return nil, errors.New("no unfinished session here: leave --resume out to begin one")
		}
		at := lastWorkedOn(open)
		taken := open[at]
		c.sayTaken(taken, slices.Delete(open, at, at+1))
		id = taken.ID
	}
	return d.TakeUp(id)
}

// maxOthers is how many of the other unfinished sessions are named.
const maxOthers = 3

// lastWorkedOn returns the index of the session in which something was last
// done, of those given in their order, newest first. Where the clock was put back
// between two of them it says nothing, and the later one by that order is meant.
func lastWorkedOn(open []history.Unfinished) int {
	best := len(open) - 1
	for i := best - 1; i >= 0; i-- {
		if open[i].Began.Before(open[best].Began) || !open[i].Last.Before(open[best].Last) {
			best = i
		}
	}
	return best
}

// sayTaken says which unfinished session is taken up, and what others there are.
func (c *cli) sayTaken(taken history.Unfinished, others []history.Unfinished) {
	say := func(u history.Unfinished) string {
		return fmt.Sprintf("%s (%s, begun %s)", u.ID, words.OneLine(u.Scope), minute(u.Began))
	}
	text := "taken up: " + say(taken)
	for i, u := range others {
		if i == maxOthers {
			text += fmt.Sprintf("; and %d more: spotward records unfinished", len(others)-i)
			break
		}
		text += map[bool]string{true: ". Also unfinished: ", false: ", "}[i == 0] + say(u)
	}
	fmt.Fprintf(c.streams.Err, "spotward: %s\n", text)
}

func (c *cli) overFeed(_ *desk.Desk, w *desk.Work) error {
	var id string
	ended, err := feed.Run(w, c.streams.In, c.streams.Out, func() (string, error) {
		var err error
		id, err = w.Close()
		return id, err
	})
	if err != nil {
		return err
	}
	if !ended {
		w.Close()
		c.exit = ExitFailed
		return nil
	}
	c.exit = exitOf(w.State())
	return nil
}

// exitOf returns the exit code that a session's end comes to.
func exitOf(s session.State) int {
	if s.Over && s.Outcome != session.OutcomeStopped {
		return ExitDone
	}
	return ExitFailed
}

func (c *cli) completeScopes(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	l, err := c.library()
	if err != nil || l == nil {
		return nil, cobra.ShellCompDirectiveDefault
	}
	scopes, _ := l.Scopes()
	names := []string{scope.Builtin().Name}
	for _, s := range scopes {
		names = append(names, s.Name)
	}
	return names, cobra.ShellCompDirectiveDefault
}
