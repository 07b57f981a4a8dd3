package shelf_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

// scribe keeps events as a journal would, without a disk.
type scribe struct {
	bytes.Buffer
	seq  int
	t    time.Time
	last []byte
}

func (m *scribe) Keep(events ...event.Event) error {
	for _, ev := range events {
		body, err := json.Marshal(ev)
		if err != nil {
			return err
		}
		m.t = m.t.Add(20 * time.Second)
		open := fmt.Appendf(nil, `{"v":2,"seq":%d,"t":%q,"kind":%q`, m.seq, m.t.Format(time.RFC3339), ev.Kind)
		if len(body) > 2 {
			open = append(open, ',')
		}
		m.last = journal.Summed(m.last, append(open, body[1:len(body)-1]...))
		m.Write(m.last)
		m.seq++
	}
	return nil
}

// look is a whole session that looks at a scope and leaves it alone.
type look struct {
	scope scope.Scope
	who   string
	began time.Time
	nth   int
	p, t  optics.Seen
}

func (k look) id() string { return journal.NewID(k.began, uint16(k.nth)) }

// play returns the session's journal and its record.
func (k look) play(t testing.TB) ([]byte, session.Record) {
	t.Helper()
	keep := &scribe{t: k.began}
	s, err := session.Start(event.Event{ID: k.id(), Scope: &k.scope, Kit: k.scope.Kit, Who: k.who, Check: true}, keep)
	require.NoError(t, err)
	for n := 0; !s.State().Over; n++ {
		require.Less(t, n, 20)
		ask, ev := s.State().Ask(), event.Event{Kind: event.KindConfirm}
		switch ask.Want {
		case session.WantChoice:
			ev = event.Event{Kind: event.KindChoice, Choice: ask.Options[0].ID}
		case session.WantReading:
			at := k.p
			if ask.Face == optics.FaceTarget {
				at = k.t
			}
			ev = event.Event{Kind: event.KindReading, Face: ask.Face, Saw: event.SawPlace, Right: at.Right, Up: at.Up}
		}
		require.NoError(t, s.Do(ev))
	}
	r := s.State().Record()
	r.Began, r.Ended = k.began.Add(20*time.Second), keep.t
	return keep.Bytes(), r
}

// fillShelf puts so many scopes and records into a library: every scope a bird
// with a number, looked at every few weeks and moving a little, each its own
// way, by one of five kits.
func fillShelf(t testing.TB, l *shelf.Shelf, scopes, records int) {
	t.Helper()
	heron, err := os.ReadFile(filepath.Join(sessiontest.ScopesDir, "heron.toml"))
	require.NoError(t, err)
	first, err := scope.DecodeScope(heron)
	require.NoError(t, err)
	rnd := rand.New(rand.NewPCG(1, 2))
	var file bytes.Buffer
	for n := range 5 {
		require.NoError(t, l.SaveKit(scope.Kit{Name: fmt.Sprint("Loan ", n+1), Laser: first.Laser}))
	}
	for n := range scopes {
		sc := first
		sc.Name, sc.Laser, sc.Kit = fmt.Sprintf("Heron %03d", n), scope.Laser{}, fmt.Sprint("Loan ", n%5+1)
		require.NoError(t, os.WriteFile(filepath.Join(l.Dir(), "scopes", sc.Name+".toml"), scope.EncodeScope(sc), 0o644))
		began := time.Date(2020, 1, 1, 18, n%60, n/60, 0, time.UTC)
		k := look{scope: sc, who: fmt.Sprint("Volunteer ", n%40)}
		loose := float64(n % 4) // how far it moves in between, mm
		for i := range records / scopes {
			k.nth, k.began = i, began.AddDate(0, 0, 20*i)
			k.p = optics.Seen{Right: loose * rnd.NormFloat64(), Up: loose * rnd.NormFloat64()}
			k.t = optics.Seen{Right: 2 * rnd.NormFloat64(), Up: loose * rnd.NormFloat64()}
			journal, r := k.play(t)
			require.NoError(t, os.WriteFile(filepath.Join(l.Dir(), "journals", r.ID+".jsonl"), journal, 0o644))
			line, err := json.Marshal(r)
			require.NoError(t, err)
			file.Write(append(line, '\n'))
		}
	}
	require.NoError(t, os.WriteFile(sessiontest.RecordsPath(l), file.Bytes(), 0o644))
}

func fleetOf(t testing.TB, l *shelf.Shelf) history.Fleet {
	t.Helper()
	shelf, errs := l.Shelf()
	require.Empty(t, errs)
	return shelf.FleetAt(time.Date(2030, 1, 1, 0, 0, 0, 0, time.UTC))
}

func TestFleet(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	fillShelf(t, l, 12, 60)
	fleet := fleetOf(t, l)
	require.Len(t, fleet.Scopes, 12)
	require.Len(t, fleet.Kits, 5)
	for _, row := range fleet.Scopes {
		assert.Len(t, row.Series, 5)
		assert.Equal(t, 4, row.Drift.Of)
		assert.Equal(t, row.Series[4], row.Found)
		assert.True(t, row.Found.Claimed())
	}
	assert.Less(t, fleet.Scopes[3].Drift.Holds, fleet.Scopes[0].Drift.Of, "its spots wander by some mm")

	// The records are a convenience: from the journals alone it is the same.
	require.NoError(t, os.Remove(sessiontest.RecordsPath(l)))
	assert.Equal(t, fleet, fleetOf(t, l))
}

// withLearnt makes the records as long as those of whole alignments.
func withLearnt(t testing.TB, l *shelf.Shelf) {
	t.Helper()
	records, errs := l.Records()
	require.Empty(t, errs)
	var file bytes.Buffer
	taught := map[optics.Mirror]*event.Taught{}
	telescope := scope.Builtin().Telescope()
	for _, m := range []optics.Mirror{optics.Primary, optics.Secondary} {
		learnt := adviser.NewTracker(telescope, m, nil).Learnt()
		taught[m] = &learnt
	}
	for _, r := range records {
		r.Learnt = taught
		line, err := json.Marshal(r)
		require.NoError(t, err)
		file.Write(append(line, '\n'))
	}
	require.NoError(t, os.WriteFile(sessiontest.RecordsPath(l), file.Bytes(), 0o644))
	t.Logf("%d bytes a record", file.Len()/len(records))
}

// The fleet's table from cold.
func BenchmarkFleet(b *testing.B) {
	l, err := shelf.Open(filepath.Join(b.TempDir(), "data"))
	require.NoError(b, err)
	fillShelf(b, l, 300, 20000)
	withLearnt(b, l)
	runtime.GC()
	for b.Loop() {
		require.Len(b, fleetOf(b, l).Scopes, 300)
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	b.ReportMetric(float64(m.Sys)/(1<<20), "MB")
}
