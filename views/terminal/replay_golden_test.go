package terminal

import (
	"strings"
	"testing"

	"github.com/charmbracelet/bubbletea"

	"spotward/session/sessiontest"
	"spotward/views/terminal/past"
)

// The screens that look back, at four sizes, without colour and in night.
func TestGoldenLookingBack(t *testing.T) {
	sessiontest.Whole(t)
	dir := shedDir(t)
	plain, night := env(), env("TERM", "xterm-256color")
	for _, c := range []struct {
		name       string
		cols, rows int
		o          Options
		env        func(string) string
	}{
		{"80x24-plain", 80, 24, Options{}, plain},
		{"80x24-night", 80, 24, Options{Theme: "night"}, night},
		{"60x18-plain", 60, 18, Options{}, plain},
		{"80x24-ascii", 80, 24, Options{ASCII: true}, plain},
		{"120x36-plain", 120, 36, Options{}, plain},
		{"200x50-projector-plain", 200, 50, Options{Projector: true}, plain},
	}[:sessiontest.Of(1, 2, 6)] {
		t.Run(c.name, func(t *testing.T) {
			var out strings.Builder
			show := func(name string, p *player) {
				view := p.View()
				requireFits(t, view, c.cols, c.rows)
				out.WriteString("-- " + name + "\n" + view + "\n")
			}
			whole := c.o.Theme == "" // the words are the same in all colours
			pages := func(name string, p *player, al *past.Album) {
				show(name, p)
				for whole && al.More() {
					p.press(tea.KeyRight)
					show("next page", p)
				}
			}
			p := lookingBack(t, c.cols, c.rows, c.o, c.env, "usual")
			for _, at := range []string{"first", "step 14", "step 31", "step 50"} {
				p.enters(at)
				if whole || at == "step 14" {
					show(at, p)
				}
			}
			p.enters("last")
			pages("last", p, &p.past().Album)
			if whole {
				p.enters("step 31")
				p.enters("why")
				show("why", p)
				for _, name := range []string{"left-alone", "secondary-stuck"} {
					p = lookingBack(t, c.cols, c.rows, c.o, c.env, name)
					p.press(tea.KeyEnd)
					show(name, p)
				}
			}
			p = lookingBack(t, c.cols, c.rows, c.o, c.env, "both-mirrors", "usual")
			pages("compare", p, &p.Top().Screen.(*past.AlbumPage).Album)
			p = inShed(t, dir, c.cols, c.rows, c.o, c.env)
			show("fleet", p)
			p.enters("2")
			show("drift", p)
			compare(t, "back-"+c.name, out.String())
		})
	}
}
