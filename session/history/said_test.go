package history_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/history"
)

// Who is about to turn a screw is told what the records know of the scope and
// of the kit in hand.
func TestSaidBeforeTheFirstScrew(t *testing.T) {
	now := time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC)
	st := season12(t, 1).stock(t)
	said := st.Said("curlew", "blue box", now)
	require.Len(t, said, 2)
	assert.Regexp(t, `^Curlew came back out in \d+ of its last 10 looks: primary: springs or locks, at B\. Look at the spring and the lock of screw B first\.$`, said[0])
	assert.Regexp(t, `^Blue box: off on 3 of 3 scopes; .* Hold this kit back\.$`, said[1])

	assert.NotEmpty(t, st.FleetAt(now).Suspect("blue box"))
	assert.Empty(t, st.FleetAt(now).Suspect("red box"))
	assert.Empty(t, st.FleetAt(now).Suspect(""))

	for i := range st.Records {
		if r := &st.Records[i]; r.Scope == "Fulmar" {
			r.Tag, r.TagWhy = session.TagHoldBack, "the primary would not lock"
		}
	}
	said = st.Said("Fulmar", "Red box", now)
	assert.Contains(t, strings.Join(said, "\n"), "It was held back on ")
	assert.Contains(t, strings.Join(said, "\n"), "The primary would not lock.")
	st.Records[len(st.Records)-1].Outcome = session.OutcomeStopped
	assert.Contains(t, strings.Join(st.Said("Egret", "", now), "\n"), "ended unfinished.")
	st.Unfinished = []history.Unfinished{{ID: "x-1", Scope: "Egret"}}
	assert.Contains(t, strings.Join(st.Said("Egret", "", now), "\n"), "left in the middle: x-1.")
}
