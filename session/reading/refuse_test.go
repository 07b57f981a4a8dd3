package reading

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session/lex"
)

func TestHalfFourIsAskedBack(t *testing.T) {
	for typed, want := range map[string][]string{
		"half 4 12":           {"3:30 12", "4:30 12"},
		"half four":           {"3:30 12", "4:30 12"},
		"half 1 2r":           {"12:30 2r", "1:30 2r"},
		"half 4 o'clock 8 mm": {"3:30 8 mm", "4:30 8 mm"},
	} {
		_, err := Parse(typed, onFace(optics.FaceTarget))
		var re *lex.Error
		require.ErrorAs(t, err, &re, typed)
		assert.Equal(t, want, re.Examples, typed)
	}
	_, err := Parse("half 4 12", onFace(optics.FaceTarget))
	assert.EqualError(t, err, `"half 4": half past 3 or half past 4? say 3:30 12 or 4:30 12`)
}

func TestRefusedWithTheOffendingPart(t *testing.T) {
	tests := []struct{ typed, part string }{
		{"", ""}, {"   ", ""}, {strings.Repeat("4 12 ", 60), ""},
		{"4:30 \x1b[2J", ""}, {"4 12\x07", ""}, {"4 \u202e12", ""}, {"4 12\n8", ""}, {"4 \xff", ""},
		{"nan", "nan"}, {"4 inf", "inf"}, {"1e308 4", "1e308"}, {"4 1e308", "1e308"}, {"4 1e-3", "1e-3"},
		{"4 1234567890123456789012345678901234567890", "1234567890123456789012345678901234567890"},
		{"4 0.1234567890123456789012345678901234567890", "0.1234567890123456789012345678901234567890"},
		{"4 99999", "99999 mm"}, {"+99999 -99999", "141419.9 mm"}, {"3 99999r", "200001 mm"},
		{"4", "4"}, {"4:30", "4:30"}, {"half past 4", "4"}, {"low right", "right"}, {"12 mm", "12 mm"},
		{"4:3 12", "4:3"}, {"4:75 12", "4:75"}, {"4: 12", "4:"}, {"13:30 12", "13:30"}, {"45 12", "45 mm"}, {"0 12", "0"}, {"4h75 12", "75"},
		{"4 -12", "-12"}, {"+3", "3"}, {"+3 low", "3"}, {"4 12 13", "13"}, {"4 12 foo", "foo"}, {"foo 12", "foo"}, {"4 foo", "foo"},
		{"4 12 inches", "304.8 mm"}, {"4 1.234,5", "1.234,5"}, {"4 ,5", ",5"}, {"4 1/0", "1/0"}, {"4 1/2/3", "1/2/3"},
		{"up 5 down 3", "up"}, {"left right 5", "right"}, {"up 5 left", "left"}, {"r8", "r"}, {"d 8", "d"}, {"right 2r up 1r", "right"}, {"+2r -1r", "2"},
		{"on", "on"}, {"out", "out"}, {"wall 3", "wall"}, {"card", "card"}, {"4 12%", "12%"}, {"4'", "4'"}, {"- 4", "-4"}, {"--4 3", "--4"},
		{"toward 3", "3"}, {"toward the focuser 3", "focuser"}, {"same", "same"}, {"=", "="}, {"middle", "middle"},
	}
	for _, tt := range tests {
		_, err := Parse(tt.typed, onFace(optics.FaceTarget))
		var re *lex.Error
		require.ErrorAs(t, err, &re, "%q", tt.typed)
		assert.Equal(t, tt.part, re.Part, "%q: %v", tt.typed, err)
		checkError(t, err, onFace(optics.FaceTarget))
	}
}

// checkError holds what every error keeps: one printable line, and two
// examples that would have been understood.
func checkError(t interface {
	Errorf(string, ...any)
	FailNow()
}, err error, c Context) {
	var re *lex.Error
	require.True(t, errors.As(err, &re))
	line := err.Error()
	require.False(t, strings.ContainsFunc(line, func(r rune) bool { return r < ' ' || r == 0x7f }), "%q", line)
	require.Less(t, len(line), 300)
	for _, ex := range re.Examples {
		_, err := Parse(ex, c)
		require.NoError(t, err, "the example of %q", line)
	}
}

// What a face has nothing of cannot be told by it.
func TestFacesWithoutRings(t *testing.T) {
	bare := Context{Tel: optics.Telescope{ApertureMM: 200, FocalLengthMM: 1000}}
	for _, typed := range []string{"4 2r", "4 on", "in", "home", "wall 4", "4 edge"} {
		bare.Face = optics.FaceMouth
		_, err := Parse(typed, bare)
		if typed == "home" {
			assert.NoError(t, err)
			continue
		}
		require.Error(t, err, typed)
		checkError(t, err, bare)
	}
	bare.Face = optics.FacePrimary
	for _, typed := range []string{"4 2r", "on", "in", "home"} {
		_, err := Parse(typed, bare)
		require.Error(t, err, typed)
		checkError(t, err, bare)
	}
	must(t, "4 edge", bare)
}

// Home is the hole whatever face was asked for, and the card is the card.
func TestNamedFaces(t *testing.T) {
	assert.Equal(t, optics.FaceTarget, must(t, "home", onFace(optics.FaceSecondary)).Face)
	assert.Equal(t, optics.FaceCard, must(t, "card 2 50", onFace(optics.FaceSecondary)).Face)
	assert.Equal(t, optics.FaceCard, must(t, "on the card low right 50", onFace(optics.FaceTarget)).Face)
	_, err := Parse("home", onFace(optics.FacePrimary))
	assert.ErrorContains(t, err, "here it is dead or in")
}

func TestTooFarNamesTheWayOut(t *testing.T) {
	_, err := Parse("4 250", onFace(optics.FacePrimary))
	assert.EqualError(t, err, `"250 mm": off the mirror, which ends 127 mm from its middle: 25 mm? say 4:00 25 or wall 4:00`)
	must(t, "4 127", onFace(optics.FacePrimary))
	_, err = Parse("+250 +900", onFace(optics.FacePrimary))
	assert.ErrorContains(t, err, "off the mirror, which ends 127 mm from its middle; say wall 4")
}

// What is wrong in a line about a screw is not the screw, and what would be
// understood instead is about that screw too.
func TestAScrewIsNotTheStrangeWord(t *testing.T) {
	c := Context{Tel: readingScope(), Face: optics.FacePrimary, Mirror: optics.Secondary}
	_, err := Parse("C tighten gizmo", c)
	var re *lex.Error
	require.ErrorAs(t, err, &re)
	assert.Equal(t, "gizmo", re.Part)
	for _, e := range re.Examples {
		said, err := Parse(e, c)
		require.NoError(t, err, e)
		assert.Contains(t, []SaidKind{SaidTurned, SaidScrew}, said.Kind, e)
	}
}
