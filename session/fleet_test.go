package session_test

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
	"spotward/session"
)

// scribe keeps events as a journal would, without a disk.
type scribe struct {
	bytes.Buffer
	seq int
	t   time.Time
}

func (m *scribe) Keep(events ...session.Event) error {
	for _, ev := range events {
		body, err := json.Marshal(ev)
		if err != nil {
			return err
		}
		m.t = m.t.Add(20 * time.Second)
		fmt.Fprintf(m, `{"v":1,"seq":%d,"t":%q,"kind":%q`, m.seq, m.t.Format(time.RFC3339), ev.Kind)
		if len(body) > 2 {
			m.WriteByte(',')
		}
		m.Write(body[1:])
		m.WriteByte('\n')
		m.seq++
	}
	return nil
}

// look is a whole session that looks at a scope and leaves it alone.
type look struct {
	scope session.Scope
	who   string
	began time.Time
	nth   int
	p, t  optics.Seen
}

func (k look) id() string { return session.NewID(k.began, uint16(k.nth)) }

// play returns the session's journal and its record.
func (k look) play(t testing.TB) ([]byte, session.Record) {
	t.Helper()
	keep := &scribe{t: k.began}
	s, err := session.Start(session.Event{ID: k.id(), Scope: &k.scope, Kit: k.scope.Kit, Who: k.who, Check: true}, keep)
	require.NoError(t, err)
	for n := 0; !s.State().Over; n++ {
		require.Less(t, n, 20)
		ask, ev := s.State().Ask(), session.Event{Kind: session.KindConfirm}
		switch ask.Want {
		case session.WantChoice:
			ev = session.Event{Kind: session.KindChoice, Choice: ask.Options[0].ID}
		case session.WantReading:
			at := k.p
			if ask.Face == optics.FaceTarget {
				at = k.t
			}
			ev = session.Event{Kind: session.KindReading, Face: ask.Face, Saw: session.SawPlace, Right: at.Right, Up: at.Up}
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
func fillShelf(t testing.TB, l *session.Library, scopes, records int) {
	t.Helper()
	heron, err := os.ReadFile(filepath.Join(scopesDir, "heron.toml"))
	require.NoError(t, err)
	first, err := session.DecodeScope(heron)
	require.NoError(t, err)
	rnd := rand.New(rand.NewPCG(1, 2))
	var file bytes.Buffer
	for n := range 5 {
		require.NoError(t, l.SaveKit(session.Kit{Name: fmt.Sprint("Loan ", n+1), Laser: first.Laser}))
	}
	for n := range scopes {
		sc := first
		sc.Name, sc.Laser, sc.Kit = fmt.Sprintf("Heron %03d", n), session.Laser{}, fmt.Sprint("Loan ", n%5+1)
		require.NoError(t, os.WriteFile(filepath.Join(l.Dir(), "scopes", sc.Name+".toml"), session.EncodeScope(sc), 0o644))
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
	require.NoError(t, os.WriteFile(recordsPath(l), file.Bytes(), 0o644))
}

func fleetOf(t testing.TB, l *session.Library) session.Fleet {
	t.Helper()
	shelf, errs := l.Shelf()
	require.Empty(t, errs)
	return shelf.FleetAt(time.Date(2030, 1, 1, 0, 0, 0, 0, time.UTC))
}

func TestFleet(t *testing.T) {
	l := openLibrary(t)
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
	require.NoError(t, os.Remove(recordsPath(l)))
	assert.Equal(t, fleet, fleetOf(t, l))
}

// withLearnt makes the records as long as those of whole alignments.
func withLearnt(t testing.TB, l *session.Library) {
	t.Helper()
	records, errs := l.Records()
	require.Empty(t, errs)
	var file bytes.Buffer
	taught := map[optics.Mirror]*session.Taught{}
	telescope := session.Builtin().Telescope()
	for _, m := range []optics.Mirror{optics.Primary, optics.Secondary} {
		learnt := optics.NewTracker(telescope, m, nil).Learnt()
		taught[m] = &learnt
	}
	for _, r := range records {
		r.Learnt = taught
		line, err := json.Marshal(r)
		require.NoError(t, err)
		file.Write(append(line, '\n'))
	}
	require.NoError(t, os.WriteFile(recordsPath(l), file.Bytes(), 0o644))
	t.Logf("%d bytes a record", file.Len()/len(records))
}

// The fleet's table from cold.
func BenchmarkFleet(b *testing.B) {
	l, err := session.OpenLibrary(filepath.Join(b.TempDir(), "data"))
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
