package command

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// checked is the program's output. What it could not write it remembers, so that
// no command that only prints can end as if all was said.
type checked struct {
	w   io.Writer
	err error // the first one
}

func (c *checked) Write(p []byte) (int, error) {
	n, err := c.w.Write(p)
	if err == nil && n < len(p) {
		err = io.ErrShortWrite
	}
	if c.err == nil {
		c.err = err
	}
	return n, err
}

// output returns the writer of a stream whose errors are looked at in the end. A
// terminal stays the file that it is: the screens ask it for its size.
func output(w io.Writer, terminal bool) (io.Writer, *checked) {
	c := &checked{w: w}
	if _, isFile := w.(*os.File); isFile && terminal {
		return w, c
	}
	return c, c
}

// unwritten says that the output could not be written, nil where it could.
func (c *checked) unwritten() error {
	if c.err == nil {
		return nil
	}
	err := c.err
	var at *fs.PathError
	if errors.As(err, &at) {
		err = at.Err
	}
	return &exitError{ExitFailed, fmt.Errorf("the output could not be written (%w): make room, or send it elsewhere", err)}
}
