package schematic

// Grid is where things stand on a screen of one size. A Rect without a width is
// a thing that this size has no room for.
type Grid struct {
	Cols, Rows int
	Projector  bool

	Name  Rect // the scope
	Rail  Rect
	Facts Rect // where to stand, tool, tube, laser

	Face      Place
	FaceWords Rect // where words of the face may stand
	MarkScale float64

	TurnWord   Rect // "turn"
	Ring       Place
	Letter     Rect // the screw's letter, in the ring
	LetterSize BigSize
	AboutWord  Rect // "about"
	Amount     Rect
	AmountSize BigSize
	Sense      Rect
	SenseSize  BigSize // where SenseBig
	SenseBig   bool
	ScrewAt    Rect // "B is at 12:00"

	StopWord Rect // "stop"
	Stop     Rect // where to stop, in words
	StopBig  Rect // the same in big letters
	StopMM   Rect // the rest of it, beside or below the big letters
	ThenWord Rect
	Then     Rect

	SpotWord, Spot Rect
	AxisWord, Axis Rect
	WhyWord, Why   Rect

	Plate  Rect // the screws as seen, the plate itself at PlateP
	PlateP Place
	Path   Rect // the light path
	Looks  Rect // the look table

	Rule, Caution, Input, Understood, Keys Rect
}

// Grids returns the sizes that are laid out, smallest first. Everything has a
// margin of one column; only the amount and the sense may take the one on the
// right.
func Grids() []Grid { return []Grid{field(), full(), middle(), wide(), vast(), projector(), hall()} }

// field is 60×18: what is left when somebody with cold hands has enlarged the
// letters.
func field() Grid {
	return Grid{
		Cols: 60, Rows: 18, MarkScale: 1,
		Name: Rect{1, 0, 6, 1}, Rail: Rect{8, 0, 51, 1}, Facts: Rect{16, 1, 43, 1},
		Face: Place{13, 7, 10.75}, FaceWords: Rect{0, 2, 25, 12},
		TurnWord: Rect{26, 2, 4, 1}, Ring: Place{33, 5, 6.25},
		Letter: Rect{31, 3, 5, 4}, LetterSize: Small,
		AboutWord: Rect{41, 2, 18, 1}, Amount: Rect{41, 3, 19, 4}, AmountSize: Small,
		Sense:    Rect{41, 7, 19, 2},
		StopWord: Rect{28, 9, 5, 1}, Stop: Rect{34, 9, 25, 2},
		ThenWord: Rect{28, 11, 5, 1}, Then: Rect{34, 11, 25, 1},
		SpotWord: Rect{28, 12, 5, 1}, Spot: Rect{34, 12, 25, 1},
		AxisWord: Rect{28, 13, 5, 1}, Axis: Rect{34, 13, 25, 1},
		Rule: Rect{1, 14, 58, 1}, Caution: Rect{1, 15, 58, 1}, Input: Rect{1, 16, 33, 1},
		Understood: Rect{34, 16, 25, 1}, Keys: Rect{1, 17, 58, 1},
	}
}

// full is 80×24.
func full() Grid {
	return Grid{
		Cols: 80, Rows: 24, MarkScale: 1,
		Name: Rect{1, 0, 78, 1}, Rail: Rect{1, 1, 78, 1}, Facts: Rect{1, 2, 78, 1},
		Face: Place{19, 11, 13.25}, FaceWords: Rect{0, 3, 41, 16},
		TurnWord: Rect{42, 3, 5, 1}, Ring: Place{51, 7, 7.75},
		Letter: Rect{48, 5, 7, 5}, LetterSize: Tall,
		AboutWord: Rect{60, 4, 19, 1}, Amount: Rect{60, 5, 20, 4}, AmountSize: Small,
		Sense: Rect{60, 9, 20, 1}, ScrewAt: Rect{60, 10, 19, 1},
		StopWord: Rect{42, 12, 5, 1}, Stop: Rect{48, 12, 31, 2},
		ThenWord: Rect{42, 14, 5, 1}, Then: Rect{48, 14, 21, 1},
		SpotWord: Rect{42, 15, 5, 1}, Spot: Rect{48, 15, 21, 1},
		AxisWord: Rect{42, 16, 5, 1}, Axis: Rect{48, 16, 21, 1},
		WhyWord: Rect{42, 17, 5, 1}, Why: Rect{48, 17, 21, 2},
		Plate: Rect{70, 14, 9, 5}, PlateP: Place{75, 16, 3.75},
		Rule: Rect{1, 19, 78, 1}, Caution: Rect{1, 20, 78, 2}, Input: Rect{1, 22, 47, 1},
		Understood: Rect{48, 22, 31, 1}, Keys: Rect{1, 23, 78, 1},
	}
}

// middle is 100×30: as 80×24, with larger drawings.
func middle() Grid {
	return Grid{
		Cols: 100, Rows: 30, MarkScale: 1.1,
		Name: Rect{1, 0, 98, 1}, Rail: Rect{1, 1, 98, 1}, Facts: Rect{1, 2, 98, 1},
		Face: Place{24, 14, 19.25}, FaceWords: Rect{0, 3, 51, 22},
		TurnWord: Rect{53, 3, 5, 1}, Ring: Place{63, 8, 8.75},
		Letter: Rect{60, 6, 7, 5}, LetterSize: Tall,
		AboutWord: Rect{74, 5, 24, 1}, Amount: Rect{74, 6, 25, 4}, AmountSize: Small,
		Sense: Rect{74, 10, 25, 1}, ScrewAt: Rect{74, 11, 25, 1},
		StopWord: Rect{53, 14, 5, 1}, Stop: Rect{59, 14, 40, 2},
		ThenWord: Rect{53, 16, 5, 1}, Then: Rect{59, 16, 22, 1},
		SpotWord: Rect{53, 18, 5, 1}, Spot: Rect{59, 18, 22, 1},
		AxisWord: Rect{53, 19, 5, 1}, Axis: Rect{59, 19, 22, 1},
		WhyWord: Rect{53, 20, 5, 1}, Why: Rect{59, 20, 22, 5},
		Plate: Rect{81, 16, 18, 9}, PlateP: Place{90, 20, 7.25},
		Rule: Rect{1, 25, 98, 1}, Caution: Rect{1, 26, 98, 2}, Input: Rect{1, 28, 57, 1},
		Understood: Rect{58, 28, 41, 1}, Keys: Rect{1, 29, 98, 1},
	}
}

// wide is 120×36, everything side by side.
func wide() Grid {
	return Grid{
		Cols: 120, Rows: 36, MarkScale: 1.25,
		Name: Rect{1, 0, 118, 1}, Rail: Rect{1, 1, 118, 1}, Facts: Rect{1, 2, 118, 1},
		Face: Place{26, 15, 22.75}, FaceWords: Rect{0, 3, 55, 26},
		TurnWord: Rect{56, 3, 5, 1}, Ring: Place{64, 7, 7.75},
		Letter: Rect{61, 5, 7, 5}, LetterSize: Tall,
		AboutWord: Rect{74, 4, 20, 1}, Amount: Rect{74, 5, 20, 4}, AmountSize: Small,
		Sense: Rect{74, 9, 21, 1}, ScrewAt: Rect{74, 10, 21, 1},
		StopWord: Rect{96, 3, 23, 2}, StopBig: Rect{96, 5, 23, 4}, StopMM: Rect{96, 9, 23, 1},
		ThenWord: Rect{74, 12, 5, 1}, Then: Rect{80, 12, 39, 1},
		WhyWord: Rect{1, 29, 4, 1}, Why: Rect{6, 29, 50, 1},
		Plate: Rect{56, 14, 28, 12}, PlateP: Place{67, 20, 8.75},
		Path: Rect{84, 14, 35, 12}, Looks: Rect{57, 26, 62, 4},
		Rule: Rect{1, 30, 118, 1}, Caution: Rect{1, 31, 118, 2}, Input: Rect{1, 33, 118, 1},
		Understood: Rect{1, 34, 118, 1}, Keys: Rect{1, 35, 118, 1},
	}
}

// vast is 200×50: as 120×36, all of it larger.
func vast() Grid {
	return Grid{
		Cols: 200, Rows: 50, MarkScale: 1.5,
		Name: Rect{1, 0, 198, 1}, Rail: Rect{1, 1, 198, 1}, Facts: Rect{1, 2, 198, 1},
		Face: Place{42, 22, 34.75}, FaceWords: Rect{0, 3, 86, 39},
		TurnWord: Rect{88, 3, 5, 1}, Ring: Place{101, 9, 11.75},
		Letter: Rect{94, 4, 14, 10}, LetterSize: TallDouble,
		AboutWord: Rect{117, 3, 40, 1}, Amount: Rect{117, 4, 40, 7}, AmountSize: SmallDouble,
		Sense: Rect{117, 11, 40, 1}, ScrewAt: Rect{117, 12, 40, 1},
		StopWord: Rect{160, 3, 39, 2}, StopBig: Rect{160, 5, 39, 4}, StopMM: Rect{160, 9, 39, 1},
		ThenWord: Rect{117, 14, 5, 1}, Then: Rect{123, 14, 76, 1},
		WhyWord: Rect{1, 42, 4, 1}, Why: Rect{6, 42, 80, 2},
		Plate: Rect{88, 16, 48, 20}, PlateP: Place{111, 26, 14.75},
		Path: Rect{138, 16, 61, 20}, Looks: Rect{88, 36, 111, 7},
		Rule: Rect{1, 44, 198, 1}, Caution: Rect{1, 45, 198, 2}, Input: Rect{1, 47, 198, 1},
		Understood: Rect{1, 48, 198, 1}, Keys: Rect{1, 49, 198, 1},
	}
}

// projector is 120×36 for the back row.
func projector() Grid {
	return Grid{
		Cols: 120, Rows: 36, Projector: true, MarkScale: 1.9,
		Name: Rect{1, 0, 7, 1}, Rail: Rect{9, 0, 110, 1}, Facts: Rect{1, 1, 118, 1},
		Face: Place{23, 14, 20.75}, FaceWords: Rect{0, 2, 45, 25},
		TurnWord: Rect{51, 2, 5, 1}, Ring: Place{64, 10, 13.75},
		Letter: Rect{57, 5, 14, 10}, LetterSize: TallDouble,
		AboutWord: Rect{81, 4, 38, 1}, Amount: Rect{81, 5, 38, 7}, AmountSize: SmallDouble,
		ScrewAt: Rect{81, 13, 38, 1},
		Sense:   Rect{46, 18, 73, 4}, SenseSize: Small, SenseBig: true,
		StopWord: Rect{53, 23, 45, 1}, StopBig: Rect{53, 24, 45, 4}, StopMM: Rect{53, 28, 45, 1},
		ThenWord: Rect{53, 29, 5, 1}, Then: Rect{59, 29, 39, 1},
		Plate: Rect{99, 23, 20, 7}, PlateP: Place{109, 26, 6.25},
		Spot: Rect{1, 27, 50, 1}, Axis: Rect{1, 28, 50, 2},
		Rule: Rect{1, 30, 118, 1}, Caution: Rect{1, 31, 118, 2}, Input: Rect{1, 33, 118, 1},
		Understood: Rect{1, 34, 118, 1}, Keys: Rect{1, 35, 118, 1},
	}
}

// hall is 200×50, the projector's grid with letters a step larger.
func hall() Grid {
	return Grid{
		Cols: 200, Rows: 50, Projector: true, MarkScale: 2,
		Name: Rect{1, 0, 20, 1}, Rail: Rect{22, 0, 177, 1}, Facts: Rect{1, 1, 198, 1},
		Face: Place{34, 19, 28.75}, FaceWords: Rect{0, 3, 71, 33},
		TurnWord: Rect{73, 3, 8, 1}, Ring: Place{94, 14, 19.75},
		Letter: Rect{84, 7, 21, 15}, LetterSize: TallTriple,
		AboutWord: Rect{122, 6, 77, 1}, Amount: Rect{122, 7, 77, 11}, AmountSize: SmallTriple,
		ScrewAt: Rect{122, 19, 77, 1},
		Sense:   Rect{72, 25, 127, 7}, SenseSize: SmallDouble, SenseBig: true,
		StopWord: Rect{72, 33, 100, 1}, StopBig: Rect{72, 34, 100, 7}, StopMM: Rect{72, 41, 100, 1},
		ThenWord: Rect{72, 43, 5, 1}, Then: Rect{78, 43, 94, 1},
		Plate: Rect{173, 33, 26, 11}, PlateP: Place{186, 38, 9.75},
		Spot: Rect{1, 37, 68, 1}, Axis: Rect{1, 38, 68, 2}, Why: Rect{1, 41, 68, 3},
		Rule: Rect{1, 44, 198, 1}, Caution: Rect{1, 45, 198, 2}, Input: Rect{1, 47, 198, 1},
		Understood: Rect{1, 48, 198, 1}, Keys: Rect{1, 49, 198, 1},
	}
}

// ForASCII returns the grid with room for big letters of five whole rows where
// they have four and a half: they start a row higher.
func (g Grid) ForASCII() Grid {
	if g.AmountSize == Small {
		g.Amount.Y, g.Amount.H = g.Amount.Y-1, 5
		g.AboutWord.Y--
		if g.AboutWord.Y <= g.Facts.Y { // what stands there stands under the sense then
			g.AboutWord = Rect{}
			g.Sense.H, g.ScrewAt = 1, Rect{g.Sense.X, g.Sense.Y + 1, g.Sense.W - 1, 1}
		}
	}
	if g.LetterSize == Small {
		g.Letter.H = 5
	}
	if g.StopBig.H == 4 && g.StopBig.Y == g.Amount.Y+1 {
		g.StopBig.Y, g.StopBig.H = g.StopBig.Y-1, 5
		g.StopWord.H--
	} else if g.StopBig.H == 4 {
		g.StopBig.H = 5
	}
	if g.SenseBig && g.SenseSize == Small {
		g.Sense.H = 5
		const label = 29 // what it is measured from stands beside "stop when the spot stands at"
		g.StopMM = Rect{g.StopWord.X + label, g.StopWord.Y, g.StopWord.W - label, 1}
		g.StopWord.W = label
	}
	return g
}

// GridFor returns the largest grid that fits a terminal, stretched to it, and
// false where none does.
func GridFor(cols, rows int, projector bool) (Grid, bool) {
	best, found := Grid{}, false
	for _, g := range Grids() {
		if g.Cols > cols || g.Rows > rows || g.Projector && !projector {
			continue
		}
		best, found = g, true
	}
	if !found {
		return Grid{}, false
	}
	return best.stretched(cols, rows), true
}

// stretched returns the grid for a terminal that is larger than it: what runs
// across does so still, and what stands at the bottom stays there.
func (g Grid) stretched(cols, rows int) Grid {
	more := cols - g.Cols
	for _, r := range []*Rect{&g.Rail, &g.Facts, &g.Rule, &g.Caution, &g.Keys} {
		r.W += more
	}
	if g.Name.Y != g.Rail.Y {
		g.Name.W += more
	}
	if g.Understood.Y == g.Input.Y {
		g.Understood.X += more
	} else {
		g.Understood.W += more
	}
	g.Input.W += more
	for _, r := range []*Rect{&g.Rule, &g.Caution, &g.Input, &g.Understood, &g.Keys} {
		r.Y += rows - g.Rows
	}
	g.Cols, g.Rows = cols, rows
	return g
}
