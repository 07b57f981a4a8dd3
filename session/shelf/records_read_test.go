package shelf_test

import (
	"os"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/sessiontest"
)

// junk are files of no records, so many bytes long.
func junk(n int) map[string]string {
	return map[string]string{
		"newlines":         strings.Repeat("\n", n),
		"empty objects":    strings.Repeat("{}\n", n/3),
		"words":            strings.Repeat("x\n", n/2),
		"zeros":            strings.Repeat("\x00", n),
		"one long line":    strings.Repeat("{", n) + "\n",
		"records of none":  strings.Repeat(`{"v":1,"id":"none","scope":"Heron"}`+"\n", n/36),
		"one record again": strings.Repeat(`{"v":1,"id":"20260214T203001Z-0001","scope":"Heron"}`+"\n", n/53),
	}
}

// fromSystem returns how much memory the program has asked for, bytes. It never
// shrinks.
func fromSystem() uint64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.Sys
}

// What is no record costs no memory worth speaking of, however long the file.
func TestJunkInTheRecordsCostsNoMemory(t *testing.T) {
	const size, most = 4 << 20, 64 << 20
	sessiontest.Whole(t)
	for name, text := range junk(size) {
		t.Run(name, func(t *testing.T) {
			l := sessiontest.OpenShelf(t)
			sessiontest.Stopped(t, l, sessiontest.NthID(1), "heron")
			require.NoError(t, os.WriteFile(sessiontest.RecordsPath(l), []byte(text), 0o644))
			before := fromSystem()
			assert.Equal(t, []string{sessiontest.NthID(1)}, recordIDs(t, l))
			assert.Less(t, fromSystem()-before, uint64(most), "bytes")
			assert.Less(t, len(readFile(t, sessiontest.RecordsPath(l))), 4<<10, "it is mended")
		})
	}
}

func TestJunkInAPackCostsNoMemory(t *testing.T) {
	const size, most = 4 << 20, 64 << 20
	for name, text := range junk(size) {
		t.Run(name, func(t *testing.T) {
			l := sessiontest.OpenShelf(t)
			pack := zipOf(t, "spotward-pack.json", `{"v":1}`, "records.jsonl", text)
			before := fromSystem()
			taken := take(t, l, pack)
			assert.Empty(t, taken.Refused)
			assert.Less(t, fromSystem()-before, uint64(most), "bytes")
		})
	}
}

// A line that no record is as long as is passed over, and the next one read.
func TestALongLineAmongTheRecords(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	for n := range 2 {
		sessiontest.Stopped(t, l, sessiontest.NthID(n), "heron")
	}
	recordIDs(t, l)
	lines := strings.SplitAfter(readFile(t, sessiontest.RecordsPath(l)), "\n")
	require.NoError(t, os.WriteFile(sessiontest.RecordsPath(l), []byte(lines[0]+strings.Repeat("x", 300<<10)+"\n"+lines[1]), 0o644))
	assert.Equal(t, []string{sessiontest.NthID(0), sessiontest.NthID(1)}, recordIDs(t, l))
	assert.Equal(t, lines[0]+lines[1], readFile(t, sessiontest.RecordsPath(l)))
}

// How far the summing up is, is told to its end.
func TestProgressOfSummingUp(t *testing.T) {
	sessiontest.Whole(t)
	l := sessiontest.OpenShelf(t)
	fillShelf(t, l, 3, 250)
	require.NoError(t, os.Remove(sessiontest.RecordsPath(l)))
	var most, all atomic.Int64
	l.Progress = func(done, of int) { most.Store(max(most.Load(), int64(done))); all.Store(int64(of)) }
	l.CatchUp()
	assert.Positive(t, all.Load())
	assert.Equal(t, all.Load(), most.Load())
	all.Store(0)
	l.CatchUp() // nothing is left to do
	assert.Zero(t, all.Load())
}
