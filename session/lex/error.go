package lex

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Error says which part of a typed line was not understood. It is one
// line for the person and holds nothing that a terminal would act on.
type Error struct {
	Part     string // as typed; "" = the line as a whole
	Why      string // with a question mark: what is asked back
	Examples []string

	Asks    bool // the line may mean more than one thing: nobody may guess
	Certain bool // what it stumbled over is certain
	Advice  bool // it is answered with what to do, not with other ways to say it
}

// Tells reports whether the line is answered with what to do: a trouble, or a
// question.
func (e *Error) Tells() bool { return e.Advice }

func (e *Error) Error() string {
	why := e.Why
	if e.Part != "" {
		why = fmt.Sprintf("%q: %s", Shorten(e.Part, 24), e.Why)
	}
	if len(e.Examples) == 0 {
		return why
	}
	if !strings.HasSuffix(why, "?") {
		why += ";"
	}
	return why + " say " + orList(e.Examples)
}

// orList joins what one may say: "a, b or c".
func orList(list []string) string {
	if n := len(list); n > 1 {
		return strings.Join(list[:n-1], ", ") + " or " + list[n-1]
	}
	return strings.Join(list, "")
}

// Shorten cuts s to n runes.
func Shorten(s string, n int) string {
	if utf8.RuneCountInString(s) <= n {
		return s
	}
	return string([]rune(s)[:n-1]) + "…"
}
