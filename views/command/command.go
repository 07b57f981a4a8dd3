// Package command is the command line: it picks a face and hands it a session.
package command

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"time"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"spotward/session/journal"
	"spotward/session/shelf"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/theme"
)

// Exit codes.
const (
	ExitDone        = 0
	ExitFailed      = 1 // failed or unfinished
	ExitUsage       = 2 // wrong usage, or no terminal
	ExitInterrupted = 130
)

// Streams are what the program reads and writes.
type Streams struct {
	In  io.Reader
	Out io.Writer
	Err io.Writer
}

// Run runs the command line and returns the exit code.
func Run(args []string, s Streams) int {
	c := &cli{streams: s}
	var out *checked
	s.Out, out = output(s.Out, c.onTerminal())
	c.streams.Out = s.Out
	root := c.root()
	root.SetArgs(args)
	root.SetIn(s.In)
	root.SetOut(s.Out)
	root.SetErr(s.Err)
	err := c.survive(root.Execute)
	if unwritten := out.unwritten(); unwritten != nil {
		err = unwritten
	}
	if err == nil {
		return c.exit
	}
	var code *exitError
	if !errors.As(err, &code) {
		code = &exitError{ExitUsage, err} // cobra's own: flags and arguments
	}
	fmt.Fprintf(s.Err, "spotward: %s\n", words.OneLine(code.Error()))
	return code.code
}

// survive turns a fault of the program into an error that says where it was
// noted: on the data directory, or among the temporary files where nothing is
// kept.
func (c *cli) survive(do func() error) (err error) {
	defer func() {
		fault := recover()
		if fault == nil {
			return
		}
		log := desk.CrashLog{Dir: c.dataDir()}
		if c.noRecord {
			log.Dir = os.TempDir()
		}
		err = &exitError{ExitFailed, fmt.Errorf("a fault of the program, noted in %s: nothing that you answered is lost; go on with --resume", log.Write("command", fault))}
	}()
	return do()
}

// exitError is an error with its exit code.
type exitError struct {
	code int
	err  error
}

func (e *exitError) Error() string { return e.err.Error() }

func (e *exitError) Unwrap() error { return e.err }

func failed(err error) error {
	if err == nil {
		return nil
	}
	var has *exitError
	if errors.As(err, &has) {
		return err
	}
	return &exitError{ExitFailed, err}
}

func usage(format string, args ...any) error {
	return &exitError{ExitUsage, fmt.Errorf(format, args...)}
}

// cli is one run of the command line.
type cli struct {
	streams Streams
	exit    int

	dir       string
	who       string
	where     string
	resume    string
	theme     string
	projector bool
	inWords   bool // plain dialogue in place of the drawn screens
	ascii     bool
	noMouse   bool
	noRecord  bool

	photos     string
	keepPhotos bool
}

func (c *cli) root() *cobra.Command {
	root := &cobra.Command{
		Use:   "spotward",
		Short: "Aligns the two mirrors of a Newtonian with a laser, one screw at a time",
		Example: `  spotward practice                  a whole alignment without a telescope
  spotward align heron               align the scope called Heron
  spotward align scopes/heron.toml   the same, from its file
  spotward talk heron                plain questions and answers, no drawing
  spotward records                   what was done`,
		Version:       Version(),
		Args:          cobra.NoArgs,
		SilenceErrors: true,
		SilenceUsage:  true,
		RunE:          func(*cobra.Command, []string) error { return c.frontPage() },
	}
	root.SetVersionTemplate("spotward {{.Version}}\n")
	f := root.PersistentFlags()
	f.StringVar(&c.dir, "data", "", "directory for scopes, kits, journals and records (default "+shelf.DefaultDir()+")")
	f.StringVar(&c.theme, "theme", "dark", "dark, night, day or projector")
	f.BoolVar(&c.projector, "projector", false, "large letters, for the back row")
	f.BoolVar(&c.ascii, "ascii", false, "draw with plain characters")
	f.BoolVar(&c.noMouse, "no-mouse", false, "leave the mouse to the terminal")
	root.AddCommand(
		c.alignCommand(), c.checkCommand(), c.practiceCommand(), c.talkCommand(), c.feedCommand(),
		c.scopesCommand(), c.kitsCommand(), c.recordsCommand(), c.pictureCommand(), c.manCommand(),
	)
	root.PersistentPreRunE = func(*cobra.Command, []string) error {
		if _, err := theme.Parse(c.theme); err != nil {
			return usage("--%w", err)
		}
		for flag, text := range map[string]string{"who": c.who, "where": c.where} {
			if n := utf8.RuneCountInString(text); n > mostSaid {
				return usage("--%s is %d characters long: expected at most %d", flag, n, mostSaid)
			}
		}
		return nil
	}
	c.completeFlags(root)
	return root
}

// sessionFlags adds the flags of the commands that play a session.
func (c *cli) sessionFlags(cmd *cobra.Command) *cobra.Command {
	cmd.Flags().StringVar(&c.who, "who", "", "who is at the scope, for the record")
	cmd.Flags().StringVar(&c.where, "where", "", "where it stands, for the record")
	cmd.Flags().StringVar(&c.resume, "resume", "", "go on with this session, or with the newest unfinished one")
	cmd.Flags().Lookup("resume").NoOptDefVal = newest
	cmd.Flags().BoolVar(&c.noRecord, "no-record", false, "keep nothing on disk")
	cmd.Flags().StringVar(&c.photos, "photos", "", "a folder that pictures come to: a new one is offered as the reading")
	cmd.Flags().BoolVar(&c.keepPhotos, "keep-photos", false, "keep a copy of each picture that was a reading")
	cmd.ValidArgsFunction = c.completeScopes
	return cmd
}

// mostSaid is how long a name or a place may be that goes into every record.
const mostSaid = 200

// newest stands for a --resume without an id.
const newest = "newest"

// Version returns the program's version as it was built.
func Version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "(devel)"
	}
	return info.Main.Version
}

// library opens the shelf; it is nil with --no-record, but for a session that
// is taken up again. One that cannot be written to is good for reading: whoever
// wants to keep something there is told.
func (c *cli) library() (*shelf.Shelf, error) {
	if c.noRecord && c.resume == "" {
		return nil, nil
	}
	l, err := shelf.Open(c.dataDir())
	var unkept *journal.UnkeptError
	if errors.As(err, &unkept) {
		err = nil
	}
	if l != nil {
		l.Progress = (&progress{c: c}).tell
	}
	return l, failed(err)
}

// dataDir returns where everything is kept.
func (c *cli) dataDir() string {
	if c.dir != "" {
		return c.dir
	}
	return shelf.DefaultDir()
}

func (c *cli) desk() (*desk.Desk, error) {
	l, err := c.library()
	if err != nil {
		return nil, err
	}
	if c.photos != "" {
		if info, err := os.Stat(c.photos); err != nil || !info.IsDir() {
			return nil, usage("--photos is a folder that is there: %q is none", c.photos)
		}
	}
	return &desk.Desk{
		Library: l, Unkept: c.noRecord, Who: c.who, Where: c.where, Program: Version(), Now: time.Now,
		Photos: c.photos, KeepPhotos: c.keepPhotos,
	}, nil
}

// onTerminal reports whether both ends are a terminal.
func (c *cli) onTerminal() bool {
	in, okIn := c.streams.In.(*os.File)
	out, okOut := c.streams.Out.(*os.File)
	return okIn && okOut && term.IsTerminal(int(in.Fd())) && term.IsTerminal(int(out.Fd()))
}

var errNoTerminal = &exitError{ExitUsage, errors.New("no terminal here: use spotward talk for plain questions and answers, or spotward feed for JSON lines")}
