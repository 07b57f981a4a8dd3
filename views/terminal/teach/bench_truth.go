package teach

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/views/practice"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// truthPage shows how the practice telescope truly stands, beside what the
// session knows.
type truthPage struct {
	align *align.Screen
	again func(a *frame.App) // the same telescope once more
	table bool               // the figures are shown, and not the picture
	from  int                // the first row shown
	rows  int                // shown at once, as last drawn
	all   int
}

func (s *truthPage) Draw(p *frame.Page, _ string) {
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.Pal.Heading("the truth"))
	r := schematic.Rect{X: 1, Y: 1, W: p.Cols - 2, H: p.Sizes.Rule.Y - 1}
	if !s.table {
		s.drawPicture(p, r)
		return
	}
	lines := truthLines(s.align.Work.Bench.Truth(s.align.State()), r.W)
	s.rows, s.all = r.H-1, len(lines)
	s.from = max(0, min(s.from, s.all-s.rows))
	if r.W >= wideTruth {
		for i, head := range []string{"", "the session knows", "in truth"} {
			p.TextMax(r.X+truthColumns(r.W)[i], r.Y, 20, theme.Label, p.Pal.Heading(head))
		}
	}
	for i, l := range lines[s.from:min(s.all, s.from+s.rows)] {
		for _, c := range l {
			p.TextMax(r.X+c.col, r.Y+1+i, r.W-c.col, c.role, c.text)
		}
	}
}

// drawPicture shows what was set up, as it was set up, and both spots, where
// they are and where they were said to be.
func (s *truthPage) drawPicture(p *frame.Page, r schematic.Rect) {
	f := p.Flow(r)
	if faults := s.faults(); faults == "" {
		f.Say(theme.Ink, "Nothing was set up by hand.")
	} else {
		f.Loud(theme.Act, faults, r.H/3)
	}
	if truth := s.align.Work.Bench.World().Truth(); truth.Err == nil {
		f.Say(theme.Ink, fmt.Sprintf("True axis error: %.1f mm.", truth.ErrorMM))
	}
	s.drawSpots(p, f.R)
}

// faults are what was set up by hand, in the words it was set up with.
func (s *truthPage) faults() string {
	st := s.align.State()
	if st.World == nil || !virtual.IsArranged(st.World.Level) {
		return ""
	}
	set, err := virtual.ParseArranged(st.Tel, st.World.Level)
	if err != nil {
		return ""
	}
	return strings.Join(set.Set(), ", ")
}

// wideTruth is the width from which both columns stand side by side.
const wideTruth = 70

// truthColumns are where what it is, what is known of it and how it is begin.
func truthColumns(width int) [3]int {
	const what = 13
	return [3]int{0, what, what + (width-what)/2}
}

// truthCell is a piece of a line.
type truthCell struct {
	col  int
	role theme.Role
	text string
}

// truthLines breaks the rows into lines of a width.
func truthLines(rows []practice.TruthRow, width int) [][]truthCell {
	var out [][]truthCell
	at := truthColumns(width)
	for _, r := range rows {
		if width < wideTruth {
			out = append(out, stackedTruth(r, width)...)
			continue
		}
		known, is := schematic.Wrap(r.Known, at[2]-at[1]-2), schematic.Wrap(r.True, width-at[2])
		for i := range max(len(known), len(is)) {
			var line []truthCell
			if i == 0 {
				line = append(line, truthCell{at[0], theme.Label, r.What})
			}
			if i < len(known) {
				line = append(line, truthCell{at[1], theme.Ink, known[i]})
			}
			if i < len(is) {
				line = append(line, truthCell{at[2], theme.Act, is[i]})
			}
			out = append(out, line)
		}
	}
	return out
}

// stackedTruth is a row where there is no room for two columns: the truth under
// what is known.
func stackedTruth(r practice.TruthRow, width int) [][]truthCell {
	const in = 13
	var out [][]truthCell
	add := func(role theme.Role, text string) {
		for _, l := range schematic.Wrap(text, width-in) {
			out = append(out, []truthCell{{in, role, l}})
		}
	}
	if r.Known != "" {
		add(theme.Ink, "known: "+r.Known)
	}
	add(theme.Act, "truth: "+r.True)
	out[0] = append([]truthCell{{0, theme.Label, r.What}}, out[0]...)
	return out
}

// drawSpots draws both faces side by side with the spot where it is and where it
// was said or is thought to be.
func (s *truthPage) drawSpots(p *frame.Page, r schematic.Rect) {
	st := s.align.State()
	for i, spot := range s.align.Work.Bench.TruthSpots(st) {
		box := schematic.Rect{X: r.X + i*r.W/2, Y: r.Y, W: r.W / 2, H: r.H}
		spec := align.SeenFrom(st.Tel, spot.Face, p.Sizes)
		spec.Standing, spec.GroundWord, spec.FocuserWord, spec.Within, spec.MarkScale = nil, "", "", box, 1
		spec.Object = align.Quiet(spec.Object)
		spec.Now = &schematic.Mark{At: spot.True, Word: "true"}
		switch {
		case spot.Typed != nil:
			spec.Ghost = &schematic.Mark{At: *spot.Typed, Word: "typed"}
		case spot.Known != nil:
			spec.Ghost = &schematic.Mark{At: *spot.Known, Word: "believed"}
		}
		spec.RimMM = schematic.RimFor(spec, align.Rims(st.Tel, spot.Face)...)
		align.Measured(&spec, st.Tel, spot.Face, p.Sizes)
		title := map[optics.Face]string{optics.FacePrimary: "on the primary", optics.FaceTarget: "on the laser's face"}[spot.Face]
		p.TextMax(box.X, box.Y, box.W, theme.Label, title)
		radius := min(box.W/2-4, box.H-4)
		p.Face(schematic.Place{Col: box.X + box.W/2, Row: box.Y + 1 + (box.H-1)/2, R: float64(radius) - 0.25}, spec)
	}
}

func (s *truthPage) Foot(frame.Sizes) frame.Foot {
	f := frame.Foot{Prompt: "read?", Hint: "Enter closes it", Keys: frame.Footer("close", "close", "theme", "anew")}
	if !s.table {
		f.Hint, f.Keys[0].Label = "Enter shows the figures", "the figures"
		return f
	}
	if s.from+s.rows < s.all {
		f.Prompt, f.Hint = "more?", "Enter reads on"
		f.Keys[0].Label = "read on"
	}
	return f
}

func (s *truthPage) Take(a *frame.App, text string) tea.Cmd {
	switch word := strings.ToLower(strings.TrimSpace(text)); {
	case word == "anew" && s.again != nil:
		a.Pop()
		s.again(a)
	case word == "" && a.FromLine && !s.table:
		s.table = true
	case word == "" && a.FromLine && s.from+s.rows < s.all:
		s.from += max(1, s.rows-1)
	case word == "", word == "b", word == "back", word == "q", word == "quit", word == "truth":
		return a.Pop()
	default:
		a.OnlyEnter()
	}
	return nil
}

func (s *truthPage) Esc(a *frame.App) { a.Pop() }
