package terminal

import (
	"fmt"
	"math"

	"spotward/optics"
)

// walk is where the beam goes before and after a change of the mirrors' tilts.
type walk struct {
	tel       optics.Telescope
	was, now  tilts
	spotsWas  optics.Spots
	spots     optics.Spots
	firstWas  optics.Spots // to first order
	first     optics.Spots
	last      tiltStep
	lastAtAll bool // there was a last step
}

// newWalk begins with both mirrors square. The focuser is drawn straight up.
func newWalk(tel optics.Telescope) (walk, error) {
	tel.FocuserDeg = 0
	w := walk{tel: tel}
	var err error
	w.spots, err = tel.Trace(w.now.pose(tel))
	w.spotsWas, w.first = w.spots, tel.FirstOrder(w.now.pose(tel))
	w.firstWas = w.first
	return w, err
}

// step tilts a mirror. On an error nothing has changed.
func (w walk) step(s tiltStep) (walk, error) {
	now, ok := w.now.with(s)
	if !ok {
		return w, fmt.Errorf("%.0f mrad is as far as a mirror is tilted here: square sets both back", farthestTilt/mrad)
	}
	spots, err := w.tel.Trace(now.pose(w.tel))
	if err != nil {
		return w, err
	}
	next := walk{tel: w.tel, was: w.now, now: now, spotsWas: w.spots, spots: spots, firstWas: w.first, first: w.tel.FirstOrder(now.pose(w.tel)), last: s, lastAtAll: true}
	if w.lastAtAll && s.mirror == w.last.mirror && alongside(s, w.last) { // one way on: one change
		next.was, next.spotsWas, next.firstWas = w.was, w.spotsWas, w.firstWas
		next.last.right, next.last.up = s.right+w.last.right, s.up+w.last.up
	}
	return next, nil
}

// undone goes back over the last change; done twice it is there again.
func (w walk) undone() walk {
	w.was, w.now = w.now, w.was
	w.spotsWas, w.spots = w.spots, w.spotsWas
	w.firstWas, w.first = w.first, w.firstWas
	w.last.right, w.last.up = -w.last.right, -w.last.up
	return w
}

// alongside reports whether two steps go along the same line.
func alongside(a, b tiltStep) bool {
	return a.right*b.up == a.up*b.right && a.right*b.right+a.up*b.up > 0
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
	if t.Len() < 0.05*mrad {
		return "square"
	}
	return fmt.Sprintf("%s mrad (%.1f')", offText(optics.Dial{Right: t.Right / mrad, Up: t.Up / mrad}), t.Len()/arcmin)
}

// why says to first order why the spots went where they went. That a reflected
// ray turns by twice the mirror's turn is the law of reflection; the rest is the
// closed form of optics.FirstOrder, whose parts are said one by one.
func (w walk) why() []string {
	if !w.lastAtAll {
		return []string{
			"Both mirrors are square: the beam goes back the way it came. Tilt one with the arrow keys, or type secondary 0.2 up.",
		}
	}
	if w.last.mirror == optics.Primary {
		return w.whyPrimary()
	}
	return w.whySecondary()
}

func (w walk) whyPrimary() []string {
	tilt := math.Hypot(w.last.right, w.last.up)
	return []string{
		fmt.Sprintf("The ray turns by twice the mirror's turn: 2 x %.1f mrad x %.0f mm = %.1f mm on the laser's face.",
			tilt/mrad, w.tel.PathMM(), 2*tilt*w.tel.PathMM()),
		"The spot on the primary stays: the beam comes to it first.",
	}
}

func (w walk) whySecondary() []string {
	L, X, S, f := w.tel.FromPrimaryMM, w.tel.HoleFromAxisMM, w.tel.PathMM(), w.tel.FocalLengthMM
	var said []string
	up, across := math.Abs(w.last.up), math.Abs(w.last.right)
	swung := w.tel.PivotAboveMM * up // the glass goes aside as it turns about its pivot
	if up > 0 {
		aside := ""
		if swung >= 0.05 {
			aside = fmt.Sprintf(", and %.1f as its pivot lies above it", swung)
		}
		said = append(said, fmt.Sprintf("The ray turns by twice the mirror's turn: 2 x %.1f mrad x %.0f mm = %.1f mm%s; across the fold, half: the 2:1.", up/mrad, L, 2*up*L, aside))
	}
	if across > 0 {
		said = append(said, fmt.Sprintf("Across the fold the ray is only carried round: 1 x %.1f mrad x %.0f mm = %.1f mm; along it, twice: the 2:1.", across/mrad, L, across*L))
	}
	ray := math.Hypot(2*up, across)
	spot := math.Hypot(2*up*L+swung, across*L) // which the primary sends back toward its axis
	there, back := L*ray+S*(ray-spot/f), X*ray
	return append(said, fmt.Sprintf("The return meets the secondary twice: %.1f mm from the way there, %.1f mm from the way back, %.1f in all.", there, back, there+back))
}
