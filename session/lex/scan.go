package lex

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// Shape is how a number was written.
type Shape int

const (
	ShapeWord     Shape = iota // a word
	ShapeWhole                 // 4, 430
	ShapeDecimal               // 4.5, 4,5
	ShapeFraction              // 1/8, ½
	ShapeMixed                 // 4½
	ShapeClock                 // 4:30
)

// Token is a word or a number of a typed line.
type Token struct {
	Raw    string // as typed, in lower case
	Shape  Shape
	Value  float64 // hours of a clock
	Sign   int     // −1, +1; 0 = none typed
	Gap    bool    // something stood between it and the token before
	Upper  bool    // a word of one letter that was typed as a capital
	Spread float64 // of a range: how far its ends are from value
	Part   bool    // a comma, "and" or "then" stood before it: a new part of the line
}

// Is reports whether t is one of these words.
func (t Token) Is(words ...string) bool {
	if t.Shape != ShapeWord {
		return false
	}
	for _, w := range words {
		if t.Raw == w {
			return true
		}
	}
	return false
}

// scanner splits a typed line into tokens.
type scanner struct {
	rs   []rune // in lower case
	cs   []rune // as typed, letter for letter
	at   int
	toks []Token
	part bool // a comma was passed since the last token
}

// Scan returns the words and numbers of a line in lower case. What people
// write without meaning anything by it is left out.
func Scan(line string) ([]Token, *Error) {
	s := scanner{cs: []rune(plain.Replace(line))}
	s.rs = make([]rune, len(s.cs))
	for i, r := range s.cs {
		s.rs[i] = unicode.ToLower(r)
	}
	gap := false
	for s.at < len(s.rs) {
		known := len(s.toks)
		if err := s.next(); err != nil {
			return nil, err
		}
		if gap = gap || len(s.toks) == known; len(s.toks) > known {
			s.toks[known].Gap, s.toks[known].Part = gap, s.part
			gap, s.part = false, false
		}
	}
	return s.toks, nil
}

// plain writes the signs that keyboards and pasted text have many of in one way.
var plain = strings.NewReplacer(
	"’", "'", "‘", "'", "′", "'", "ʼ", "'", "`", "'", "´", "'",
	"“", `"`, "”", `"`, "″", `"`, "„", `"`, "''", `"`,
	"−", "-", "–", "-", "—", "-", "‐", "-", "‑", "-",
	"⁄", "/", "∕", "/", "：", ":", "×", "x", "&", " and ", "[", " ", "]", " ", "_", " ",
)

func (s *scanner) peek(ahead int) rune {
	if i := s.at + ahead; i >= 0 && i < len(s.rs) {
		return s.rs[i]
	}
	return 0
}

func IsDigit(r rune) bool { return r >= '0' && r <= '9' }

// vulgar returns the value of a fraction that is one letter.
func vulgar(r rune) (float64, bool) {
	switch r {
	case '½':
		return 1. / 2, true
	case '⅓':
		return 1. / 3, true
	case '⅔':
		return 2. / 3, true
	case '¼':
		return 1. / 4, true
	case '¾':
		return 3. / 4, true
	case '⅛':
		return 1. / 8, true
	case '⅜':
		return 3. / 8, true
	case '⅝':
		return 5. / 8, true
	case '⅞':
		return 7. / 8, true
	}
	return 0, false
}

func (s *scanner) startsNumber(ahead int) bool {
	r := s.peek(ahead)
	_, v := vulgar(r)
	return IsDigit(r) || v || r == '.' && IsDigit(s.peek(ahead+1))
}

func (s *scanner) next() *Error {
	r := s.peek(0)
	switch {
	case s.startsNumber(0):
		return s.number(0)
	case r == ',' && IsDigit(s.peek(1)) && !IsDigit(s.peek(-1)):
		return s.fault("a number begins with a figure, as in 0,5")
	case unicode.IsSpace(r), strings.ContainsRune(",.;!?~≈#()…", r), r == ':' && !s.startsNumber(1) && !IsDigit(s.peek(-1)):
		s.part = s.part || r == ',' || r == ';'
		s.at++
	case r == '/' && !IsDigit(s.peek(1)) && (unicode.IsSpace(s.peek(-1)) || unicode.IsLetter(s.peek(-1))): // 12 mm / 4:30
		s.part = true
		s.at++
	case r == '@':
		s.at++
		s.toks = append(s.toks, Token{Raw: "at"})
	case unicode.IsLetter(r):
		s.word()
	case r == '=':
		s.at++
		s.toks = append(s.toks, Token{Raw: "="})
	case r == '"' && len(s.toks) > 0 && s.toks[len(s.toks)-1].Shape != ShapeWord:
		s.at++
		s.toks = append(s.toks, Token{Raw: `"`})
	case r == '+' || r == '-':
		return s.signed()
	default:
		return s.fault("not something I can read")
	}
	return nil
}

// signed reads a number with its sign, or passes over a hyphen.
func (s *scanner) signed() *Error {
	sign := 1
	if s.peek(0) == '-' {
		sign = -1
	}
	if (unicode.IsLetter(s.peek(-1)) || IsDigit(s.peek(-1))) && unicode.IsLetter(s.peek(1)) {
		s.at++
		return nil
	}
	skip := 1
	for unicode.IsSpace(s.peek(skip)) {
		skip++
	}
	if sign < 0 && s.parts(skip) {
		s.at++
		s.toks = append(s.toks, Token{Raw: "-"})
		return nil
	}
	if !s.startsNumber(skip) {
		return s.fault("a sign with no number after it")
	}
	s.at += skip
	return s.number(sign)
}

// parts reports whether a hyphen stands between two numbers: from one to the
// other, or a clock position from its distance.
func (s *scanner) parts(skip int) bool {
	if len(s.toks) == 0 || !s.startsNumber(skip) {
		return false
	}
	before := s.toks[len(s.toks)-1]
	spaced := unicode.IsSpace(s.peek(-1)) && skip > 1
	return before.IsNumber() && before.Sign == 0 && (IsDigit(s.peek(-1)) || spaced)
}

// word reads letters; an apostrophe in them is dropped.
func (s *scanner) word() {
	var b strings.Builder
	upper := unicode.IsUpper(s.cs[s.at]) && !unicode.IsLetter(s.peek(1))
	for r := s.peek(0); unicode.IsLetter(r) || unicode.IsMark(r) || r == '\'' && unicode.IsLetter(s.peek(1)); r = s.peek(0) {
		if r == '\'' && s.peek(1) == 's' && !unicode.IsLetter(s.peek(2)) && b.String() != "it" { // the spot's gone
			s.at += 2
			break
		}
		if r != '\'' {
			b.WriteRune(r)
		}
		s.at++
	}
	w := b.String()
	if n, ok := numberWord(w); ok {
		s.toks = append(s.toks, Token{Raw: w, Shape: ShapeWhole, Value: n})
		return
	}
	s.toks = append(s.toks, Token{Raw: w, Upper: upper})
}

func numberWord(w string) (float64, bool) {
	for i, n := range [...]string{"one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"} {
		if n == w {
			return float64(i + 1), true
		}
	}
	return 0, false
}

// maxDigits is more than anyone can measure.
const maxDigits = 5

// digits returns the figures from here on.
func (s *scanner) digits() string {
	from := s.at
	for IsDigit(s.peek(0)) {
		s.at++
	}
	return string(s.rs[from:s.at])
}

func (s *scanner) number(sign int) *Error {
	from := s.at
	t := Token{Sign: sign}
	n := s.digits()
	if len(n) > maxDigits {
		return s.fault("more figures than anyone can measure")
	}
	t.Value, _ = strconv.ParseFloat("0"+n, 64)
	t.Shape = ShapeWhole
	part, isPart := vulgar(s.peek(0))
	switch r := s.peek(0); {
	case isPart:
		s.at++
		t.Value += part
		t.Shape = ShapeMixed
		if n == "" {
			t.Shape = ShapeFraction
		}
	case (r == ':' || r == ';' && IsDigit(s.peek(2)) && !IsDigit(s.peek(3))) && IsDigit(s.peek(1)):
		s.at++
		m := s.digits()
		minutes, _ := strconv.ParseFloat(m, 64)
		if len(m) != 2 || minutes > 59 {
			return s.fault("not a clock position: minutes are two figures, to 59")
		}
		t.Shape, t.Value = ShapeClock, t.Value+minutes/60
	case r == '/' && IsDigit(s.peek(1)):
		s.at++
		d := s.digits()
		den, _ := strconv.ParseFloat(d, 64)
		if den == 0 || len(d) > 2 || len(n) > 2 {
			return s.fault("not a fraction such as 1/8")
		}
		t.Shape, t.Value = ShapeFraction, t.Value/den
	case (r == '.' || r == ',') && IsDigit(s.peek(1)):
		s.at++
		d := s.digits()
		if len(d) > maxDigits {
			return s.fault("more figures than anyone can measure")
		}
		v, _ := strconv.ParseFloat(n+"."+d, 64)
		t.Shape, t.Value = ShapeDecimal, v
	}
	if next := s.peek(0); next == '/' || next == ':' || IsDigit(next) || t.Shape != ShapeClock && strings.ContainsRune(".,", next) && IsDigit(s.peek(1)) {
		return s.fault("not one number")
	}
	if s.peek(0) == 'e' && (IsDigit(s.peek(1)) || IsDigit(s.peek(2))) {
		return s.fault("not a number that anyone reads off a dial")
	}
	if sign < 0 {
		t.Value = -t.Value
	}
	t.Raw = string(s.rs[from:s.at])
	s.toks = append(s.toks, t)
	return nil
}

// fault names the part of the line, between spaces, in which the scanner
// stands.
func (s *scanner) fault(why string) *Error {
	at := min(s.at, len(s.rs)-1)
	for at > 0 && unicode.IsSpace(s.rs[at]) {
		at--
	}
	from, to := at, at+1
	for from > 0 && !unicode.IsSpace(s.rs[from-1]) {
		from--
	}
	for to < len(s.rs) && !unicode.IsSpace(s.rs[to]) {
		to++
	}
	return &Error{Part: strings.TrimSpace(string(s.rs[from:to])), Why: why}
}

// Refuse returns an error that names a token.
func (t Token) Refuse(format string, args ...any) *Error {
	raw := t.Raw
	if t.Sign < 0 {
		raw = "-" + raw
	}
	return &Error{Part: raw, Why: fmt.Sprintf(format, args...)}
}
