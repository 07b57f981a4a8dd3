package reading

import "strings"

// gist is a line in loose talk: what its words stand for, and the numbers and
// directions in it.
type gist struct {
	words []token // without fillers
	all   []token // every word
	place []token // numbers, units, directions, as typed
	label string  // the one screw that is named; "" = none, or more than one
	names int     // how many are
	c     Context
}

// gistOf sorts the words of a line.
func gistOf(toks []token, c Context) gist {
	g := gist{c: c}
	seen := map[string]bool{}
	for i, t := range toks {
		switch l := labelled(t, c); {
		case l != "" && isLabel(toks, i, c):
			if !seen[l] {
				seen[l] = true
				g.names++
				g.label = l
			}
			continue
		case t.isNumber(), isUnit(t) && !t.is("ring", "rings"), t.is("oclock"):
			g.place = append(g.place, t)
			continue
		case t.is("ring", "rings") && tokenAt(toks, i-1).isNumber():
			g.place = append(g.place, t)
			continue
		case isDirection(t) && !downHole(toks, i):
			g.place = append(g.place, t)
			continue
		case t.is("at", "toward", "towards"):
			if next := tokenAt(toks, i+1); next.isNumber() && next.raw != "" || isDirection(next) {
				g.place = append(g.place, t)
			}
			continue
		}
		g.all = append(g.all, t)
		if !fillers[t.raw] {
			g.words = append(g.words, t)
		}
	}
	if g.names != 1 {
		g.label = ""
	}
	return g
}

// downHole reports whether the direction at i is none: right down the hole.
func downHole(toks []token, i int) bool {
	for i++; i < len(toks) && toks[i].is("the", "down", "in", "into", "through", "inside", "on", "at"); i++ {
		if tokenAt(toks, i+1).is("hole") || tokenAt(toks, i+2).is("hole") && tokenAt(toks, i+1).is("the") {
			return true
		}
	}
	return tokenAt(toks, i).is("hole")
}

// isLabel reports whether the letter at i is a screw's: "a" before a noun or an
// amount is an article, and "r" after a number is a unit.
func isLabel(toks []token, i int, c Context) bool {
	t, next := toks[i], tokenAt(toks, i+1)
	if tokenAt(toks, i-1).is("screw", "lock", "bolt") {
		return true
	}
	if _, side := directionLetter(t); side {
		return !next.isNumber() && !tokenAt(toks, i-1).isNumber()
	}
	if t.raw != "a" {
		return true
	}
	return t.upper && i > 0 || afterLabel[next.raw] || senseWord(next) != 0 || next.sign != 0 || next.raw == "" && i > 0
}

// afterLabel are words that stand behind the letter of a screw and never behind
// an article.
var afterLabel = wordSet("is was wont cant cannot doesnt didnt hasnt wouldnt not stuck jammed seized blocked loose free slack slipped sticky stripped at end came went turned turns instead other wrong by only and has had will")

// wordPattern is which words a line must have, and which it may have beside them.
type wordPattern struct {
	need [][]string      // of each one
	may  map[string]bool // words or classes
}

// patternOf reads a pattern: words or classes that are needed, alternatives
// parted by strokes, and those that may stand beside them.
func patternOf(need, may string) wordPattern {
	p := wordPattern{may: wordSet(strings.ReplaceAll(need, "|", " ") + " " + may)}
	for _, alt := range strings.Fields(need) {
		p.need = append(p.need, strings.Split(alt, "|"))
	}
	return p
}

// matches reports whether the line has a word of each need, and none but those
// and what may stand beside them, and fillers.
func (g gist) matches(p wordPattern) bool {
	for _, alternatives := range p.need {
		if !g.hasOf(alternatives) {
			return false
		}
	}
	return g.onlyOf(p.may)
}

func (g gist) hasOf(alternatives []string) bool {
	for _, t := range g.all {
		for _, alt := range alternatives {
			if t.raw == alt || classes[t.raw] == class(alt) {
				return true
			}
		}
	}
	return false
}

func (g gist) onlyOf(may map[string]bool) bool {
	for _, t := range g.words {
		if !may[t.raw] && (classes[t.raw] == "" || !may[string(classes[t.raw])]) {
			return false
		}
	}
	return true
}

// has reports whether one of the words or classes is in the line; alternatives
// are parted by strokes.
func (g gist) has(alternatives string) bool { return g.hasOf(strings.Split(alternatives, "|")) }

// only reports whether the line has no words but these, and fillers.
func (g gist) only(list string) bool { return g.onlyOf(wordSet(list)) }

// text returns the line as it was typed, for an error.
func lineText(toks []token) string { return (&parser{toks: toks}).restFrom(0) }
