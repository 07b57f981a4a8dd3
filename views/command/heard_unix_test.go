//go:build !windows

package command_test

import (
	"bytes"
	"strings"
	"sync"
	"testing"
	"time"
)

// heard is what a program has drawn so far.
type heard struct {
	mu   sync.Mutex
	out  bytes.Buffer
	more chan struct{} // closed when something comes; nil: nobody waits
}

func (h *heard) take(part []byte) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.out.Write(part)
	if h.more != nil {
		close(h.more)
		h.more = nil
	}
}

func (h *heard) text() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.out.String()
}

// next returns what is closed when more comes.
func (h *heard) next() <-chan struct{} {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.more == nil {
		h.more = make(chan struct{})
	}
	return h.more
}

// patience is how long a test waits for what must come; it is not a measure of
// speed.
const patience = 30 * time.Second

// now and then is looked for what is not drawn.
const nowAndThen = 20 * time.Millisecond

// until waits for something to come true, and looks whenever something is drawn.
func (h *heard) until(t *testing.T, what string, is func() bool) {
	t.Helper()
	late := time.After(patience)
	for {
		more := h.next()
		if is() {
			return
		}
		select {
		case <-more:
		case <-time.After(nowAndThen):
		case <-late:
			text := h.text()
			t.Fatalf("never: %s; drawn at last: %q", what, text[max(0, len(text)-1500):])
		}
	}
}

// shows waits until a text was drawn.
func (h *heard) shows(t *testing.T, text string) {
	t.Helper()
	h.until(t, text, func() bool { return strings.Contains(h.text(), text) })
}
