package history_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/history"
)

// A shed on one day: the spring, the bad laser, a look that is overdue by the
// scope's own interval, and one that is not.
func TestTodo(t *testing.T) {
	st := season12(t, 1).stock(t)
	last := st.Records[len(st.Records)-1].Began
	for i, sc := range st.Scopes {
		switch sc.Name {
		case "Fulmar":
			st.Scopes[i].CheckDays = 7
		case "Dipper":
			st.Scopes[i].CheckDays = 300
		}
	}
	tasks := st.FleetAt(last.AddDate(0, 0, 20)).Todo(last.AddDate(0, 0, 20))
	of := map[string]history.Task{}
	for _, k := range tasks {
		of[k.Name()] = k
	}
	require.NotEmpty(t, tasks)
	assert.Equal(t, "Fulmar", tasks[0].Scope, "overdue first")
	assert.Contains(t, []int{13, 14, 15}, tasks[0].Days)
	assert.Contains(t, tasks[0].Why, "due every 7 days")
	assert.Equal(t, history.NeedHoldBack, of["Blue box"].Need)
	assert.Equal(t, history.NeedMend, of["Curlew"].Need)
	assert.NotContains(t, of, "Dipper")
	assert.NotContains(t, of, "Red box")
	for n := 1; n < len(tasks); n++ {
		a, b := tasks[n-1], tasks[n]
		assert.True(t, a.Days > 0 || b.Days == 0, "overdue before what is not")
	}
}

func TestPickOfAFleet(t *testing.T) {
	st := season12(t, 1).stock(t)
	fleet := st.FleetAt(time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC))
	blue := fleet.Pick(history.Pick{Kit: "blue box"})
	assert.Len(t, blue.Scopes, 3)
	require.Len(t, blue.Kits, 1)
	assert.Empty(t, fleet.Pick(history.Pick{Where: "the moon"}).Scopes)
	assert.Len(t, fleet.Pick(history.Pick{}).Scopes, 6)
}
