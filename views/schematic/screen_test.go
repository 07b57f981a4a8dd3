package schematic

import (
	"spotward/optics"
	"spotward/views/theme"
)

// The screen below shows every drawing where the grid has room for it, with
// figures that belong to no real telescope. It is there to look at the drawings
// together; the program composes its own.

// terminals are what is drawn for.
var terminals = []struct {
	name string
	o    Options
}{{"braille", Options{}}, {"blocks", Options{Glyphs: Blocks}}, {"ascii", Options{Glyphs: ASCII}}}

func mockScreen(g Grid, o Options) *Canvas {
	c := New(g.Cols, g.Rows, o)
	mockOn(c, g)
	return c
}

// mockOn draws the screen of g on a canvas of any size.
func mockOn(c *Canvas, g Grid) {
	if c.ASCII() {
		g = g.ForASCII()
	}
	c.TextMax(g.Name.X, g.Name.Y, g.Name.W, theme.Head, "Heron")
	c.Rail(g.Rail.X, g.Rail.Y, g.Rail.W, RailSpec{Now: "return spot home", Groups: [][]StageMark{
		{StageDone, StageDone}, {StageDone, StageSkipped, StageDone}, {StageDone, StageNow, StageLeft}, {StageLeft, StageLeft}}})
	c.TextMax(g.Facts.X, g.Facts.Y, g.Facts.W, theme.Label, "behind the scope   hex key 4 mm   nose up, held   laser on")
	c.Face(g.Face, homeFace(g))
	mockMove(c, g)
	mockStop(c, g)
	if g.Path.W > 0 {
		c.Text(g.Plate.X+1, g.Plate.Y, theme.Label, "screws, seen from behind")
		c.Plate(g.PlateP, cellPlate(g.Plate))
		c.TextRight(g.Path.X+g.Path.W, g.Path.Y, theme.Label, "the beam, its miss drawn 20 times")
		c.LightPath(g.Path, missPath())
	}
	c.Rule(g.Rule.X, g.Rule.Y, g.Rule.W)
	c.TextMax(g.Caution.X, g.Caution.Y, g.Caution.W, theme.Ink, "! Nose up, held. Key out, hands off, then look.")
	col := c.TextMax(g.Input.X, g.Input.Y, g.Input.W, theme.Label, "where is it now?  ")
	c.TextMax(col, g.Input.Y, 10, theme.Typed, "5:30 7.5")
	c.TextRight(g.Understood.X+g.Understood.W, g.Understood.Y, theme.You, "5:30, 7.5 mm, as drawn")
	c.TextMax(g.Keys.X, g.Keys.Y, g.Keys.W, theme.Label, "enter take it   F2 as cued   F5 why   F10 stop safely")
}

func homeFace(g Grid) FaceSpec {
	now, cue := optics.AtHour(4.5, 9), optics.AtHour(6.3, 4)
	s := FaceSpec{
		RimMM:    13,
		Object:   TargetPlate{HoleMM: 3, FaceMM: 13, RingStepMM: 2, RingCount: 5, AwayWord: "away"},
		Standing: []string{"standing behind", "the scope"}, FocuserHour: 10,
		GroundWord: "ground", MarkScale: g.MarkScale, Within: g.FaceWords,
		Now: &Mark{now, "now"}, Ghost: &Mark{optics.AtHour(5.5, 7.5), "typed"}, Cue: &Mark{cue, "stop"},
		Legs: []Leg{{From: now, To: cue}, {From: cue, Second: true}},
	}
	if g.Cols < 70 {
		s.Standing, s.GroundWord, s.Cue.Word, s.Ghost.Word = []string{"stand", "behind"}, " ", "", ""
	}
	if g.Cols == 120 && !g.Projector {
		s.RimMM, s.Trail = 17, []Mark{{optics.AtHour(2.2, 15.7), "5"}, {optics.AtHour(4, 14.7), "6"}}
	}
	return s
}

func mockMove(c *Canvas, g Grid) {
	c.Text(g.TurnWord.X, g.TurnWord.Y, theme.Label, "turn")
	c.Key(g.Ring, KeySpec{Turns: 1.0 / 8, Bold: g.Projector})
	c.Big(g.Letter.X, g.Letter.Y, BigSpec{Text: "B", Size: g.LetterSize, Role: theme.Huge})
	c.TextMax(g.AboutWord.X, g.AboutWord.Y, g.AboutWord.W, theme.Label, "about")
	c.Big(g.Amount.X, g.Amount.Y, BigSpec{Text: "1/8", Size: g.AmountSize, Role: theme.Huge})
	if g.SenseBig {
		size := c.BigFit("CLOCKWISE", g.Sense.W, g.SenseSize, Small)
		c.Big(g.Sense.X+7, g.Sense.Y, BigSpec{Text: "CLOCKWISE", Size: size, Role: theme.Huge})
	} else {
		c.Paragraph(g.Sense, theme.Act, "tighten (clockwise)")
	}
	c.TextMax(g.ScrewAt.X, g.ScrewAt.Y, g.ScrewAt.W, theme.Label, "B is at 12:00")
}

func mockStop(c *Canvas, g Grid) {
	c.Text(g.StopWord.X, g.StopWord.Y, theme.Label, "stop")
	c.Paragraph(g.Stop, theme.Act, "when the spot stands at 6:30, 4 mm from the hole")
	if g.StopBig.W > 0 {
		size := SmallDouble
		if g.StopBig.H < 7 {
			size = Small
		}
		text := "6:30"
		if g.StopBig.W > 30 {
			text = "6:30 4 mm"
		}
		c.Big(g.StopBig.X, g.StopBig.Y, BigSpec{Text: text, Size: size, Role: theme.Huge, Low: g.StopWord.H > 1})
		c.TextMax(g.StopMM.X, g.StopMM.Y, g.StopMM.W, theme.Act, "4 mm from the hole")
	}
	c.TextMax(g.ThenWord.X, g.ThenWord.Y, g.ThenWord.W, theme.Label, "then")
	c.TextMax(g.Then.X, g.Then.Y, g.Then.W, theme.Ink, "A ease, about 1/16")
	c.TextMax(g.SpotWord.X, g.SpotWord.Y, g.SpotWord.W, theme.Label, "spot")
	c.TextMax(g.Spot.X, g.Spot.Y, g.Spot.W, theme.Ink, "4:30, 9 mm from the hole")
	c.TextMax(g.AxisWord.X, g.AxisWord.Y, g.AxisWord.W, theme.Label, "axis")
	if g.Axis.W > 0 {
		c.Bar(g.Axis.X, g.Axis.Y, 10, BarSpec{Value: 4.4, Allowed: 0.5, Full: 5, Role: theme.Ink})
		c.TextMax(g.Axis.X+11, g.Axis.Y, g.Axis.W-11, theme.Ink, "4.4 mm")
	}
	c.TextMax(g.WhyWord.X, g.WhyWord.Y, g.WhyWord.W, theme.Label, "why")
	c.Paragraph(g.Why, theme.Ink, "B took it left and up, 57 mm a turn, last time")
}

func cellPlate(within Rect) PlateSpec {
	return PlateSpec{
		Screws: []Screw{{Label: "A", Hour: 4}, {Label: "B", Hour: 0, Turns: 0.125}, {Label: "C", Hour: 8},
			{Label: "A", Hour: 5.5, Lock: true}, {Label: "B", Hour: 1.5, Lock: true}, {Label: "C", Hour: 9.5, Lock: true}},
		FocuserHour: 10, FocuserWord: "focuser", LockWord: "lock", Within: within,
	}
}

func missPath() PathSpec {
	p := PathSpec{TubeMM: 142, SkyEndMM: 1300, MirrorMM: 125, SecondaryMM: 31.5, FoldMM: 970, HoleMM: 250,
		LaserWord: "laser", SkyWord: "sky end", PrimaryWord: "primary"}
	p.Out = []Vertex{{Right: SectionPoint{970, 250}}, {Right: SectionPoint{970, 0}}, {Right: SectionPoint{0, 0}, Miss: SectionPoint{0, 1}}}
	p.Back = []Vertex{p.Out[2], {Right: SectionPoint{970, 0}, Miss: SectionPoint{2.4, -2.4}}, {Right: SectionPoint{970, 250}, Miss: SectionPoint{2.9, 0}}}
	return p
}
