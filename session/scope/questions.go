package scope

import (
	"fmt"
	"math"
	"strings"

	"spotward/optics"
	"spotward/session/words"
)

// options are answers that say all by themselves.
func options(values ...string) []words.Option {
	out := make([]words.Option, len(values))
	for i, v := range values {
		out[i] = words.Option{ID: v, Words: v}
	}
	return out
}

// scopeQuestions returns what is asked of a scope that names this kit or none,
// what cannot be guessed first. The figures that are mostly met are those of
// common Newtonians, as this program has them.
func scopeQuestions(kits []Kit, named string) []Question {
	all := []Question{
		{Key: "name", Name: "name", Must: true, Ask: "What is it called?", How: "The name on its label. Records are saved under it."},
		{Key: "aperture", Name: "aperture", Must: true, Sketch: SketchMirror, Ask: "How wide is the primary mirror?", How: `Often on the tube's label: 200 mm, or 8".`,
			sane: func(optics.Telescope) (float64, float64) { return 70, 650 }},
		{Key: "focal_length", Name: "focal length", Must: true, Ask: "What is its focal length?", How: "On the label too, as in 1200. Or its ratio, as in f/6.",
			sane: saneFocalLength,
			put:  putFocalLength, back: func(s Scope) string { return s.FocalLength.Text() }},
		{Key: "focuser_seen_at", Name: "focuser", Sketch: SketchFocuser, Ask: "Where is the focuser, seen from the sky end?",
			How:   "Stand at the open end and look down the tube. Say a clock position, as in 2 or 10:30; 12 is straight up.",
			guess: func(s Scope) string { return string(ClockAt(s.Telescope().FocuserDeg)) }},
		{Key: "use", Name: "use", Ask: "What is it used for?", How: "It decides how far the axis may be off.", Pick: options(UseAllRound, UsePlanets, UseLowPower),
			guess: func(Scope) string { return UseAllRound }},
		{Key: "tube.inner_radius", Name: "tube", per: 0.5, Sketch: SketchWide, Ask: "How wide is the tube inside?", How: "Across the open end, from wall to wall.",
			usual: func(t optics.Telescope) float64 { return 2 * t.InnerRadiusMM },
			sane:  func(t optics.Telescope) (float64, float64) { return t.ApertureMM, 1.4*t.ApertureMM + 20 }},
		{Key: "secondary.from_primary", Name: "mirrors apart", Sketch: SketchApart, Ask: "How far is it from the primary to the middle of the secondary?",
			How:   "Measure outside, along the tube: from the mirror's front to the middle of the focuser.",
			usual: func(t optics.Telescope) float64 { return t.FromPrimaryMM },
			sane: func(t optics.Telescope) (float64, float64) {
				if t.LensInside {
					return t.ApertureMM, t.SkyEndMM
				}
				return math.Max(t.FocalLengthMM/2, shortestMM(t.ApertureMM, t.FocalLengthMM)), t.FocalLengthMM - t.ApertureMM/2
			}},
		{Key: "tube.sky_end", Name: "tube's length", Sketch: SketchLong, Ask: "How long is the tube from the primary to the open end?", How: "It decides where the beam can leave. A tube much shorter than the focal length has a lens built in.",
			usual: func(t optics.Telescope) float64 { return t.SkyEndMM },
			sane: func(t optics.Telescope) (float64, float64) {
				return t.FromPrimaryMM, t.FromPrimaryMM + 3*t.ApertureMM
			}},
		{Key: "secondary.minor_axis", Name: "secondary", Sketch: SketchSecondary, Ask: "How wide is the secondary?", How: "Its short way across. Never reach in over the primary to measure it: the maker's figure will do.",
			usual: func(t optics.Telescope) float64 { return t.MinorAxisMM },
			sane:  func(t optics.Telescope) (float64, float64) { return 0.12 * t.ApertureMM, 0.45 * t.ApertureMM }},
		{Key: "primary.ring_outer_radius", Name: "centre ring", per: 0.5, Ask: "How wide is the ring on the primary's middle?", How: "Across its outside. 0 if there is none.",
			usual: func(t optics.Telescope) float64 { return 2 * t.RingOuterMM },
			sane:  func(optics.Telescope) (float64, float64) { return 6, 50 }},
		{Key: "primary.ring_inner_radius", Name: "ring's hole", per: 0.5, Ask: "How wide is the hole in that ring?", How: "Across. 0 if it is a dot.",
			usual: func(t optics.Telescope) float64 { return 2 * t.RingInnerMM },
			sane:  func(t optics.Telescope) (float64, float64) { return 3, 2 * t.RingOuterMM },
			when:  func(s Scope) bool { return s.Primary.RingOuter.MM() > 0 }},
	}
	for _, q := range ringSettled() {
		q.when = both(q.when, func(s Scope) bool { return !s.Primary.RingOuter.Given() || s.Primary.RingOuter.MM() > 0 })
		all = append(all, q)
	}
	all = append(all, primaryQuestions()...)
	all = append(all, secondaryQuestions()...)
	all = append(all, Question{Key: "corrector", Name: "corrector", Pick: options("no", "yes"), Ask: "Is it used with a coma corrector?",
		How:   "A lens in the drawtube that sharpens the edge of the field. It allows much less.",
		guess: func(Scope) string { return "no" }})
	all = append(all, kitQuestion(kits, named)...)
	for _, q := range append([]Question{holeQuestion()}, laserQuestions()...) {
		q.when = both(q.when, func(s Scope) bool { return s.Kit == "" })
		all = append(all, q)
	}
	return withFields(all)
}

// both returns when two conditions hold; nil is always.
func both(a, b func(Scope) bool) func(Scope) bool {
	if a == nil {
		return b
	}
	return func(s Scope) bool { return a(s) && b(s) }
}

func withFields(all []Question) []Question {
	fields := scopeFields
	for i := range all {
		all[i].fields = fields
	}
	return all
}

func primaryQuestions() []Question {
	return []Question{
		{Key: "primary.screws", Name: "how many, primary", Sketch: SketchBehind, Ask: "How many adjusting screws does the primary have?", How: "3 or 4, without its locks.",
			guess: func(s Scope) string { return fmt.Sprint(s.Telescope().Primary.Screws) }},
		{Key: "primary.circle_radius", Name: "primary's screws", Sketch: SketchBehind, Ask: "How far from the middle do the primary's adjusting screws stand?",
			How:   "From behind: from the middle of the cell to the middle of a screw.",
			usual: func(t optics.Telescope) float64 { return t.Primary.CircleMM },
			sane:  func(t optics.Telescope) (float64, float64) { return 0.2 * t.ApertureMM, 0.6 * t.ApertureMM }},
		threadQuestion("primary", "M5", SketchBehind, func(s *Scope) *CellPart { return &s.Primary.CellPart }),
		{Key: "primary.locks", Name: "locks", Sketch: SketchBehind, Ask: "How many locks does the primary have?", How: "Screws beside the adjusting screws that hold the cell. 0 if there are none.",
			guess: func(s Scope) string { return fmt.Sprint(s.Telescope().Primary.Locks) }},
		{Key: "primary.clockwise_turn", Name: "clockwise, primary", Sketch: SketchBehind, Ask: "What does a clockwise turn do to the primary there?",
			How:  "Seen from behind. If you leave it out, the first turn shows it.",
			Pick: []words.Option{{ID: "pulls", Words: "back, toward you"}, {ID: "pushes", Words: "on, toward the sky"}}, guess: func(Scope) string { return "pulls" }},
		{Key: "primary.first_screw_at", Name: "first letter, primary", Sketch: SketchBehind, Ask: "Do letters stand by the primary's screws? Where is the first?",
			How:  "From behind, 12 straight up. Leave it out if there are none: you will be asked to put some on.",
			when: saysFocuser, put: putFirst(optics.Behind, "primary"), back: firstOf(optics.Behind, "primary")},
		{Key: "primary.labels_run", Name: "letters run, primary", Ask: "Which way round do these letters run, from behind?", How: "From the first to the second.",
			Pick: options("clockwise", "anticlockwise"), when: func(s Scope) bool { return s.Primary.FirstAt != "" }},
	}
}

func secondaryQuestions() []Question {
	return []Question{
		{Key: "secondary.screws", Name: "how many, secondary", Sketch: SketchHolder, Ask: "How many screws round its middle tilt the secondary?", How: "3 or 4, without the bolt in the middle.",
			guess: func(s Scope) string { return fmt.Sprint(s.Telescope().Secondary.Screws) }},
		{Key: "secondary.circle_radius", Name: "secondary's screws", Sketch: SketchHolder, Ask: "How far from the middle do the secondary's screws stand?",
			How:   "At the sky end: from the centre bolt's middle to a screw's. Hold nothing over the mirrors.",
			usual: func(t optics.Telescope) float64 { return t.Secondary.CircleMM },
			sane:  func(optics.Telescope) (float64, float64) { return 6, 45 }},
		threadQuestion("secondary", "M4", SketchHolder, func(s *Scope) *CellPart { return &s.Secondary.CellPart }),
		{Key: "secondary.kind", Name: "secondary held", Ask: "What do the secondary's screws work against?", How: "Look at the holder from the sky end.",
			Pick: []words.Option{{ID: "push-pull", Words: "a centre bolt"}, {ID: "sprung", Words: "a spring"}}, guess: func(Scope) string { return "push-pull" }},
		{Key: "secondary.clockwise_turn", Name: "clockwise, secondary", Sketch: SketchHolder, Ask: "What does a clockwise turn do to the secondary there?",
			How:  "Seen from the sky end. If you leave it out, the first turn shows it.",
			Pick: []words.Option{{ID: "pushes", Words: "on, to the primary"}, {ID: "pulls", Words: "back, toward you"}}, guess: func(Scope) string { return "pushes" }},
		{Key: "secondary.first_screw_at", Name: "first letter, secondary", Sketch: SketchHolder, Ask: "Do letters stand by the secondary's screws? Where is the first?",
			How:  "From the sky end, 12 straight up. Leave it out if there are none: you will be asked to put some on.",
			when: saysFocuser, put: putFirst(optics.SkyEnd, "secondary"), back: firstOf(optics.SkyEnd, "secondary")},
		{Key: "secondary.labels_run", Name: "letters run, secondary", Ask: "Which way round do these letters run, from the sky end?", How: "From the first to the second.",
			Pick: options("clockwise", "anticlockwise"), when: func(s Scope) bool { return s.Secondary.FirstAt != "" }},
	}
}

func saysFocuser(s Scope) bool { return s.FocuserAt != "" }

// threadQuestion asks for a thread by its name, or for how far a turn goes.
func threadQuestion(table, usual string, sketch Sketch, cell func(*Scope) *CellPart) Question {
	return Question{Key: table + ".thread", Name: "thread, " + table, Sketch: sketch, Ask: "Which thread do the " + table + "'s screws have?",
		How:   `As in M5, M6, #8-32 or 1/4-20; or how far a turn goes, as in 0.8 mm. Nobody knows? Leave it out: it is learnt.`,
		guess: func(Scope) string { return usual },
		put: func(s *Scope, text string) (string, error) {
			c := cell(s)
			if m, ok := parseMeasure(text); ok && m.unit != "" {
				if mm := m.length().MM(); mm < 0.1 || mm > 3 {
					return "", fmt.Errorf("%s a turn: expected 0.1 to 3 mm", m.length().Text())
				}
				c.Thread, c.Lead = "", m.length()
				return c.Lead.Text(), nil
			}
			name, err := parseThread(strings.TrimSpace(text))
			if err != nil {
				return "", fmt.Errorf(`%s: expected a thread, as in M5, #8-32 or 1/4-20, or how far a turn goes, as in 0.8 mm`, words.Show(text))
			}
			c.Thread, c.Lead = name, Length{}
			return name, nil
		},
		back: func(s Scope) string {
			if c := cell(&s); c.Thread == "" {
				return c.Lead.Text()
			}
			return cell(&s).Thread
		}}
}

func saneFocalLength(t optics.Telescope) (low, high float64) {
	return 3 * t.ApertureMM, 12 * t.ApertureMM
}

// putFocalLength takes a length, or the ratio to the aperture.
func putFocalLength(s *Scope, text string) (string, error) {
	q := Question{Key: "focal_length", Must: true, sane: saneFocalLength, fields: scopeFields}
	ratio, isRatio := strings.CutPrefix(strings.ReplaceAll(strings.ToLower(text), " ", ""), "f/")
	if !isRatio {
		return q.setLength(s, &s.FocalLength, text)
	}
	n, ok := plainNumber(ratio)
	if !ok {
		return "", fmt.Errorf("%s: expected a ratio as in f/6, or a length as in 1200", words.Show(text))
	}
	// Of a mirror that is named in inches too: what is made is rounded to mm.
	return q.setLength(s, &s.FocalLength, fmt.Sprintf("%.0f mm", math.Round(n*s.Aperture.MM())))
}

// putFirst takes where the first letter stands, 12 straight up, and keeps it
// with 12 toward the focuser, as a file has it.
func putFirst(from optics.Station, table string) func(*Scope, string) (string, error) {
	return func(s *Scope, text string) (string, error) {
		c, err := ParseClock(strings.TrimSuffix(strings.Replace(strings.ToLower(text), "h", ":", 1), ":"))
		if err != nil {
			return "", fmt.Errorf("%s: expected %w", words.Show(text), err)
		}
		PartOf(s, table).FirstAt = ClockAt(c.Deg() - focuserSeenDeg(*s, from))
		return string(c), nil
	}
}

func firstOf(from optics.Station, table string) func(Scope) string {
	return func(s Scope) string {
		c := PartOf(&s, table).FirstAt
		if c == "" || s.FocuserAt == "" {
			return ""
		}
		return string(ClockAt(c.Deg() + focuserSeenDeg(s, from)))
	}
}

// focuserSeenDeg is where the focuser is seen from an end of the tube, degrees
// clockwise from straight up.
func focuserSeenDeg(s Scope, from optics.Station) float64 {
	if from == optics.Behind {
		return -s.FocuserAt.Deg()
	}
	return s.FocuserAt.Deg()
}

func PartOf(s *Scope, table string) *CellPart {
	if table == "secondary" {
		return &s.Secondary.CellPart
	}
	return &s.Primary.CellPart
}
