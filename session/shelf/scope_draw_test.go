package shelf_test

import (
	"strings"

	"pgregory.net/rapid"

	"spotward/session/scope"
)

func lengths(low, high float64) *rapid.Generator[scope.Length] {
	return rapid.Custom(func(t *rapid.T) scope.Length {
		v := rapid.Float64Range(low, high).Draw(t, "mm")
		switch rapid.SampledFrom([]string{"", "mm", "in"}).Draw(t, "unit") {
		case "mm":
			return scope.MM(v)
		case "in":
			// Kept off the limits, where 25.4 times the quotient may miss.
			return scope.Inch(min(max(v, low*1.001), high*0.999) / 25.4)
		}
		return scope.Length{}
	})
}

func oneOf(words ...string) *rapid.Generator[string] {
	return rapid.SampledFrom(append(words, ""))
}

func counts(low, high int) *rapid.Generator[*int] { return rapid.Ptr(rapid.IntRange(low, high), true) }

func clocks() *rapid.Generator[scope.Clock] {
	return rapid.Custom(func(t *rapid.T) scope.Clock {
		if rapid.Bool().Draw(t, "left out") {
			return ""
		}
		return scope.ClockAt(float64(rapid.IntRange(0, 719).Draw(t, "minutes")) / 2)
	})
}

func names() *rapid.Generator[string] {
	return rapid.StringMatching(`[A-ZÄÖéжア][a-z0-9 _.'()+&,-]{0,30}[a-z]`).Filter(func(s string) bool { return scope.CheckName(s) == nil })
}

func cells(low, high float64) *rapid.Generator[scope.CellPart] {
	return rapid.Custom(func(t *rapid.T) scope.CellPart {
		c := scope.CellPart{
			Screws:    rapid.SampledFrom([]int{0, 3, 4}).Draw(t, "screws"),
			Circle:    lengths(low, high).Draw(t, "circle"),
			Thread:    oneOf("M4", "M5", "M5x0.5", "#8-32", "1/4-20").Draw(t, "thread"),
			Kind:      oneOf("push-pull", "sprung").Draw(t, "kind"),
			Clockwise: oneOf("pushes", "pulls").Draw(t, "clockwise"),
			FirstAt:   clocks().Draw(t, "first"),
			LabelsRun: oneOf("clockwise", "anticlockwise").Draw(t, "run"),
		}
		if c.Thread == "" {
			c.Lead = lengths(0.1, 3).Draw(t, "lead")
		}
		if rapid.Bool().Draw(t, "labels") {
			letters := rapid.Permutation(strings.Split("ABCDEFXYZ", "")).Draw(t, "letters")
			c.Labels = letters[:max(3, c.Screws)]
		}
		return c
	})
}

// scopes draws scopes that a file can describe.
func scopes() *rapid.Generator[scope.Scope] {
	return rapid.Custom(func(t *rapid.T) scope.Scope {
		s := scope.Scope{
			Format:      1,
			Name:        names().Draw(t, "name"),
			Aperture:    scope.MM(rapid.Float64Range(200, 400).Draw(t, "aperture")),
			FocalLength: scope.MM(rapid.Float64Range(1000, 2000).Draw(t, "focal length")),
			FocuserAt:   clocks().Draw(t, "focuser"),
			Use:         oneOf(scope.UseLowPower, scope.UseAllRound, scope.UsePlanets).Draw(t, "use"),
			Corrector:   rapid.Bool().Draw(t, "corrector"),
			Tube:        scope.TubePart{InnerRadius: lengths(200, 1000).Draw(t, "inner"), SkyEnd: lengths(999, 3000).Draw(t, "sky")},
			Secondary: scope.SecondaryPart{
				FromPrimary: lengths(700, 950).Draw(t, "from primary"),
				MinorAxis:   lengths(30, 150).Draw(t, "minor axis"),
				PivotAbove:  lengths(0, 300).Draw(t, "pivot"),
				CellPart:    cells(2, 100).Draw(t, "secondary"),
			},
			Primary: scope.PrimaryPart{
				CellPart:  cells(10, 200).Draw(t, "primary"),
				Locks:     counts(0, 3).Draw(t, "locks"),
				RingInner: lengths(0, 10).Draw(t, "ring inner"),
				RingOuter: lengths(10, 60).Draw(t, "ring outer"),
			},
		}
		s.Estimates = rapid.SampledFrom([][]string{nil, {"secondary.from_primary"}, {"tube.sky_end", "primary.thread", "secondary.pivot_above"}}).Draw(t, "estimates")
		if rapid.Bool().Draw(t, "kit") {
			s.Kit = names().Draw(t, "kit name")
		} else {
			s.Laser = lasers().Draw(t, "laser")
		}
		return s
	})
}

func lasers() *rapid.Generator[scope.Laser] {
	return rapid.Custom(func(t *rapid.T) scope.Laser {
		return scope.Laser{
			Class:      oneOf("1", "2", "3R", "I", "II", "IIIa").Draw(t, "class"),
			HoleRadius: lengths(0.2, 9).Draw(t, "hole"),
			FaceRadius: lengths(10, 60).Draw(t, "face"),
			RingStep:   lengths(0.2, 20).Draw(t, "step"),
			RingCount:  counts(0, 30).Draw(t, "rings"),
			BeamWidth:  lengths(0.1, 15).Draw(t, "beam"),
			Face:       oneOf(scope.FaceSlanted, scope.FaceFlat).Draw(t, "face kind"),
			Rings:      oneOf(scope.RingsOnFace, scope.RingsAlongTube).Draw(t, "ring kind"),
		}
	})
}
