package past

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"time"

	"spotward/session/history"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// cell is a column of a table: what is above it, how wide it is, and which of a
// row's texts stands there.
type cell struct {
	head string
	wide int
	text int
}

// The texts of a scope's row.
const (
	colScope = iota
	colTag
	colLast
	colFound
	colLeft
	colMirror
	colHolds
	colSpark
	colSuspicion
	colDue
	colNeeds
	fleetTexts
)

// fleetCells are the columns, in two lines to a scope where one does not hold
// them.
func fleetCells(cols int) [][]cell {
	scope, tag, last := cell{"scope", 14, colScope}, cell{"tag", 10, colTag}, cell{"last look", 10, colLast}
	found, left := cell{"found", 5, colFound}, cell{"left", 4, colLeft}
	holds, spark, due := cell{"holds", 8, colHolds}, cell{"as found", sparkLooks, colSpark}, cell{"due", 10, colDue}
	mirror, needs := cell{"mirror", 10, colMirror}, cell{"needs", 23, colNeeds}
	suspicion := cell{"suspicion", 28, colSuspicion}
	switch {
	case cols >= 160:
		return [][]cell{{scope, tag, last, found, left, mirror, holds, spark, suspicion, due, needs}}
	case cols >= 80:
		suspicion.wide = 22
		return [][]cell{{scope, tag, last, due, holds, spark}, {found, left, mirror, suspicion, needs}}
	}
	scope.wide, last.wide, due.wide, holds.wide = 13, 9, 9, 7
	return [][]cell{{scope, tag, last, due, spark}, {found, left, holds, mirror, needs}}
}

// fleetTextsOf are a scope's row in words.
func fleetTextsOf(row history.FleetRow) []string {
	out := make([]string, fleetTexts)
	out[colScope], out[colLast], out[colDue] = row.Scope, "never", "now"
	if row.Tag != "" {
		out[colTag] = tagIn(row.Tag, true)
	}
	if !row.Last.IsZero() {
		out[colLast] = shortDay(row.Last)
	}
	if !row.Due.IsZero() {
		out[colDue] = shortDay(row.Due)
	}
	out[colFound], out[colLeft] = timesText(row.Found), timesText(row.Left)
	if row.Last.IsZero() {
		out[colFound], out[colLeft] = "-", "-"
	}
	out[colMirror] = strings.ReplaceAll(row.Mirror, "_", " ")
	if row.Drift.Of > 0 {
		out[colHolds] = fmt.Sprintf("%d of %d", row.Drift.Holds, row.Drift.Of)
	}
	if row.Suspicion != nil {
		out[colSuspicion] = row.Suspicion.Short
	}
	out[colNeeds] = row.Needs
	for i, text := range out {
		out[i] = cmp.Or(text, "-")
	}
	return out
}

func shortDay(t time.Time) string { return t.Local().Format("2 Jan 06") }

// timesText is an axis error in what is allowed: "1.4x".
func timesText(t history.Times) string {
	switch {
	case !t.Claimed():
		return "-"
	case t >= 99.5:
		return ">99x"
	case t >= 9.95:
		return fmt.Sprintf("%.0fx", float64(t))
	}
	return fmt.Sprintf("%.1fx", float64(t))
}

// sparkLooks is how many looks a scope's small plot shows.
const sparkLooks = 8

// kitCells are the columns of the kits' table; the texts are those of
// kitTextsOf, in their order.
func kitCells(cols int) [][]cell {
	first := []cell{{"kit", 14, 0}, {"last used", 9, 1}, {"looks", 5, 2}, {"scopes", 6, 3}, {"circle", 7, 4}, {"put back", 9, 5}}
	second := []cell{{"suspicion", 22, 6}, {"needs", 30, 7}}
	if cols >= 160 {
		return [][]cell{append(first, second...)}
	}
	return [][]cell{first, second}
}

func kitTextsOf(k history.KitRow) []string {
	out := []string{k.Kit, "never", strconv.Itoa(k.Looks), strconv.Itoa(k.Scopes), "-", "-", "-", "-"}
	if !k.Last.IsZero() {
		out[1] = shortDay(k.Last)
	}
	if k.CircleMM != nil {
		out[4] = "still"
		if *k.CircleMM > 0 {
			out[4] = fmt.Sprintf("%.1f mm", *k.CircleMM)
		}
	}
	if k.SeatMM > 0 {
		out[5] = fmt.Sprintf("%.1f mm off", k.SeatMM)
	}
	if !k.Known {
		out[7] = "a file: known from records only"
	}
	if k.Suspicion != nil {
		out[6], out[7] = k.Suspicion.Short, k.Suspicion.Needs
	}
	return out
}

// tableLeft is the column a table's first cell stands in.
const tableLeft = 5

func tableHeads(p *frame.Page, y int, lines [][]cell) {
	for i, cells := range lines {
		x := tableLeft + i
		for _, c := range cells {
			p.TextMax(x, y+i, min(c.wide, p.Cols-1-x), theme.Label, c.head)
			x += c.wide + 1
		}
	}
}

func tableRow(p *frame.Page, y int, lines [][]cell, texts []string, series []history.Times) {
	for i, cells := range lines {
		x := tableLeft + i
		for k, c := range cells {
			role := theme.Ink
			switch {
			case i == 0 && k == 0:
				role = theme.Head
			case i > 0 && k < len(cells)-1:
				role = theme.Label // the second line steps back
			}
			wide := min(c.wide, p.Cols-1-x)
			if k == len(cells)-1 {
				wide = p.Cols - 1 - x
			}
			if c.head == "as found" {
				p.Spark(x, y+i, sparkOf(series))
			} else {
				p.TextMax(x, y+i, wide, role, texts[c.text])
			}
			x += c.wide + 1
		}
	}
}

func sparkOf(series []history.Times) []float64 {
	var out []float64
	for _, t := range series[max(0, len(series)-sparkLooks):] {
		out = append(out, float64(t))
	}
	return out
}
