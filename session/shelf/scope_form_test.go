package shelf_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

// says answers a form's questions by their names, and asserts that each is
// taken.
func says(t *testing.T, f *scope.Form, answers map[string]string) {
	t.Helper()
	for {
		q, _, _, ok := f.Asked()
		if !ok {
			return
		}
		_, err := f.Take(answers[q.Name])
		require.NoError(t, err, "%s: %s", q.Name, answers[q.Name])
	}
}

func TestFormInInches(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	f, err := l.DescribeScope("")
	require.NoError(t, err)
	says(t, f, map[string]string{
		"name": "Wagtail", "aperture": "8", "focal length": "f/6", "focuser": "10h30", "use": "2", "tube": `9 1/4"`,
		"mirrors apart": "38 in", "tube's length": "120 cm", "centre ring": "16", "primary's screws": "75", "thread, primary": "1/4-20",
		"thread, secondary": "0.7 mm", "how many, secondary": "4", "clockwise, secondary": "pulls", "first letter, primary": "3:30", "letters run, primary": "anti", "locks": "0",
	})
	require.NoError(t, l.KeepForm(f))
	s, err := l.Scope("wagtail")
	require.NoError(t, err)
	assert.Equal(t, scope.Inch(8), s.Aperture, "8 mm would be no mirror")
	assert.Equal(t, scope.MM(1219), s.FocalLength)
	assert.Equal(t, scope.Clock("10:30"), s.FocuserAt)
	assert.Equal(t, scope.UsePlanets, s.Use)
	assert.Equal(t, scope.Inch(4.625), s.Tube.InnerRadius)
	assert.Equal(t, scope.Inch(38), s.Secondary.FromPrimary)
	assert.Equal(t, scope.MM(1200), s.Tube.SkyEnd)
	assert.Equal(t, scope.MM(8), s.Primary.RingOuter, "16 inches would be no ring")
	assert.Equal(t, scope.MM(75), s.Primary.Circle)
	assert.Equal(t, "1/4-20", s.Primary.Thread)
	assert.Equal(t, scope.MM(0.7), s.Secondary.Lead)
	assert.Equal(t, 0, *s.Primary.Locks)
	assert.Equal(t, 4, s.Secondary.Screws)
	assert.Equal(t, "pulls", s.Secondary.Clockwise)
	// From behind the focuser at 10:30 is seen at 1:30: the letter is two hours on.
	assert.Equal(t, scope.Clock("2:00"), s.Primary.FirstAt)
	assert.Equal(t, "anticlockwise", s.Primary.LabelsRun)
	assert.Contains(t, string(scope.EncodeScope(s)), "inner_radius_in = 4.625")
	assert.InDelta(t, 2*30, s.Telescope().ScrewDial(optics.Primary, 0).Hour()*30-1.5*30, 1e-6)
}

func TestFormAnswers(t *testing.T) {
	for _, c := range []struct {
		name, text, says string // "" = taken
		doubt            bool
	}{
		{"aperture", "", "needed", false},
		{"aperture", "wide", "no length", false},
		{"aperture", "20000", "expected 50 to 1500 mm", false},
		{"aperture", `200"`, `expected 1.97 to 59.06 in`, false},
		{"aperture", "unknown", "needed", false},
		{"focal length", "100", "expected 150 to", false},
		{"focal length", "f/x", "ratio", false},
		{"focal length", "3500", "usually it is 600 mm to 2400 mm", true},
		{"focuser", "13:00", "clock position", false},
		{"use", "4", "number from 1 to 3", false},
		{"use", "plan", "", false},
		{"tube", "199", "at least half the aperture", false},
		{"mirrors apart", "1200", "less than the focal length", false},
		{"mirrors apart", "860 mm", "", false},
		{"mirrors apart", "600 mm", "is short for a focal length of 1200 mm. Is a lens built into the tube?", true},
		{"mirrors apart", "1190", "unusual", true},
		{"thread, primary", "M99", "thread", false},
		{"thread, primary", "9 mm", "0.1 to 3", false},
		{"locks", "5", "whole number from 0 to 4", false},
		{"locks", "many", "whole number", false},
		{"how many, primary", "2", "whole number from 3 to 4", false},
		{"centre ring", "0", "", false},
	} {
		l := sessiontest.OpenShelf(t)
		f, err := l.DescribeScope("")
		require.NoError(t, err)
		for _, line := range []string{"Wagtail", "200", "1200"} {
			q, _, _, _ := f.Asked()
			if q.Name == c.name {
				break
			}
			_, err := f.Take(line)
			require.NoError(t, err)
		}
		for q, _, _, _ := f.Asked(); q.Name != c.name; q, _, _, _ = f.Asked() {
			_, err := f.Take("")
			require.NoError(t, err)
		}
		before := scope.EncodeScope(f.Scope())
		_, err = f.Take(c.text)
		if c.says == "" {
			assert.NoError(t, err, "%s: %s", c.name, c.text)
			continue
		}
		require.ErrorContains(t, err, c.says, "%s: %s", c.name, c.text)
		sessiontest.AssertPlain(t, err)
		assert.Equal(t, before, scope.EncodeScope(f.Scope()))
		_, again := f.Take(c.text)
		assert.Equal(t, c.doubt, again == nil, "%s: %s, said twice", c.name, c.text)
	}
}

// However a form is walked, what was said is there, and a program that dies
// goes on from it.
func TestFormLosesNothing(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		dir, err := os.MkdirTemp("", "form")
		require.NoError(r, err)
		defer os.RemoveAll(dir)
		l, err := shelf.Open(dir)
		require.NoError(r, err)
		f, err := l.DescribeScope("")
		require.NoError(r, err)
		said := map[string]string{}
		left := map[string]string{} // in the line
		for range rapid.IntRange(1, 60).Draw(r, "steps") {
			q, _, _, asked := f.Asked()
			line := rapid.SampledFrom([]string{"", "Wagtail", "200", "1200", "M6", "2", "40 mm", "about 80", "nonsense!", "esc", "done", "7", "dies"}).Draw(r, "line")
			switch line {
			case "esc":
				text := rapid.SampledFrom([]string{"", "12", "half a wo"}).Draw(r, "in the line")
				if !f.Back(text) {
					f.Back("")
					text = ""
				}
				if asked {
					left[q.Key] = text
				}
			case "dies":
				require.NoError(r, l.KeepDraft(f))
				if f, err = l.DescribeScope(""); err != nil {
					r.Fatal(err)
				}
			default:
				_, err := f.Take(line)
				if asked && err == nil && line != "" && line != "done" {
					said[q.Key] = f.Said(q)
					require.NotEmpty(r, f.Said(q))
				}
				if asked && err == nil && line != "done" {
					left[q.Key] = ""
				}
			}
			for _, q := range f.Due() {
				require.Equal(r, said[q.Key], f.Said(q), q.Key)
			}
			if q, _, _, ok := f.Asked(); ok {
				require.Equal(r, left[q.Key], f.Typed())
			}
		}
	})
}

func TestFormGoesOnWhereItWasLeft(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	f, err := l.DescribeScope("")
	require.NoError(t, err)
	for _, answer := range []string{"Wagtail", "200", "1200"} {
		_, err := f.Take(answer)
		require.NoError(t, err)
	}
	require.NoError(t, l.KeepDraft(f))
	again, err := l.DescribeScope("")
	require.NoError(t, err)
	assert.True(t, again.Continued)
	q, n, _, _ := again.Asked()
	assert.Equal(t, "focuser", q.Name)
	assert.Equal(t, 4, n)
}

// What is not measured is marked, in the file too, and taken as it was said; it
// is one of the estimates until it is measured.
func TestFormOfEstimates(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	f, err := l.DescribeScope("")
	require.NoError(t, err)
	says(t, f, map[string]string{"name": "Wren", "aperture": "200", "focal length": "1200", "mirrors apart": "about 40 in", "primary's screws": "70",
		"thread, primary": "~ 0.8 mm", "thread, secondary": "About M4"})
	require.NoError(t, l.KeepForm(f))
	s, err := l.Scope("wren")
	require.NoError(t, err)
	assert.Equal(t, scope.Inch(40), s.Secondary.FromPrimary)
	assert.ElementsMatch(t, []string{"secondary.from_primary", "primary.lead", "secondary.thread"}, s.Estimates)
	assert.Contains(t, s.Guessed(), "how far apart the mirrors are")
	assert.Contains(t, s.Guessed(), "the thread of the primary's screws")
	assert.NotContains(t, s.Guessed(), "how far out the primary's screws stand")
	tel := s.Telescope()
	assert.InDelta(t, 1016, tel.FromPrimaryMM, 1e-9)
	assert.InDelta(t, 0.8, tel.Primary.LeadMM, 1e-9)
	assert.Equal(t, optics.Unknown, tel.Primary.GainKnown, "its thread is a guess")

	f, err = l.EditScope("wren")
	require.NoError(t, err)
	for _, line := range []string{"thread, primary", "M5"} {
		_, err = f.Take(line)
		require.NoError(t, err)
	}
	require.NoError(t, l.KeepForm(f))
	s, _ = l.Scope("wren")
	assert.ElementsMatch(t, []string{"secondary.from_primary", "secondary.thread"}, s.Estimates)
	assert.Equal(t, "M5", s.Primary.Thread)
	assert.False(t, s.Primary.Lead.Given())
	assert.Equal(t, optics.Given, s.Telescope().Primary.GainKnown)

	kit, err := l.DescribeKit("")
	require.NoError(t, err)
	for _, line := range []string{"Box", ""} {
		_, err = kit.Take(line)
		require.NoError(t, err)
	}
	_, err = kit.Take("about 5")
	require.ErrorContains(t, err, "the figure alone")
}

func TestFormOfNames(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	for _, name := range []string{"Wren", "Rook"} {
		require.NoError(t, l.SaveScope(scope.Scope{Format: 1, Name: name, Aperture: scope.MM(200), FocalLength: scope.MM(1200)}))
	}
	require.NoError(t, l.RetireScope("Rook"))
	f, err := l.DescribeScope("wren", scope.Builtin())
	require.NoError(t, err)
	for name, says := range map[string]string{"WREN": "called Wren", "dunlin": "called Dunlin", "rook": "retired", "a/b": "letters, digits"} {
		_, err := f.Take(name)
		require.ErrorContains(t, err, says)
	}
	_, err = f.Take("Linnet")
	require.NoError(t, err)
	_, err = f.Take("done")
	require.NoError(t, err)
	require.NoError(t, l.KeepForm(f))
	s, err := l.Scope("linnet")
	require.NoError(t, err)
	assert.Equal(t, scope.MM(1200), s.FocalLength)
	_, err = l.DescribeScope("crane")
	require.ErrorContains(t, err, "no scope")
}

func TestFormOfAKit(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	f, err := l.DescribeKit("")
	require.NoError(t, err)
	says(t, f, map[string]string{"name": "Red box", "laser's class": "2", "hole": "5", "target face": `1"`, "rings": "6", "rings apart": "2", "face lies": "flat"})
	require.NoError(t, l.KeepForm(f))
	k, err := l.Kit("red box")
	require.NoError(t, err)
	assert.Equal(t, scope.MM(2.5), k.HoleRadius)
	assert.Equal(t, scope.Inch(0.5), k.FaceRadius)
	assert.Equal(t, scope.FaceFlat, k.Face)

	sc, err := l.DescribeScope("")
	require.NoError(t, err)
	says(t, sc, map[string]string{"name": "Wren", "aperture": "200", "focal length": "1200", "kit": "red", "laser's face": "240"})
	require.NoError(t, l.KeepForm(sc))
	s, err := l.Scope("wren")
	require.NoError(t, err)
	assert.Equal(t, "Red box", s.Kit)
	assert.False(t, s.Laser.Given())
	assert.NotContains(t, s.Guessed(), "how the target face lies", "the kit says it")

	f, err = l.EditKit("red box")
	require.NoError(t, err)
	for _, line := range []string{"hole", "6"} {
		_, err = f.Take(line)
		require.NoError(t, err)
	}
	require.NoError(t, l.KeepForm(f))
	k, _ = l.Kit("red box")
	assert.Equal(t, scope.MM(3), k.HoleRadius)
	assert.Equal(t, scope.Inch(0.5), k.FaceRadius)
}

// What an unusual length comes to, by what is said after it.
func TestAnUnusualLengthIsAskedBack(t *testing.T) {
	for _, c := range []struct {
		name   string
		says   []string
		taken  string // "" = it is left out
		wrong  string // what the last of them is answered; "" = it was taken
		asking bool   // the same question still
	}{
		{"nothing", nil, "", "would be unusual", true},
		{"an empty line", []string{""}, "", "500 mm is not accepted yet: yes accepts it, unknown leaves it out", true},
		{"empty lines, then yes", []string{"", "", "yes"}, "500 mm", "", false},
		{"yes", []string{"Yes"}, "500 mm", "", false},
		{"no", []string{"no"}, "", "is no length", true},
		{"no, then yes", []string{"no", "yes"}, "", "is no length", true},
		{"the same", []string{"500"}, "500 mm", "", false},
		{"the same in other words", []string{"50 cm"}, "500 mm", "", false},
		{"another unusual one", []string{"510"}, "", "510 mm would be unusual", true},
		{"another, then yes", []string{"510", "yes"}, "510 mm", "", false},
		{"about it, then yes", []string{"about 510", "yes"}, "about 510 mm", "", false},
		{"another, then the first", []string{"510", "500"}, "", "500 mm would be unusual", true},
		{"a usual one", []string{"230"}, "230 mm", "", false},
		{"unknown", []string{"unknown"}, "", "", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := sessiontest.OpenShelf(t).DescribeScope("")
			require.NoError(t, err)
			for _, line := range []string{"Wagtail", "200", "1200"} {
				_, err := f.Take(line)
				require.NoError(t, err)
			}
			q, _, _, _ := f.Asked()
			for ; q.Name != "tube"; q, _, _, _ = f.Asked() {
				_, err := f.Take("")
				require.NoError(t, err)
			}
			for _, line := range append([]string{"500"}, c.says...) {
				_, err = f.Take(line)
			}
			if c.wrong == "" {
				require.NoError(t, err)
			} else {
				require.ErrorContains(t, err, c.wrong)
				sessiontest.AssertPlain(t, err)
			}
			assert.Equal(t, c.taken, f.Said(q))
			now, _, _, _ := f.Asked()
			assert.Equal(t, c.asking, now.Name == q.Name)
		})
	}
}
