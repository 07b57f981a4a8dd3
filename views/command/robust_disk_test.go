//go:build !windows

package command_test

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/shelf"
)

// spoilers make a data directory one that nothing can be kept in. Permissions
// do not hold a superuser, so there is no read-only directory among them: see
// TestReadOnlyShelf.
func spoilers() map[string]func(t *testing.T, dir string) {
	return map[string]func(t *testing.T, dir string){
		"taken away": func(t *testing.T, dir string) { require.NoError(t, os.Rename(dir, dir+".away")) },
		"deleted":    func(t *testing.T, dir string) { require.NoError(t, os.RemoveAll(dir)) },
		"journal written to by something else": func(t *testing.T, dir string) {
			f, err := os.OpenFile(journalIn(t, dir), os.O_APPEND|os.O_WRONLY, 0)
			require.NoError(t, err)
			_, err = f.WriteString("{\"v\":1,\"se")
			require.NoError(t, err)
			require.NoError(t, f.Close())
		},
	}
}

func journalIn(t *testing.T, dir string) string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "journals", "*.jsonl"))
	require.NoError(t, err)
	require.Len(t, files, 1)
	return files[0]
}

// dataDir is a directory whose place above it stays when it goes.
func dataDir(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "data")
	require.NoError(t, os.Mkdir(dir, 0o755))
	return dir
}

// fedLine sends a line over feed and returns the one that answers it.
func (p *piped) fedLine(line string) map[string]any {
	p.t.Helper()
	if line != "" {
		p.says(line)
	}
	require.True(p.t, p.out.Scan(), "the program has ended: %s", p.err.String())
	var got map[string]any
	require.NoError(p.t, json.Unmarshal(p.out.Bytes(), &got))
	return got
}

// What cannot be kept any more is not taken, again and again, until somebody
// chooses to go on without a record.
func TestFeedWhenNothingCanBeKept(t *testing.T) {
	for name, spoil := range spoilers() {
		t.Run(name, func(t *testing.T) {
			dir := dataDir(t)
			p := overPipes(t, "feed", "--data", dir, "Dunlin")
			p.fedLine("")
			refused := p.fedLine(`{"go_on":true}`)
			assert.Contains(t, refused["error"], "all is saved")
			p.fedLine(`{"choice":"routine"}`)
			spoil(t, dir)
			for range 2 {
				wrong := p.fedLine(`{"confirm":true}`)
				assert.Contains(t, wrong["error"], "could not be kept")
				assert.Contains(t, wrong["error"], "go on without a record (say: go on)")
				assert.Equal(t, 2.0, wrong["n"], "the pending question's number")
			}
			next := p.fedLine(`{"go_on":true}`)
			assert.Nil(t, next["error"])
			assert.Equal(t, "sky", next["stand"], "the answer that could not be kept was taken")
			last := p.fedLine(`{"quit":true}`)
			assert.Equal(t, true, last["done"])
			assert.Nil(t, last["record"])
		})
	}
}

func TestQuitWhenNothingCanBeKept(t *testing.T) {
	dir := dataDir(t)
	p := overPipes(t, "feed", "--data", dir, "Dunlin")
	p.fedLine("")
	require.NoError(t, os.RemoveAll(dir))
	assert.Equal(t, true, p.fedLine(`{"quit":true}`)["done"])
}

// A place that comes back keeps what is said again.
func TestStickPutBack(t *testing.T) {
	dir := dataDir(t)
	p := overPipes(t, "feed", "--data", dir, "Dunlin")
	p.fedLine("")
	require.NoError(t, os.Rename(dir, dir+".away"))
	assert.Contains(t, p.fedLine(`{"choice":"routine"}`)["error"], "could not be kept")
	require.NoError(t, os.Rename(dir+".away", dir))
	assert.Nil(t, p.fedLine(`{"choice":"routine"}`)["error"])
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	require.NoError(t, p.cmd.Process.Kill())
	_ = p.cmd.Wait()
	assert.Equal(t, 1, newest(t, lib).answers)
}

func TestTalkWhenNothingCanBeKept(t *testing.T) {
	for name, spoil := range spoilers() {
		t.Run(name, func(t *testing.T) {
			dir := dataDir(t)
			p := overPipes(t, "talk", "--data", dir, "Dunlin")
			p.until("what to answer", "5: a closer look", "4: it was dropped")
			spoil(t, dir)
			p.says("1")
			p.until("the refusal", "Not accepted: choice could not be kept")
			assert.Contains(t, p.out.Text(), "(say: go on).")
			p.says("go on")
			p.until("it taken", "Understood: go on; nothing is saved from here on.")
			p.until("the next stage", "Stage: laser in.")
			p.says("quit")
			p.until("the end", "But nothing of it is saved, or not all.")
		})
	}
}

// until reads lines until one begins with one of the texts.
func (p *piped) until(what string, texts ...string) {
	p.t.Helper()
	for p.out.Scan() {
		for _, text := range texts {
			if strings.HasPrefix(p.out.Text(), text) {
				return
			}
		}
	}
	p.t.Fatalf("never came: %s (%q)", what, texts)
}

func TestTerminalWhenNothingCanBeKept(t *testing.T) {
	for name, spoil := range spoilers() {
		t.Run(name, func(t *testing.T) {
			dir := dataDir(t)
			s := onScreen(t, "--data", dir, "practice", "--seed", "1")
			s.shows(t, "Motors off")
			spoil(t, dir)
			s.write(t, "1\r")
			s.shows(t, "could not be kept")
			assert.NotContains(t, s.text(), "Laser in and")
			s.write(t, "\x15go on\r")
			s.shows(t, "Laser in and")
			s.shows(t, "nothing is saved from here on")
			s.write(t, "quit\r")
			_ = s.cmd.Wait()
			<-s.end
			assert.NotContains(t, s.text(), "--resume", "there is nothing to go on with")
		})
	}
}

// A shelf that cannot be written to can be read, and a session on it is begun
// only once somebody has said that it may go without a record.
func TestReadOnlyShelf(t *testing.T) {
	// A file in the way of the journals stands for a directory that cannot be
	// written to: it holds a superuser too.
	dir := dataDir(t)
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	_, err = lib.Scope(root + "/testdata/scopes/wren.toml")
	require.NoError(t, err)
	require.NoError(t, os.Remove(filepath.Join(dir, "journals")))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "journals"), nil, 0o444))

	out, err := exec.Command(program(t), "scopes", "--data", dir).CombinedOutput()
	require.NoError(t, err, string(out))
	assert.Contains(t, string(out), "Wren")

	for _, face := range []string{"feed", "talk"} {
		out, err := exec.Command(program(t), face, "--data", dir, "wren").CombinedOutput()
		require.Error(t, err)
		assert.Equal(t, 1, strings.Count(string(out), "\n"), "%s", out)
		assert.Contains(t, string(out), "could not be kept")
		assert.Contains(t, string(out), "--no-record")
	}
	out, _ = exec.Command(program(t), "feed", "--no-record", "Dunlin").CombinedOutput()
	assert.Contains(t, string(out), `"n":1`)

	t.Run("front page", func(t *testing.T) {
		s := onScreen(t, "--data", dir)
		s.shows(t, "Dunlin")
		s.write(t, "practise\r")
		s.shows(t, "could not be kept")
		s.write(t, "\x15go on\r")
		s.shows(t, "Motors off")
		s.shows(t, "nothing of it is saved")
	})
	t.Run("front page of talk", func(t *testing.T) {
		p := overPipes(t, "talk", "--data", dir)
		p.until("the choices", "Type a number")
		p.says("1")
		p.until("how hard", "Type a number")
		p.says("1")
		p.until("what cannot be kept", "Noted: the session could not be kept")
		p.until("the choice", "1: Go on without a record.")
		p.says("1")
		p.until("the session", "This is practice")
	})
}

// Two programs on one session: the second is told who has it, and the first
// goes on undisturbed.
func TestTwoProgramsOnOneSession(t *testing.T) {
	dir := dataDir(t)
	p := overPipes(t, "feed", "--data", dir, "--who", "Ada", "Dunlin")
	p.fedLine("")
	id := strings.TrimSuffix(filepath.Base(journalIn(t, dir)), ".jsonl")
	for _, face := range []string{"feed", "talk"} {
		out, err := exec.Command(program(t), face, "--data", dir, "--resume", id).CombinedOutput()
		require.Error(t, err)
		assert.Regexp(t, fmt.Sprintf(`^spotward: session %s is open in process %d on .* \(Ada\): go on there, or close it there first\n$`,
			id, p.cmd.Process.Pid), string(out))
	}
	assert.Equal(t, "laser_in", p.fedLine(`{"choice":"routine"}`)["stage"])
}

// Several programs on one data directory: each has its own journal, and all
// come into the records.
func TestManyProgramsOnOneDataDirectory(t *testing.T) {
	dir := dataDir(t)
	var all []*piped
	for range 4 {
		p := overPipes(t, "feed", "--data", dir, "Dunlin")
		p.fedLine("")
		all = append(all, p)
	}
	for _, p := range all {
		p.says(`{"stop":true}`)
	}
	for _, p := range all {
		assert.Equal(t, "stopping", p.fedLine("")["stage"])
		p.says(`{"confirm":true}`) // and all at once into the records
	}
	ids := map[any]bool{}
	for _, p := range all {
		last := p.fedLine("")
		assert.Equal(t, true, last["done"])
		ids[last["record"]] = true
		_ = p.cmd.Wait()
	}
	assert.Len(t, ids, 4)
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	records, errs := lib.Records()
	require.Empty(t, errs)
	assert.Len(t, records, 4)
}

func openedAt(t *testing.T, dir string) *shelf.Shelf {
	t.Helper()
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	return lib
}
