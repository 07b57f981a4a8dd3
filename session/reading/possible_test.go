package reading

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
)

// What cannot be is asked about, with what is likelier: a decimal point was lost.
func TestImpossibleReadingsAreAskedAbout(t *testing.T) {
	small := readingScope()
	small.ApertureMM = 100
	mirror := Context{Tel: small, Face: optics.FacePrimary}
	for typed, first := range map[string]string{"12 9r": "12:00 0.9r", "4 70": "4:00 7", "2:30 25 cm": "2:30 2.5 cm"} {
		_, err := Parse(typed, mirror)
		assert.ErrorContains(t, err, "off the mirror", typed)
		assert.ErrorContains(t, err, "say "+first+" or wall", typed)
	}
	must(t, "12 50", mirror)
	must(t, "12 60", mirror) // eyes read too much

	_, err := Parse("11 80", onFace(optics.FaceTarget))
	assert.EqualError(t, err, `"80 mm": off the face, which ends 13 mm from its middle: 8 mm? say 11:00 8 or not there`)
	must(t, "11 13", onFace(optics.FaceTarget))
	must(t, "4 1 1/2″", onFace(optics.FaceMouth))
	for f, mm := range map[optics.Face]string{optics.FaceCard: "250", optics.FaceSecondary: "90", optics.FaceMouth: "120"} {
		_, err := Parse("11 "+mm, onFace(f))
		assert.Error(t, err, f)
		checkError(t, err, onFace(f))
	}
}

// A spot that nobody has touched does not stand ten times as far off.
func TestALostDecimalPoint(t *testing.T) {
	c := onFace(optics.FacePrimary)
	c.Last = &optics.Belief{At: c.Tel.DialToTube(c.Face, optics.AtHour(10, 3.5)), Cov: optics.Round(1)}
	must(t, "10 35", c)
	c.Untouched = true
	asked(t, "10 35", c, "10:00 3.5", "10:00 35 mm")
	must(t, "10 35 mm", c)
	must(t, "10 3", c)
	must(t, "10 12", c)
	must(t, "10 80", c)
	c.Aside = true
	must(t, "10 35", c)
}
