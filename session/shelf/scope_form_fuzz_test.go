package shelf_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

// Whatever is answered, twice over: a line of error, or a scope whose file says
// it and can be read.
func FuzzFormAnswer(f *testing.F) {
	for n, text := range []string{"Wren", "8", "f/6", "10h30", "about 2 1/2\"", "1,5 m", "~M5x0.5", "0.8 mm", "#8-32", "unknown", "2", "1/0", "-3", "1e400", "a\x1b[2J", "done", "afresh", "back"} {
		f.Add(uint8(n), text)
	}
	l, err := shelf.Open(f.TempDir())
	require.NoError(f, err)
	f.Fuzz(func(t *testing.T, n uint8, text string) {
		form, err := l.DescribeScope("")
		require.NoError(t, err)
		for _, line := range []string{"Wren", "200", "1200", "10:30"} {
			_, err := form.Take(line)
			require.NoError(t, err)
		}
		_, err = form.Take("done")
		require.NoError(t, err)
		due := form.Due()
		q := due[int(n)%len(due)]
		_, err = form.Take(q.Name)
		require.NoError(t, err)
		for range 2 {
			if _, err := form.Take(text); err != nil {
				sessiontest.AssertPlain(t, err)
			}
		}
		if s := form.Scope(); s.Name != "" && s.Aperture.Given() && s.FocalLength.Given() {
			again, err := scope.DecodeScope(scope.EncodeScope(s))
			require.NoError(t, err)
			require.Equal(t, string(scope.EncodeScope(s)), string(scope.EncodeScope(again)))
		}
	})
}
