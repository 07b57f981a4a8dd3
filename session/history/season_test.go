package history_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session/history"
)

// A scope that works loose more and more is worse, one that holds is steady, and
// the work of the time is in the summary.
func TestASeasonsSummary(t *testing.T) {
	sh := newShed(t, 1, "Curlew", "Dipper", "Egret")
	for n := range 10 {
		for _, s := range sh.seasons[:2] {
			if s.name == "Curlew" {
				s.primaryMoves(optics.Tube{X: 0.7 * float64(n)})
			}
			s.visit(true)
		}
	}
	st := sh.stock(t)
	last := st.Records[9].Ended
	st.Work = []history.Job{{V: 1, T: last, Scope: "Curlew", Part: history.PartPrimary, What: "spring C replaced"}}
	got := st.SeasonOf(history.Pick{})
	require.Len(t, got.Rows, 3)
	assert.Equal(t, []history.Trend{history.TrendWorse, history.TrendSteady, history.TrendOpen},
		[]history.Trend{got.Rows[0].Trend, got.Rows[1].Trend, got.Rows[2].Trend})
	assert.Equal(t, 20, got.Looks)
	assert.Equal(t, 20, got.Aligned)
	assert.Len(t, got.Rows[0].Work, 1)
	assert.Equal(t, 0, st.SeasonOf(history.Pick{Since: last.AddDate(1, 0, 0)}).Looks)
	assert.Empty(t, st.SeasonOf(history.Pick{Until: last}).Rows[0].Work)
}
