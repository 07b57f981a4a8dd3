package terminal

import (
	"context"
	"io"
	"os"
	"os/signal"
	"sync"
	"syscall"
	"time"

	"golang.org/x/term"

	"spotward/views/terminal/frame"
)

// patience is how long the library may take to put the screen back after a
// signal. Where nobody reads what is written it would wait for ever.
const patience = 3 * time.Second

// leaveScreen undoes what the library has switched on: pasting in brackets, the
// mouse, the hidden cursor, the alternate screen. Said twice it does no harm.
const leaveScreen = "\x1b[?2004l\x1b[?1002l\x1b[?1003l\x1b[?1006l\x1b[?25h\x1b[?1049l"

// ends watches for the signals that end the program. The terminal's settings
// are those found at the start.
type ends struct {
	in, out *os.File
	found   *term.State
	exit    func(int)
	stop    func()

	mu      sync.Mutex
	back    bool // the library has put the screen back
	dropped bool // and what it wrote for that may have been thrown away
}

// screenIsBack is to be called when the library is through: what is written
// from here on is not thrown away.
func (e *ends) screenIsBack() {
	e.mu.Lock()
	e.back = true
	again := e.dropped
	e.mu.Unlock()
	if again {
		io.WriteString(e.out, leaveScreen)
	}
}

// drop makes room for what the library still has to write.
func (e *ends) drop() {
	e.mu.Lock()
	defer e.mu.Unlock()
	if !e.back {
		frame.DropUnread(e.out)
		e.dropped = true
	}
}

// watchEnds returns a context that the first such signal cancels. Where the
// screen has then not been put back after the patience, the settings are put
// back here and the program ends: all that was accepted is on the disk. A
// second signal does not wait.
func watchEnds(in io.Reader, out io.Writer) (context.Context, *ends) {
	e := &ends{exit: os.Exit, in: fileOf(in, os.Stdin), out: fileOf(out, os.Stdout)}
	e.found, _ = term.GetState(int(e.in.Fd())) // no terminal has none
	ctx, cancel := context.WithCancel(context.Background())
	signals := make(chan os.Signal, 2)
	signal.Notify(signals, syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT)
	done := make(chan struct{})
	e.stop = func() {
		signal.Stop(signals)
		close(done)
		cancel()
	}
	go func() {
		select {
		case <-signals:
		case <-done:
			return
		}
		cancel()
		select {
		case <-signals:
		case <-time.After(patience):
		case <-done:
			return
		}
		e.atOnce(done)
	}()
	return ctx, e
}

// atOnce gives the terminal back without the library, which waits for somebody
// to read. What was drawn and not read is thrown away first: it makes room for
// what leaves the screen.
func (e *ends) atOnce(done <-chan struct{}) {
	for range 20 {
		e.drop()
		select {
		case <-done: // the library came through after all
			return
		case <-time.After(10 * time.Millisecond):
		}
	}
	left := make(chan struct{})
	go func() {
		io.WriteString(e.out, leaveScreen)
		close(left)
	}()
	select {
	case <-left:
	case <-time.After(time.Second):
	}
	if e.found != nil {
		term.Restore(int(e.in.Fd()), e.found)
	}
	e.exit(frame.ExitInterrupted)
}

// fileOf returns the file that is read or written, or the usual one.
func fileOf(stream any, usual *os.File) *os.File {
	if f, ok := stream.(*os.File); ok && f != nil {
		return f
	}
	return usual
}
