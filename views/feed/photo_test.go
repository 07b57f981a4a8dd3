package feed_test

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/views/desk"
	"spotward/views/feed"
)

// A first look by a picture as it goes over the wire: those that are no reading,
// and what they lack; the one that is.
func TestTranscriptOfAPicture(t *testing.T) {
	const path, photos = "../../testdata/feed/photo.txt", "../../testdata/photos/"
	sc := scope.Builtin()
	sc.Primary.RingInner, sc.Primary.RingOuter = scope.MM(3.2), scope.MM(6.5) // of primary-05
	w, err := (&desk.Desk{Now: time.Now, Unkept: true, Script: true}).Align(sc, false)
	require.NoError(t, err)
	wire := &dictated{lines: []string{
		`{"photo":"a.jpg"}`,
		`{"choice":"routine"}`, `{"gone":true}`, `{"choice":"still"}`,
		fmt.Sprintf(`{"photo":%q}`, photos+"none.jpg"),
		fmt.Sprintf(`{"photo":%q}`, photos+"truth.json"),
		fmt.Sprintf(`{"photo":%q}`, photos+"shadow-01.jpg"),
		fmt.Sprintf(`{"photo":%q}`, photos+"primary-05.jpg"),
		fmt.Sprintf(`{"photo":%q}`, photos+"primary-05.jpg"),
		`{"undo":true}`,
		`{"quit":true}`,
	}}
	_, err = feed.Run(w, wire, wire, func() (string, error) { return "", nil })
	require.NoError(t, err)
	got := &wire.log
	if sessiontest.Update() {
		require.NoError(t, os.WriteFile(path, got.Bytes(), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(want), got.String(), "go test . -run Transcript -update writes it anew")
	taken := 0
	for _, p := range w.State().Past() {
		if p.Event.Picture != nil {
			taken++
		}
	}
	assert.Zero(t, taken, "it was taken back")
	assert.Contains(t, got.String(), `"spot":{"right"`)
}

// dictated sends lines one by one, each as it is waited for, and logs both ways.
type dictated struct {
	lines []string
	log   bytes.Buffer
}

func (d *dictated) Read(b []byte) (int, error) {
	if len(d.lines) == 0 {
		return 0, io.EOF
	}
	n := copy(b, d.lines[0]+"\n")
	fmt.Fprintf(&d.log, "  > %s\n", d.lines[0])
	d.lines = d.lines[1:]
	return n, nil
}

func (d *dictated) Write(b []byte) (int, error) { return d.log.Write(b) }

// Where nobody can read a file a picture is no answer.
func TestNoPicturesWithoutADesk(t *testing.T) {
	said := feedLine(t, `{"photo":"a.jpg"}`)
	assert.Contains(t, said, "no pictures are read here")
}

func feedLine(t *testing.T, line string) string {
	t.Helper()
	s := begun(t)
	var out bytes.Buffer
	_, err := feed.Run(s, strings.NewReader(line+"\n"), &out, func() (string, error) { return "", nil })
	require.NoError(t, err)
	return out.String()
}

// begun is a session of which no picture can be read.
func begun(t *testing.T) direct {
	t.Helper()
	w, err := (&desk.Desk{Now: time.Now, Unkept: true, Script: true}).Align(scope.Builtin(), false)
	require.NoError(t, err)
	require.NoError(t, w.Send(event.Event{Kind: event.KindChoice, Choice: "routine"}))
	return direct{w.Session}
}
