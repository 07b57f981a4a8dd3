package command

import (
	"encoding/json"

	"spotward/session/history"
)

// fleetRow is a scope with the keys of fleet --json. What is not known is left
// out; times are in what is allowed.
type fleetRow struct {
	Scope     string         `json:"scope"`
	Tag       string         `json:"tag,omitempty"`
	Last      string         `json:"last,omitempty"`
	Found     *history.Times `json:"found_times,omitempty"`
	Left      *history.Times `json:"left_times,omitempty"`
	Holds     int            `json:"holds"`
	Of        int            `json:"of"`
	Suspicion string         `json:"suspicion,omitempty"`
	Screw     string         `json:"screw,omitempty"`
	Due       string         `json:"due,omitempty"`
	EveryDays int            `json:"check_days"`
	Needs     string         `json:"needs,omitempty"`
	Notes     string         `json:"notes,omitempty"`
}

// kitRow is the same of a kit.
type kitRow struct {
	Kit      string   `json:"kit"`
	Tag      string   `json:"tag,omitempty"`
	Last     string   `json:"last,omitempty"`
	Looks    int      `json:"looks"`
	Scopes   int      `json:"scopes"`
	CircleMM *float64 `json:"circle_mm,omitempty"`
	SeatMM   float64  `json:"seat_mm,omitempty"`
	Says     string   `json:"says,omitempty"`
	Due      string   `json:"due,omitempty"`
	Notes    string   `json:"notes,omitempty"`
}

func (c *cli) writeFleetJSON(f history.Fleet) error {
	scopes, kits := []fleetRow{}, []kitRow{}
	for _, r := range f.Scopes {
		row := fleetRow{Scope: r.Scope, Tag: r.Tag, Holds: r.Drift.Holds, Of: r.Drift.Of, EveryDays: r.EveryDays, Needs: r.Needs, Notes: r.Notes}
		if !r.Last.IsZero() {
			row.Last = day(r.Last)
		}
		if !r.Due.IsZero() {
			row.Due = day(r.Due)
		}
		if r.Found.Claimed() {
			row.Found = &r.Found
		}
		if r.Left.Claimed() {
			row.Left = &r.Left
		}
		if r.Suspicion != nil {
			row.Suspicion, row.Screw = string(r.Suspicion.ID), r.Suspicion.Corner
		}
		scopes = append(scopes, row)
	}
	for _, k := range f.Kits {
		row := kitRow{Kit: k.Kit, Tag: k.Tag, Looks: k.Looks, Scopes: k.Scopes, CircleMM: k.CircleMM, SeatMM: k.SeatMM, Says: k.Say(), Notes: k.Notes}
		if !k.Last.IsZero() {
			row.Last = day(k.Last)
		}
		if !k.Due.IsZero() {
			row.Due = day(k.Due)
		}
		kits = append(kits, row)
	}
	out := json.NewEncoder(c.streams.Out)
	out.SetIndent("", " ")
	return out.Encode(map[string]any{"v": history.ExportVersion, "scopes": scopes, "kits": kits})
}
