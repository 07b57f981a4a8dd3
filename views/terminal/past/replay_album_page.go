package past

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/views/terminal/frame"
)

// AlbumPage is an album that is a screen of its own.
type AlbumPage struct{ Album Album }

func (s *AlbumPage) Draw(p *frame.Page, _ string) { s.Album.Draw(p) }

func (s *AlbumPage) Foot(frame.Sizes) frame.Foot {
	if s.Album.More() {
		return frame.Foot{Prompt: "more?", Hint: "Enter reads on", Keys: frame.Footer("read on", "close", "back", "help", "theme")}
	}
	return frame.Foot{Prompt: "read?", Hint: "Enter closes it", Keys: frame.Footer("close", "close", "back", "help", "theme")}
}

func (s *AlbumPage) Esc(a *frame.App) { a.Pop() }

func (s *AlbumPage) StepKey(a *frame.App, k tea.KeyType) bool {
	switch k {
	case tea.KeyRight, tea.KeyDown, tea.KeyPgDown:
		s.Album.page = min(s.Album.page+1, s.Album.pages-1)
	case tea.KeyLeft, tea.KeyUp, tea.KeyPgUp:
		s.Album.page = max(0, s.Album.page-1)
	default:
		return false
	}
	a.Version++
	return true
}

func (s *AlbumPage) Take(a *frame.App, text string) tea.Cmd {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "", "next":
		if !s.Album.More() {
			return a.Pop()
		}
		s.Album.page++
	case "back", "b":
		if s.Album.page == 0 {
			return a.Pop()
		}
		s.Album.page--
	case "q", "quit", "close":
		return a.Pop()
	default:
		a.OnlyEnter()
		return nil
	}
	a.Used()
	return nil
}

func (s *AlbumPage) Help() (string, [][2]string) {
	return "read", [][2]string{
		{"Enter  arrows", "the next page; left goes back"},
		{"back   F7", "the page before"},
		{"quit   Esc", "closes it"},
	}
}
