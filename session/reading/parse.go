package reading

import (
	"slices"
	"strings"

	"spotward/optics"
)

// parser walks over the tokens of one line.
type parser struct {
	toks []token
	at   int
	c    Context
}

func newParser(toks []token, c Context) (*parser, *Error) {
	p := &parser{toks: dropFillers(toks), c: c}
	if p.words("on card") || p.words("card") {
		p.c.Face = optics.FaceCard
		p.toks = p.toks[p.at:]
		if len(p.toks) == 0 {
			return nil, &Error{Part: "card", Why: "where on the card?", Examples: []string{"card 2 50", "gone"}}
		}
	}
	return p, nil
}

// dropFillers leaves out words that say nothing here, and a closing "from the
// hole" or the like.
func dropFillers(toks []token) []token {
	out := make([]token, 0, len(toks))
	part := false // what was left out began a new part of the line
	for i, t := range toks {
		t.part = t.part || part
		part = false
		switch {
		case t.is("from"):
			if len(out) > 0 && out[len(out)-1].is("away") {
				continue
			}
			if onlyWords(toks[i:]) && !slices.ContainsFunc(toks[i:], func(t token) bool { return t.is("edge", "rim", "wall", "lip") }) {
				return out
			}
		case t.is("the", "about", "is", "its", "it", "of", "an", "now", "roughly", "and"):
			part = t.part || t.is("and")
			if n := len(out); t.is("an") && n > 0 && out[n-1].is("a") {
				out[n-1].upper = true // two articles in a row are none
			}
			continue
		case t.is("to") && toSide(toks[i+1:]):
			continue
		case t.is("right") && exactly(out, toks[i+1:]):
			part = t.part
			continue
		}
		out = append(out, t)
	}
	return out
}

// toSide reports whether what follows "to" is a side: to the left.
func toSide(toks []token) bool {
	if len(toks) > 1 && toks[0].is("the") {
		toks = toks[1:]
	}
	return len(toks) > 0 && isDirection(toks[0])
}

// exactly reports whether "right" after before and in front of what follows says
// how exactly, and no direction: right in the hole.
func exactly(before, after []token) bool {
	if len(before) > 0 && isDirection(before[len(before)-1]) {
		return false
	}
	return len(after) > 0 && !after[0].part && after[0].is("in", "inside", "on", "at")
}

func onlyWords(toks []token) bool {
	for _, t := range toks {
		if t.shape != shapeWord {
			return false
		}
	}
	return true
}

func (p *parser) done() bool { return p.at >= len(p.toks) }

// peek returns the token ahead, or an empty word past the end.
func (p *parser) peek(ahead int) token {
	if i := p.at + ahead; i < len(p.toks) {
		return p.toks[i]
	}
	return token{}
}

// words steps over the given words when they come next, and reports whether
// they did.
func (p *parser) words(phrase string) bool {
	n := 0
	for more := true; more; n++ {
		var w string
		w, phrase, more = strings.Cut(phrase, " ")
		if i := p.at + n; i >= len(p.toks) || p.toks[i].raw != w || p.toks[i].sign != 0 {
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
		if t.gap && i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(t.raw)
	}
	return b.String()
}

// leftover refuses what is left of a line that was understood up to there.
func (p *parser) leftover() *Error {
	return &Error{Part: p.rest(), Why: "that is more than one reading"}
}

// lost says which word is not known here.
func (p *parser) lost() *Error {
	screws := p.c.cell().Labels
	aboutScrew := ""
	for _, t := range p.toks {
		if i := slices.IndexFunc(screws, func(l string) bool { return t.is(strings.ToLower(l)) }); i >= 0 {
			aboutScrew = screws[i]
			continue
		}
		if t.shape == shapeWord && !knownWord(t.raw) {
			err := t.refuse(unknownWord)
			if aboutScrew != "" {
				err.Examples = []string{"tighten " + aboutScrew + " 1/8", aboutScrew + " other way"}
			}
			return err
		}
	}
	p.at = 0
	return &Error{Part: p.rest(), Why: "not understood"}
}

// knownWord reports whether any form of reading uses the word.
func knownWord(w string) bool { return isDirection(token{raw: w}) || knownWords[w] }

var knownWords = func() map[string]bool {
	all := "toward towards away tube focuser at mm cm r ring rings half quarter past to card screw lock tighten ease clockwise anticlockwise then"
	for _, s := range sayings {
		all += " " + s.phrase
	}
	for _, s := range screwTalk {
		all += " " + s.phrase
	}
	return wordSet(all)
}()
