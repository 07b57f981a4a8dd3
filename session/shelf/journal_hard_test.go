//go:build unix

package shelf_test

import (
	"bufio"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/journal"
	"spotward/session/sessiontest"
)

var kills = flag.Int("kills", 20, "how often the program is killed while it keeps events")

// shortKills is how often with -short.
const shortKills = 5

// childEnv makes the test's own program keep events until it is killed.
const childEnv = "SPOTWARD_TEST_JOURNAL"

// TestChild is no test of its own: it goes on with a journal for ever and says
// each seq once it was taken.
func TestChild(t *testing.T) {
	path := os.Getenv(childEnv)
	if !filepath.IsAbs(path) {
		t.Skip("run by other tests")
	}
	j, lines, _, err := journal.OpenFile(path, "child", time.Now)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("open")
	for seq := len(lines); err == nil; seq++ {
		err = j.Append(journal.Entry{Kind: "note", Payload: note{strings.Repeat("x", seq%500)}})
		if err == nil {
			fmt.Println(seq)
		}
	}
	fmt.Println(err)
}

// child starts this program again, to keep events at path until it is killed,
// and returns what it says from when it has the journal open.
func child(t *testing.T, path string) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^TestChild$")
	cmd.Env = append(os.Environ(), childEnv+"="+path)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	said := bufio.NewScanner(out)
	require.True(t, said.Scan())
	require.Equal(t, "open", said.Text())
	return cmd, said
}

// Killed at any moment, the program has on disk all that it said it took, and
// the next one goes on from there.
func TestKilledProgramLosesNothing(t *testing.T) {
	path := written(t, 0)
	dice := rand.New(rand.NewPCG(1, 2))
	times := *kills
	if testing.Short() {
		times = min(times, shortKills)
	}
	for range times {
		cmd, said := child(t, path)
		wait := time.Duration(dice.IntN(20_000)) * time.Microsecond
		go func() {
			time.Sleep(wait)
			_ = cmd.Process.Kill()
		}()
		last := 0
		for said.Scan() {
			if n, err := strconv.Atoi(said.Text()); err == nil {
				last = n
			}
		}
		require.Error(t, cmd.Wait(), "it was killed")
		lines, _, err := journal.Read(path)
		require.NoError(t, err)
		require.GreaterOrEqual(t, len(lines), last+1)
	}
	lines, _, err := journal.Read(path)
	require.NoError(t, err)
	t.Logf("%d kills, %d events, none missing", times, len(lines))
	require.Greater(t, len(lines), times/2, "the kills must fall among events")
}

func TestSecondProgramIsToldWhoHasTheSession(t *testing.T) {
	path := written(t, 0)
	cmd, _ := child(t, path)
	_, _, _, err := journal.OpenFile(path, "", sessiontest.Ticking())
	var held *journal.HeldError
	require.ErrorAs(t, err, &held)
	assert.Equal(t, cmd.Process.Pid, held.Holder.PID)
	host, _ := os.Hostname()
	assert.Equal(t, fmt.Sprintf("session %s is open in process %d on %s (child): go on there, or close it there first",
		sessiontest.ID, cmd.Process.Pid, host), err.Error())
	_, err = journal.Create(filepath.Dir(path), sessiontest.ID, "", sessiontest.Ticking())
	assert.ErrorAs(t, err, &held)

	require.NoError(t, cmd.Process.Kill())
	_ = cmd.Wait()
	j, _, _, err := journal.OpenFile(path, "", sessiontest.Ticking())
	require.NoError(t, err, "a lock does not outlive its program")
	require.NoError(t, j.Close())
}

// withFileSize does something while no file of this program grows beyond n
// bytes: to the program it is as on a full disk.
func withFileSize(t *testing.T, n int, do func()) {
	t.Helper()
	var old syscall.Rlimit
	require.NoError(t, syscall.Getrlimit(syscall.RLIMIT_FSIZE, &old))
	signal.Ignore(syscall.SIGXFSZ)
	require.NoError(t, syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: uint64(n), Max: old.Max}))
	do()
	require.NoError(t, syscall.Setrlimit(syscall.RLIMIT_FSIZE, &old))
	signal.Reset(syscall.SIGXFSZ)
}

// A disk that fills up in the middle of a line leaves the journal as it was,
// and the same event can be kept once there is room.
func TestJournalOnAFullDisk(t *testing.T) {
	// In a program of its own: the limit is for all of its files, those of the
	// test tool too.
	if os.Getenv(childEnv) == "" {
		cmd := exec.Command(os.Args[0], "-test.run=^TestJournalOnAFullDisk$", "-test.v")
		cmd.Env = append(os.Environ(), childEnv+"=full")
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, string(out))
		require.Contains(t, string(out), "full at 60 places")
		return
	}
	const places = 60
	for room := range places {
		j, err := journal.Create(t.TempDir(), sessiontest.ID, "", sessiontest.Ticking())
		require.NoError(t, err)
		require.NoError(t, j.Append(journal.Entry{Kind: "begin", Payload: nil}))
		before, err := os.ReadFile(j.Path())
		require.NoError(t, err)

		var kept error
		withFileSize(t, len(before)+room, func() {
			kept = j.Append(journal.Entry{Kind: "reading", Payload: note{"a line that is longer than the room left"}})
		})
		var unkept *journal.UnkeptError
		require.ErrorAs(t, kept, &unkept)
		sessiontest.AssertPlain(t, kept)
		require.Contains(t, kept.Error(), "reading could not be kept")
		after, err := os.ReadFile(j.Path())
		require.NoError(t, err)
		require.Equal(t, before, after)

		require.NoError(t, j.Append(journal.Entry{Kind: "reading", Payload: note{"again"}}))
		require.NoError(t, j.Close())
		lines, report, err := journal.Read(j.Path())
		require.NoError(t, err)
		require.Zero(t, report.TornBytes)
		require.Len(t, lines, 2)
	}
	t.Logf("full at %d places", places)
}

func TestJournalTakenAway(t *testing.T) {
	home := t.TempDir()
	dir, away := filepath.Join(home, "stick"), filepath.Join(home, "away")
	require.NoError(t, os.Mkdir(dir, 0o755))
	j, err := journal.Create(dir, sessiontest.ID, "", sessiontest.Ticking())
	require.NoError(t, err)
	require.NoError(t, j.Append(journal.Entry{Kind: "begin", Payload: nil}))

	require.NoError(t, os.Rename(dir, away))
	err = j.Append(journal.Entry{Kind: "reading", Payload: note{"lost?"}})
	require.Error(t, err, "a file that is no longer in its place takes lines without a word")
	assert.Equal(t, "reading could not be kept ("+j.Path()+": no such file or directory): "+
		"free the disk or choose another --data, or go on without a record", err.Error())

	require.NoError(t, os.Rename(away, dir))
	require.NoError(t, j.Append(journal.Entry{Kind: "reading", Payload: note{"back again"}}))

	require.NoError(t, os.Remove(j.Path()))
	require.Error(t, j.Append(journal.Entry{Kind: "reading", Payload: note{"deleted"}}))
	require.NoError(t, os.WriteFile(j.Path(), []byte("another file\n"), 0o644))
	require.ErrorContains(t, j.Append(journal.Entry{Kind: "reading", Payload: note{"replaced"}}), "was changed by something else")
	text, err := os.ReadFile(j.Path())
	require.NoError(t, err)
	assert.Equal(t, "another file\n", string(text), "what others have put there is not touched")
	require.NoError(t, j.Close())
}

func TestJournalWrittenToBySomethingElse(t *testing.T) {
	j, err := journal.Create(t.TempDir(), sessiontest.ID, "", sessiontest.Ticking())
	require.NoError(t, err)
	require.NoError(t, j.Append(journal.Entry{Kind: "begin", Payload: nil}))
	f, err := os.OpenFile(j.Path(), os.O_APPEND|os.O_WRONLY, 0)
	require.NoError(t, err)
	_, err = f.WriteString("hello\n")
	require.NoError(t, err)
	require.NoError(t, f.Close())
	require.ErrorContains(t, j.Append(journal.Entry{Kind: "note", Payload: nil}), "was changed by something else")
	require.NoError(t, j.Close())
}

// A copy that is made while the journal is written holds whole lines and at
// most one that is cut.
func TestJournalCopiedWhileItIsWritten(t *testing.T) {
	j, err := journal.Create(t.TempDir(), sessiontest.ID, "", sessiontest.Ticking())
	require.NoError(t, err)
	require.NoError(t, j.Append(journal.Entry{Kind: "begin", Payload: nil}))
	done := make(chan error, 1)
	go func() {
		var err error
		for i := 0; i < sessiontest.Of(20, 60, 300) && err == nil; i++ {
			err = j.Append(journal.Entry{Kind: "note", Payload: note{strings.Repeat("y", 3000)}})
		}
		done <- err
	}()
	copied := filepath.Join(t.TempDir(), sessiontest.ID+".jsonl")
	for running := true; running; {
		select {
		case err := <-done:
			require.NoError(t, err)
			running = false
		default:
		}
		data, err := os.ReadFile(j.Path())
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(copied, data, 0o644))
		_, _, err = journal.Read(copied)
		require.NoError(t, err)
	}
	require.NoError(t, j.Close())
}
