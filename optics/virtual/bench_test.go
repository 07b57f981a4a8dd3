package virtual_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/optics/virtual"
)

// tern is a telescope with letters at both mirrors' screws.
func tern() optics.Telescope {
	t := virtual.Builtin()
	t.Secondary.Labels, t.Primary.Labels = []string{"A", "B", "C"}, []string{"A", "B", "C"}
	return t
}

func arranged(t require.TestingT, typed ...string) virtual.Arranged {
	a := virtual.Arranged{}
	for _, line := range typed {
		var err error
		a, err = a.With(tern(), line)
		require.NoError(t, err, line)
	}
	return a
}

func TestArranging(t *testing.T) {
	for _, c := range []struct {
		typed []string
		text  string
		check func(s virtual.Setup) bool
	}{
		{nil, "bench:easy", func(s virtual.Setup) bool { return s.Faults.SpotMM >= 8 }},
		{[]string{"spot 20"}, "bench:easy,spot=20", func(s virtual.Setup) bool { return s.Faults.SpotMM == 20 }},
		{[]string{"Spot  0,5 mm", "return 3mm"}, "bench:easy,spot=0.5,return=3", func(s virtual.Setup) bool { return s.Faults.SpotMM == 0.5 && s.Faults.ReturnMM == 3 }},
		{[]string{"spot 20", "spot 4"}, "bench:easy,spot=4", func(s virtual.Setup) bool { return s.Faults.SpotMM == 4 }},
		{[]string{"weak", "spot 20", "weak off"}, "bench:easy,spot=20", func(s virtual.Setup) bool { return !s.Faults.WeakLaser }},
		{[]string{"slope 2"}, "bench:easy,slope=2", func(s virtual.Setup) bool { return s.Faults.LaserSlopeRad == 0.002 }},
		{[]string{"dead 12"}, "bench:easy,dead=12", func(s virtual.Setup) bool { return s.Faults.DeadAfter == 12 }},
		{[]string{"level hard", "hands careful"}, "bench:hard,hands=careful", func(s virtual.Setup) bool { return s.Faults.SeatSpreadMM == 1 && s.Hands.OtherWay == 0 }},
		{[]string{"reversed primary", "reversed secondary"}, "bench:easy,reversed=primary,reversed=secondary", func(s virtual.Setup) bool { return s.Faults.PrimaryReversed && s.Faults.SecondaryReversed }},
		{[]string{"stuck primary b", "sticky secondary 3"}, "bench:easy,stuck=primary.B,sticky=secondary.C", func(s virtual.Setup) bool {
			return assert.ObjectsAreEqual([]virtual.ScrewFault{{Mirror: optics.Primary, Screw: 1, Is: virtual.Seized}, {Mirror: optics.Secondary, Screw: 2, Is: virtual.Grabbing}}, s.Faults.Screws)
		}},
		{[]string{"stuck primary B", "slack primary B"}, "bench:easy,slack=primary.B", func(s virtual.Setup) bool { return len(s.Faults.Screws) == 1 }},
	} {
		a := arranged(t, c.typed...)
		assert.Equal(t, c.text, a.String())
		assert.True(t, c.check(a.Setup(tern(), 3)), "%q: %+v", c.text, a.Setup(tern(), 3))
		again, err := virtual.ParseArranged(tern(), c.text)
		require.NoError(t, err)
		assert.Equal(t, a.Setup(tern(), 3), again.Setup(tern(), 3))
	}
}

func TestWhatCannotBeArranged(t *testing.T) {
	for _, c := range []struct{ typed, says string }{
		{"spot", "a number from 0 to 100"}, {"spot -1", "a number"}, {"spot 101", "a number"}, {"spot nan", "a number"},
		{"dead 1.5", "a number"}, {"stuck B", "say the mirror"}, {"stuck primary Q", "say the mirror"}, {"stuck primary 4", "say the mirror"},
		{"weak 3", "said alone"}, {"hands many", "careful, trained or first"}, {"reversed", "which mirror"}, {"level odd", "unknown level"}, {"nonsense 4", "cannot be set up"},
	} {
		_, err := virtual.Arranged{}.With(tern(), c.typed)
		assert.ErrorContains(t, err, c.says, c.typed)
	}
	for _, text := range []string{
		"", "bench:", "easy", "bench:easy,", "bench:easy,spot", "bench:easy,spot=020", "bench:easy,spot=20,spot=20", "bench:easy,stuck=primary.b",
		"bench:easy,stuck=primary.A,slack=primary.A", "bench:easy,reversed=primary,reversed=primary", "bench:easy,weak=", "bench:none", "bench:easy,spot=1" + strings.Repeat("0", 2000),
	} {
		_, err := virtual.ParseArranged(tern(), text)
		assert.Error(t, err, text)
	}
}

// Every knob does something, says what it stands at, and is written so that it
// is read back.
func TestEveryKnob(t *testing.T) {
	for _, k := range virtual.Knobs() {
		typed := k.Name
		switch takes := k.Takes(); {
		case k.Most > 0:
			typed += " 1"
			if k.Most < 1 {
				typed = k.Name + " 0.15"
			}
		case takes != "":
			typed += " " + takes
		}
		a := arranged(t, typed)
		s := a.Setup(tern(), 3)
		assert.NotEqual(t, virtual.Arranged{}.Setup(tern(), 3), s, k.Name)
		assert.NotEmpty(t, k.Now(s, tern()), k.Name)
		assert.True(t, a.IsSet(k.Name), k.Name)
		off, err := a.With(tern(), k.Name+" off")
		require.NoError(t, err)
		assert.Equal(t, "bench:easy", off.String())
		assert.False(t, off.IsSet(k.Name), k.Name)
		again, err := virtual.ParseArranged(tern(), a.String())
		require.NoError(t, err, k.Name)
		assert.Equal(t, a.String(), again.String())
		w := virtual.NewWith(tern(), s, 3)
		assert.NoError(t, w.Truth().Err, k.Name)
	}
}

func TestArrangedIsReadBackAsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := virtual.Arranged{}
		for range rapid.IntRange(0, 12).Draw(t, "n") {
			k := rapid.SampledFrom(virtual.Knobs()).Draw(t, "knob")
			arg := rapid.SampledFrom([]string{"", "0.1", "3", "primary A", "secondary 2", "primary", "first", "off"}).Draw(t, "arg")
			if next, err := a.With(tern(), k.Name+" "+arg); err == nil {
				a = next
			}
		}
		again, err := virtual.ParseArranged(tern(), a.String())
		require.NoError(t, err, a.String())
		require.Equal(t, a.String(), again.String())
		require.Equal(t, a.Setup(tern(), 5), again.Setup(tern(), 5))
	})
}

func FuzzParseArranged(f *testing.F) {
	for _, s := range []string{"bench:easy", "bench:usual,spot=20,stuck=primary.B", "bench:hard,hands=first,weak=on", "bench:easy,spot=", "bench:,=,="} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a, err := virtual.ParseArranged(tern(), text)
		if err != nil {
			assert.NotContains(t, err.Error(), "\n")
			return
		}
		assert.Equal(t, text, a.String())
		assert.NoError(t, virtual.NewWith(tern(), a.Setup(tern(), 1), 1).Truth().Err)
	})
}
