package terminal

import (
	"testing"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/views/terminal/frame"
	"spotward/views/terminal/home"
	"spotward/views/terminal/teach"
)

// counting counts what a screen is asked to take.
type counting struct {
	frame.Screen
	taken []string
}

func (c *counting) Take(a *frame.App, text string) tea.Cmd {
	c.taken = append(c.taken, text)
	return c.Screen.Take(a, text)
}

// A line that was refused is not sent again by Enter, on any screen: Enter says
// what to do about it.
func TestARefusedLineIsNeverSentAgain(t *testing.T) {
	front := func(lines ...string) func(t *testing.T) *player {
		return func(t *testing.T) *player {
			p, _ := atFront(t, 80, 24)
			for _, l := range lines {
				p.enters(l)
				require.False(t, p.Bad, "%q: %s", l, p.Note)
			}
			return p
		}
	}
	work := func(keys ...tea.KeyType) func(t *testing.T) *player {
		return func(t *testing.T) *player {
			p := practising(t, 5, 80, 24, Options{}, env())
			p.plays(to(session.StageFirstLook, "p", false))
			for _, k := range keys {
				p.press(k)
			}
			return p
		}
	}
	for name, c := range map[string]struct {
		at   func(t *testing.T) *player
		line string
	}{
		"the front page":    {front(), "sing"},
		"a scope":           {front("dunlin"), "sing"},
		"a form":            {front("new", "Wagtail"), "sing"},
		"an unusual length": {atTube, "500"},
		"the ladder":        {front("lessons", "Ann"), "sing"},
		"a lesson's aim":    {front("lessons", "Ann", "1"), "stop safely"},
		"a lesson's task":   {front("lessons", "Ann", "1", ""), "sing"},
		"the pause of one":  {func(t *testing.T) *player { p := front("lessons", "Ann", "1", "")(t); p.press(tea.KeyEsc); return p }, "sing"},
		"the bench":         {front("bench"), "sing"},
		"the records":       {front("records"), "sing"},
		"a session":         {work(), "half 4"},
		"a pause":           {work(tea.KeyEsc), "sing"},
		"what it came to":   {func(t *testing.T) *player { p := work(tea.KeyF10)(t); p.enters(""); return p }, "sing"},
	} {
		t.Run(name, func(t *testing.T) {
			p := c.at(t)
			spy := &counting{Screen: p.Top().Screen}
			p.Top().Screen = spy
			depth := len(p.Stack)
			p.enters(c.line)
			require.True(t, p.Bad, "%q was taken", c.line)
			why := p.Note
			for range 3 {
				p.press(tea.KeyEnter)
				assert.True(t, p.Bad)
				assert.Contains(t, p.Note, why, "and it is still said why")
				assert.Contains(t, p.Note, "edit it, or Ctrl-U clears it")
				assert.Equal(t, c.line, p.Top().Line.String(), "nothing is lost")
				requireFits(t, p.View(), 80, 24)
			}
			p.press(tea.KeyHome) // moving the cursor changes nothing
			p.press(tea.KeyEnter)
			assert.Equal(t, []string{c.line}, spy.taken)
			assert.Len(t, p.Stack, depth)

			p.types(c.line) // anew
			assert.Equal(t, c.line, p.Top().Line.String())
			p.press(tea.KeyEnter)
			assert.Equal(t, []string{c.line, c.line}, spy.taken)
		})
	}
}

// Edited it is another line, cleared it is none, brought back it is meant.
func TestWaysOnFromARefusedLine(t *testing.T) {
	for name, c := range map[string]struct {
		keys []tea.KeyType
		line string
		sent bool
	}{
		"as it is":         {nil, "half 4", false},
		"moved in":         {[]tea.KeyType{tea.KeyLeft, tea.KeyEnd}, "half 4", false},
		"edited":           {[]tea.KeyType{tea.KeyBackspace}, "half ", true},
		"cleared":          {[]tea.KeyType{tea.KeyCtrlU}, "", true},
		"cleared midway":   {[]tea.KeyType{tea.KeyHome, tea.KeyCtrlU}, "", true},
		"and brought back": {[]tea.KeyType{tea.KeyCtrlU, tea.KeyCtrlY}, "half 4", true},
	} {
		t.Run(name, func(t *testing.T) {
			p := practising(t, 5, 80, 24, Options{}, env())
			p.plays(to(session.StageFirstLook, "p", false))
			p.enters("half 4")
			spy := &counting{Screen: p.Top().Screen}
			p.Top().Screen = spy
			for _, k := range c.keys {
				p.press(k)
			}
			require.Equal(t, c.line, p.Top().Line.String())
			p.press(tea.KeyEnter)
			if !c.sent {
				require.Empty(t, spy.taken)
				return
			}
			require.Equal(t, []string{c.line}, spy.taken)
		})
	}
}

// Where nothing is asked, a word is no way into a blind alley.
func TestAWordWhereOnlyEnterGoesOn(t *testing.T) {
	p, _ := atFront(t, 80, 24)
	for _, l := range []string{"lessons", "Ann", "1"} {
		p.enters(l)
	}
	s := p.lesson()
	p.enters("stop safely")
	require.Contains(t, p.Note, "Ctrl-U clears the line, then Enter goes on")
	p.press(tea.KeyF10)
	require.Contains(t, p.Note, "Ctrl-U clears the line, then Enter goes on")
	p.press(tea.KeyCtrlU)
	p.press(tea.KeyF10)
	require.Equal(t, "press Enter to go on", p.Note)
	p.press(tea.KeyEnter)
	require.Equal(t, teach.LessonAsked, s.Phase)
}

// An unusual length is taken on a word, or typed once more; not by Enter.
func TestAnUnusualLengthIsConfirmed(t *testing.T) {
	for name, says := range map[string]func(p *player){
		"by a word":         func(p *player) { p.enters("yes") },
		"typed once more":   func(p *player) { p.enters("500") },
		"otherwise written": func(p *player) { p.enters("500 mm") },
	} {
		t.Run(name, func(t *testing.T) {
			p := atTube(t)
			f := p.Top().Screen.(*home.Form)
			q, _, _, _ := f.Asked()
			p.enters("500")
			require.Contains(t, p.Note, "500 mm would be unusual")
			for range 3 {
				p.press(tea.KeyEnter)
			}
			require.Empty(t, f.Said(q))
			says(p)
			require.False(t, p.Bad, p.Note)
			require.Equal(t, "500 mm", f.Said(q))
		})
	}
}

// atTube is at the question how wide the tube is, in a form.
func atTube(t *testing.T) *player {
	p, _ := atFront(t, 80, 24)
	for _, l := range []string{"new", "Wagtail", "150", "1200"} {
		p.enters(l)
	}
	for range 20 {
		if q, _, _, _ := p.Top().Screen.(*home.Form).Asked(); q.Name == "tube" {
			return p
		}
		p.enters("")
	}
	t.Fatal("the tube is not asked for")
	return nil
}
