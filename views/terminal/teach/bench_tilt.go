package teach

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"spotward/optics"
)

// tilts is how the two mirrors stand away from square, each by where its tilt
// sends the spot that it moves, as drawn with the focuser straight up: the
// secondary the spot on the primary, the primary the return spot. In rad.
type tilts struct{ Secondary, Primary optics.Seen }

// TiltStep is one change of a tilt.
type TiltStep struct {
	Mirror    optics.Mirror
	Right, Up float64 // rad
}

const (
	Mrad   = 1e-3
	Arcmin = math.Pi / 180 / 60
	// farthestTilt is more than the travel of any screw allows.
	FarthestTilt = 30 * Mrad
)

var errTilt = errors.New("say a mirror, how far and which way its spot goes, as in: primary 3' right. Say mrad, or ' for minutes of arc")

// ParseTilt understands "secondary 0.2 up", "primary 3' right" and a mirror's
// name alone, which is a step of nothing.
func ParseTilt(typed string) (TiltStep, error) {
	var t TiltStep
	amount, unit, named, numbered := 0.0, Mrad, 0, 0
	way := ""
	for _, word := range strings.Fields(strings.ToLower(typed)) {
		switch word {
		case "secondary", "primary":
			t.Mirror = optics.Mirror(word)
			named++
			continue
		case "up", "down", "left", "right":
			if way != "" {
				return TiltStep{}, errTilt
			}
			way = word
			continue
		case "mrad":
			continue
		case "'", "min", "minutes", "arcmin":
			unit = Arcmin
			continue
		}
		v, u, ok := angle(word)
		if !ok {
			return TiltStep{}, fmt.Errorf("%q is not understood: %w", word, errTilt)
		}
		amount = v
		numbered++
		if u != 0 {
			unit = u
		}
	}
	switch {
	case named != 1 || numbered > 1 || (way == "") != (numbered == 0):
		return TiltStep{}, errTilt
	case math.Abs(amount*unit) > FarthestTilt:
		return TiltStep{}, fmt.Errorf("%.0f mrad is as far as a mirror is tilted here", FarthestTilt/Mrad)
	}
	t.Right, t.Up = toward(way, amount*unit)
	return t, nil
}

// angle understands "0.2", "0,2", "3'" and "3min".
func angle(word string) (v, unit float64, ok bool) {
	for _, u := range []struct {
		suffix string
		is     float64
	}{{"'", Arcmin}, {"min", Arcmin}, {"mrad", Mrad}, {"", 0}} {
		if number, has := strings.CutSuffix(word, u.suffix); has {
			v, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
			return v, u.is, err == nil && !math.IsNaN(v) && !math.IsInf(v, 0)
		}
	}
	return 0, 0, false
}

func toward(way string, rad float64) (right, up float64) {
	switch way {
	case "up":
		return 0, rad
	case "down":
		return 0, -rad
	case "right":
		return rad, 0
	case "left":
		return -rad, 0
	}
	return 0, 0
}

// with returns the tilts after a step; false where that is too far.
func (t tilts) with(s TiltStep) (tilts, bool) {
	at := &t.Secondary
	if s.Mirror == optics.Primary {
		at = &t.Primary
	}
	at.Right, at.Up = at.Right+s.Right, at.Up+s.Up
	return t, at.Len() <= FarthestTilt
}

// Pose returns how the mirrors of telescope t stand with these tilts. A
// secondary tilted so that its spot goes one way has its gradient that way; the
// return spot goes against the primary's.
func (t tilts) Pose(tel optics.Telescope) optics.Pose {
	s := tel.FromSeen(optics.FacePrimary, t.Secondary)
	p := tel.FromSeen(optics.FaceTarget, t.Primary)
	return optics.Pose{Secondary: optics.Tilt{Grad: s}, Primary: optics.Tilt{Grad: p.Scale(-1)}}
}

// tiltsOf is the inverse of Pose.
func tiltsOf(tel optics.Telescope, pose optics.Pose) tilts {
	return tilts{
		Secondary: tel.ToSeen(optics.FacePrimary, pose.Secondary.Grad),
		Primary:   tel.ToSeen(optics.FaceTarget, pose.Primary.Grad.Scale(-1)),
	}
}
