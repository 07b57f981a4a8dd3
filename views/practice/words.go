package practice

import (
	"fmt"
	"math"
	"strings"

	"spotward/optics"
	"spotward/optics/virtual"
)

// seenWords says what is to be seen, for those who cannot see a drawing: where
// to, in sixteenths of a turn, and how far by the things that are there to
// measure by. It has no figures that one could copy, as a picture has none.
func seenWords(t optics.Telescope, v virtual.Sight) string {
	said := []string{faceWords(t, v)}
	if len(v.Ghosts) > 0 && v.Visible {
		ghost := v.Ghosts[0].Seen
		from := t.ToDial(v.Face, optics.Seen{Right: ghost.Right - v.Seen.Right, Up: ghost.Up - v.Seen.Up})
		said = append(said, "A second, much fainter spot stands beside it, "+whereTo(from)+".")
	}
	if v.Face == optics.FacePrimary && v.Leaves && v.Carded {
		said = append(said, "Red shows on the card, "+whereTo(t.ToDial(optics.FaceCard, v.LeavesSeen))+".")
	}
	if v.Leaves && !v.Carded {
		said = append(said, "Red light leaves by the open end: no card is over it.")
	}
	return strings.Join(said, " ")
}

// UnseenWords says why nothing is to be seen, where one can tell; "" for any
// other reason.
func UnseenWords(u virtual.Unseen) string {
	return map[virtual.Unseen]string{
		virtual.LaserDark:  "No red anywhere: the laser is dark.",
		virtual.Dim:        "Perhaps something, too faint to tell where.",
		virtual.TurnedAway: "The laser's face is turned away.",
		virtual.NoCard:     "No card is there to see it on.",
	}[u]
}

func faceWords(t optics.Telescope, v virtual.Sight) string {
	why := UnseenWords(v.Unseen)
	switch {
	case why != "":
		return why
	case v.Face == optics.FaceTarget && v.InHole:
		return downTheHole(t, v)
	case !v.Visible:
		return "No red on " + faceName(v.Face) + "."
	}
	d := t.ToDial(v.Face, v.Seen)
	switch v.Face {
	case optics.FacePrimary:
		return onPrimary(t, v, d)
	case optics.FaceSecondary:
		return onSecondary(t, v, d)
	case optics.FaceMouth:
		return fmt.Sprintf("Red on the drawtube's end, %s, %s.", whereTo(d), timesWords(d.Len()/virtual.MouthMM, "from its middle as the bore is from middle to wall"))
	case optics.FaceTarget:
		return onTarget(t, v, d)
	}
	return fmt.Sprintf("Red on the card, %s, %s.", whereTo(d), partWords(d.Len()/t.InnerRadiusMM, "its middle", "the tube's wall"))
}

func faceName(f optics.Face) string {
	switch f {
	case optics.FacePrimary:
		return "the primary"
	case optics.FaceSecondary:
		return "the secondary"
	case optics.FaceMouth:
		return "the drawtube's end"
	case optics.FaceCard:
		return "the card"
	}
	return "the laser's face"
}

func onPrimary(t optics.Telescope, v virtual.Sight, d optics.Dial) string {
	to, mirror := whereTo(d), t.ApertureMM/2
	switch {
	case v.Wall:
		return "Red on the wall of the tube beside the mirror, " + to + "."
	case v.OnRing:
		return "The spot lies on the ring and flares, " + to + "."
	case v.InRing && d.Len() < v.WidthMM/3:
		return "A dim red spot inside the ring, in the middle as far as can be told."
	case v.InRing:
		return fmt.Sprintf("A dim red spot inside the ring, %s, %s.", to, partWords(d.Len()/t.RingInnerMM, "its middle", "its edge"))
	case t.RingOuterMM == 0:
		return fmt.Sprintf("A red spot on the mirror, %s, %s.", to, partWords(d.Len()/mirror, "its middle", "its edge"))
	}
	gap := d.Len() - t.RingOuterMM
	if widths := gap / (2 * t.RingOuterMM); widths < 2.25 {
		return fmt.Sprintf("A red spot outside the ring, %s, %s.", to, timesWords(widths, "from the ring's edge as the whole ring is wide"))
	}
	return fmt.Sprintf("A red spot well outside the ring, %s, %s.", to, partWords(gap/(mirror-t.RingOuterMM), "the ring", "the mirror's edge"))
}

func onSecondary(t optics.Telescope, v virtual.Sight, d optics.Dial) string {
	if v.Merged {
		return "One spot on the secondary, not two."
	}
	return fmt.Sprintf("Two spots on the secondary. The dimmer one is %s from the brighter, %s as far as the edge is from the middle.",
		whereTo(d), part(d.Len()/(t.MinorAxisMM/2)))
}

func onTarget(t optics.Telescope, v virtual.Sight, d optics.Dial) string {
	to, hole := whereTo(d), t.Target.HoleRadiusMM
	printed := t.ToRings(v.Seen).Len()
	switch n := (printed - hole) / t.Target.RingStepMM; {
	case printed < hole+0.5:
		return "A red spot at the edge of the hole, " + to + "."
	case t.Target.RingStepMM <= 0 || t.Target.RingCount == 0:
		return fmt.Sprintf("A red spot on the laser's face, %s, %s.", to, partWords((d.Len()-hole)/(t.Target.FaceRadiusMM-hole), "the hole's edge", "the face's edge"))
	default:
		return fmt.Sprintf("A red spot on the laser's face, %s, %s.", to, ringWords(n, t.Target.RingCount))
	}
}

// ringWords says where a spot lies that is n printed rings out, counted from
// the hole's edge.
func ringWords(n float64, count int) string {
	near := int(math.Round(n))
	switch {
	case n > float64(count)+0.3:
		return "beyond the last printed ring"
	case near > 0 && math.Abs(n-float64(near)) < 0.3:
		return "on the " + ordinal(near) + " printed ring from the hole"
	case n < 1:
		return "between the hole and the first printed ring"
	}
	return fmt.Sprintf("between the %s and the %s printed ring from the hole", ordinal(int(n)), ordinal(int(n)+1))
}

func ordinal(n int) string {
	names := []string{"", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"}
	if n < len(names) {
		return names[n]
	}
	return fmt.Sprintf("%dth", n)
}

func downTheHole(t optics.Telescope, v virtual.Sight) string {
	if !v.Uneven() {
		return "The spot goes down the hole: its rim glows evenly all round."
	}
	return "The spot goes down the hole: its rim glows brighter " + whereTo(t.ToDial(v.Face, v.Glow)) + "."
}

// whereTo says a direction in sixteen parts, about as well as eyes tell it.
func whereTo(d optics.Dial) string {
	names := [16]string{
		"straight above", "high, a little to the right", "high and to the right", "to the right, a little high",
		"straight to the right", "to the right, a little low", "low and to the right", "low, a little to the right",
		"straight below", "low, a little to the left", "low and to the left", "to the left, a little low",
		"straight to the left", "to the left, a little high", "high and to the left", "high, a little to the left",
	}
	return names[int(math.Round(d.Hour()*16/12))%16]
}

// partWords says how far along the way from one thing to another a spot is.
func partWords(p float64, from, to string) string {
	return fmt.Sprintf("%s of the way from %s to %s", part(p), from, to)
}

func part(p float64) string {
	parts := []struct {
		of    float64
		words string
	}{
		{0.1, "about a tenth"}, {0.2, "about a fifth"}, {0.25, "about a quarter"}, {1. / 3, "about a third"}, {0.4, "about two fifths"},
		{0.5, "about half"}, {0.6, "about three fifths"}, {2. / 3, "about two thirds"}, {0.75, "about three quarters"}, {0.9, "nearly all"},
	}
	best := parts[0]
	for _, q := range parts {
		if math.Abs(q.of-p) < math.Abs(best.of-p) {
			best = q
		}
	}
	return best.words
}

// timesWords says how far off a spot is by something that is there to measure
// by.
func timesWords(times float64, as string) string {
	switch q := math.Round(4 * times); {
	case q <= 0:
		return "touching it"
	case q == 1:
		return "about a quarter as far " + as
	case q == 2:
		return "about half as far " + as
	case q == 3:
		return "about three quarters as far " + as
	case q <= 5:
		return "about as far " + as
	case q <= 7:
		return "about one and a half times as far " + as
	case q <= 9:
		return "about twice as far " + as
	case q <= 13:
		return "about three times as far " + as
	}
	return "many times as far " + as
}
