package command

import (
	"fmt"
	"os"
	"sync"
	"time"

	"golang.org/x/term"
)

// How long work goes on without a word, and from one word to the next.
const (
	progressAfter = time.Second
	progressEvery = 250 * time.Millisecond
)

// progress says on the error stream how far work is that takes more than a moment: a
// line that is written over on a terminal and taken away at its end, one line
// elsewhere.
type progress struct {
	c  *cli
	mu sync.Mutex

	of          int
	began, said time.Time
}

func (p *progress) tell(done, of int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	now := time.Now()
	if p.of != of || done <= 1 {
		p.of, p.began, p.said = of, now, time.Time{}
	}
	file, _ := p.c.streams.Err.(*os.File)
	drawn := file != nil && term.IsTerminal(int(file.Fd()))
	switch {
	case now.Sub(p.began) < progressAfter, now.Sub(p.said) < progressEvery && done < of, !drawn && !p.said.IsZero():
	case !drawn:
		p.said = now
		fmt.Fprintf(p.c.streams.Err, "spotward: summing up %d sessions\n", of)
	case done >= of:
		fmt.Fprint(p.c.streams.Err, "\r\x1b[K")
	default:
		p.said = now
		fmt.Fprintf(p.c.streams.Err, "\rsumming up: %d of %d\x1b[K", done, of)
	}
}
