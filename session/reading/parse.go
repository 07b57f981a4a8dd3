package reading

import (
	"maps"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session/lex"
)

// parser walks over the tokens of one line.
type parser struct {
	toks []lex.Token
	at   int
	c    Context
}

func newParser(toks []lex.Token, c Context) (*parser, *lex.Error) {
	p := &parser{toks: dropFillers(toks), c: c}
	if p.words("on card") || p.words("card") {
		p.c.Face = optics.FaceCard
		p.toks = p.toks[p.at:]
		if len(p.toks) == 0 {
			return nil, &lex.Error{Part: "card", Why: "where on the card?", Examples: []string{"card 2 50", "gone"}}
		}
	}
	return p, nil
}

// dropFillers leaves out words that say nothing here, and a closing "from the
// hole" or the like.
func dropFillers(toks []lex.Token) []lex.Token {
	out := make([]lex.Token, 0, len(toks))
	part := false // what was left out began a new part of the line
	for i, t := range toks {
		t.Part = t.Part || part
		part = false
		switch {
		case t.Is("from"):
			if len(out) > 0 && out[len(out)-1].Is("away") && !slices.ContainsFunc(toks[i:], func(t lex.Token) bool { return t.Is("home", "hole", "ring") }) {
				continue
			}
			if onlyWords(toks[i:]) && !slices.ContainsFunc(toks[i:], func(t lex.Token) bool { return t.Is("edge", "rim", "wall", "lip") }) {
				return out
			}
		case t.Is("of") && nextOf(toks, i).Is("home"): // left of home
		case t.Is("the", "about", "is", "its", "it", "of", "an", "now", "roughly", "and"):
			part = t.Part || t.Is("and")
			if n := len(out); t.Is("an") && n > 0 && out[n-1].Is("a") {
				out[n-1].Upper = true // two articles in a row are none
			}
			continue
		case t.Is("to") && toSide(toks[i+1:]):
			continue
		case t.Is("right") && exactly(out, toks[i+1:]):
			part = t.Part
			continue
		}
		out = append(out, t)
	}
	return out
}

// toSide reports whether what follows "to" is a side: to the left.
func toSide(toks []lex.Token) bool {
	if len(toks) > 1 && toks[0].Is("the") {
		toks = toks[1:]
	}
	return len(toks) > 0 && isDirection(toks[0])
}

// exactly reports whether "right" after before and in front of what follows says
// how exactly, and no direction: right in the hole.
func exactly(before, after []lex.Token) bool {
	if len(before) > 0 && isDirection(before[len(before)-1]) {
		return false
	}
	return len(after) > 0 && !after[0].Part && after[0].Is("in", "inside", "on", "at")
}

func onlyWords(toks []lex.Token) bool {
	for _, t := range toks {
		if t.Shape != lex.ShapeWord {
			return false
		}
	}
	return true
}

func (p *parser) done() bool { return p.at >= len(p.toks) }

// peek returns the token ahead, or an empty word past the end.
func (p *parser) peek(ahead int) lex.Token {
	if i := p.at + ahead; i < len(p.toks) {
		return p.toks[i]
	}
	return lex.Token{}
}

// words steps over the given words when they come next, and reports whether
// they did.
func (p *parser) words(phrase string) bool {
	n := 0
	for more := true; more; n++ {
		var w string
		w, phrase, more = strings.Cut(phrase, " ")
		if i := p.at + n; i >= len(p.toks) || p.toks[i].Raw != w || p.toks[i].Sign != 0 {
			return false
		}
	}
	p.at += n
	return true
}

// longest returns the index of the longest of the phrases that come next and
// steps over it, or −1.
func (p *parser) longest(n int, phrase func(int) string) int {
	best, from, to := -1, p.at, p.at
	for i := range n {
		p.at = from
		if p.words(phrase(i)) && p.at > to {
			best, to = i, p.at
		}
	}
	p.at = to
	return best
}

// rest returns what is left of the line.
func (p *parser) rest() string { return p.restFrom(p.at) }

// restFrom returns what is left of the line from a token on.
func (p *parser) restFrom(at int) string {
	var b strings.Builder
	for i, t := range p.toks[min(at, len(p.toks)):] {
		if t.Gap && i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(t.Raw)
	}
	return b.String()
}

// leftover refuses what is left of a line that was understood up to there.
func (p *parser) leftover() *lex.Error {
	return &lex.Error{Part: p.rest(), Why: "that is more than one reading"}
}

// lost says which word is not known here.
func (p *parser) lost() *lex.Error {
	screws := p.c.cell().Labels
	aboutScrew := ""
	for _, t := range p.toks {
		if i := slices.IndexFunc(screws, func(l string) bool { return t.Is(strings.ToLower(l)) }); i >= 0 {
			aboutScrew = screws[i]
			continue
		}
		if t.Shape == lex.ShapeWord && !knownWord(t.Raw) {
			err := t.Refuse(unknownWord)
			if aboutScrew != "" {
				err.Examples = []string{"tighten " + aboutScrew + " 1/8", aboutScrew + " other way"}
			}
			return err
		}
	}
	p.at = 0
	return &lex.Error{Part: p.rest(), Why: notUnderstood}
}

// knownWord reports whether any form of reading uses the word.
func knownWord(w string) bool { return isDirection(lex.Token{Raw: w}) || knownWords[w] }

var knownWords = func() map[string]bool {
	all := lex.WordSet("toward towards away tube focuser at mm cm r ring rings half quarter past to card screw lock tighten ease clockwise anticlockwise then")
	for _, s := range sayings {
		maps.Copy(all, lex.WordSet(s.phrase))
	}
	for _, s := range screwTalk {
		maps.Copy(all, lex.WordSet(s.phrase))
	}
	return all
}()
