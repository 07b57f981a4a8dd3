package history

import (
	"math"
	"slices"

	"spotward/session"
)

// Trend is how the looks of a season go.
type Trend string

// The trends. What is found is set against what is allowed, the later half of the
// looks against the earlier one.
const (
	TrendBetter Trend = "better"
	TrendWorse  Trend = "worse"
	TrendSteady Trend = "steady"
	TrendOpen   Trend = "too few looks"
)

// leastTrend is how many looks a trend takes, trendTimes by how much the medians of
// the halves must differ, and trendSigmas how far their ranks must be from chance:
// one of fifty. This program's own choice.
const (
	leastTrend  = 8
	trendTimes  = 1.5
	trendSigmas = 2.05
)

// SeasonRow is one scope in a season's summary.
type SeasonRow struct {
	Scope   string
	Looks   int
	Home    int // found within what is allowed
	Of      int // of so many in which it was claimed
	Aligned int
	Found   []Times // oldest first
	Trend   Trend
	Tag     string // of the last look in the season
	Work    []Job
}

// Season is what was done in a time, for those who were not there.
type Season struct {
	Rows                   []SeasonRow
	Looks, Aligned, People int
}

// SeasonOf returns the summary of the records that are wanted, and of the work of
// the same time. Scopes that were not looked at are in it as well.
func (s Stock) SeasonOf(p Pick) Season {
	var out Season
	people := map[string]bool{}
	of := map[string][]session.Record{}
	for _, r := range p.Of(s.Records) {
		if Counts(r) {
			of[nameKey(r.Scope)] = append(of[nameKey(r.Scope)], r)
			if r.Who != "" {
				people[nameKey(r.Who)] = true
			}
		}
	}
	for _, sc := range s.Scopes {
		row := SeasonRow{Scope: sc.Name, Work: slices.DeleteFunc(JobsOfScope(s.Work, sc.Name), func(j Job) bool {
			return !p.Since.IsZero() && j.T.Before(p.Since) || !p.Until.IsZero() && !j.T.Before(p.Until)
		})}
		for _, r := range of[nameKey(sc.Name)] {
			row.add(r)
		}
		row.Trend = trendOf(row.Found)
		out.Looks, out.Aligned = out.Looks+row.Looks, out.Aligned+row.Aligned
		out.Rows = append(out.Rows, row)
	}
	out.People = len(people)
	return out
}

func (row *SeasonRow) add(r session.Record) {
	row.Looks, row.Tag = row.Looks+1, r.Tag
	if r.Outcome == session.OutcomeAligned {
		row.Aligned++
	}
	found := timesOf(r, r.Found)
	row.Found = append(row.Found, found)
	if found.Claimed() {
		row.Of++
		if found <= 1 {
			row.Home++
		}
	}
}

func trendOf(found []Times) Trend {
	claimed := slices.DeleteFunc(slices.Clone(found), func(t Times) bool { return !t.Claimed() })
	if len(claimed) < leastTrend {
		return TrendOpen
	}
	half := len(claimed) / 2
	first, second := claimed[:half], claimed[len(claimed)-half:]
	early, late, by := median(first), median(second), rankSigmas(first, second)
	switch {
	case late > early*trendTimes && late > 1 && by > trendSigmas: // within what is allowed nothing is worse
		return TrendWorse
	case early > late*trendTimes && early > 1 && by < -trendSigmas:
		return TrendBetter
	}
	return TrendSteady
}

// rankSigmas returns how many standard deviations b ranks above a, as against
// chance (the rank sum of F. Wilcoxon, by its normal approximation).
func rankSigmas(a, b []Times) float64 {
	above := 0.0
	for _, x := range a {
		for _, y := range b {
			switch {
			case y > x:
				above++
			case y == x:
				above += 0.5
			}
		}
	}
	n, m := float64(len(a)), float64(len(b))
	return (above - n*m/2) / math.Sqrt(n*m*(n+m+1)/12)
}

func median(of []Times) Times {
	sorted := slices.Sorted(slices.Values(of))
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}
