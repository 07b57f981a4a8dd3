package history

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/words"
)

// ExportVersion is the version of the JSON that ExportJSON writes.
const ExportVersion = 1

// ExportJSON writes scopes, kits and records as one JSON object: scopes and
// kits with the keys of their files, records as records.jsonl has them.
func (s Stock) ExportJSON(w io.Writer) error {
	all := struct {
		V       int              `json:"v"`
		Scopes  []scope.Scope    `json:"scopes"`
		Kits    []scope.Scope    `json:"kits"`
		Records []session.Record `json:"records"`
	}{V: ExportVersion, Scopes: append([]scope.Scope{}, s.Scopes...), Kits: []scope.Scope{}, Records: append([]session.Record{}, s.Records...)}
	for _, k := range s.Kits {
		all.Kits = append(all.Kits, k.Scope())
	}
	out := json.NewEncoder(w)
	out.SetIndent("", " ")
	return out.Encode(all)
}

// ExportCSV writes the records for a spreadsheet: a line each, the names of the
// columns first. Lengths are in mm; places are seen with 12 o'clock toward the
// focuser. A text that a spreadsheet would take for a formula gets an
// apostrophe before it.
func ExportCSV(w io.Writer, records []session.Record) error {
	columns := exportColumns()
	out := csv.NewWriter(w)
	line := make([]string, len(columns))
	for i, c := range columns {
		line[i] = c.name
	}
	if err := out.Write(line); err != nil {
		return err
	}
	for _, r := range records {
		for i, c := range columns {
			line[i] = c.of(r)
		}
		if err := out.Write(line); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

type exportColumn struct {
	name string
	of   func(session.Record) string
}

func exportColumns() []exportColumn {
	columns := []exportColumn{
		{"id", func(r session.Record) string { return PlainCell(r.ID) }},
		{"scope", func(r session.Record) string { return PlainCell(r.Scope) }},
		{"who", func(r session.Record) string { return PlainCell(r.Who) }},
		{"where", func(r session.Record) string { return PlainCell(r.Where) }},
		{"kit", func(r session.Record) string { return PlainCell(r.Kit) }},
		{"practice", func(r session.Record) string { return strconv.FormatBool(r.Practice) }},
		{"began", func(r session.Record) string { return r.Began.UTC().Format(time.RFC3339) }},
		{"ended", func(r session.Record) string { return r.Ended.UTC().Format(time.RFC3339) }},
		{"reason", func(r session.Record) string { return PlainCell(r.Reason) }},
		{"outcome", func(r session.Record) string { return PlainCell(r.Outcome) }},
		{"verdict", func(r session.Record) string { return PlainCell(r.Verdict) }},
		{"tag", func(r session.Record) string { return PlainCell(r.Tag) }},
		{"tag_why", func(r session.Record) string { return PlainCell(r.TagWhy) }},
		{"allowed_mm", func(r session.Record) string { return cellOf(r.AllowedMM) }},
		{"budget_mm", func(r session.Record) string { return cellOf(r.BudgetMM) }},
	}
	columns = append(columns, momentColumns("found", func(r session.Record) session.Moment { return r.Found })...)
	columns = append(columns, momentColumns("before_swing", func(r session.Record) session.Moment { return r.BeforeSw })...)
	columns = append(columns, momentColumns("left", func(r session.Record) session.Moment { return r.Left })...)
	return append(columns,
		exportColumn{"laser_circle_mm", func(r session.Record) string {
			if r.CircleMM == nil {
				return ""
			}
			return cellOf(*r.CircleMM)
		}},
		exportColumn{"laser_seat_mm", func(r session.Record) string { return cellOf(r.SeatMM) }},
		exportColumn{"looks", func(r session.Record) string { return strconv.Itoa(r.Looks) }},
		exportColumn{"moves", func(r session.Record) string { return strconv.Itoa(r.Moves) }},
		exportColumn{"nips", func(r session.Record) string { return strconv.Itoa(r.Nips) }},
		exportColumn{"net_turns", func(r session.Record) string {
			return PlainCell(strings.Join(netTurns(r, func(turns float64) string { return fmt.Sprintf("%+.4g", turns) }), "; "))
		}},
		exportColumn{"labels", func(r session.Record) string { return PlainCell(strings.Join(LabelsWords(r), "; ")) }},
		exportColumn{"finer", func(r session.Record) string {
			var out []string
			for _, f := range r.Finer {
				out = append(out, f.Words)
			}
			return PlainCell(strings.Join(out, "; "))
		}},
		exportColumn{"left_out", func(r session.Record) string {
			var out []string
			for _, k := range r.Skips {
				out = append(out, string(k.Stage)+": "+k.Why)
			}
			return PlainCell(strings.Join(out, "; "))
		}},
		exportColumn{"noted", func(r session.Record) string { return PlainCell(strings.Join(r.Trouble, "; ")) }},
	)
}

// momentColumns are the columns of both spots and the axis error at one time;
// what was not read or not claimed is empty.
func momentColumns(name string, at func(session.Record) session.Moment) []exportColumn {
	var columns []exportColumn
	for _, spot := range []string{"p", "t"} {
		mark := func(m session.Moment) *session.Mark {
			if spot == "p" {
				return m.P
			}
			return m.T
		}
		cell := func(text func(session.Mark) string) func(session.Record) string {
			return func(r session.Record) string {
				if m := mark(at(r)); m != nil {
					return text(*m)
				}
				return ""
			}
		}
		mm := func(figure func(session.Mark) float64) func(session.Record) string {
			return cell(func(m session.Mark) string {
				if m.Saw == event.SawGone || m.Saw == event.SawCantSee {
					return ""
				}
				return cellOf(figure(m))
			})
		}
		columns = append(columns,
			exportColumn{name + "_" + spot + "_saw", cell(func(m session.Mark) string { return PlainCell(string(m.Saw)) })},
			exportColumn{name + "_" + spot + "_right_mm", mm(func(m session.Mark) float64 { return m.Right })},
			exportColumn{name + "_" + spot + "_up_mm", mm(func(m session.Mark) float64 { return m.Up })},
			exportColumn{name + "_" + spot + "_sigma_mm", mm(func(m session.Mark) float64 { return m.Sigma })},
		)
	}
	claimed := func(figure func(session.Moment) float64) func(session.Record) string {
		return func(r session.Record) string {
			if m := at(r); m.Claimed {
				return cellOf(figure(m))
			}
			return ""
		}
	}
	return append(columns,
		exportColumn{name + "_axis_error_mm", claimed(func(m session.Moment) float64 { return m.AxisErrorMM })},
		exportColumn{name + "_axis_error_max_mm", claimed(func(m session.Moment) float64 { return m.AxisErrorMaxMM })},
		exportColumn{name + "_strehl", claimed(func(m session.Moment) float64 { return m.Strehl })},
	)
}

// cellOf writes a figure to a thousandth: no eye reads finer.
func cellOf(v float64) string { return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64) }

// PlainCell returns a text as one that no spreadsheet takes for a formula.
func PlainCell(text string) string {
	text = words.OneLine(text)
	if text != "" && strings.ContainsRune("=+-@\uff1d\uff0b\uff0d\uff20", []rune(strings.TrimSpace(text) + " ")[0]) {
		return "'" + text
	}
	return text
}

// NetTurnsWords returns what each screw was turned by in all, in turns,
// clockwise positive: "primary A +0.25".
func NetTurnsWords(r session.Record) []string {
	return netTurns(r, signedTurns)
}

// signedTurns says turns as a hand makes them, with their sign: "-3/16".
func signedTurns(turns float64) string {
	if turns < 0 {
		return "-" + words.TurnsText(turns)
	}
	return "+" + words.TurnsText(turns)
}

// netTurns are the screws that were turned, each with its turns in all.
func netTurns(r session.Record, text func(turns float64) string) []string {
	var out []string
	for _, name := range slices.Sorted(maps.Keys(r.NetTurns)) {
		out = append(out, name+" "+text(r.NetTurns[name]))
	}
	return out
}
