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
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/shelf"
)

// usualKills is how often a face is killed where -kills does not say.
const usualKills = 8

var kills = flag.Int("kills", usualKills, "how often the real program is killed in the middle of its work")

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
	late := time.AfterFunc(patience, func() { _ = p.cmd.Process.Kill() })
	t.Cleanup(func() { late.Stop(); _ = p.cmd.Process.Kill() })
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
			if taken = strings.HasPrefix(p.out.Text(), "Understood:"); taken || strings.HasPrefix(p.out.Text(), "Not accepted:") {
				break
			}
		}
	}
	s.begun = true
	p.says([]string{"1", "yes", fmt.Sprintf("4 %d", dice.IntN(12)), fmt.Sprintf("+%d -3", dice.IntN(12))}[dice.IntN(4)])
	return taken, true
}

// Whenever it is killed, what the program has said it took is on disk, the
// journal leads to a state, and the next program goes on from there.
func TestKilledInTheMiddleOfAnything(t *testing.T) {
	times := *kills
	for name, face := range map[string]func() talker{
		"feed": func() talker { return &feeder{} },
		"talk": func() talker { return &speaker{} },
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			lib, err := shelf.Open(dir)
			require.NoError(t, err)
			dice := rand.New(rand.NewPCG(7, uint64(len(name)+times)))
			var open held
			seen := map[string]bool{}
			total, sessions := 0, 0
			for n := range times {
				args := []string{name, "--data", dir, "Dunlin"}
				if open.id != "" && !open.over && n%killsASession != 0 {
					args = append(args, "--resume", open.id)
				} else {
					open, sessions = held{}, sessions+1
				}
				p := overPipes(t, args...)
				acked, last := 0, 1+dice.IntN(6) // one in six falls into its start
				within := patientMS
				if n%6 == 0 {
					within = startMS
				}
				killed := killAfter(p, within, dice)
				for to := face(); ; {
					taken, alive := to.answer(p, dice)
					if !alive {
						if taken {
							acked++
						}
						break
					}
					if acked == last {
						killed.Stop()
						killed = killAfter(p, answerMS, dice)
					}
					if taken {
						acked++
					}
				}
				_ = p.cmd.Wait()
				killed.Stop()
				before := open
				if open = newest(t, lib); before.id == "" && seen[open.id] {
					open = held{} // killed before there was a new one
				}
				seen[open.id] = open.id != ""
				require.GreaterOrEqual(t, open.answers-before.answers, acked, "kill %d: an answer that was taken is not on disk", n)
				require.LessOrEqual(t, open.answers-before.answers, acked+1, "kill %d: more was kept than was said", n)
				total += acked
			}
			t.Logf("%d kills over %s: %d accepted answers in %d sessions, none missing", times, name, total, sessions)
			assert.Greater(t, total, times/2, "the kills must fall among answers")
		})
	}
}

// killsASession is after how many kills a new session is begun: a long one
// takes long to fold.
const killsASession = 12

// How long the program lives at most: where the kill is to fall into its start;
// after the last answer that is waited for; and where that answer never comes.
const (
	startMS   = 20
	answerMS  = 12
	patientMS = 4000
)

// killAfter kills the program at some moment within ms.
func killAfter(p *piped, ms int, dice *rand.Rand) *time.Timer {
	after := time.Duration(dice.IntN(1000*ms)) * time.Microsecond
	return time.AfterFunc(after, func() { _ = p.cmd.Process.Signal(syscall.SIGKILL) })
}

// held is what a journal holds.
type held struct {
	id      string
	answers int // of a person
	over    bool
}

// newest reads and folds the journal that was written to last; there may
// be none yet, or one in which nothing stands.
func newest(t *testing.T, lib *shelf.Shelf) held {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(lib.Dir(), "journals", "*.jsonl"))
	require.NoError(t, err)
	slices.SortFunc(files, func(a, b string) int { return written(t, a).Compare(written(t, b)) })
	if len(files) == 0 {
		return held{}
	}
	id := strings.TrimSuffix(filepath.Base(files[len(files)-1]), ".jsonl")
	lines, _, err := lib.ReadJournal(id)
	require.NoError(t, err)
	if len(lines) == 0 {
		return held{}
	}
	events, err := session.Events(lines)
	require.NoError(t, err)
	state, err := session.Fold(events)
	require.NoError(t, err)
	k := held{id: id, over: state.Over}
	for _, ev := range events {
		switch ev.Kind {
		case event.KindConfirm, event.KindChoice, event.KindReading:
			k.answers++
		}
	}
	return k
}

// written returns when a journal was last written to.
func written(t *testing.T, path string) time.Time {
	t.Helper()
	info, err := os.Stat(path)
	require.NoError(t, err)
	return info.ModTime()
}

// On the drawn screens: the next question shows that the answer was taken.
func TestKilledOnATerminal(t *testing.T) {
	steps := []struct{ typed, shows, kept string }{
		{"", "Motors off", "begin"},
		{"\r", "Laser in and", `"choice":"routine"`},
		{"none\r", "How wide", `"face":"card"`},
		{"1\r", "4:30 2r", `"choice":"still"`},
	}
	for until := range steps {
		dir := t.TempDir()
		s := onScreen(t, "--data", dir, "practice", "--seed", "2")
		for _, step := range steps[:until+1] {
			s.write(t, step.typed)
			s.shows(t, step.shows)
		}
		require.NoError(t, s.cmd.Process.Signal(syscall.SIGKILL))
		_ = s.cmd.Wait()
		<-s.end
		lib, err := shelf.Open(dir)
		require.NoError(t, err)
		k := newest(t, lib)
		require.Equal(t, until, k.answers)
		lines, _, err := lib.ReadJournal(k.id)
		require.NoError(t, err)
		var all strings.Builder
		for _, l := range lines {
			all.Write(l.Raw)
		}
		require.Contains(t, all.String(), steps[until].kept)
		out, err := exec.Command(program(t), "talk", "--data", dir, "--resume", k.id).CombinedOutput()
		require.Error(t, err, "no lines are said: unfinished")
		require.Contains(t, string(out), "Scope Dunlin")
	}
	t.Logf("%d kills on a terminal", len(steps))
}
