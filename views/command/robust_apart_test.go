//go:build linux

package command_test

import (
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// openFiles returns what a running program has open, and whether for writing.
func openFiles(t *testing.T, pid int) map[string]bool {
	t.Helper()
	dir := fmt.Sprintf("/proc/%d/fd", pid)
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	open := map[string]bool{}
	for _, e := range entries {
		to, err := os.Readlink(filepath.Join(dir, e.Name()))
		if err != nil {
			continue // closed meanwhile
		}
		info, err := os.ReadFile(fmt.Sprintf("/proc/%d/fdinfo/%s", pid, e.Name()))
		if err != nil {
			continue
		}
		var flags int
		_, after, _ := strings.Cut(string(info), "flags:")
		_, err = fmt.Sscanf(after, "%o", &flags)
		require.NoError(t, err)
		open[to] = open[to] || flags&(os.O_WRONLY|os.O_RDWR) != 0
	}
	return open
}

// apart checks that a running program has no socket open, and writes to no file
// but those in its data directory and its own ends.
func apart(t *testing.T, pid int, data string) {
	t.Helper()
	open := openFiles(t, pid)
	require.NotEmpty(t, open)
	handed := openFiles(t, os.Getpid()) // by whoever runs the tests
	for to, written := range open {
		if _, is := handed[to]; is {
			continue
		}
		assert.False(t, strings.HasPrefix(to, "socket:"), to)
		own := strings.HasPrefix(to, data+"/") || strings.HasPrefix(to, "/dev/") || strings.HasPrefix(to, "pipe:") || strings.HasPrefix(to, "anon_inode:")
		assert.True(t, own || !written, "writes to %s", to)
	}
}

func TestNoSocketAndNoFileElsewhere(t *testing.T) {
	data := t.TempDir()
	s := onScreen(t, "--data", data, "practice", "--seed", "2")
	s.shows(t, "Motors off")
	apart(t, s.cmd.Process.Pid, data)
	s.toFirstReading(t)
	s.drawn(t)
	apart(t, s.cmd.Process.Pid, data)

	p := overPipes(t, "feed", "--data", data, "Dunlin")
	p.fedLine("")
	apart(t, p.cmd.Process.Pid, data)
}

// home is a user's place on a machine of its own, to see what is written where.
type home struct{ dir string }

func (h home) run(t *testing.T, in string, args ...string) {
	t.Helper()
	cmd := exec.Command(program(t), args...)
	cmd.Dir = filepath.Join(h.dir, "work")
	cmd.Env = []string{"HOME=" + h.dir, "TMPDIR=" + filepath.Join(h.dir, "tmp"), "PATH=" + os.Getenv("PATH"), "TERM=xterm"}
	cmd.Stdin = strings.NewReader(in)
	_ = cmd.Run() // what it comes to is for other tests
}

func TestWritesOnlyInItsDataDirectory(t *testing.T) {
	h := home{t.TempDir()}
	for _, part := range []string{"work", "tmp"} {
		require.NoError(t, os.Mkdir(filepath.Join(h.dir, part), 0o755))
	}
	scopes, err := filepath.Abs(root + "/testdata/scopes")
	require.NoError(t, err)
	stop := "{\"stop\":true}\n{\"confirm\":true}\n"
	h.run(t, stop, "feed", filepath.Join(scopes, "heron.toml"))
	h.run(t, stop, "feed", "--who", "Ada", "heron")
	h.run(t, "1\n1\nquit\n", "talk")
	h.run(t, "1\nstop safely\nyes\n", "talk", "--resume")
	h.run(t, stop, "feed", "--no-record", "Dunlin")
	for _, hostile := range []string{"path_in_name", "reserved_name", "escape_in_name"} {
		h.run(t, stop, "feed", filepath.Join(scopes, "bad", hostile+".toml"))
	}
	for _, args := range [][]string{{"scopes"}, {"scopes", "show", "heron"}, {"kits"}, {"records"}, {"scopes", "retire", "heron"}, {"practice", "lessons"}} {
		h.run(t, "", args...)
	}
	var written int
	own := filepath.Join(".local", "share", "spotward")
	err = filepath.WalkDir(h.dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		at, err := filepath.Rel(h.dir, path)
		assert.True(t, strings.HasPrefix(at, own+"/"), "written: %s", at)
		written++
		return err
	})
	require.NoError(t, err)
	assert.Greater(t, written, 4, "the journals and a retired scope at least")
}

// The kernel's word for it, where there is a tool to ask it.
func TestKernelSeesNoNetworkAndNoOtherProgram(t *testing.T) {
	strace, err := exec.LookPath("strace")
	if err != nil {
		t.Skip("no strace here: the open files are looked at by another test")
	}
	log := filepath.Join(t.TempDir(), "calls")
	cmd := exec.Command(strace, "-f", "-o", log, "-e", "trace=%network,execve", program(t), "feed", "--data", t.TempDir(), "Dunlin")
	cmd.Stdin = strings.NewReader("{\"choice\":\"routine\"}\n{\"confirm\":true}\n{\"quit\":true}\n")
	out, _ := cmd.CombinedOutput()
	calls, err := os.ReadFile(log)
	if err != nil || !strings.Contains(string(calls), "execve(") {
		t.Skipf("strace may not look at other programs here: %s", out)
	}
	require.Contains(t, string(out), `"done":true`)
	for _, call := range []string{"socket(", "connect(", "bind(", "sendto("} {
		assert.NotContains(t, string(calls), call)
	}
	assert.Equal(t, 1, strings.Count(string(calls), "execve("), "the program itself, and no other")
}
