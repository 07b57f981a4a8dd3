package command

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What takes a while is said once where there is no terminal, and what does not is
// not.
func TestProgressIsSaidOnceOffATerminal(t *testing.T) {
	var said bytes.Buffer
	p := progress{c: &cli{streams: Streams{Err: &said}}}
	for done := 1; done <= 300; done++ {
		p.tell(done, 300)
	}
	assert.Empty(t, said.String())
	p.tell(1, 300)
	p.began = p.began.Add(-2 * progressAfter)
	for done := 2; done <= 300; done++ {
		p.tell(done, 300)
	}
	assert.Equal(t, "spotward: summing up 300 sessions\n", said.String())
}
