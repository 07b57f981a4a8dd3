package command

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/session/words"
)

func (c *cli) addScopesCommand() *cobra.Command {
	var replace, asIs bool
	cmd := &cobra.Command{
		Use: "add FILE...", Short: "Bring in scopes from their files; all mistakes are shown at once", Args: cobra.MinimumNArgs(1),
		Long: `Brings scopes in from their files. A file with a mistake is left out, and all of
its mistakes are told. A scope that is here already stays as it is; what differs
is shown, and --replace takes the new one.

A list of a spreadsheet, saved as CSV, has a scope in each row. Its first row has
the keys of a file, with their table before a point:

  name,aperture_mm,focal_length_mm,kit,secondary.from_primary_mm
  Wren,114,900,Red box,720`,
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return []string{"toml", "csv"}, cobra.ShellCompDirectiveFilterFileExt
		},
		RunE: func(_ *cobra.Command, args []string) error {
			l, err := c.library()
			if err != nil {
				return err
			}
			for _, path := range args {
				described, err := c.readScopes(path)
				if err != nil {
					c.warn([]error{err})
					c.exit = ExitFailed
				}
				for _, d := range described {
					if err := c.addScope(l, d, replace, asIs); err != nil {
						c.warn([]error{err})
						c.exit = ExitFailed
					}
				}
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&replace, "replace", false, "replace the scopes that are here")
	cmd.Flags().BoolVar(&asIs, "as-is", false, "accept what looks doubtful, or a retired scope's name, as it stands")
	return cmd
}

// described is a scope and the file that it was read from.
type described struct {
	scope.Scope
	from string
	file []byte
}

// readScopes reads the scope of a file, or those of a list, and tells all of their
// mistakes. The error is that not all of them could be read.
func (c *cli) readScopes(path string) ([]described, error) {
	if !strings.EqualFold(filepath.Ext(path), ".csv") {
		d, err := c.readScope(path)
		if err != nil {
			return nil, err
		}
		return []described{d}, nil
	}
	data, err := readDescription(path)
	if err != nil {
		return nil, err
	}
	files, err := scope.Files(data)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", words.OneLine(path), err)
	}
	var out []described
	for n, file := range files {
		d, err := c.decodeScope(fmt.Sprintf("%s, scope %d", path, n+1), file)
		if err != nil {
			c.warn([]error{err})
			continue
		}
		out = append(out, d)
	}
	if left := len(files) - len(out); left > 0 {
		return out, fmt.Errorf("%s: %d of %s left out", words.OneLine(path), left, count(len(files), "scope"))
	}
	return out, nil
}

// readDescription reads a file of a scope or of a list of them.
func readDescription(path string) ([]byte, error) {
	const most = 1 << 20
	if info, err := os.Stat(path); err == nil && info.Size() > most {
		return nil, fmt.Errorf("%s is too long to describe a telescope", words.OneLine(path))
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %s", words.OneLine(path), reasonOf(err))
	}
	return data, nil
}

// readScope reads a scope's file, and tells all of its mistakes.
func (c *cli) readScope(path string) (described, error) {
	data, err := readDescription(path)
	if err != nil {
		return described{}, err
	}
	return c.decodeScope(path, data)
}

func (c *cli) decodeScope(from string, file []byte) (described, error) {
	mistakes := scope.Mistakes(file)
	for _, m := range mistakes {
		c.warn([]error{fmt.Errorf("%s: %w", from, m)})
	}
	if len(mistakes) > 0 {
		return described{}, fmt.Errorf("%s: %s", words.OneLine(from), count(len(mistakes), "mistake"))
	}
	s, err := scope.DecodeScope(file)
	return described{s, from, file}, err
}

func (c *cli) addScope(l *shelf.Shelf, s described, replace, asIs bool) error {
	path := s.from
	if doubts := s.Doubts(); len(doubts) > 0 && !asIs {
		return fmt.Errorf("%s: %s Mend the file, or add it with --as-is", path, strings.Join(doubts, " "))
	}
	if scope.SameName(s.Name, scope.Builtin().Name) {
		return fmt.Errorf("%s: %s is built in: give the scope another name", path, s.Name)
	}
	known, _ := l.Scopes()
	for _, k := range known {
		if !scope.SameName(k.Name, s.Name) {
			continue
		}
		diff := scope.Difference(k, s.Scope)
		if len(diff) == 0 {
			fmt.Fprintf(c.streams.Out, "%s is here already, the same.\n", k.Name)
			return nil
		}
		fmt.Fprintf(c.streams.Out, "%s is here already. It differs:\n", k.Name)
		for _, d := range diff {
			fmt.Fprintf(c.streams.Out, "  %s\n", words.OneLine(d))
		}
		if !replace {
			return errors.New(k.Name + " stays as it is: --replace takes the new one")
		}
		s.Name = k.Name
		return c.keepScope(l, s, "replaced")
	}
	if err := c.notRetired(l, s.Name); err != nil && !asIs {
		return err
	}
	return c.keepScope(l, s, "added")
}

func (c *cli) keepScope(l *shelf.Shelf, s described, how string) error {
	if err := l.SaveScopeFile(s.Scope, s.file); err != nil {
		return err
	}
	fmt.Fprintf(c.streams.Out, "%s is %s.\n", s.Name, how)
	if s.Kit != "" {
		if _, err := l.Kit(s.Kit); err != nil {
			fmt.Fprintf(c.streams.Out, "  Its kit %s has no description here: spotward kits new --set name=%q\n", words.Show(s.Kit), s.Kit)
		}
	}
	return nil
}

// notRetired returns an error where a retired scope has the name: the records
// under it would pass for the new one's.
func (c *cli) notRetired(l *shelf.Shelf, name string) error {
	retired, _ := l.RetiredScopes()
	for _, r := range retired {
		if scope.SameName(r.Name, name) {
			return fmt.Errorf("a scope called %s was retired, and its records would count for this one: choose another name, or say --as-is", words.Show(r.Name))
		}
	}
	return nil
}

// shown finds the scope to be shown and brings nothing in.
func (c *cli) shown(l *shelf.Shelf, nameOrPath string) (scope.Scope, error) {
	known, _ := l.Scopes()
	all := append([]scope.Scope{scope.Builtin()}, known...)
	for _, s := range all {
		if scope.SameName(s.Name, nameOrPath) {
			return s, nil
		}
	}
	if _, err := os.Stat(nameOrPath); err != nil && filepath.Ext(nameOrPath) == "" && !strings.ContainsAny(nameOrPath, `/\`) {
		return c.unknownScope(l, nameOrPath)
	}
	d, err := c.readScope(nameOrPath)
	if err != nil {
		return d.Scope, err
	}
	s := d.Scope
	for _, d := range s.Doubts() {
		c.warn([]error{errors.New(d)})
	}
	for _, k := range all {
		if scope.SameName(k.Name, s.Name) && len(scope.Difference(k, s)) > 0 {
			c.warn([]error{fmt.Errorf("the %s kept here differs: spotward scopes add --replace %s", k.Name, nameOrPath)})
		}
	}
	return s, nil
}

// unknownScope returns what the shelf says of a name that no scope has, and a
// name that may be meant.
func (c *cli) unknownScope(l *shelf.Shelf, name string) (scope.Scope, error) {
	s, err := l.Scope(name)
	if err == nil {
		return s, nil
	}
	return s, c.mayMean(err, name)
}

// mayMean adds to an error a scope's name that may have been meant.
func (c *cli) mayMean(err error, said string) error {
	n, _ := c.names()
	if slices.ContainsFunc(n.scopes, func(s string) bool { return scope.SameName(s, said) }) {
		return err
	}
	return fmt.Errorf("%w%s", err, strings.Replace(words.DidYouMean(said, n.scopes), ": did", "; did", 1))
}
