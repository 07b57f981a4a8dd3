package teach

import (
	"fmt"
	"math"

	"spotward/optics"
)

// walk is where the beam goes before and after a change of the mirrors' tilts.
type walk struct {
	Tel       optics.Telescope
	Was, Now  tilts
	spotsWas  optics.Spots
	Spots     optics.Spots
	firstWas  optics.Spots // to first order
	First     optics.Spots
	base      optics.Pose // what is not the mirrors' tilts: depths, the laser
	last      TiltStep
	lastAtAll bool // there was a last step
}

// NewWalk begins with both mirrors square. The focuser is drawn straight up.
func NewWalk(tel optics.Telescope) (walk, error) { return newWalkAt(tel, optics.Pose{}) }

// newWalkAt begins with the mirrors, and the laser, as they stand.
func newWalkAt(tel optics.Telescope, pose optics.Pose) (walk, error) {
	tel.FocuserDeg = 0
	w := walk{Tel: tel, Now: tiltsOf(tel, pose)}
	w.base = pose
	w.base.Secondary.Grad, w.base.Primary.Grad = optics.Tube{}, optics.Tube{}
	w.Was = w.Now
	var err error
	w.Spots, err = tel.Trace(w.pose(w.Now))
	w.spotsWas, w.First = w.Spots, tel.FirstOrder(w.pose(w.Now))
	w.firstWas = w.First
	return w, err
}

// pose is how mirrors and laser stand with these tilts.
func (w walk) pose(t tilts) optics.Pose {
	pose, tilted := w.base, t.Pose(w.Tel)
	pose.Secondary, pose.Primary = pose.Secondary.Add(tilted.Secondary), pose.Primary.Add(tilted.Primary)
	return pose
}

// Step tilts a mirror. On an error nothing has changed.
func (w walk) Step(s TiltStep) (walk, error) {
	now, ok := w.Now.with(s)
	if !ok {
		return w, fmt.Errorf("%.0f mrad is as far as a mirror is tilted here: square sets both back", FarthestTilt/Mrad)
	}
	spots, err := w.Tel.Trace(w.pose(now))
	if err != nil {
		return w, err
	}
	next := walk{Tel: w.Tel, base: w.base, Was: w.Now, Now: now, spotsWas: w.Spots, Spots: spots, firstWas: w.First, First: w.Tel.FirstOrder(w.pose(now)), last: s, lastAtAll: true}
	if w.lastAtAll && s.Mirror == w.last.Mirror && alongside(s, w.last) { // one way on: one change
		next.Was, next.spotsWas, next.firstWas = w.Was, w.spotsWas, w.firstWas
		next.last.Right, next.last.Up = s.Right+w.last.Right, s.Up+w.last.Up
	}
	return next, nil
}

// undone goes back over the last change; done twice it is there again.
func (w walk) undone() walk {
	w.Was, w.Now = w.Now, w.Was
	w.spotsWas, w.Spots = w.Spots, w.spotsWas
	w.firstWas, w.First = w.First, w.firstWas
	w.last.Right, w.last.Up = -w.last.Right, -w.last.Up
	return w
}

// alongside reports whether two steps go along the same line.
func alongside(a, b TiltStep) bool {
	return a.Right*b.Up == a.Up*b.Right && a.Right*b.Right+a.Up*b.Up > 0
}

// offText says where a spot stands, in figures: "2.0 up, 1.0 right".
func offText(d optics.Dial) string {
	parts := ""
	add := func(v float64, plus, minus string) {
		word := plus
		if v < 0 {
			word = minus
		}
		if v = math.Abs(v); v < 0.05 {
			return
		}
		if parts != "" {
			parts += ", "
		}
		parts += fmt.Sprintf("%.1f %s", v, word)
	}
	add(d.Up, "up", "down")
	add(d.Right, "right", "left")
	if parts == "" {
		return "in the middle"
	}
	return parts
}

// tiltText says a tilt in mrad and in minutes of arc.
func tiltText(t optics.Seen) string {
	if t.Len() < 0.05*Mrad {
		return "square"
	}
	return fmt.Sprintf("%s mrad (%.1f')", offText(optics.Dial{Right: t.Right / Mrad, Up: t.Up / Mrad}), t.Len()/Arcmin)
}

// Why says to first order why the spots went where they went. That a reflected
// ray turns by twice the mirror's turn is the law of reflection; the rest is the
// closed form of optics.FirstOrder, whose parts are said one by one.
func (w walk) Why() []string {
	if !w.lastAtAll && w.Now != (tilts{}) {
		return []string{"This is how the telescope stands. Type a screw's letter and turn it with the arrow keys, or tilt a mirror."}
	}
	if !w.lastAtAll {
		return []string{
			"Both mirrors are square: the beam goes back the way it came. Tilt one with the arrow keys, or type secondary 0.2 up.",
		}
	}
	if w.last.Mirror == optics.Primary {
		return w.whyPrimary()
	}
	return w.whySecondary()
}

func (w walk) whyPrimary() []string {
	tilt := math.Hypot(w.last.Right, w.last.Up)
	return []string{
		fmt.Sprintf("The ray turns by twice the mirror's turn. 2 x %.1f mrad x %.0f mm = %.1f mm on the laser's face.",
			tilt/Mrad, w.Tel.PathMM(), 2*tilt*w.Tel.PathMM()),
		"The spot on the primary stays: the beam comes to it first.",
	}
}

func (w walk) whySecondary() []string {
	L, X, S, f := w.Tel.FromPrimaryMM, w.Tel.HoleFromAxisMM, w.Tel.PathMM(), w.Tel.FocalLengthMM
	var said []string
	up, across := math.Abs(w.last.Up), math.Abs(w.last.Right)
	swung := w.Tel.PivotAboveMM * up // the glass goes aside as it turns about its pivot
	if up > 0 {
		aside := ""
		if swung >= 0.05 {
			aside = fmt.Sprintf(", and %.1f as its pivot lies above it", swung)
		}
		said = append(said, fmt.Sprintf("The ray turns by twice the mirror's turn. 2 x %.1f mrad x %.0f mm = %.1f mm%s. Across the fold it is half: the 2:1.", up/Mrad, L, 2*up*L, aside))
	}
	if across > 0 {
		said = append(said, fmt.Sprintf("Tilt across the fold moves the ray once: 1 x %.1f mrad x %.0f mm = %.1f mm. Along it, twice: hence 2:1.", across/Mrad, L, across*L))
	}
	ray := math.Hypot(2*up, across)
	spot := math.Hypot(2*up*L+swung, across*L) // which the primary sends back toward its axis
	there, back := L*ray+S*(ray-spot/f), X*ray
	return append(said, fmt.Sprintf("The return meets the secondary twice. %.1f mm come from the way there, %.1f mm from the way back, %.1f mm in all.", there, back, there+back))
}
