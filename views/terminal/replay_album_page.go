package terminal

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

// albumPage is an album that is a screen of its own.
type albumPage struct{ album album }

func (s *albumPage) draw(p *page, _ string) { s.album.draw(p) }

func (s *albumPage) foot(sizes) foot {
	if s.album.more() {
		return foot{prompt: "more?", hint: "Enter reads on", keys: footer("read on", "close", "back", "help", "theme", "large")}
	}
	return foot{prompt: "read?", hint: "Enter closes it", keys: footer("close", "close", "back", "help", "theme", "large")}
}

func (s *albumPage) esc(a *app) { a.pop() }

func (s *albumPage) stepKey(a *app, k tea.KeyType) bool {
	switch k {
	case tea.KeyRight, tea.KeyDown, tea.KeyPgDown:
		s.album.page = min(s.album.page+1, s.album.pages-1)
	case tea.KeyLeft, tea.KeyUp, tea.KeyPgUp:
		s.album.page = max(0, s.album.page-1)
	default:
		return false
	}
	a.version++
	return true
}

func (s *albumPage) take(a *app, text string) tea.Cmd {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "", "next":
		if !s.album.more() {
			return a.pop()
		}
		s.album.page++
	case "back", "b":
		if s.album.page == 0 {
			return a.pop()
		}
		s.album.page--
	case "q", "quit", "close":
		return a.pop()
	default:
		a.onlyEnter()
		return nil
	}
	a.used()
	return nil
}

func (s *albumPage) help() (string, [][2]string) {
	return "read", [][2]string{
		{"Enter  arrows", "the next page; left goes back"},
		{"back   F7", "the page before"},
		{"quit   Esc", "closes it"},
	}
}
