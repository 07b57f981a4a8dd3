package thrift

import (
	"fmt"
	"strconv"
	"strings"
)

// sequence is what follows an escape and a bracket.
type sequence struct {
	private byte // '?', '<', '=' or '>' before the arguments; 0: none
	args    string
	final   byte
}

// cutSequence takes a sequence off the beginning of p.
func cutSequence(p []byte) (s sequence, rest []byte, ok bool) {
	if len(p) < 3 || p[1] != '[' {
		return s, nil, false
	}
	p = p[2:]
	if p[0] >= '<' && p[0] <= '?' {
		s.private, p = p[0], p[1:]
	}
	for i, b := range p {
		switch {
		case b >= '0' && b <= '9' || b == ';':
		case b >= '@' && b <= '~':
			s.args, s.final = string(p[:i]), b
			return s, p[i+1:], true
		default:
			return s, nil, false
		}
	}
	return s, nil, false
}

// count returns the one argument: 1 where there is none.
func (s sequence) count() (int, bool) {
	if s.args == "" {
		return 1, true
	}
	n, err := strconv.Atoi(s.args)
	return max(1, n), err == nil
}

// pair returns two arguments, each at least 1.
func (s sequence) pair() (a, b int, ok bool) {
	first, second, _ := strings.Cut(s.args, ";")
	a, okA := sequence{args: first}.count()
	b, okB := sequence{args: second}.count()
	return a, b, okA && okB
}

// move appends what brings the cursor from a pen to x, y.
func move(out []byte, from pen, x, y int) []byte {
	switch {
	case from.x == x && from.y == y:
		return out
	case from.y == y && from.x >= 0 && from.x < x:
		if n := x - from.x; n > 1 {
			return fmt.Appendf(out, "\x1b[%dC", n)
		}
		return append(out, "\x1b[C"...)
	case x == 0 && y == 0:
		return append(out, home...)
	case x == 0 && from.y >= 0 && y == from.y+1:
		return append(out, "\r\n"...)
	}
	return fmt.Appendf(out, "\x1b[%d;%dH", y+1, x+1)
}

// style is how a character looks: the colours as they are set, and which of
// bold, faint, italic, underlined, blinking and reversed it is.
type style struct {
	front, back string // "" = the terminal's own
	marks       uint8
}

// The marks that are used, by the argument that sets them.
const mostMarks = 8

// clear reports whether a space in this style looks as one in none.
func (s style) clear() bool { return s.back == "" && s.marks&(1<<4|1<<7) == 0 }

// set takes the arguments of a sequence that changes the style.
func (s *style) set(args string) bool {
	if args == "" {
		*s = style{}
		return true
	}
	parts := strings.Split(args, ";")
	for len(parts) > 0 {
		n, err := strconv.Atoi(parts[0])
		if err != nil {
			return false
		}
		used := 1
		switch {
		case n == 0:
			*s = style{}
		case n < mostMarks:
			s.marks |= 1 << n
		case n == 22:
			s.marks &^= 1<<1 | 1<<2
		case n > 22 && n < 28:
			s.marks &^= 1 << (n - 20)
		case n >= 30 && n <= 37 || n >= 90 && n <= 97:
			s.front = parts[0]
		case n >= 40 && n <= 47 || n >= 100 && n <= 107:
			s.back = parts[0]
		case n == 39:
			s.front = ""
		case n == 49:
			s.back = ""
		case (n == 38 || n == 48) && len(parts) >= 3 && parts[1] == "5":
			used = 3
			if colour := strings.Join(parts[:3], ";"); n == 38 {
				s.front = colour
			} else {
				s.back = colour
			}
		default:
			return false
		}
		parts = parts[used:]
	}
	return true
}

// restyle appends what changes the style from one to the other.
func restyle(out []byte, from, to style) []byte {
	if from == to {
		return out
	}
	if to == (style{}) {
		return append(out, "\x1b[m"...)
	}
	var args []string
	if from.marks&^to.marks != 0 || from.front != "" && to.front == "" || from.back != "" && to.back == "" {
		from, args = style{}, []string{"0"}
	}
	for n := 1; n < mostMarks; n++ {
		if to.marks&^from.marks&(1<<n) != 0 {
			args = append(args, strconv.Itoa(n))
		}
	}
	if to.front != from.front {
		args = append(args, to.front)
	}
	if to.back != from.back {
		args = append(args, to.back)
	}
	return append(append(append(out, "\x1b["...), strings.Join(args, ";")...), 'm')
}
