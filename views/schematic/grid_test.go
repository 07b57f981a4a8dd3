package schematic

import (
	"fmt"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// regions returns the rectangles of a grid by the names of their fields. The
// letter stands in the ring, and words of the face stand where they find room,
// so neither is a region of its own.
func regions(g Grid) map[string]Rect {
	out := map[string]Rect{}
	v := reflect.ValueOf(g)
	for i := range v.NumField() {
		name := v.Type().Field(i).Name
		if r, ok := v.Field(i).Interface().(Rect); ok && r.W > 0 && name != "Letter" && name != "FaceWords" {
			out[name] = r
		}
	}
	return out
}

func (a Rect) meets(b Rect) bool {
	return a.X < b.X+b.W && b.X < a.X+a.W && a.Y < b.Y+b.H && b.Y < a.Y+a.H
}

// box returns the cells that a round drawing takes, its hours not counted.
func (p Place) box() Rect {
	w, h := int(p.R+1), int(p.R/2+0.5)
	return Rect{p.Col - w + 1, p.Row - h, 2*w - 1, 2*h + 1}
}

// intoMargin are the regions that may take the margin column on the right.
var intoMargin = map[string]bool{"Amount": true, "Sense": true}

func checkGrid(t *testing.T, g Grid) {
	for name, r := range regions(g) {
		right := g.Cols - 1
		if intoMargin[name] {
			right = g.Cols
		}
		assert.GreaterOrEqual(t, r.X, 1, name)
		assert.LessOrEqual(t, r.X+r.W, right, name)
		assert.GreaterOrEqual(t, r.Y, 0, name)
		assert.LessOrEqual(t, r.Y+r.H, g.Rows, name)
		assert.Positive(t, r.H, name)
		for other, q := range regions(g) {
			if name < other {
				assert.False(t, r.meets(q), "%s and %s lie on one another", name, other)
			}
		}
		for _, p := range []Place{g.Face, g.Ring} {
			// At 60 columns the facts run above the face, and "turn" stands
			// beside the ring where it curves away.
			if name != "TurnWord" && name != "Name" {
				assert.False(t, r.meets(p.box()), "%s lies on the drawing at %v", name, p)
			}
		}
	}
	assert.False(t, g.Face.box().meets(g.Ring.box()), "face and ring lie on one another")
	assert.False(t, g.FaceWords.meets(g.Ring.box()), "words of the face may run into the ring")
	for name, r := range regions(g) {
		assert.False(t, r.meets(g.FaceWords) && r.Y > g.Facts.Y, "words of the face may run into %s", name)
	}
	bottom := []Rect{g.Rule, g.Caution, g.Input, g.Keys}
	for i := 1; i < len(bottom); i++ {
		assert.Greater(t, bottom[i].Y, bottom[i-1].Y, "the bottom keeps its order")
	}
	assert.Equal(t, g.Rows-1, g.Keys.Y)
	letter := Rect{g.Letter.X, g.Letter.Y, g.Letter.W, g.Letter.H}
	assert.True(t, letter.meets(g.Ring.box()) && g.Ring.Col == letter.X+letter.W/2, "the letter stands in the middle of its ring")
}

func TestGridsHold(t *testing.T) {
	for _, g := range Grids() {
		t.Run(fmt.Sprintf("%dx%d projector %v", g.Cols, g.Rows, g.Projector), func(t *testing.T) {
			checkGrid(t, g)
			checkGrid(t, g.stretched(g.Cols+7, g.Rows+3))
			checkGrid(t, g.ForASCII())
		})
	}
}

func TestTheLongestTextFits(t *testing.T) {
	for _, g := range Grids() {
		for _, term := range terminals {
			c := New(g.Cols, g.Rows, term.o)
			g := g
			if c.ASCII() {
				g = g.ForASCII()
			}
			for _, amount := range []string{"3/16", "1/16", "5/8"} {
				assert.LessOrEqual(t, c.BigWidth(amount, g.AmountSize), g.Amount.W, "%s at %d in %s", amount, g.Cols, term.name)
			}
			assert.LessOrEqual(t, c.BigRows(g.AmountSize), g.Amount.H, "%d in %s", g.Cols, term.name)
			assert.LessOrEqual(t, c.BigWidth("B", g.LetterSize), g.Letter.W, "%d in %s", g.Cols, term.name)
			assert.LessOrEqual(t, c.BigRows(g.LetterSize), g.Letter.H, "%d in %s", g.Cols, term.name)
			if g.StopBig.W > 0 {
				assert.LessOrEqual(t, c.BigWidth("12:30", Small), g.StopBig.W, "%d in %s", g.Cols, term.name)
				assert.LessOrEqual(t, c.BigRows(Small), g.StopBig.H, "%d in %s", g.Cols, term.name)
			}
			if g.SenseBig {
				size := c.BigFit("ANTICLOCKWISE", g.Sense.W, g.SenseSize, Small)
				assert.LessOrEqual(t, c.BigWidth("ANTICLOCKWISE", size), g.Sense.W, "%d in %s", g.Cols, term.name)
				assert.LessOrEqual(t, c.BigRows(size), g.Sense.H, "%d in %s", g.Cols, term.name)
			} else {
				words := "ease (anticlockwise)"
				if g.Sense.H == 1 && g.Sense.W < Width(words) {
					words = "ease, anticlockwise"
				}
				assert.LessOrEqual(t, len(Wrap(words, g.Sense.W)), g.Sense.H, "%d in %s", g.Cols, term.name)
			}
		}
	}
}

func TestGridFor(t *testing.T) {
	for _, c := range []struct {
		cols, rows       int
		projector        bool
		wantCols         int
		wantProjectorOne bool
	}{
		{59, 18, false, 0, false}, {60, 17, false, 0, false}, {60, 18, false, 60, false}, {79, 40, false, 60, false},
		{80, 24, false, 80, false}, {99, 29, false, 80, false}, {119, 60, false, 100, false}, {120, 36, false, 120, false}, {199, 60, false, 120, false}, {200, 60, false, 200, false},
		{120, 36, true, 120, true}, {200, 50, true, 200, true}, {199, 50, true, 120, true}, {80, 24, true, 80, false},
	} {
		g, ok := GridFor(c.cols, c.rows, c.projector)
		if c.wantCols == 0 {
			assert.False(t, ok, "%+v", c)
			continue
		}
		require.True(t, ok, "%+v", c)
		assert.Equal(t, c.cols, g.Cols)
		assert.Equal(t, c.rows, g.Rows)
		assert.Equal(t, c.wantProjectorOne, g.Projector, "%+v", c)
		var base Grid
		for _, b := range Grids() {
			if b.Cols == c.wantCols && b.Projector == c.wantProjectorOne {
				base = b
			}
		}
		assert.Equal(t, base.Face, g.Face, "%+v", c)
	}
}
