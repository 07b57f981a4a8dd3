package feed_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/views/feed"
)

// claimed is what one session said of the axis error, and how it was.
type claimed struct {
	tally
	tag, firstly          string // the tag; the first look's first option
	known                 bool   // something was claimed
	aboutMM, atMostMM     float64
	trueMM, allowed, coma float64
	believed              float64 // by the program: how likely it is within what is allowed
	foundMM               float64 // true, at the first look
}

func (c claimed) isFalse() bool { return c.trueMM > c.allowed }

// glowWords are what somebody says of a spot that is in the hole.
type glowWords string

// The habits. glowing: even, or a side, as it is seen, with a kit whose glow was seen
// to shift. sided: a side where one is brighter, and else that it cannot be told.
// dull: it never can.
const (
	glowing glowWords = "even or a side"
	sided   glowWords = "a side at most"
	dull    glowWords = "cannot tell"
)

// glow is what the shelf knows of this kit's glow.
func (says glowWords) glow() string {
	if says == glowing {
		return event.GlowShifts
	}
	return event.GlowUnknown
}

// claimant is a player with a habit.
type claimant struct {
	*player
	says  glowWords
	first bool // the first look alone
	claimed
}

// Write takes a line out, and puts the answer into this habit's words.
func (c *claimant) Write(line []byte) (int, error) {
	var o struct {
		said
		feed.AxisErrors
	}
	if err := json.Unmarshal(line, &o); err != nil {
		return 0, err
	}
	switch {
	case o.Done:
		c.tag = o.Tag
		if o.AxisErrors.AxisErrorMM != nil {
			c.known, c.aboutMM, c.atMostMM = true, *o.AxisErrors.AxisErrorMM, *o.AxisErrors.AxisErrorMaxMM
		}
	case o.Stage == session.StageVerdict && c.firstly == "":
		c.firstly, c.foundMM = o.Options[0], c.world.Truth().ErrorMM
		if c.first {
			return 0, errEndless
		}
	}
	n, err := c.player.Write(line)
	if len(c.in) > 0 && err == nil {
		c.in, err = c.worded(c.in)
	}
	return n, err
}

// worded puts an answer into this habit's words. A first-timer says distances in
// words, whose error is taken to be wider than that of figures.
func (c *claimant) worded(answer []byte) ([]byte, error) {
	var in map[string]any
	if err := json.Unmarshal(answer, &in); err != nil {
		return nil, err
	}
	if in["hole"] != nil && (c.says == dull || c.says == sided && in["hole"] == event.GlowEven) {
		in = map[string]any{"hole": "cant_tell"}
	}
	if in["choice"] == event.GlowShifts && c.says != glowing {
		in["choice"] = event.GlowUnknown
	}
	if at, ok := in["reading"].(map[string]any); ok && c.hidden.setup.Sight.Vague {
		right, _ := at["right"].(float64)
		up, _ := at["up"].(float64)
		at["sigma_mm"] = 0.7 + 0.22*math.Hypot(right, up)
	}
	out, err := json.Marshal(in)
	return append(out, '\n'), err
}

// claimScope is a telescope whose file has its geometry: aperture and focal
// length in mm.
func claimScope(apertureMM, focalMM float64) scope.Scope {
	locks := 3
	s := scope.Scope{Format: scope.FormatVersion, Name: fmt.Sprintf("claims %.0f", apertureMM), Aperture: scope.MM(apertureMM), FocalLength: scope.MM(focalMM), FocuserAt: "2:00"}
	s.Secondary.FromPrimary = scope.MM(focalMM - apertureMM/2 - 90)
	s.Secondary.MinorAxis = scope.MM(math.Round(0.25 * apertureMM))
	s.Secondary.CellPart = scope.CellPart{Screws: 3, Circle: scope.MM(14), Lead: scope.MM(0.7), Kind: "push-pull", Clockwise: "pushes", FirstAt: scope.ClockAt(0), LabelsRun: "clockwise"}
	s.Primary.CellPart = scope.CellPart{Screws: 3, Circle: scope.MM(0.38 * apertureMM), Lead: scope.MM(0.8), Kind: "sprung", Clockwise: "pulls", FirstAt: scope.ClockAt(30), LabelsRun: "clockwise"}
	s.Primary.Locks = &locks
	return s
}

// settled has ring and laser measured once, by template and by rolling.
func settled(s scope.Scope) scope.Scope {
	s.Primary.Ring = scope.Settled{By: scope.ByTemplate, On: "2026-02-01"}
	s.Laser.Hole = scope.Settled{By: scope.ByRolling, On: "2026-02-01"}
	return s
}

// claimWorld hides such a telescope: its ring off its mirror's middle by 0.5 mm,
// the laser's hole off the focuser's axis by 0.3 mm, 1σ an axis; where they are
// settled by as much as that leaves open.
func claimWorld(s scope.Scope, level virtual.Level, seed uint64) hidden {
	h := hidden{file: s, truth: s.Telescope(), seed: seed}
	h.setup = virtual.SetupOf(level, h.truth, seed)
	r := rand.New(rand.NewPCG(seed, 14))
	f := &h.setup.Faults
	f.LooseSecondaryTurns, f.Screws = 0, nil // mechanical faults
	f.Unlabelled, f.SecondaryReversed, f.PrimaryReversed = false, false, false
	within := func(guessMM float64, sigmaMM *float64) float64 {
		if sigmaMM != nil {
			guessMM = *sigmaMM
		}
		return guessMM * math.Hypot(r.NormFloat64(), r.NormFloat64())
	}
	f.RingOffMM = within(optics.RingPlacedGuessMM, s.Primary.Ring.SigmaMM())
	f.LaserOffsetMM = within(optics.LaserOffsetGuessMM, s.Laser.Hole.SigmaMM())
	f.HolderOffsetMM, f.HolderSlopeRad, f.SeatSpreadMM = 0, 0, 0
	f.LaserSlopeRad = min(f.LaserSlopeRad, 4e-4) // it is said to stand still when it is turned
	return h
}

// nearlyHome has the telescope found as one that was left well or moved a little.
func (h hidden) nearlyHome() hidden {
	r := rand.New(rand.NewPCG(h.seed, 15))
	h.setup.Faults.SpotMM, h.setup.Faults.ReturnMM = 5*r.Float64(), 6*r.Float64()
	return h
}

// claim plays a session, or its first look, and returns what it claimed.
func claim(h hidden, says glowWords, first bool) claimed {
	c := &claimant{player: newPlayer(h, false), says: says, first: first}
	s, err := session.Start(event.Event{ID: "claims", Scope: &c.hidden.file, Knew: &event.Known{Glow: says.glow()}}, nil)
	if err == nil {
		_, err = feed.Run(direct{s}, c, c, func() (string, error) { return "claims", nil })
	}
	if err != nil && !errors.Is(err, errEndless) {
		panic(fmt.Sprintf("%s %d: %v", h.file.Name, h.seed, err))
	}
	tel := h.truth
	c.claimed.tally = c.player.tally
	c.trueMM, c.allowed, c.coma = c.world.Truth().ErrorMM, tel.AllowedMM(optics.AllRound), tel.ComaFreeMM()
	c.believed = s.State().Left.Claim.Within
	return c.claimed
}
