package reading

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/session/words"
)

func TestHourToTheHalf(t *testing.T) {
	tests := []struct {
		hour        float64
		words, text string
	}{
		{0, "12 o'clock", "12:00"},
		{0.2, "12 o'clock", "12:00"},
		{0.3, "half past 12", "12:30"},
		{0.8, "1 o'clock", "1:00"},
		{4.24, "4 o'clock", "4:00"},
		{4.26, "half past 4", "4:30"},
		{4.74, "half past 4", "4:30"},
		{4.76, "5 o'clock", "5:00"},
		{9, "9 o'clock", "9:00"},
		{11.5, "half past 11", "11:30"},
		{11.8, "12 o'clock", "12:00"},
	}
	for _, tt := range tests {
		d := optics.AtHour(tt.hour, 7)
		assert.Equal(t, tt.words, words.HourWords(d), tt.hour)
		assert.Equal(t, tt.text, words.ClockText(d), tt.hour)
	}
	assert.Equal(t, "12 o'clock", words.HourWords(optics.Dial{}))
}

func TestHourIsNeverOutByMoreThanAQuarter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(0, 12).Draw(t, "hour")
		var hour, minutes int
		_, err := fmt.Sscanf(words.ClockText(optics.AtHour(h, 3)), "%d:%d", &hour, &minutes)
		require.NoError(t, err)
		off := math.Abs(math.Remainder(float64(hour)+float64(minutes)/60-h, 12))
		assert.LessOrEqual(t, off, 0.25+1e-9)
		assert.True(t, hour >= 1 && hour <= 12)
	})
}

func TestPlaceWords(t *testing.T) {
	tests := []struct {
		face optics.Face
		hour float64
		mm   float64
		want string
	}{
		{optics.FaceTarget, 4.5, 12, "half past 4, 12 mm from the hole"},
		{optics.FaceTarget, 4.5, 12.4, "half past 4, 12 mm from the hole"},
		{optics.FaceTarget, 4.5, 2.6, "half past 4, 2.5 mm from the hole"},
		{optics.FaceTarget, 4.5, 2.9, "half past 4, 3 mm from the hole"},
		{optics.FaceTarget, 4.5, 0.1, "half past 4, 0.5 mm from the hole"},
		{optics.FaceTarget, 4.5, 0, "half past 4 from the hole"},
		{optics.FacePrimary, 12, 30, "12 o'clock, 30 mm from the ring's centre"},
		{optics.FaceSecondary, 9, 5, "9 o'clock, 5 mm from the outgoing spot"},
		{optics.FaceMouth, 9, 5, "9 o'clock, 5 mm from the middle of the drawtube"},
		{optics.FaceCard, 9, 50, "9 o'clock, 50 mm from the middle of the card"},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, words.PlaceWords(tt.face, optics.AtHour(tt.hour, 1), tt.mm))
	}
}

func TestReadingText(t *testing.T) {
	assert.Equal(t, "4:30 12", words.ReadingText(optics.AtHour(4.5, 12)))
	assert.Equal(t, "12:00 3.5", words.ReadingText(optics.AtHour(0, 3.5)))
	assert.Equal(t, "12:00 3.5", words.ReadingText(optics.AtHour(11.999, 3.5)))
	assert.Equal(t, "12:01 3.5", words.ReadingText(optics.AtHour(1./60, 3.5)))
	assert.Equal(t, "dead", words.ReadingText(optics.Dial{Right: 0.03}))
}

func TestTurnsText(t *testing.T) {
	tests := []struct {
		turns  float64
		text   string
		spoken string
	}{
		{0.125, "1/8", "an eighth"},
		{-0.125, "1/8", "an eighth"},
		{0.1875, "3/16", "3 sixteenths"},
		{0.0625, "1/16", "a sixteenth"},
		{1. / 64, "1/64", "half a touch"}, {3. / 64, "3/64", "a touch and a half"},
		{1. / 32, "1/32", "a touch"},
		{0.25, "1/4", "a quarter"},
		{0.5, "1/2", "a half"},
		{0.75, "3/4", "3 quarters"},
		{0.625, "5/8", "5 eighths"},
		{1, "1", "one whole turn"},
		{-2, "2", "2 turns"},
		{1.25, "1 1/4", "1 and a quarter"},
		{2.5, "2 1/2", "2 and a half"},
		{0.2, "0.2", "0.2 turns"},
		{0.33, "0.33", "0.33 turns"},
		{0, "0", "0 turns"},
		{math.NaN(), "many", "many turns"},
		{1e300, "many", "many turns"},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.text, words.TurnsText(tt.turns), tt.turns)
		assert.Equal(t, tt.spoken, words.SpokenTurns(tt.turns), tt.turns)
	}
}

// What is told can be typed back as what was turned.
func TestToldTurnsCanBeTypedBack(t *testing.T) {
	c := onFace(optics.FaceTarget)
	rapid.Check(t, func(t *rapid.T) {
		turns := float64(rapid.IntRange(1, 320).Draw(t, "sixteenths")) / 16
		sign := rapid.SampledFrom([]float64{-1, 1}).Draw(t, "sense")
		want := optics.Turn{Mirror: optics.Primary, Screw: "B", Turns: sign * turns}
		typed := "B " + map[float64]string{-1: "-", 1: "+"}[sign] + words.TurnsText(turns)
		s, err := Parse(typed, c)
		require.NoError(t, err, typed)
		assert.Equal(t, []optics.Turn{want}, s.Turned, typed)
	})
}

func TestSenseAndKey(t *testing.T) {
	tests := []struct {
		turns      float64
		sense, key string
	}{
		{0.125, "tighten (clockwise)", "from 12 to half past 1"},
		{-0.125, "ease (anticlockwise)", "from 12 to half past 10"},
		{0.25, "tighten (clockwise)", "from 12 to 3"},
		{-0.25, "ease (anticlockwise)", "from 12 to 9"},
		{0.0625, "tighten (clockwise)", "from 12 to a quarter to 1"},
		{-0.0625, "ease (anticlockwise)", "from 12 to a quarter past 11"},
		{0.1875, "tighten (clockwise)", "from 12 to a quarter past 2"},
		{0.5, "tighten (clockwise)", "from 12 to 6"},
		{1, "tighten (clockwise)", "once round"},
		{-1, "ease (anticlockwise)", "once round"},
		{0.9999, "tighten (clockwise)", "once round"},
		{1.25, "tighten (clockwise)", "once round and on to 3"},
		{-1.25, "ease (anticlockwise)", "once round and on to 9"},
		{2, "tighten (clockwise)", "twice round"},
		{3.5, "tighten (clockwise)", "3 times round and on to 6"},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.sense, words.SenseWords(tt.turns), tt.turns)
		assert.Equal(t, tt.key, words.KeyHandle(tt.turns), tt.turns)
	}
	assert.Equal(t, "many times round", words.KeyHandle(math.NaN()))
	assert.Equal(t, "many times round", words.KeyHandle(math.Inf(-1)))
}

func TestStopAndCall(t *testing.T) {
	at := optics.AtHour(4.5, 4.2)
	bearing := words.StopWords(optics.FaceTarget, at, optics.StopBearing)
	assert.Equal(t, "when the spot stands at half past 4 from the hole", bearing)
	assert.Equal(t, "where the spot comes nearest to the hole", words.StopWords(optics.FaceTarget, at, optics.StopClosest))
	assert.Equal(t, "when the spot stands at half past 4, 4 mm from the hole", words.StopWords(optics.FaceTarget, at, optics.StopPoint))

	b := optics.Turn{Mirror: optics.Primary, Screw: "B", Turns: -0.125}
	assert.Equal(t, `Call: "B, ease, anticlockwise, about an eighth, slowly." Then call "stop" when the spot stands at half past 4 from the hole.`, words.CallWords(b, bearing))
	lock := optics.Turn{Mirror: optics.Primary, Lock: "C", Turns: 0.0625}
	assert.Equal(t, `Call: "Lock C, tighten, clockwise, a sixteenth."`, words.CallWords(lock, ""))
	assert.Equal(t, "lock C 1/16, tighten (clockwise)", words.MoveWords(lock))
}

func TestSpokenAmount(t *testing.T) {
	for turns, want := range map[float64]string{
		1. / 8: "an eighth of a turn", -1. / 4: "a quarter of a turn", 1. / 2: "half a turn", 3. / 16: "3 sixteenths of a turn",
		1: "one whole turn", 1.25: "1 and a quarter turns", 2: "2 turns", 0.2: "0.2 turns", 1. / 32: "a touch", 2.5: "2 and a half turns",
	} {
		assert.Equal(t, want, words.SpokenAmount(turns))
	}
}
