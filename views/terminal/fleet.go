package terminal

import (
	"errors"
	"strconv"
	"strings"

	"github.com/charmbracelet/bubbletea"

	"spotward/session/history"
	"spotward/session/scope"
	"spotward/views/schematic"
	"spotward/views/theme"
)

// fleetPage is every scope and every kit, how they hold and what they need.
type fleetPage struct {
	shelf history.Stock
	fleet history.Fleet
	from  int // the first row shown, scopes and kits counted on
	shown int // as last drawn
}

func showFleet(a *app) tea.Cmd {
	if a.desk.Library == nil {
		a.fail(errNoRecords)
		return nil
	}
	shelf, errs := a.desk.Library.Shelf()
	a.push(&fleetPage{shelf: shelf, fleet: shelf.FleetAt(a.now())})
	if len(errs) > 0 {
		a.fail(errs[0])
	}
	return nil
}

func (s *fleetPage) rows() int { return len(s.fleet.Scopes) + len(s.fleet.Kits) }

func (s *fleetPage) draw(p *page, _ string) {
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.pal.Heading("fleet"))
	if s.rows() == 0 {
		p.TextMax(1, 2, p.Cols-2, theme.Ink, "No scopes yet: say new on the front page to describe one.")
		return
	}
	const note = "found and left in times what is allowed"
	p.TextRight(p.Cols-1, 0, theme.Label, note)
	scopes, kits := fleetCells(p.Cols), kitCells(p.Cols)
	y := 1
	s.shown = 0
	for n := s.from; n < s.rows(); n++ {
		cells, kit := scopes, n >= len(s.fleet.Scopes)
		if kit {
			cells = kits
		}
		headed := n == s.from || n == len(s.fleet.Scopes)
		need := len(cells)
		if headed {
			need += len(cells)
			if y > 1 {
				need++
			}
		}
		if y+need > p.sizes.Rule.Y {
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
			p.zone(schematic.Rect{X: 1, Y: y, W: p.Cols - 2, H: len(cells)}, strconv.Itoa(n+1))
		}
		y += len(cells)
		s.shown++
	}
}

func (s *fleetPage) more() bool { return s.from+s.shown < s.rows() }

func (s *fleetPage) foot(sizes) foot {
	f := foot{prompt: "which?", hint: "a number: how it held", keys: footer("choose", "back", "back", "help", "theme")}
	if s.more() {
		f.hint = "a number, or Enter shows more"
		f.keys = footer("read on", "back", "back", "help", "theme")
	}
	return f
}

func (s *fleetPage) esc(a *app) { a.pop() }

var errFleet = errors.New("say the number before a scope, its name, or back")

func (s *fleetPage) take(a *app, text string) tea.Cmd {
	word := strings.TrimSpace(text)
	n, err := strconv.Atoi(word)
	switch strings.ToLower(word) {
	case "", "next":
		if !s.more() {
			return a.pop()
		}
		s.from += max(1, s.shown)
		a.used()
		return nil
	case "b", "back":
		if s.from == 0 {
			return a.pop()
		}
		s.from = max(0, s.from-max(1, s.shown))
		a.used()
		return nil
	case "q", "quit":
		return a.pop()
	}
	for i, row := range s.fleet.Scopes {
		if err == nil && n == i+1 || scope.SameName(row.Scope, word) {
			a.used()
			a.push(driftPage(s.shelf, row))
			return nil
		}
	}
	a.fail(errFleet)
	return nil
}

func (s *fleetPage) stepKey(a *app, k tea.KeyType) bool {
	switch k {
	case tea.KeyDown, tea.KeyPgDown:
		if s.more() {
			s.from += max(1, s.shown)
		}
	case tea.KeyUp, tea.KeyPgUp:
		s.from = max(0, s.from-max(1, s.shown))
	default:
		return false
	}
	a.version++
	return true
}

func (s *fleetPage) help() (string, [][2]string) {
	return "the fleet", [][2]string{
		{"2   heron", "how that scope was found and left, and what it points to"},
		{"Enter  arrows", "the next page, or the one before"},
		{"found, left", "the axis error in times what is allowed"},
		{"holds", "how often it was found as it was left"},
		{"as found", "the last looks: one dot is within what is allowed, each dot more twice as much"},
		{"quit   Esc", "closes it"},
	}
}
