package scope

import (
	"errors"
	"math"
	"time"

	"spotward/optics"
	"spotward/session/words"
)

// Settled is a place that was measured once and is kept: of the ring on its mirror,
// of a laser's hole in its barrel. The zero Settled was not measured.
type Settled struct {
	By  string // how; "" = not measured
	On  string // which day, 2006-01-02
	Off Length // how far it was found off its place, and left there
}

// How a place is measured: a paper template and a ruler on the mirror, a star out
// of focus, the laser rolled on two nails in a board.
const (
	ByTemplate = "template"
	ByStar     = "star"
	ByRolling  = "rolled"
)

// starRingMM is how well a star tells where a ring stands, 1σ an axis, mm: what two
// looks at five rings prove of the axis, on either side of focus. This program's own.
const starRingMM = 0.4

// SigmaMM returns how far the place may be off, 1σ an axis, mm, and nil where it was
// not measured. Which way it is off nobody kept.
func (p Settled) SigmaMM() *float64 {
	left, ok := map[string]float64{ByTemplate: optics.TemplateRingMM, ByStar: starRingMM, ByRolling: optics.RolledLaserMM}[p.By]
	if !ok {
		return nil
	}
	sigma := math.Hypot(left, p.Off.MM()/math.Sqrt2)
	return &sigma
}

// Method returns what the file says of how this scope is aligned, its laser with it.
func (s Scope) Method() optics.Method {
	return optics.Method{Use: optics.Use(s.Use), RingPlacedMM: s.Primary.Ring.SigmaMM(), LaserOffsetMM: s.Laser.Hole.SigmaMM()}
}

// settledFields are the keys of a place that is measured once.
func settledFields(table, what string, highMM float64, ways []string, at func(*Scope) *Settled) []field {
	return []field{
		{table: table, key: what + "_settled_by", at: func(s *Scope) any { return &at(s).By }, oneOf: ways},
		{table: table, key: what + "_settled_on", at: func(s *Scope) any { return &at(s).On }, parse: parseDay},
		{table: table, key: what + "_off", at: func(s *Scope) any { return &at(s).Off }, low: 0, high: highMM},
	}
}

func parseDay(text string) (string, error) {
	if _, err := time.Parse(time.DateOnly, text); err != nil {
		return "", errors.New("a day as in 2026-05-01")
	}
	return text, nil
}

// notYet is the answer of a place that was not measured.
const notYet = "no"

// settledQuestions ask for a place that is measured once.
func settledQuestions(table, what, ask, how, off string, ways []words.Option, at func(*Scope) *Settled) []Question {
	measured := func(s Scope) bool { return at(&s).By != "" }
	key := table + "." + what
	return []Question{
		{Key: key + "_settled_by", Name: what + " measured", Ask: ask, How: how,
			Pick:  append([]words.Option{{ID: notYet, Words: "not yet"}}, ways...),
			guess: func(Scope) string { return notYet },
			put: func(s *Scope, text string) (string, error) {
				if text == notYet {
					*at(s) = Settled{}
					return text, nil
				}
				at(s).By = text
				return text, nil
			},
			back: func(s Scope) string { return at(&s).By }},
		{Key: key + "_settled_on", Name: what + ", day", when: measured, Ask: "On which day was that?", How: "As in 2026-05-01. What was glued again since is not measured.",
			guess: func(Scope) string { return "not known" }},
		{Key: key + "_off", Name: what + " off", when: measured, Ask: off, How: "0 if it was put right, or stood right.",
			usual: func(optics.Telescope) float64 { return 0 },
			sane:  func(optics.Telescope) (float64, float64) { return 0, 3 }},
	}
}

func ringSettled() []Question {
	return settledQuestions("primary", "ring", "Was it measured where the ring stands on the mirror?",
		"Use a paper template as wide as the mirror, folded twice, and a ruler. Or use a star on both sides of focus.", "How far off the mirror's middle does it stand?",
		[]words.Option{{ID: ByTemplate, Words: "by a paper template"}, {ID: ByStar, Words: "by a star"}},
		func(s *Scope) *Settled { return &s.Primary.Ring })
}

func holeSettled() []Question {
	return settledQuestions("laser", "hole", "Was it measured where the laser's beam stands in its barrel?",
		"Out of the telescope, roll it on two nails in a board, a paper 20 cm away. Keep it below eye height, toward a wall.", "How wide was half the circle on the paper?",
		[]words.Option{{ID: ByRolling, Words: "rolled on two nails"}},
		func(s *Scope) *Settled { return &s.Laser.Hole })
}
