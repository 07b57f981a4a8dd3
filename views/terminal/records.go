package terminal

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/charmbracelet/bubbletea"

	"spotward/optics"
	"spotward/session"
	"spotward/session/scope"
	"spotward/views/schematic"
	"spotward/views/theme"
)

// recordList is what was done, newest first.
type recordList struct {
	scope   string // "" = all
	records []session.Record
	from    int
	shown   int // lines, as last drawn
}

var errNoRecords = errors.New("nothing is kept here: start without --no-record to have records")

func showRecords(a *app, sc string) tea.Cmd {
	if a.desk.Library == nil {
		a.fail(errNoRecords)
		return nil
	}
	records, errs := a.desk.Library.Records()
	records = slices.DeleteFunc(slices.Clone(records), func(r session.Record) bool { return sc != "" && !scope.SameName(r.Scope, sc) })
	slices.Reverse(records)
	a.push(&recordList{scope: sc, records: records})
	if len(errs) > 0 {
		a.fail(errs[0])
	}
	return nil
}

func (s *recordList) draw(p *page, _ string) {
	title := "records"
	if s.scope != "" {
		title += " of " + s.scope
	}
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.pal.Heading(title))
	if len(s.records) == 0 {
		p.TextMax(1, 2, p.Cols-2, theme.Ink, "None yet.")
		return
	}
	cols := []struct {
		at   int
		head string
		text func(session.Record) string
	}{
		{5, "when", func(r session.Record) string { return shortDay(r.Began) }},
		{15, "scope", recordScope},
		{32, "outcome", func(r session.Record) string { return strings.ReplaceAll(r.Outcome, "_", " ") }},
		{42, "left", func(r session.Record) string { return momentText(r.Left) }},
		{50, "tag", func(r session.Record) string { return tagWords(r.Tag) }},
		{69, "by", func(r session.Record) string { return r.Who }},
	}
	s.shown = p.sizes.Rule.Y - 3
	for i, c := range cols {
		end := p.Cols - 1
		if i+1 < len(cols) {
			end = min(end, cols[i+1].at-1)
		}
		if c.at >= end {
			break
		}
		p.TextMax(c.at, 1, end-c.at, theme.Label, c.head)
		for row, r := range s.records[s.from:] {
			if row >= s.shown {
				break
			}
			p.TextMax(c.at, 2+row, end-c.at, theme.Ink, c.text(r))
		}
	}
	for row := range min(s.shown, len(s.records)-s.from) {
		n := strconv.Itoa(s.from + row + 1)
		p.TextRight(4, 2+row, theme.Act, n)
		p.zone(schematic.Rect{X: 1, Y: 2 + row, W: p.Cols - 2, H: 1}, n)
	}
}

func recordScope(r session.Record) string {
	if r.Practice {
		return r.Scope + ", not real"
	}
	return r.Scope
}

// momentText says an axis error, or that none is claimed.
func momentText(m session.Moment) string {
	if !m.Claimed {
		return "-"
	}
	return fmt.Sprintf("%.1f mm", m.AxisErrorMM)
}

func (s *recordList) foot(sizes) foot {
	f := foot{prompt: "which?", hint: "a number; compare 1 2; replay 1", keys: footer("read on", "back", "help", "theme")}
	if s.from+s.shown < len(s.records) {
		f.hint = "a number; compare 1 2; Enter: older"
	}
	return f
}

func (s *recordList) esc(a *app) { a.pop() }

func (s *recordList) take(a *app, text string) tea.Cmd {
	words := strings.Fields(strings.ToLower(text))
	if len(words) == 0 && s.from+s.shown < len(s.records) {
		s.from += s.shown
		a.used()
		return nil
	}
	if len(words) == 0 {
		return a.pop()
	}
	switch words[0] {
	case "b", "back", "q", "quit":
		return a.pop()
	case "compare":
		s.opens(a, words[1:], 2, func(r []session.Record) (screen, error) { return newCompare(a.desk, r[0], r[1]) })
	case "replay":
		s.opens(a, words[1:], 1, func(r []session.Record) (screen, error) { return lookBack(a, []string{r[0].ID}) })
	default:
		s.opens(a, words, 1, func(r []session.Record) (screen, error) { return recordScreen(a, r[0]), nil })
	}
	return nil
}

// opens opens a screen for the records with these numbers.
func (s *recordList) opens(a *app, numbers []string, want int, open func([]session.Record) (screen, error)) {
	var picked []session.Record
	for _, word := range numbers {
		n, err := strconv.Atoi(word)
		if err != nil || n < 1 || n > len(s.records) {
			a.fail(errRecords(len(s.records)))
			return
		}
		picked = append(picked, s.records[n-1])
	}
	if len(picked) != want {
		a.fail(errRecords(len(s.records)))
		return
	}
	shown, err := open(picked)
	if err != nil {
		a.fail(err)
		return
	}
	a.used()
	a.push(shown)
}

func errRecords(most int) error {
	return fmt.Errorf("say a number from 1 to %d, or as in: compare 1 2, replay 1", most)
}

func (s *recordList) help() (string, [][2]string) {
	return "records", [][2]string{
		{"2", "a session in pictures: before and after, each move and look"},
		{"replay 2", "the same from its first step on"},
		{"compare 1 2", "two of them side by side"},
		{"Enter", "older ones"},
		{"quit   Esc", "closes it"},
	}
}

func optUse(s scope.Scope) optics.Use { return optics.Use(s.Use) }
