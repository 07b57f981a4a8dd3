package past

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"spotward/optics"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// Album is pictures and the words to them: as many on a page as find room.
type Album struct {
	title    string
	note     string // in short what it came to, right of the title
	pictures []picture
	plot     *schematic.PlotSpec
	plotHead string
	Parts    []frame.Part
	page     int
	pages    int // as last drawn
}

// picture is a face with what is known of it in words.
type picture struct {
	title string
	words string
	spec  schematic.FaceSpec // its rim is set; the rest is the page's
}

// leaf is what stands on a page of an album.
type leaf []func(p *frame.Page)

func (b *Album) Draw(p *frame.Page) {
	leaves := b.leaves(p)
	b.pages = len(leaves)
	b.page = max(0, min(b.page, b.pages-1))
	note := b.note
	if b.pages > 1 {
		note += fmt.Sprintf("   page %d of %d", b.page+1, b.pages)
	}
	from := p.TextRight(p.Cols-1, 0, theme.Label, note)
	p.TextMax(1, 0, from-2, theme.Head, p.Pal.Heading(b.title))
	for _, draw := range leaves[b.page] {
		draw(p)
	}
}

// More reports whether there is a page after this one.
func (b *Album) More() bool { return b.page < b.pages-1 }

// plotRows is the least that a plot says anything in, with its heading.
const plotRows = 6

// mostPlotRows is more than a plot gains by.
const mostPlotRows = 26

// leaves lays the album out: the pictures, the plot below them, the words in
// what is left and on.
func (b *Album) leaves(p *frame.Page) []leaf {
	body := schematic.Rect{X: 1, Y: 2, W: p.Cols - 2, H: p.Sizes.Rule.Y - 2}
	if len(b.pictures) > 0 && body.H < 20 {
		body.Y, body.H = 1, body.H+1 // the pictures' titles are air enough
	}
	out, rest := b.pictureLeaves(body)
	if rest == body {
		out = append(out, leaf{})
	}
	last := &out[len(out)-1]
	words := schematic.Rect{X: 1, Y: 2, W: min(body.W, 100), H: p.Sizes.Rule.Y - 2}
	columns := []schematic.Rect{words}
	if body.W >= twoColumns {
		words.W = (body.W - 3) / 2
		right := words
		right.X = body.X + body.W - words.W
		columns = []schematic.Rect{words, right}
	}
	text := columns[0]
	text.Y, text.H = rest.Y, rest.H
	if b.plot != nil {
		at := rest
		if len(columns) > 1 {
			at.W, at.H, text.X = columns[0].W, min(at.H, mostPlotRows), columns[1].X
		} else {
			if rest == body {
				at.H = max(plotRows+2, min(rest.H*3/5, 14))
			}
			text.Y, text.H = at.Y+at.H+1, rest.H-at.H-1
		}
		*last = append(*last, func(p *frame.Page) { b.drawPlot(p, at) })
	}
	total := b.textRows(p, text.W)
	for row, next := 0, 0; row < total; next++ {
		if text.H > 1 {
			from, at := row, text
			*last = append(*last, func(p *frame.Page) { b.text(p, at, from) })
			row += text.H
		}
		text = columns[next%len(columns)]
		if row < total && next%len(columns) == 0 {
			out = append(out, leaf{})
			last = &out[len(out)-1]
		}
	}
	return out
}

// twoColumns is from what width on the words stand in two columns.
const twoColumns = 110

// pictureLeaves lays the pictures out: all in a row with room for the plot
// below, or two to a page. rest is what is free on the last page; all of body
// where the next has to be begun.
func (b *Album) pictureLeaves(body schematic.Rect) (out []leaf, rest schematic.Rect) {
	n := len(b.pictures)
	if n == 0 {
		return nil, body
	}
	row := body
	if body.W/n >= 19 && body.H-plotRows >= pictureRows(6.75) {
		row.H -= plotRows
		radius := pictureRadius(row, n)
		used := pictureRows(radius)
		rest = schematic.Rect{X: body.X, Y: body.Y + used, W: body.W, H: body.H - used}
		return []leaf{{func(p *frame.Page) { pictureRow(p, row, radius, b.pictures) }}}, rest
	}
	for i := 0; i < n; i += 2 {
		pair := b.pictures[i:min(i+2, n)]
		out = append(out, leaf{func(p *frame.Page) { pictureRow(p, row, pictureRadius(row, 2), pair) }})
	}
	return out, body
}

// textRows returns how many rows the words take.
func (b *Album) textRows(p *frame.Page, width int) int {
	over := &frame.Page{Canvas: schematic.New(width, 0, schematic.Options{}), Sizes: p.Sizes, Pal: p.Pal}
	f := over.Flow(schematic.Rect{W: width, H: frame.MaxSheet})
	b.write(f)
	return f.R.Y
}

// text writes the words in r, from a row on.
func (b *Album) text(p *frame.Page, r schematic.Rect, from int) {
	f := p.Flow(schematic.Rect{X: r.X, Y: r.Y - from, W: r.W, H: from + r.H})
	f.From(r.Y)
	b.write(f)
}

func (b *Album) write(f *frame.Flow) { (&frame.Sheet{Parts: b.Parts}).Write(f) }

func (b *Album) drawPlot(p *frame.Page, r schematic.Rect) {
	if len(b.plot.Lines) == 0 {
		p.TextMax(r.X, r.Y, r.W, theme.Label, b.plotHead+": never claimed, a spot was not seen")
		return
	}
	head := b.plotHead
	if p.ASCII() {
		head = strings.NewReplacer("ring ", "o ", "disc ", "* ", "wedge ", "^ ").Replace(head)
	}
	p.TextMax(r.X, r.Y, r.W, theme.Label, head)
	r.Y, r.H = r.Y+1, r.H-1
	p.Plot(r, *b.plot)
}

// pictureRows returns the rows that a picture takes: its title, the hours above
// and below, and its words.
func pictureRows(radius float64) int { return 2*hoursRow(radius) + 3 }

// hoursRow is how far from the middle the hours above and below stand.
func hoursRow(radius float64) int { return int((radius+1.6)/2 + 0.5) }

// pictureRadius returns the largest radius with which n pictures stand in r side
// by side.
func pictureRadius(r schematic.Rect, n int) float64 {
	radius := float64((r.W/n-5)/2) - 0.25
	for radius > 3 && pictureRows(radius) > r.H {
		radius--
	}
	return radius
}

// pictureRow draws pictures side by side.
func pictureRow(p *frame.Page, r schematic.Rect, radius float64, row []picture) {
	cell := r.W / len(row)
	for i, pic := range row {
		at := schematic.Rect{X: r.X + i*cell, Y: r.Y, W: cell, H: pictureRows(radius)}
		middle := at.X + cell/2
		title := pic.title
		if cell < 22 {
			title = strings.TrimPrefix(title, "laser's ")
		}
		p.Middle(middle, at.Y, cell-1, theme.Label, title)
		spec := thinned(pic.spec, radius)
		spec.Within = schematic.Rect{X: at.X, Y: at.Y + 1, W: at.W, H: at.H - 2}
		spec.MarkScale = p.Sizes.MarkScale
		if radius < 10 {
			spec.MarkScale = 1
		}
		p.Face(schematic.Place{Col: middle, Row: at.Y + 1 + hoursRow(radius), R: radius}, spec)
		p.Middle(middle, at.Y+at.H-1, cell-1, theme.Ink, pic.words)
	}
}

// thinned takes the words off marks that stand so near others that they would
// not be told apart. A name is kept for longer than a number.
func thinned(s schematic.FaceSpec, radius float64) schematic.FaceSpec {
	apart := map[bool]float64{true: 2, false: 5} // columns, by whether it is a name
	trail := append([]schematic.Mark(nil), s.Trail...)
	var worded []optics.Dial
	if s.Now != nil {
		worded = append(worded, s.Now.At)
	}
	for _, named := range []bool{true, false} {
		for i, m := range trail {
			if _, err := strconv.Atoi(m.Word); (err != nil) != named {
				continue
			}
			for _, w := range worded {
				if math.Hypot(m.At.Right-w.Right, m.At.Up-w.Up)*radius/s.RimMM < apart[named] {
					trail[i].Word = ""
				}
			}
			if trail[i].Word != "" {
				worded = append(worded, m.At)
			}
		}
	}
	s.Trail = trail
	return s
}
