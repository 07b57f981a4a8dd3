package past

import (
	"errors"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/session/history"
	"spotward/session/scope"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// FleetPage is every scope and every kit, how they hold and what they need.
type FleetPage struct {
	shelf history.Stock
	fleet history.Fleet
	From  int // the first row shown, scopes and kits counted on
	Shown int // as last drawn
}

func ShowFleet(a *frame.App) tea.Cmd {
	if a.Desk.Library == nil {
		a.Fail(ErrNoRecords)
		return nil
	}
	shelf, errs := a.Desk.Library.Shelf()
	a.Push(&FleetPage{shelf: shelf, fleet: shelf.FleetAt(a.Now())})
	if len(errs) > 0 {
		a.Fail(errs[0])
	}
	return nil
}

func (s *FleetPage) Rows() int { return len(s.fleet.Scopes) + len(s.fleet.Kits) }

func (s *FleetPage) Draw(p *frame.Page, _ string) {
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.Pal.Heading("fleet"))
	if s.Rows() == 0 {
		p.TextMax(1, 2, p.Cols-2, theme.Ink, "No scopes yet: say new on the front page to describe one.")
		return
	}
	const note = "found and left in times what is allowed"
	p.TextRight(p.Cols-1, 0, theme.Label, note)
	scopes, kits := fleetCells(p.Cols), kitCells(p.Cols)
	y := 1
	s.Shown = 0
	for n := s.From; n < s.Rows(); n++ {
		cells, kit := scopes, n >= len(s.fleet.Scopes)
		if kit {
			cells = kits
		}
		headed := n == s.From || n == len(s.fleet.Scopes)
		need := len(cells)
		if headed {
			need += len(cells)
			if y > 1 {
				need++
			}
		}
		if y+need > p.Sizes.Rule.Y {
			break
		}
		if headed {
			if y > 1 {
				y++
			}
			tableHeads(p, y, cells)
			y += len(cells)
		}
		if kit {
			tableRow(p, y, cells, kitTextsOf(s.fleet.Kits[n-len(s.fleet.Scopes)]), nil)
		} else {
			row := s.fleet.Scopes[n]
			p.TextRight(4, y, theme.Act, strconv.Itoa(n+1))
			tableRow(p, y, cells, fleetTextsOf(row), row.Series)
			p.Zone(schematic.Rect{X: 1, Y: y, W: p.Cols - 2, H: len(cells)}, strconv.Itoa(n+1))
		}
		y += len(cells)
		s.Shown++
	}
}

func (s *FleetPage) More() bool { return s.From+s.Shown < s.Rows() }

func (s *FleetPage) Foot(frame.Sizes) frame.Foot {
	f := frame.Foot{Prompt: "which?", Hint: "a number: how it held", Keys: frame.Footer("choose", "back", "back", "help", "theme")}
	if s.More() {
		f.Hint = "a number, or Enter shows more"
		f.Keys = frame.Footer("read on", "back", "back", "help", "theme")
	}
	return f
}

func (s *FleetPage) Esc(a *frame.App) { a.Pop() }

var ErrFleet = errors.New("say the number before a scope, its name, or back")

func (s *FleetPage) Take(a *frame.App, text string) tea.Cmd {
	word := strings.TrimSpace(text)
	n, err := strconv.Atoi(word)
	switch strings.ToLower(word) {
	case "", "next":
		if !s.More() {
			return a.Pop()
		}
		s.From += max(1, s.Shown)
		a.Used()
		return nil
	case "b", "back":
		if s.From == 0 {
			return a.Pop()
		}
		s.From = max(0, s.From-max(1, s.Shown))
		a.Used()
		return nil
	case "q", "quit":
		return a.Pop()
	}
	for i, row := range s.fleet.Scopes {
		if err == nil && n == i+1 || scope.SameName(row.Scope, word) {
			a.Used()
			a.Push(driftPage(s.shelf, row))
			return nil
		}
	}
	a.Fail(ErrFleet)
	return nil
}

func (s *FleetPage) StepKey(a *frame.App, k tea.KeyType) bool {
	switch k {
	case tea.KeyDown, tea.KeyPgDown:
		if s.More() {
			s.From += max(1, s.Shown)
		}
	case tea.KeyUp, tea.KeyPgUp:
		s.From = max(0, s.From-max(1, s.Shown))
	default:
		return false
	}
	a.Version++
	return true
}

func (s *FleetPage) Help() (string, [][2]string) {
	return "the fleet", [][2]string{
		{"2   heron", "how that scope was found and left, and what it points to"},
		{"Enter  arrows", "the next page, or the one before"},
		{"found, left", "the axis error in times what is allowed"},
		{"holds", "how often it was found as it was left"},
		{"as found", "the last looks: one dot is within what is allowed, each dot more twice as much"},
		{"quit   Esc", "closes it"},
	}
}
