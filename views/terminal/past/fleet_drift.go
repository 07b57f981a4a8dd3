package past

import (
	"fmt"
	"time"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/scope"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// driftPage is how a scope was found against how it was left, over time, and
// what that points to.
func driftPage(shelf history.Stock, row history.FleetRow) frame.Screen {
	var records []session.Record
	for _, r := range shelf.Records {
		if !r.Practice && scope.SameName(r.Scope, row.Scope) {
			records = append(records, r)
		}
	}
	al := Album{title: row.Scope, note: "not looked at yet", plotHead: "axis error: ring found, disc left, wedge off the face", plot: driftPlot(records)}
	if n := len(records); n > 0 {
		al.note = "tag: " + words.Tag(row.Tag)
		al.Parts = driftParts(row, telescopeOf(shelf, row.Scope, records[n-1]))
	} else {
		al.plot, al.Parts = nil, []frame.Part{{Text: "No look at it is saved here: how it holds is told after three sessions or more."}}
	}
	return &AlbumPage{Album: al}
}

// telescopeOf returns a scope's telescope with the laser it was last read with.
func telescopeOf(shelf history.Stock, described string, last session.Record) optics.Telescope {
	for _, sc := range shelf.Scopes {
		if scope.SameName(sc.Name, described) {
			return shelf.Telescopes(sc)(last)
		}
	}
	return optics.Telescope{}
}

// driftPlot is the axis error as found and as left over the days: up from left
// to found it drifted, down again it was worked on.
func driftPlot(records []session.Record) *schematic.PlotSpec {
	spec := &schematic.PlotSpec{}
	var line schematic.PlotLine
	if len(records) == 0 {
		return spec
	}
	first := records[0].Began
	days := func(t time.Time) float64 { return t.Sub(first).Hours() / 24 }
	joined := false
	for _, r := range records {
		gone := !r.Found.Claimed && r.Found.T != nil && r.Found.T.Saw == event.SawGone
		if r.Found.Claimed || gone {
			line.Points = append(line.Points, schematic.PlotPoint{X: days(r.Began), MM: r.Found.AxisErrorMM, Hollow: true, Apart: !joined, Beyond: gone})
			joined = true
		}
		if r.Left.Claimed {
			line.Points = append(line.Points, schematic.PlotPoint{X: days(r.Began), MM: r.Left.AxisErrorMM, Apart: !joined})
		}
		joined = r.Left.Claimed
	}
	last := records[len(records)-1]
	spec.To, spec.AllowedMM = days(last.Began), last.AllowedMM
	spec.AllowedWord = fmt.Sprintf("%.1f allowed", last.AllowedMM)
	spec.FromWord, spec.ToWord = shortDay(first), shortDay(last.Began)
	if len(line.Points) > 0 {
		spec.Lines = []schematic.PlotLine{line}
	}
	return spec
}

// driftParts are what a scope's records point to, and each time it was looked
// at.
func driftParts(row history.FleetRow, tel optics.Telescope) []frame.Part {
	var out []frame.Part
	d := row.Drift
	for _, h := range d.Hints {
		out = append(out, frame.Part{Head: h.Short}, frame.Part{Text: fmt.Sprintf("%s (%d of %d times)", h.Say, h.N, h.Of)}, frame.Part{Mark: "do", Text: h.Do})
	}
	if len(d.Hints) == 0 {
		out = append(out, frame.Part{Head: "what moves it is not told yet"}, frame.Part{Text: "It takes three intervals or more that agree."})
	}
	if s := row.Suspicion; s != nil && (len(d.Hints) == 0 || d.Hints[0].Short != s.Short) {
		out = append(out, frame.Part{Head: s.Short}, frame.Part{Text: s.Say}, frame.Part{Mark: "do", Text: s.Do})
	}
	out = append(out, frame.Part{Head: fmt.Sprintf("held %d of %d times", d.Holds, d.Of)})
	if len(d.Intervals) > 0 {
		out = append(out, frame.Part{Text: "What counts: 3 mm on the primary, 2 mm on the laser's face. Which way is as seen, 12 straight up."})
	}
	work := d.Work
	workSince := func(t time.Time) {
		for ; len(work) > 0 && work[len(work)-1].T.After(t); work = work[:len(work)-1] {
			j := work[len(work)-1]
			out = append(out, frame.Part{Mark: frame.Pad(shortDay(j.T), 9), Role: theme.Label, Text: j.Words()})
		}
	}
	for k := len(d.Intervals) - 1; k >= 0; k-- {
		i := d.Intervals[k]
		workSince(i.Found)
		out = append(out, frame.Part{Mark: frame.Pad(shortDay(i.Found), 9), Role: theme.Label, Text: fmt.Sprintf("after %.0f days: on the primary %s; return spot %s. Points to %s.",
			i.Days(), i.PrimaryWords(tel), i.ReturnWords(tel), i.Cause.Words())})
	}
	workSince(time.Time{})
	return out
}
