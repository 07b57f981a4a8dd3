package scope

import (
	_ "embed"
)

//go:embed builtin_dunlin.toml
var dunlinTOML []byte

// Builtin returns the practice telescope that is always there.
func Builtin() Scope {
	s, err := DecodeScope(dunlinTOML)
	if err != nil {
		panic(err) // the file is part of the program, and a test decodes it
	}
	return s
}
