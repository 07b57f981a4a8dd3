package past

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/optics"
	"spotward/session"
	"spotward/session/history"
	"spotward/session/scope"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// RecordList is what was done, newest first.
type RecordList struct {
	scope   string // "" = all
	records []session.Record
	from    int
	shown   int // lines, as last drawn
}

var ErrNoRecords = errors.New("nothing is saved here: start without --no-record to have records")

func ShowRecords(a *frame.App, sc string) tea.Cmd {
	if a.Desk.Library == nil {
		a.Fail(ErrNoRecords)
		return nil
	}
	records, errs := a.Desk.Library.Records()
	records = slices.DeleteFunc(slices.Clone(records), func(r session.Record) bool { return sc != "" && !scope.SameName(r.Scope, sc) })
	slices.Reverse(records)
	a.Push(&RecordList{scope: sc, records: records})
	if len(errs) > 0 {
		a.Fail(errs[0])
	}
	return nil
}

func (s *RecordList) Draw(p *frame.Page, _ string) {
	title := "records"
	if s.scope != "" {
		title += " of " + s.scope
	}
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.Pal.Heading(title))
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
		{32, "outcome", history.OutcomeWords},
		{42, "left", func(r session.Record) string { return momentText(r.Left) }},
		{50, "tag", func(r session.Record) string { return tagIn(r.Tag, p.Narrow()) }},
		{69, "by", func(r session.Record) string { return r.Who }},
	}
	s.shown = p.Sizes.Rule.Y - 3
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
		p.Zone(schematic.Rect{X: 1, Y: 2 + row, W: p.Cols - 2, H: 1}, n)
	}
}

// tagIn says a tag; where there is little room, so that none reads as another.
func tagIn(id string, narrow bool) string {
	if brief, ok := map[string]string{session.TagWithNote: "with note", session.TagLowPower: "low power"}[id]; ok && narrow {
		return brief
	}
	return words.Tag(id)
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

func (s *RecordList) Foot(frame.Sizes) frame.Foot {
	f := frame.Foot{Prompt: "which?", Hint: "a number; compare 1 2; replay 1", Keys: frame.Footer("read on", "back", "help", "theme")}
	if s.from+s.shown < len(s.records) {
		f.Hint = "a number; compare 1 2; Enter: older"
	}
	return f
}

func (s *RecordList) Esc(a *frame.App) { a.Pop() }

func (s *RecordList) Take(a *frame.App, text string) tea.Cmd {
	words := strings.Fields(strings.ToLower(text))
	if len(words) == 0 && s.from+s.shown < len(s.records) {
		s.from += s.shown
		a.Used()
		return nil
	}
	if len(words) == 0 {
		return a.Pop()
	}
	switch words[0] {
	case "b", "back", "q", "quit":
		return a.Pop()
	case "compare":
		s.opens(a, words[1:], 2, func(r []session.Record) (frame.Screen, error) { return newCompare(a.Desk, r[0], r[1]) })
	case "replay":
		s.opens(a, words[1:], 1, func(r []session.Record) (frame.Screen, error) { return LookBack(a, []string{r[0].ID}) })
	default:
		s.opens(a, words, 1, func(r []session.Record) (frame.Screen, error) { return recordScreen(a, r[0]), nil })
	}
	return nil
}

// opens opens a screen for the records with these numbers.
func (s *RecordList) opens(a *frame.App, numbers []string, want int, open func([]session.Record) (frame.Screen, error)) {
	var picked []session.Record
	for _, word := range numbers {
		n, err := strconv.Atoi(word)
		if err != nil || n < 1 || n > len(s.records) {
			a.Fail(errRecords(len(s.records)))
			return
		}
		picked = append(picked, s.records[n-1])
	}
	if len(picked) != want {
		a.Fail(errRecords(len(s.records)))
		return
	}
	shown, err := open(picked)
	if err != nil {
		a.Fail(err)
		return
	}
	a.Used()
	a.Push(shown)
}

func errRecords(most int) error {
	return fmt.Errorf("say a number from 1 to %d, or as in: compare 1 2, replay 1", most)
}

func (s *RecordList) Help() (string, [][2]string) {
	return "records", [][2]string{
		{"2", "a session in pictures: before and after, each move and look"},
		{"replay 2", "the same from its first step on"},
		{"compare 1 2", "two of them side by side"},
		{"Enter", "older ones"},
		{"quit   Esc", "closes it"},
	}
}

func OptUse(s scope.Scope) optics.Use { return optics.Use(s.Use) }
