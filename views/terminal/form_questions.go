package terminal

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/views/schematic"
)

// questions are what the form asks, the two that cannot be guessed first.
func questions() []question {
	return []question{
		{name: "name", ask: "What is it called?", how: "The name on its label. Records are kept under it.", must: true,
			take: func(s *session.Scope, text string) error { s.Name = text; return session.CheckName(text) }},
		{name: "aperture", ask: "How wide is the primary mirror, mm?", how: `Often on the tube's label: 200, or 8" in inches.`, must: true,
			take: length(func(s *session.Scope) *session.Length { return &s.Aperture }, 1)},
		{name: "focal length", ask: "What is its focal length, mm?", how: "On the label too. If only f/6 is there: six times the aperture.", must: true,
			take: length(func(s *session.Scope) *session.Length { return &s.FocalLength }, 1)},
		{name: "focuser", ask: "Where is the focuser, seen from the sky end?", how: "Stand at the open end and look down the tube: as on a clock, 12 straight up. As in 2 or 10:30.",
			usual: func(s session.Scope) string {
				return session.ClockText(optics.AtHour(s.Telescope().FocuserDeg/30, 1))
			},
			take: func(s *session.Scope, text string) (err error) {
				s.FocuserAt, err = session.ParseClock(text)
				return err
			},
			draw: drawFocuser},
		{name: "use", ask: "What is it used for?", how: "It decides how much may be off.", pick: []string{session.UseAllRound, session.UsePlanets, session.UseLowPower},
			usual: func(session.Scope) string { return session.UseAllRound },
			take:  func(s *session.Scope, text string) error { s.Use = text; return nil }},
		{name: "tube", ask: "How wide is the tube inside, mm?", how: "Across the open end, from wall to wall.",
			usual: func(s session.Scope) string { return mm(2 * s.Telescope().InnerRadiusMM) },
			take:  length(func(s *session.Scope) *session.Length { return &s.Tube.InnerRadius }, 0.5),
			draw: across(func(t optics.Telescope) (schematic.SectionPoint, schematic.SectionPoint) {
				return schematic.SectionPoint{AlongMM: t.OpenEndMM() * 0.5, UpMM: -t.MouthMM()}, schematic.SectionPoint{AlongMM: t.OpenEndMM() * 0.5, UpMM: t.MouthMM()}
			})},
		{name: "mirrors apart", ask: "How far is it from the primary to the middle of the secondary, mm?", how: "Measure outside, along the tube: from the cell's front to the middle of the focuser.",
			usual: func(s session.Scope) string { return mm(s.Telescope().FromPrimaryMM) },
			take:  length(func(s *session.Scope) *session.Length { return &s.Secondary.FromPrimary }, 1),
			draw: across(func(t optics.Telescope) (schematic.SectionPoint, schematic.SectionPoint) {
				return schematic.SectionPoint{}, schematic.SectionPoint{AlongMM: t.FromPrimaryMM}
			})},
		{name: "laser's face", ask: "How far from the tube's middle is the laser's target face, mm?", how: "Laser in, drawtube as in use: from the tube's wall to the face, and half the tube's width.",
			usual: func(s session.Scope) string { return mm(s.Telescope().HoleFromAxisMM) },
			take:  length(func(s *session.Scope) *session.Length { return &s.Laser.HoleFromAxis }, 1),
			draw: across(func(t optics.Telescope) (schematic.SectionPoint, schematic.SectionPoint) {
				return schematic.SectionPoint{AlongMM: t.FromPrimaryMM}, schematic.SectionPoint{AlongMM: t.FromPrimaryMM, UpMM: t.HoleFromAxisMM}
			})},
		{name: "tube's length", ask: "How long is the tube from the primary to the open end, mm?", how: "It decides where the beam can leave.",
			usual: func(s session.Scope) string { return mm(s.Telescope().OpenEndMM()) },
			take:  length(func(s *session.Scope) *session.Length { return &s.Tube.SkyEnd }, 1),
			draw: across(func(t optics.Telescope) (schematic.SectionPoint, schematic.SectionPoint) {
				return schematic.SectionPoint{}, schematic.SectionPoint{AlongMM: t.OpenEndMM()}
			})},
		{name: "secondary", ask: "How wide is the secondary, mm?", how: "Its short way across. Never reach in over the primary to measure it: the maker says it.",
			usual: func(s session.Scope) string { return mm(s.Telescope().MinorAxisMM) },
			take:  length(func(s *session.Scope) *session.Length { return &s.Secondary.MinorAxis }, 1)},
		{name: "centre ring", ask: "How wide is the ring on the primary's middle, mm?", how: "Across its outside. 0 if there is none.",
			usual: func(s session.Scope) string { return mm(2 * s.Telescope().RingOuterMM) },
			take:  length(func(s *session.Scope) *session.Length { return &s.Primary.RingOuter }, 0.5)},
		{name: "primary's screws", ask: "How far from the middle do the primary's adjusting screws stand, mm?", how: "From behind: from the middle of the cell to the middle of a screw.",
			usual: func(s session.Scope) string { return mm(s.Telescope().Primary.CircleMM) },
			take:  length(func(s *session.Scope) *session.Length { return &s.Primary.Circle }, 1), draw: drawCell},
		{name: "their thread", ask: "Which thread do they have?", how: `As in M5, M6, #8-32 or 1/4-20. Nobody knows? Leave it out: it is learnt.`,
			usual: func(session.Scope) string { return "M5" },
			take:  func(s *session.Scope, text string) error { s.Primary.Thread = text; return nil }, draw: drawCell},
		{name: "locks", ask: "How many locks does the primary have?", how: "Screws beside the adjusting screws that hold the cell. 0 if there are none.", pick: nil,
			usual: func(s session.Scope) string { return strconv.Itoa(s.Telescope().Primary.Locks) },
			take:  locks, draw: drawCell},
	}
}

func mm(v float64) string { return fmt.Sprintf("%.0f mm", v) }

// length takes a length in mm, or in inches where they are written; what is
// asked is as many times what the scope keeps.
func length(at func(*session.Scope) *session.Length, times float64) func(*session.Scope, string) error {
	return func(s *session.Scope, text string) error {
		unit := session.MM
		number := strings.TrimSpace(strings.TrimSuffix(text, "mm"))
		for _, inch := range []string{`"`, "in", "inch", "inches"} {
			if cut, ok := strings.CutSuffix(text, inch); ok {
				unit, number = session.Inch, strings.TrimSpace(cut)
			}
		}
		v, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
		if err != nil || !(v >= 0 && v < 1e6) {
			return fmt.Errorf("%.20q is no length: say mm, as in 250, or inches, as in 10\"", text)
		}
		*at(s) = unit(v * times)
		return nil
	}
}

func locks(s *session.Scope, text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n > 4 {
		return errors.New("say how many, 0 to 4")
	}
	s.Primary.Locks = &n
	return nil
}

// across draws the length that is asked for over the scope in section.
func across(ends func(optics.Telescope) (from, to schematic.SectionPoint)) func(*page, session.Scope) {
	return func(p *page, s session.Scope) {
		from, to := ends(s.Telescope())
		drawSection(p, s, schematic.Dim{From: from, To: to, Word: "this"})
	}
}

// drawFocuser draws the open end with the focuser where it is said to be.
func drawFocuser(p *page, s session.Scope) {
	t := s.Telescope()
	spec := seenFrom(t, optics.FaceCard, p.sizes)
	spec.Object = schematic.TubeEnd{WallMM: t.MouthMM(), MiddleMM: t.MinorAxisMM / 2, VaneHours: []float64{1.5, 4.5, 7.5, 10.5}}
	spec.RimMM = t.MouthMM()
	p.Face(p.sizes.Face, spec)
}

// drawCell draws the primary's cell from behind.
func drawCell(p *page, s session.Scope) {
	t := s.Telescope()
	spec := schematic.PlateSpec{Standing: standing(optics.Behind, p.sizes), GroundWord: groundWord(p.sizes),
		FocuserHour: t.FocuserDial(optics.Behind).Hour(), FocuserWord: "focuser", LockWord: "lock", Within: p.FaceWords}
	for i, label := range t.Primary.Labels {
		hour := t.ScrewDial(optics.Primary, i).Hour()
		spec.Screws = append(spec.Screws, schematic.Screw{Label: label, Hour: hour}, schematic.Screw{Hour: hour + 1.2, Lock: true})
	}
	p.Plate(p.sizes.Face, spec)
}
