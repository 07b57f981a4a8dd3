package command

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"spotward/session/shelf"
	"spotward/session/words"
)

func (c *cli) packCommand() *cobra.Command {
	var to string
	cmd := &cobra.Command{
		Use: "pack --to FILE", Short: "Scopes, kits and journals in one file, for another laptop", Args: cobra.NoArgs,
		Example: `  spotward records pack --to shed.zip
  spotward records take shed.zip       on the other laptop`,
		RunE: func(*cobra.Command, []string) error { return failed(c.pack(to)) },
	}
	toFlag(cmd, &to)
	return cmd
}

func (c *cli) pack(to string) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	return c.writeTo(to, func(w io.Writer) (string, error) {
		p, err := l.Pack(w, Version(), time.Now())
		if err != nil {
			return "", err
		}
		c.warn(p.Unread)
		work := ""
		if p.Work > 0 {
			work = ", " + count(p.Work, "line") + " of work"
		}
		return fmt.Sprintf("%s, %s, %s%s; the names of those who came are in them",
			count(p.Scopes, "scope"), count(p.Kits, "kit"), count(p.Journals, "session"), trainees(p.Trainees)+work), nil
	})
}

func (c *cli) takeCommand() *cobra.Command {
	var theirs, ours bool
	cmd := &cobra.Command{
		Use: "take FILE", Short: "Bring in what was packed on another laptop; nothing here is overwritten", Args: cobra.ExactArgs(1),
		Long: `Brings in what was packed on another laptop. Sessions and work are added. Where a
scope or a kit is described differently here, the difference is shown and the one
here stays. --theirs takes the one in the pack, even in place of one retired
here. --ours keeps the one here and counts it as settled.`,
		RunE: func(_ *cobra.Command, args []string) error {
			prefer := shelf.PreferNone
			switch {
			case theirs:
				prefer = shelf.PreferTheirs
			case ours:
				prefer = shelf.PreferOurs
			}
			return failed(c.take(args[0], prefer))
		},
	}
	cmd.Flags().BoolVar(&theirs, "theirs", false, "where descriptions differ, use those of the pack")
	cmd.Flags().BoolVar(&ours, "ours", false, "where descriptions differ, keep those here")
	cmd.MarkFlagsMutuallyExclusive("theirs", "ours")
	return cmd
}

func (c *cli) take(path string, prefer shelf.Prefer) error {
	l, err := c.library()
	if err != nil {
		return err
	}
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	if !info.Mode().IsRegular() {
		return fmt.Errorf("%s is not a plain file", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	t, err := l.TakeWith(f, info.Size(), prefer)
	c.sayBrought(t, prefer)
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	if len(t.Refused) > 0 {
		c.exit = ExitFailed
	}
	return nil
}

// sayBrought says what a pack brought, and where its descriptions differ.
func (c *cli) sayBrought(t shelf.Taken, prefer shelf.Prefer) {
	out := c.streams.Out
	for _, d := range t.Differ {
		fmt.Fprintf(out, "%s %s differs, here -> in the pack%s:\n", d.What, words.OneLine(d.Name), map[shelf.Prefer]string{
			shelf.PreferOurs: "; the one here stays", shelf.PreferTheirs: "; the pack's is taken"}[prefer])
		for _, line := range d.Lines {
			fmt.Fprintf(out, "  %s\n", words.OneLine(line))
		}
	}
	c.warn(t.Refused)
	fmt.Fprintf(out, "Taken: %s, %s, %s", count(t.Scopes, "scope"), count(t.Kits, "kit"), count(t.Journals, "session"))
	fmt.Fprint(out, trainees(t.Trainees))
	if t.Work > 0 {
		fmt.Fprintf(out, ", %s of work", count(t.Work, "line"))
	}
	if t.Longer > 0 {
		fmt.Fprintf(out, "; %s went on", count(t.Longer, "session"))
	}
	fmt.Fprintf(out, ". Here already: %d. Refused: %d.\n", t.Known, len(t.Refused))
	if len(t.Differ) > 0 && prefer == shelf.PreferNone {
		fmt.Fprintln(out, "Take it once more with --theirs or --ours to settle what differs.")
	}
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func toFlag(cmd *cobra.Command, to *string) {
	cmd.Flags().StringVar(to, "to", "", "the file to write; - is the screen")
	if err := cmd.MarkFlagRequired("to"); err != nil {
		panic(err) // no such flag: a slip in this file
	}
}

// writeTo writes a file, whole or not at all, and says so. It keeps out of the
// data directory.
func (c *cli) writeTo(to string, write func(io.Writer) (says string, err error)) error {
	if to == "-" {
		_, err := write(c.streams.Out)
		return err
	}
	if strings.EqualFold(filepath.Ext(to), ".pdf") {
		return usage("--to %s: pages are written as HTML. Write x.html, open it and print it to a PDF", words.OneLine(to))
	}
	l, err := c.library()
	if err != nil {
		return err
	}
	path, err := filepath.Abs(to)
	if err != nil {
		return err
	}
	if in, err := filepath.Rel(l.Dir(), path); err == nil && in != ".." && !strings.HasPrefix(in, ".."+string(filepath.Separator)) {
		return fmt.Errorf("%s is in the data directory: write it elsewhere", words.OneLine(to))
	}
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return fmt.Errorf("%s is not a plain file", words.OneLine(to))
	}
	says := ""
	err = shelf.ReplaceFile(path, func(w io.Writer) (err error) {
		says, err = write(w)
		return err
	})
	if err != nil {
		return fmt.Errorf("%s could not be written (%s): what was there before stays, make room or choose another --to", words.OneLine(to), reasonOf(err))
	}
	fmt.Fprintf(c.streams.Out, "%s: %s.\n", words.OneLine(to), says)
	return nil
}

// reasonOf says why a file could not be written, without the name it had while
// it was written.
func reasonOf(err error) string {
	var at *fs.PathError
	if errors.As(err, &at) {
		err = at.Err
	}
	return err.Error()
}

// trainees says of how many lessons are in a pack; nothing of none.
func trainees(n int) string {
	if n == 0 {
		return ""
	}
	return ", " + count(n, "trainee")
}
