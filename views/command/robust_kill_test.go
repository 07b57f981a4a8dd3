//go:build !windows

package command_test

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
)

var kills = flag.Int("kills", 50, "how often the real program is killed in the middle of its work")

// shortKills is how often with -short.
const shortKills = 8

// piped is the program driven by lines, as over a serial line.
type piped struct {
	t   *testing.T
	cmd *exec.Cmd
	in  io.WriteCloser
	out *bufio.Scanner
	err *strings.Builder
}

func overPipes(t *testing.T, args ...string) *piped {
	t.Helper()
	p := &piped{t: t, cmd: exec.Command(program(t), args...), err: &strings.Builder{}}
	p.cmd.Env = append(os.Environ(), "ACCESSIBLE=")
	p.cmd.Stderr = p.err
	in, err := p.cmd.StdinPipe()
	require.NoError(t, err)
	out, err := p.cmd.StdoutPipe()
	require.NoError(t, err)
	p.in, p.out = in, bufio.NewScanner(out)
	p.out.Buffer(nil, 1<<20)
	require.NoError(t, p.cmd.Start())
	t.Cleanup(func() { _ = p.cmd.Process.Kill() })
	return p
}

// says sends a line. One that the program no longer reads is lost, as it would
// be.
func (p *piped) says(line string) { _, _ = io.WriteString(p.in, line+"\n") }

// talker answers over one of the faces that take lines.
type talker interface {
	// answer sends an answer to what is asked and reports whether it was said
	// to be taken; false, false is the program's end.
	answer(p *piped, dice *rand.Rand) (taken, alive bool)
}

// feeder answers over feed. An answer is taken once the next question is out.
type feeder struct{ started bool }

func (f *feeder) answer(p *piped, dice *rand.Rand) (taken, alive bool) {
	if !p.out.Scan() {
		return false, false
	}
	var asked struct {
		Want    session.Want
		Options []string
		Error   string
		Done    bool
	}
	require.NoError(p.t, json.Unmarshal(p.out.Bytes(), &asked))
	taken = f.started && asked.Error == ""
	f.started = true
	if asked.Done {
		return taken, false
	}
	switch asked.Want {
	case session.WantChoice:
		p.says(fmt.Sprintf(`{"choice":%q}`, asked.Options[0]))
	case session.WantReading:
		p.says(fmt.Sprintf(`{"reading":{"right":%.2f,"up":%.2f}}`, 8*dice.Float64(), 8*dice.Float64()))
	default:
		p.says(`{"confirm":true}`)
	}
	return taken, true
}

// speaker answers over talk. An answer is taken once it is said back.
type speaker struct{ begun bool }

func (s *speaker) answer(p *piped, dice *rand.Rand) (taken, alive bool) {
	if s.begun {
		for {
			if !p.out.Scan() {
				return false, false
			}
			if taken = strings.HasPrefix(p.out.Text(), "Understood:"); taken || strings.HasPrefix(p.out.Text(), "Not taken:") {
				break
			}
		}
	}
	s.begun = true
	p.says([]string{"1", "yes", fmt.Sprintf("4 %d", dice.IntN(12)), fmt.Sprintf("+%d -3", dice.IntN(12))}[dice.IntN(4)])
	return taken, true
}

// answers counts what a person said in a journal.
func answers(lines []session.Line) int {
	n := 0
	for _, l := range lines {
		switch session.Kind(l.Kind) {
		case session.KindConfirm, session.KindChoice, session.KindReading:
			n++
		}
	}
	return n
}

// Whenever it is killed, what the program has said it took is on disk, the
// journal leads to a state, and the next program goes on from there.
func TestKilledInTheMiddleOfAnything(t *testing.T) {
	times := *kills
	if testing.Short() {
		times = min(times, shortKills)
	}
	for name, face := range map[string]func() talker{
		"feed": func() talker { return &feeder{} },
		"talk": func() talker { return &speaker{} },
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			lib, err := session.OpenLibrary(dir)
			require.NoError(t, err)
			dice := rand.New(rand.NewPCG(7, uint64(len(name)+times)))
			known := map[string]int{} // answers in each journal
			kept, sessions := 0, 0
			for n := range times {
				args := []string{name, "--data", dir, "Dunlin"}
				if open, _ := lib.Unfinished(""); len(open) > 0 {
					args = append(args, "--resume", open[0].ID)
				} else {
					sessions++
				}
				p := overPipes(t, args...)
				acked := 0
				killed := killLater(p, dice)
				for to := face(); ; {
					taken, alive := to.answer(p, dice)
					if taken {
						acked++
					}
					if !alive {
						break
					}
				}
				_ = p.cmd.Wait()
				killed.Stop()
				more := checkJournals(t, lib, known)
				require.GreaterOrEqual(t, more, acked, "kill %d: an answer that was taken is not on disk", n)
				require.LessOrEqual(t, more, acked+1, "kill %d: more was kept than was said", n)
				kept += acked
			}
			t.Logf("%d kills over %s: %d accepted answers in %d sessions, none missing", times, name, kept, sessions)
			assert.Greater(t, kept, times/2, "the kills must fall among answers")
		})
	}
}

// killLater kills the program at a moment between its start and some dozen
// answers later.
func killLater(p *piped, dice *rand.Rand) *time.Timer {
	after := time.Duration(dice.IntN(80_000)) * time.Microsecond
	return time.AfterFunc(after, func() { _ = p.cmd.Process.Signal(syscall.SIGKILL) })
}

// checkJournals folds every journal and returns how many answers they hold
// beyond those known, which it brings up to date.
func checkJournals(t *testing.T, lib *session.Library, known map[string]int) int {
	t.Helper()
	open, errs := lib.Unfinished("")
	require.Empty(t, errs)
	records, errs := lib.Records()
	require.Empty(t, errs)
	ids := make([]string, 0, len(open)+len(records))
	for _, o := range open {
		ids = append(ids, o.ID)
	}
	for _, r := range records {
		ids = append(ids, r.ID)
	}
	more := 0
	for _, id := range ids {
		lines, _, err := lib.ReadJournal(id)
		require.NoError(t, err)
		events, err := session.Events(lines)
		require.NoError(t, err)
		_, err = session.Fold(events)
		require.NoError(t, err)
		n := answers(lines)
		more += n - known[id]
		known[id] = n
	}
	return more
}

// On the drawn screens: the next question shows that the answer was taken.
func TestKilledOnATerminal(t *testing.T) {
	steps := []struct{ typed, shows, kept string }{
		{"", "Why are we", "begin"},
		{"\r", "Laser home", `"choice":"routine"`},
		{"\r", "How wide", `"kind":"confirm"`},
		{"1\r", "is the spot", `"choice":"still"`},
	}
	for until := range steps {
		dir := t.TempDir()
		s := onScreen(t, "--data", dir, "practice", "--seed", "2")
		for _, step := range steps[:until+1] {
			s.write(t, step.typed)
			eventually(t, step.shows, func() bool { return strings.Contains(s.text(), step.shows) })
		}
		require.NoError(t, s.cmd.Process.Signal(syscall.SIGKILL))
		_ = s.cmd.Wait()
		<-s.end
		lib, err := session.OpenLibrary(dir)
		require.NoError(t, err)
		known := map[string]int{}
		checkJournals(t, lib, known)
		require.Len(t, known, 1)
		for id, n := range known {
			lines, _, err := lib.ReadJournal(id)
			require.NoError(t, err)
			require.Equal(t, until, n)
			var all strings.Builder
			for _, l := range lines {
				all.Write(l.Raw)
			}
			require.Contains(t, all.String(), steps[until].kept)
			out, err := exec.Command(program(t), "talk", "--data", dir, "--resume", id).CombinedOutput()
			require.Error(t, err, "no lines are said: unfinished")
			require.Contains(t, string(out), "Scope Dunlin")
		}
	}
	t.Logf("%d kills on a terminal", len(steps))
}
