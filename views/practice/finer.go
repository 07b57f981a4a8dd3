package practice

import (
	"math"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
)

// The faults that a finer check finds.
const (
	FaultLaser   = "laser"
	FaultRing    = "ring"
	FaultSlipped = "slipped"
	FaultTurned  = "turned"
)

// Faults returns the names of the faults that a finer check finds.
func Faults() []string { return []string{FaultLaser, FaultRing, FaultSlipped, FaultTurned} }

// FaultLevel returns the level of a telescope with such a fault.
func FaultLevel(fault string) string { return "finer-" + fault }

// finerSetup sets up a telescope on which a finer check has something to find:
// a beam that leaves beside the focuser's axis, a ring stuck on off the
// mirror's middle, a secondary slipped along its stalk, or one turned about the
// tube by more than its screws should take up.
func finerSetup(s virtual.Setup, level string) (virtual.Setup, error) {
	f := &s.Faults
	switch level {
	case FaultLevel(FaultLaser):
		f.LaserOffsetMM = 0.6
	case FaultLevel(FaultRing):
		f.RingOffMM = 2
	case FaultLevel(FaultSlipped):
		f.SecondarySlipMM = 3
	case FaultLevel(FaultTurned):
		f.SpotMM, f.SecondaryTurnedDeg = 1, 3
	default:
		return s, ErrLevel
	}
	return s, nil
}

// finerView returns what is to be seen for a reading of a finer check, and
// false for any other.
func (b *Bench) finerView() (View, bool) {
	switch b.step {
	case session.StepShadow:
		v := b.world.Shadow()
		return View{Sight: v, Words: shadowWords(b.real, v)}, true
	case session.StepFinger:
		star := b.world.Star(b.waves, b.focus)
		d := b.real.ToDial(optics.FaceCard, star.Seen)
		v := virtual.Sight{Face: optics.FaceCard, Dot: virtual.Dot{Seen: star.Seen}, Visible: true}
		return View{Sight: v, Words: "The finger shows in the thinnest light when it is held over the rim " + whereTo(d) + "."}, true
	}
	return View{}, false
}

func shadowWords(t optics.Telescope, v virtual.Sight) string {
	d := t.ToDial(v.Face, v.Seen)
	switch {
	case v.Unseen == virtual.LaserDark:
		return UnseenWords(v.Unseen)
	case !v.Visible:
		return "A wide red glow on the laser's face, and no shadow of a ring in it."
	case d.Len() < eyesMM/2:
		return "The ring's shadow stands round the hole, even all round."
	}
	return "Seen from the hole, the middle of the ring's shadow is " + whereTo(d) + ", " + timesWords(d.Len()/t.Target.HoleRadiusMM, "from its middle as the hole's rim is") + "."
}

// seeFiner says what is to be seen for a question of a finer check that is not
// a reading; "" for any other.
func (b *Bench) seeFiner(step session.StepID) string {
	switch step {
	case session.StepSides:
		return "A disc of rings with a dark spot in it. " + map[string]string{
			session.SideEven:       "The light is even all round.",
			session.SideFourFifths: "On one side the light is about four fifths as thick as on the other.",
			session.SideTwoThirds:  "On one side the light is about two thirds as thick as on the other.",
			session.SideHalf:       "On one side the light is about half as thick as on the other.",
			session.SideThird:      "On one side the light is a third as thick as on the other, or less.",
		}[session.SideOf(b.world.Star(b.waves, b.focus).Thin)]
	case session.StepOutline:
		return b.outlineWords()
	case session.StepPicture:
		return b.pictureWords()
	case session.StepRound:
		return b.outlineWords() + " " + b.pictureWords()
	}
	return ""
}

func (b *Bench) outlineWords() string {
	along := b.world.Place().AlongMM
	to := "toward the open end"
	if along < 0 {
		to = "toward the primary"
	}
	if math.Abs(along) < optics.SlipFineMM {
		return "The secondary looks round and stands in the middle of the drawtube."
	}
	width := "a thirtieth"
	switch n := b.real.MinorAxisMM / math.Abs(along); {
	case n < 12:
		width = "a tenth"
	case n < 18:
		width = "a fifteenth"
	case n < 25:
		width = "a twentieth"
	}
	return "The secondary looks round and stands " + to + " from the middle of the drawtube, by about " + width + " of its width."
}

func (b *Bench) pictureWords() string {
	v := b.world.Place()
	along, across := math.Abs(v.Picture.X), math.Abs(v.Picture.Y)
	where := "at an angle"
	switch {
	case math.Hypot(along, across) < 0.02*b.real.ApertureMM:
		return "The primary's picture stands in the middle of it, all its clips to be seen."
	case across > 4*along:
		where = "straight across the tube"
	case along > 4*across:
		where = "along the tube"
	}
	said := "The primary's picture stands off its middle, " + where + ", by " + part(v.Picture.Len()/b.real.ApertureMM) + " of its own width"
	if v.Missing {
		return said + "; clips are missing on one side."
	}
	return said + "; all its clips are to be seen."
}
