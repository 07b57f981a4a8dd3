package history_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/history"
)

// A loose spring is found, mended and logged: what it did before says nothing of
// the scope any more, and the primary counts afresh. A note changes nothing.
func TestWorkHasAPartCountAfresh(t *testing.T) {
	sh := newShed(t, 1, "Curlew")
	s := sh.seasons[0]
	loose := func() {
		for n := range 8 {
			s.primaryMoves(s.some(4, 7))
			s.visit(n%2 == 0)
		}
	}
	s.visit(true)
	loose()
	at := s.when.AddDate(0, 0, 2)
	row := func(work ...history.Job) history.FleetRow {
		st := sh.stock(t)
		st.Work = work
		return st.FleetAt(at.AddDate(0, 0, 1)).Scopes[0]
	}
	require.Equal(t, history.HintSprings, row().Suspicion.ID)
	note := history.Job{V: 1, T: at, Scope: "curlew", What: "the focuser is sticky"}
	other := history.Job{V: 1, T: at, Scope: "Curlew", Part: history.PartSecondary, What: "its holder tightened"}
	for _, j := range []history.Job{note, other} {
		got := row(j)
		assert.Equal(t, history.HintSprings, got.Suspicion.ID, j.What)
		assert.Equal(t, []history.Job{j}, got.Drift.Work)
	}
	spring := history.Job{V: 1, T: at, Scope: "Curlew", Part: history.PartPrimary, What: "spring C replaced", Who: "Ida"}
	mended := row(spring)
	assert.Nil(t, mended.Suspicion)
	assert.Equal(t, mended.Drift.Holds, mended.Drift.Of)
	assert.Equal(t, "a first look", mended.Needs)
	assert.Equal(t, "primary: spring C replaced (Ida)", spring.Words())

	st := sh.stock(t)
	st.Work = []history.Job{spring}
	tasks := st.FleetAt(at.AddDate(0, 0, 1)).Todo(at.AddDate(0, 0, 1))
	require.Equal(t, "Curlew", tasks[0].Scope)
	assert.Contains(t, tasks[0].Why, "spring C replaced")

	loose()
	again := row(spring)
	require.NotNil(t, again.Suspicion, "it was not the spring")
	assert.Less(t, again.Suspicion.Of, 10, "what moved before is not counted")
}

// A laser is mended: the kit is no longer held back, and what it did until then
// is held against no scope. One that is retired asks for nothing.
func TestAMendedKitCountsAfresh(t *testing.T) {
	sh := season12(t, 1)
	st := sh.stock(t)
	at := st.Records[len(st.Records)-1].Ended.AddDate(0, 0, 1)
	held := func(f history.Fleet) (kits, scopes []string) {
		for _, k := range f.Kits {
			if k.Tag != "" {
				kits = append(kits, k.Kit)
			}
		}
		for _, r := range f.Scopes {
			if r.Suspicion != nil && r.Suspicion.ID != history.HintSettled && r.Suspicion.ID != history.HintKit {
				scopes = append(scopes, r.Scope)
			}
		}
		return kits, scopes
	}
	kits, scopes := held(st.FleetAt(at))
	require.Equal(t, []string{"Blue box"}, kits)
	st.Work = []history.Job{{V: 1, T: at, Kit: "blue box", Part: history.PartLaser, What: "collimated on a bench"}}
	circle := 12.0
	st.Records[len(st.Records)-1].CircleMM, st.Records[len(st.Records)-1].Kit = &circle, "Blue box"
	sc := st.Scopes[0]
	sc.Kit = "Blue box"
	assert.Nil(t, st.Knew(sc).Circle, "of the laser as it was")
	now, same := held(st.FleetAt(at.Add(time.Hour)))
	assert.Empty(t, now)
	assert.Equal(t, scopes, same, "its scopes stay cleared")

	st.Work, st.Gone = nil, []string{"Blue box"}
	for n, k := range st.Kits {
		if k.Name == "Blue box" {
			st.Kits = append(st.Kits[:n:n], st.Kits[n+1:]...)
		}
	}
	gone := st.FleetAt(at)
	_, same = held(gone)
	assert.Equal(t, scopes, same)
	for _, task := range gone.Todo(at) {
		assert.NotEqual(t, "Blue box", task.Kit)
	}
}
