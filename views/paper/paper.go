// Package paper is a record on one sheet: a page of its own with its drawings
// in it, for a printer, a phone or a mail, and a small label for the tube. A
// page asks nothing of any network and holds no script.
package paper

import (
	"embed"
	"fmt"
	"html/template"
	"io"
	"math"
	"strings"
	"time"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/scope"
	"spotward/session/words"
)

//go:embed page.html label.html face.html list.html style.css
var files embed.FS

// Sheet is what a page is made of.
type Sheet struct {
	Record  session.Record
	Scope   scope.Scope  // as it was used
	Journal []event.Line // empty: without the way of the spot
	Program string
	Due     time.Time // of a label: the next look; zero: not known
}

// Write writes the page.
func (s Sheet) Write(w io.Writer) error { return s.render(w, "page.html") }

// WriteLabels writes a label for each of the sheets, as many on a page as find
// room.
func WriteLabels(w io.Writer, sheets []Sheet) error {
	return render(w, "label.html", func(style template.CSS) any {
		var labels []page
		for _, s := range sheets {
			labels = append(labels, s.page())
		}
		return struct {
			Style  template.CSS
			Labels []page
		}{style, labels}
	})
}

func (s Sheet) render(w io.Writer, name string) error {
	return render(w, name, func(style template.CSS) any {
		p := s.page()
		p.Style = style
		return p
	})
}

// page is what the templates show: words, figures, drawings.
type page struct {
	Style template.CSS

	Scope, Telescope, Kit string
	ID, Program           string
	Day, From, To         string
	Who, Where, Reason    string
	Practice              bool
	Tag, TagWhy           string
	HoldBack              bool
	Due                   string
	Upshot                string
	Answers               []history.Answer
	Left, Allowed         string
	Bar                   bar
	Faces                 []face
	Looks                 []look
	Hidden                int // looks that found no room
	Budget                []budgetRow
	Together              string
	Cautions              []caution
	LeftOut, Noted        []string
}

type budgetRow struct {
	What, MM, Why string
	Bound         bool
}

func (s Sheet) page() page {
	r, tel := s.Record, s.Scope.Telescope()
	way := s.walk()
	p := page{
		Left:  history.MomentWords(r, r.Left),
		Scope: words.OneLine(r.Scope), Kit: words.OneLine(r.Kit), ID: words.OneLine(r.ID), Program: words.OneLine(s.Program),
		Telescope: fmt.Sprintf("%s, f/%.2g", s.Scope.Aperture.Text(), tel.FocalRatio()),
		Day:       r.Began.Local().Format("2 January 2006"), From: clock(r.Began), To: clock(r.Ended),
		Who: words.OneLine(r.Who), Where: words.OneLine(r.Where), Reason: words.ID(r.Reason), Practice: r.Practice,
		Tag: words.Tag(r.Tag), TagWhy: words.OneLine(r.TagWhy),
		Allowed: fmt.Sprintf("%.1f mm, Strehl %.2f", r.AllowedMM, tel.Coma(r.AllowedMM).Strehl),
		Bar:     barOf(r), Faces: facesOf(tel, r, way.looks),
	}
	p.HoldBack = r.Tag == session.TagHoldBack
	if !s.Due.IsZero() && !p.HoldBack {
		p.Due = s.Due.Local().Format("2 January 2006")
	}
	if r.Upshot != nil {
		p.Upshot = words.OneLine(r.Upshot.Words())
	}
	p.work(r)
	m := s.Scope.Method()
	m.CircleMM, m.SeatSpreadMM = r.CircleMM, r.SeatMM
	p.Answers = history.Answers(r, tel, m, way.settling)
	if tel.LensInside {
		p.Noted = append(p.Noted, optics.LensInsideWords)
	} else {
		p.budget(tel.BudgetOf(m))
	}
	p.way(way)
	return p
}

// work puts in what was left out and noted.
func (p *page) work(r session.Record) {
	if labels := history.LabelsWords(r); len(labels) > 0 {
		p.Noted = append(p.Noted, words.OneLine("letters: "+strings.Join(labels, ", ")))
	}
	for _, f := range r.FoundOut {
		p.Noted = append(p.Noted, words.OneLine(f.Words))
	}
	for _, k := range r.Skips {
		p.LeftOut = append(p.LeftOut, words.OneLine(string(k.Stage)+": "+k.Why))
	}
}

func (p *page) budget(b optics.Budget) {
	for _, l := range b.Lines {
		p.Budget = append(p.Budget, budgetRow{l.What, fmt.Sprintf("%.2f", l.WithinMM()), l.Why, l.Bound})
	}
	p.Together = fmt.Sprintf("%.1f", b.WithinMM())
}

// mostLooks is how many looks one sheet has room for: the first and the last
// of them are shown.
const mostLooks, firstLooks = 21, 6

func (p *page) way(w way) {
	p.Cautions = w.cautions
	if w.counted {
		p.Noted = append(p.Noted, "everything was counted back before the tag")
	}
	p.Looks = w.looks
	if n := len(w.looks); n > mostLooks {
		p.Hidden = n - mostLooks
		p.Looks = append(w.looks[:firstLooks:firstLooks], w.looks[firstLooks+p.Hidden:]...)
		p.Looks[firstLooks].After = p.Hidden
	}
}

// bar is the axis error, found and left, against what is allowed: parts of a
// whole of 100.
type bar struct {
	Found, Left, Allowed float64
	HasFound, HasLeft    bool
}

func barOf(r session.Record) bar {
	full := 1.15 * math.Max(r.AllowedMM, math.Max(r.Found.AxisErrorMM, r.Left.AxisErrorMM))
	if full <= 0 {
		return bar{}
	}
	part := func(mm float64) float64 { return math.Round(1000*mm/full) / 10 }
	return bar{part(r.Found.AxisErrorMM), part(r.Left.AxisErrorMM), part(r.AllowedMM), r.Found.Claimed, r.Left.Claimed}
}

func clock(t time.Time) string { return t.Local().Format("15:04") }
