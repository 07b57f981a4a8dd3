package command_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/views/command"
)

// faulty is an input that ends in a fault of the program.
type faulty struct{ strings.Reader }

func (f *faulty) Read(p []byte) (int, error) {
	if f.Len() == 0 {
		panic("read badly")
	}
	return f.Reader.Read(p)
}

// A fault of the program is one line that says where it was noted, and what was
// taken before it is there.
func TestAFaultLeavesALogWhosePlaceIsTold(t *testing.T) {
	dir := t.TempDir()
	var out, errs strings.Builder
	in := &faulty{*strings.NewReader("{\"choice\":\"routine\"}\n")}
	exit := command.Run([]string{"feed", "--data", dir, "Dunlin"}, command.Streams{In: in, Out: &out, Err: &errs})
	assert.Equal(t, command.ExitFailed, exit)
	path := filepath.Join(dir, "crash.log")
	assert.Equal(t, "spotward: a fault of the program, noted in "+path+": nothing that you answered is lost; go on with --resume\n", errs.String())
	log, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Contains(t, string(log), "read badly")
	assert.Contains(t, string(log), "robust_crash_test.go")
	assert.Contains(t, out.String(), `"stage":"laser_in"`)
	journals, err := filepath.Glob(filepath.Join(dir, "journals", "*.jsonl"))
	require.NoError(t, err)
	require.Len(t, journals, 1)
	journal, err := os.ReadFile(journals[0])
	require.NoError(t, err)
	assert.Contains(t, string(journal), `"choice":"routine"`)
}
