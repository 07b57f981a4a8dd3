package session

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/words"
)

// thinSide is how thick the light of a star's disc is on its thinner side, as part
// of what it is on the other, as a person says it.
type thinSide struct {
	id    string
	thin  float64
	words string
}

// The answers to how thick the light is where it is thinnest.
const (
	SideEven       = "even"
	SideFourFifths = "four_fifths"
	SideTwoThirds  = "two_thirds"
	SideHalf       = "half"
	SideThird      = "third"
)

var thinSides = []thinSide{
	{SideEven, 1, "even all round, as far as I can tell"},
	{SideFourFifths, 0.8, "on one side four fifths of the other"},
	{SideTwoThirds, 2. / 3, "two thirds"},
	{SideHalf, 0.5, "half"},
	{SideThird, 0.3, "a third, or less"},
}

// SideOf returns the answer that comes nearest to a part of the other side.
func SideOf(thin float64) string {
	return slices.MinFunc(thinSides, func(a, b thinSide) int { return cmp.Compare(math.Abs(a.thin-thin), math.Abs(b.thin-thin)) }).id
}

// starWaves are how far out of focus a star is looked at: about as many rings
// are seen in it.
var starWaves = []float64{5, 10, 20}

func starStage() *Stage {
	return &Stage{
		ID: StageStar, Title: "on a star", Where: header.StandBeside,
		Header: header.Header{Stand: header.StandBeside, Tool: header.ToolNone, Tube: header.TubeAtStar, Beam: header.BeamOff, Card: header.CardNone, Seat: header.SeatEyepiece},
		Do: []string{
			"Near the zenith if the mount drives; Polaris if not. In the middle of the field, always: away from it every mirror shows coma.",
			"Out of focus it is a disc of rings with a dark spot in it, which is the secondary.",
			"Look on both sides of focus, at equal rings. What stays on one side of the field is coma; what changes sides is the secondary.",
			"Wait for steady air and a mirror as cool as the night. Compare how thick the light is round the dark spot.",
		},
		Beware: []string{
			"Never toward the sun. In the dark: watch the steps, the cables and the children.",
			"Nose up, held, while locks are eased. If a screw goes hard or free, stop.",
		},
		Brief: "Never toward the sun. Watch steps and cables.",
		Skip:  "no star was looked at",
		Steps: append([]Step{
			{
				ID: StepStar, Want: WantChoice,
				Say: sayStar,
				Opts: func(State) []words.Option {
					return []words.Option{
						{ID: FinerYes, Words: "yes: laser off and out, card off, the star in the middle of the field"},
						{ID: FinerNo, Words: "no: no star, or no steady air"},
					}
				},
				Take: func(s *State, ev event.Event) {
					wantFiner(s, ev)
					s.Laser.On = s.Laser.On && !s.finer.on
				},
			},
			{
				ID: StepRings, Want: WantChoice,
				Due: func(s State) bool { return s.finer.on && s.finer.waves == 0 },
				Say: func(State) string {
					return "Rack the drawtube in from focus. How many rings are in the disc? Use the same number on the other side of focus."
				},
				Opts: ringsOptions,
				Take: takeRings,
			},
			{
				ID: StepSides, Want: WantChoice,
				Due: func(s State) bool { return s.finer.on && !s.finer.seen && s.finer.thin < 0 },
				Say: saySides,
				Opts: func(State) []words.Option {
					var opts []words.Option
					for _, d := range thinSides {
						opts = append(opts, words.Option{ID: d.id, Words: d.words})
					}
					return opts
				},
				Take: takeSides,
			},
			{
				ID: StepFinger, Want: WantReading, Face: optics.FaceCard, Aside: true,
				Header: &header.Header{Stand: header.StandSky, Tool: header.ToolNone, Tube: header.TubeAtStar, Beam: header.BeamOff, Card: header.CardNone, Seat: header.SeatEyepiece},
				Due:    func(s State) bool { return s.finer.on && !s.finer.seen && s.finer.thin >= 0 },
				Say:    sayFinger,
				Take:   func(s *State, ev event.Event) { s.takeFinger(ev) },
			},
			{
				ID: StepNearer, Want: WantChoice,
				Due: func(s State) bool { return s.starTooFar() && s.finer.choice == "" },
				Say: func(s State) string {
					return fmt.Sprintf("Even at %.0f rings proves no better than %.1f mm; %.1f mm is allowed. Look again at 5 rings, which shows %.1f?",
						s.finer.waves, s.Tel.StarProvesMM(s.finer.waves), s.AllowedMM(), s.Tel.StarProvesMM(starWaves[0]))
				},
				Opts: func(State) []words.Option {
					return []words.Option{{ID: FinerYes, Words: "yes: five rings"}, {ID: FinerLeave, Words: "no: leave it at that"}}
				},
				Take: func(s *State, ev event.Event) {
					s.finer.choice = ev.Choice
					if ev.Choice == FinerYes {
						s.lookAgain()
						s.finer.waves = starWaves[0]
					}
				},
			},
		}, afterFiner(header.BeamOff, header.CardNone, header.SeatEyepiece)...),
	}
}

func sayStar(s State) string {
	least, from, to := s.Tel.StarPower()
	return fmt.Sprintf("A star tells what no spot can. Use one of about magnitude %.0f, at %.0f to %.0f times (%.0f at the least). The air is steady: in focus it is no wider than a few times %.1f arcsec. Is there one?",
		s.Tel.StarMagnitude(), from, to, least, s.Tel.AiryArcsec())
}

func ringsOptions(s State) []words.Option {
	var opts []words.Option
	for _, n := range starWaves {
		said := fmt.Sprintf("about %.0f: %.1f mm in", n, optics.DefocusMM(s.Tel.FocalRatio(), n, optics.WavelengthNM))
		if !s.Tel.LensInside {
			said += fmt.Sprintf("; shows an axis error from %.1f mm on", s.Tel.StarProvesMM(n))
		}
		opts = append(opts, words.Option{ID: strconv.Itoa(int(n)), Words: said})
	}
	return opts
}

func takeRings(s *State, ev event.Event) {
	for _, n := range starWaves {
		if strconv.Itoa(int(n)) == ev.Choice {
			s.finer.waves = n
		}
	}
}

func saySides(s State) string {
	to := "Rack in from focus: %.0f rings in the disc."
	if s.finer.focus == optics.BeyondFocus {
		to = "Rack out, through focus and beyond: %.0f rings again."
	}
	return fmt.Sprintf(to+" How thick is the light where it is thinnest, against the other side of the dark spot?", s.finer.waves)
}

func sayFinger(s State) string {
	return fmt.Sprintf("Run a finger along the rim of the open end. From the sky end, where is it when it shows in the thinnest light (the rim is at %.0f mm)?", s.Tel.ApertureMM/2)
}

// takeSides notes how uneven the light is; even says it all.
func takeSides(s *State, ev event.Event) {
	for _, d := range thinSides {
		if d.id == ev.Choice {
			s.finer.thin = d.thin
		}
	}
	if s.finer.thin == 1 {
		s.takeLook(optics.StarLook{Thin: 1})
	}
}

// takeFinger notes in which direction the light is thinnest. Where that cannot be
// told nothing can be turned for it.
func (s *State) takeFinger(ev event.Event) {
	toward := s.Tel.FromSeen(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up})
	if ev.Saw == event.SawGone || ev.Saw == event.SawCantSee || toward.Len() == 0 {
		s.finer.on = false
		s.Skips = append(s.Skips[:len(s.Skips):len(s.Skips)], Skipped{StageStar, "the light is uneven; on which side could not be told"})
		return
	}
	s.takeLook(optics.StarLook{Thin: s.finer.thin, Finger: toward})
}

// takeLook takes the look on one side of focus. The first is kept until the other
// side was looked at: either alone may point the wrong way.
func (s *State) takeLook(look optics.StarLook) {
	if s.finer.focus == optics.InsideFocus {
		s.finer.inside, s.finer.focus, s.finer.thin = look, optics.BeyondFocus, -1
		return
	}
	inside, beyond := s.Tel.OffsetSeen(s.finer.inside, optics.InsideFocus), s.Tel.OffsetSeen(look, optics.BeyondFocus)
	if s.Tel.LensInside {
		s.seenThroughLens(inside.At.Add(beyond.At).Scale(0.5))
		return
	}
	glass := s.Tel.GlassFromStar(inside, beyond, s.finer.waves)
	s.found(s.Tel.AxisErrorFromStar(inside, beyond, s.finer.waves), func(s State) string {
		return s.starWords() + " " + s.glassWords(glass)
	})
	if s.finer.turned {
		return
	}
	if s.finerBeyond() && s.Left.Centred && s.Left.Home {
		s.says(fmt.Sprintf("with both spots home a star shows %.1f mm of axis error. The ring is off the mirror's middle, or the laser's beam beside the focuser's axis", s.finer.at.At.Len()))
	}
	if off, told := s.Tel.GlassOff(glass); told {
		s.says(fmt.Sprintf("by a star the secondary stands about %.0f mm off its place, toward %s as seen from the sky end", off.At.Len(), words.HourWords(s.Tel.TubeToDial(optics.FaceCard, off.At))))
	}
}

// seenThroughLens takes what a star has shown where a lens is built in: whether the
// light is even, and no figure. off is what stays on one side of the field.
func (s *State) seenThroughLens(off optics.Tube) {
	s.finer.seen = true
	said := fmt.Sprintf("On a star, %.0f rings on both sides of focus, the light is ", s.finer.waves)
	f := Finer{Check: StageStar, Words: said + "even: as good as eyes can tell.", Off: !s.Tel.LooksEven(off)}
	if f.Off {
		f.Words = said + fmt.Sprintf("thin on one side of the field, toward %s as seen from the sky end. With a lens built in, nobody can say which way to turn the primary. A trained person tries it on a star.",
			words.HourWords(s.Tel.TubeToDial(optics.FaceCard, off)))
	}
	s.finer.words = f.Words
	s.keepFiner(f)
}

// says keeps what the telescope has said, for the record.
func (s *State) says(words string) {
	s.Troubles = append(s.Troubles[:len(s.Troubles):len(s.Troubles)], words)
}

// glassWords says what a star has shown of the secondary's own place.
func (s State) glassWords(glass optics.Belief) string {
	off, told := s.Tel.GlassOff(glass)
	if !told {
		return fmt.Sprintf("The secondary stands within %.0f mm of its place.", off.WithinMM(0.95))
	}
	return fmt.Sprintf("The secondary stands about %.0f mm off its place, toward %s as seen from the sky end. That is a trained person's job.",
		off.At.Len(), words.HourWords(s.Tel.TubeToDial(optics.FaceCard, off.At)))
}

// starTooFar reports whether an even star was too far out of focus to prove
// what is allowed.
func (s State) starTooFar() bool {
	f := s.finer
	return f.on && f.seen && !s.Tel.LensInside && f.at.At.Len() == 0 && f.waves > starWaves[0] && s.Tel.StarProvesMM(f.waves) > s.AllowedMM()
}

// starWords says what a star has shown, and what the spots could not.
func (s State) starWords() string {
	said := fmt.Sprintf("By the star, %.0f rings on both sides of focus, %s", s.finer.waves, s.finerFigures())
	if s.finer.turned || !s.finerBeyond() {
		return said
	}
	if spots, ok := s.spotsSay(); ok && s.Left.Centred && s.Left.Home {
		off := optics.RingOffBy(s.finer.at, spots).At.Len()
		said += fmt.Sprintf(" The spots said %.1f mm: a ring some %.0f mm off the mirror's middle would do that.", spots.At.Len(), off)
	}
	return said + " A ring that is off shows in no spot and no shadow. Nor does a beam that leaves beside the focuser's axis. A star shows both; a paper template and a ruler show the ring. Believe the star."
}

// StarWaves returns how far out of focus a star is looked at, in waves, 0 where
// none is; and on which side of focus.
func (s State) StarWaves() (waves float64, focus optics.Focus) { return s.finer.waves, s.finer.focus }
