package history

import (
	"slices"
	"strings"
	"time"
)

// KitRow is one kit in the fleet's table.
type KitRow struct {
	Kit       string
	Known     bool      // there is a file of it here
	Last      time.Time // zero = never used
	Looks     int       // sessions
	Scopes    int       // different ones
	CircleMM  *float64  // radius of the laser's circle, when last tried
	SeatMM    float64   // how far off it came back, when last tried; 0 = not tried
	Suspicion *KitDrift
}

// kitRows returns the kits known here and those that records name, in the order
// of their names.
func (s Stock) kitRows(all []Interval) []KitRow {
	rows := map[string]*KitRow{}
	row := func(name string) *KitRow {
		if rows[nameKey(name)] == nil {
			rows[nameKey(name)] = &KitRow{Kit: name}
		}
		return rows[nameKey(name)]
	}
	for _, k := range s.Kits {
		row(k.Name).Known = true
	}
	scopes := map[string]map[string]bool{}
	for _, r := range s.Records {
		if r.Kit == "" || r.Practice {
			continue
		}
		k := row(r.Kit)
		k.Looks, k.Last = k.Looks+1, r.Began
		if r.CircleMM != nil {
			k.CircleMM = r.CircleMM
		}
		if r.SeatMM > 0 {
			k.SeatMM = r.SeatMM
		}
		if scopes[k.Kit] == nil {
			scopes[k.Kit] = map[string]bool{}
		}
		scopes[k.Kit][nameKey(r.Scope)] = true
	}
	var out []KitRow
	for _, k := range rows {
		k.Scopes = len(scopes[k.Kit])
		if d, ok := KitDriftOf(k.Kit, all); ok {
			k.Suspicion = &d
		}
		out = append(out, *k)
	}
	slices.SortFunc(out, func(a, b KitRow) int { return strings.Compare(nameKey(a.Kit), nameKey(b.Kit)) })
	return out
}
