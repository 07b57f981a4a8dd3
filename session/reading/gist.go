package reading

import (
	"slices"
	"spotward/session/lex"
	"strings"
)

// gist is a line in loose talk: what its words stand for, and the numbers and
// directions in it.
type gist struct {
	words []lex.Token // without fillers
	all   []lex.Token // every word
	place []lex.Token // numbers, units, directions, as typed
	label string      // the one screw that is named; "" = none, or more than one
	names int         // how many are
	c     Context
}

// gistOf sorts the words of a line.
func gistOf(toks []lex.Token, c Context) gist {
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
		case t.IsNumber(), lex.IsUnit(t) && !t.Is("ring", "rings"), t.Is("oclock"):
			g.place = append(g.place, t)
			continue
		case t.Is("ring", "rings") && lex.TokenAt(toks, i-1).IsNumber():
			g.place = append(g.place, t)
			continue
		case t.Is("up") && upAfter[lex.Classes[lex.TokenAt(toks, i-1).Raw]]: // seized up
			continue
		case isDirection(t) && !downHole(toks, i):
			g.place = append(g.place, t)
			continue
		case t.Is("at", "toward", "towards"):
			if next := lex.TokenAt(toks, i+1); next.IsNumber() && next.Raw != "" || isDirection(next) {
				g.place = append(g.place, t)
			}
			continue
		}
		g.all = append(g.all, t)
		if !lex.Fillers[t.Raw] {
			g.words = append(g.words, t)
		}
	}
	if g.names != 1 {
		g.label = ""
	}
	return g
}

// downHole reports whether the direction at i is none: right down the hole.
func downHole(toks []lex.Token, i int) bool {
	for i++; i < len(toks) && toks[i].Is("the", "down", "in", "into", "through", "inside", "on", "at"); i++ {
		if lex.TokenAt(toks, i+1).Is("hole") || lex.TokenAt(toks, i+2).Is("hole") && lex.TokenAt(toks, i+1).Is("the") {
			return true
		}
	}
	return lex.TokenAt(toks, i).Is("hole")
}

// isLabel reports whether the letter at i is a screw's: "a" before a noun or an
// amount is an article, and "r" after a number is a unit.
func isLabel(toks []lex.Token, i int, c Context) bool {
	t, next := toks[i], lex.TokenAt(toks, i+1)
	if lex.TokenAt(toks, i-1).Is("screw", "lock", "bolt") {
		return true
	}
	if _, side := directionLetter(t); side {
		return !next.IsNumber() && !lex.TokenAt(toks, i-1).IsNumber()
	}
	if t.Raw != "a" {
		return true
	}
	return t.Upper && i > 0 || afterLabel[next.Raw] || senseWord(next) != 0 || next.Sign != 0 || next.Raw == "" && i > 0
}

// upAfter are the classes of words that an "up" belongs to.
var upAfter = map[lex.Class]bool{"stuck": true, "stripped": true, "free": true, "vanished": true}

// afterLabel are words that stand behind the letter of a screw and never behind
// an article.
var afterLabel = lex.WordSet("is was wont cant cannot doesnt didnt hasnt wouldnt not stuck jammed seized blocked loose free slack slipped sticky stripped at end came went turned turns instead other wrong by only and has had will")

// wordPattern is which words a line must have, and which it may have beside them.
type wordPattern struct {
	need [][]string      // of each one
	may  map[string]bool // words or classes
}

// patternOf reads a pattern: words or classes that are needed, alternatives
// parted by strokes, and those that may stand beside them.
func patternOf(need, may string) wordPattern {
	p := wordPattern{may: lex.WordSet(strings.ReplaceAll(need, "|", " ") + " " + may)}
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

// matchesBut is matches, but for one word that nobody knows beside a thing that is wanted.
func (g gist) matchesBut(p wordPattern) bool {
	unknown := func(t lex.Token) bool { return !knownToken(t, g.c) }
	if i := slices.IndexFunc(g.words, unknown); i >= 0 && g.has("key|card|paper|lock|cap|ring") {
		g.words = slices.Delete(slices.Clone(g.words), i, i+1)
	}
	return g.matches(p)
}

func (g gist) hasOf(alternatives []string) bool {
	for _, t := range g.all {
		for _, alt := range alternatives {
			if t.Raw == alt || lex.Classes[t.Raw] == lex.Class(alt) {
				return true
			}
		}
	}
	return false
}

func (g gist) onlyOf(may map[string]bool) bool {
	for _, t := range g.words {
		if !may[t.Raw] && (lex.Classes[t.Raw] == "" || !may[string(lex.Classes[t.Raw])]) {
			return false
		}
	}
	return true
}

// has reports whether one of the words or classes is in the line; alternatives
// are parted by strokes.
func (g gist) has(alternatives string) bool { return g.hasOf(strings.Split(alternatives, "|")) }

// only reports whether the line has no words but these, and fillers.
func (g gist) only(list string) bool { return g.onlyOf(lex.WordSet(list)) }

// text returns the line as it was typed, for an error.
func lineText(toks []lex.Token) string { return (&parser{toks: toks}).restFrom(0) }
