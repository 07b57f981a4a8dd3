package practice

import (
	"fmt"
	"math"
	"strings"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/mirrors"
	"spotward/session/words"
)

// arrangedSetup is a telescope that an instructor has set up.
func arrangedSetup(t optics.Telescope, w event.World) (virtual.Setup, error) {
	a, err := virtual.ParseArranged(t, w.Level)
	return a.Setup(t, w.Seed), err
}

// TruthRow is one thing as the session knows it and as it truly is.
type TruthRow struct{ What, Known, True string }

// TruthSpot is a spot as the session knows it and as it truly stands, on the
// dial of who looks at it.
type TruthSpot struct {
	Face  optics.Face
	True  optics.Dial
	Known *optics.Dial // nil: not known just now
	Typed *optics.Dial // as it was read last, where it has not moved since; nil: it was not
}

// TruthSpots returns both spots, whether the laser is on or not.
func (b *Bench) TruthSpots(s session.State) []TruthSpot {
	truth := b.world.Truth()
	if truth.Err != nil {
		return nil
	}
	one := func(f optics.Face, at optics.Tube, known mirrors.Spot) TruthSpot {
		spot := TruthSpot{Face: f, True: b.real.TubeToDial(f, at)}
		if read, ok := b.LastOn(f); ok && read.Placed && b.still(read, spot.True) {
			spot.Typed = &read.Read
		}
		if known.Known {
			d := s.Tel.TubeToDial(f, known.At.At)
			spot.Known = &d
		}
		return spot
	}
	return []TruthSpot{
		one(optics.FacePrimary, truth.Spots.P.Sub(truth.Ring), s.OnPrimary()),
		one(optics.FaceTarget, truth.Spots.T, s.OnTarget()),
	}
}

// stillMM is nearer than anybody sees that a spot has moved.
const stillMM = 0.3

// still reports whether a spot is where it was when it was read.
func (b *Bench) still(read Compared, now optics.Dial) bool {
	return math.Hypot(read.There.Right-now.Right, read.There.Up-now.Up) <= stillMM
}

// Truth returns how the telescope truly stands beside what session s knows of
// it: the spots, the axis error, the screws and the locks, and whatever else is
// out of the ordinary.
func (b *Bench) Truth(s session.State) []TruthRow {
	truth := b.world.Truth()
	var rows []TruthRow
	for _, spot := range b.TruthSpots(s) {
		row := TruthRow{What: "spot", Known: "not known just now", True: words.PlaceWords(spot.Face, spot.True, spot.True.Len())}
		if spot.Face == optics.FaceTarget {
			row.What = "return"
		}
		if spot.Known != nil {
			row.Known = words.PlaceWords(spot.Face, *spot.Known, spot.Known.Len())
		}
		rows = append(rows, row)
	}
	if truth.Err != nil {
		rows = append(rows, TruthRow{"beam", "", truth.Err.Error()})
	}
	e := TruthRow{What: "axis error", Known: "none is claimed", True: fmt.Sprintf("%.1f mm", truth.ErrorMM)}
	if mm, bound, ok := s.AxisError(); ok {
		e.Known = fmt.Sprintf("%.1f mm, at most %.1f", mm, bound)
	}
	rows = append(rows, e)
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		rows = append(rows, b.screwRows(s, truth, m)...)
	}
	return append(rows, b.lockAndLaserRows(s, truth)...)
}

// screwRows: where each screw is taken to stand and where it does, what a turn
// of it does, how far it is from where the mirror would be square.
func (b *Bench) screwRows(s session.State, truth virtual.Truth, m optics.Mirror) []TruthRow {
	is := truth.Primary
	if m == optics.Secondary {
		is = truth.Secondary
	}
	var rows []TruthRow
	for i, label := range s.Tel.Cell(m).Labels {
		row := TruthRow{What: string(m) + " " + label, Known: believed(s, m, i)}
		if i >= len(is.Turns) {
			continue
		}
		per := b.real.TubeToDial(m.SpotFace(), is.PerTurn[i])
		row.True = fmt.Sprintf("at %s; %s; %s", words.ClockText(b.real.ScrewDial(m, i)), perTurnWords(per), fromSquare(is.Turns[i]))
		if ill := ailing(truth.Faults, m, i); ill != "" {
			row.True += "; " + ill
		}
		rows = append(rows, row)
	}
	if is.Loose {
		rows = append(rows, TruthRow{string(m), "", "the plate is not held by all its screws"})
	}
	return rows
}

func believed(s session.State, m optics.Mirror, i int) string {
	place := "place not known"
	if s.Tel.Cell(m).PlacesKnown != optics.Unknown {
		place = "at " + words.ClockText(s.Tel.ScrewDial(m, i))
	}
	if !s.Tracker(m).Seen() {
		return place + "; nothing learnt yet"
	}
	return place + "; " + perTurnWords(s.Tel.TubeToDial(m.SpotFace(), s.Tracker(m).PerTurn(i).At))
}

func perTurnWords(per optics.Dial) string {
	return fmt.Sprintf("toward %s, %.0f mm a turn", words.ClockText(per), per.Len())
}

// fromSquare says how far a screw is turned from where the mirror is square, to
// the hundredth of a turn.
func fromSquare(turns float64) string {
	switch n := math.Round(100*turns) / 100; {
	case n > 0:
		return fmt.Sprintf("%.2f turned in", n)
	case n < 0:
		return fmt.Sprintf("%.2f eased", -n)
	}
	return "as for a square mirror"
}

func ailing(f virtual.Faults, m optics.Mirror, i int) string {
	ill := ""
	for _, s := range f.Screws {
		if s.Mirror == m && s.Screw == i {
			ill = virtual.AilmentWord(s.Is)
		}
	}
	return ill
}

// lockAndLaserRows: how the locks hold and pull, and what is wrong with laser
// and ring.
func (b *Bench) lockAndLaserRows(s session.State, truth virtual.Truth) []TruthRow {
	var rows []TruthRow
	labels := s.Tel.Primary.Labels
	for i, bite := range truth.Primary.Bite {
		if i >= len(labels) {
			break
		}
		holds := fmt.Sprintf("holds by %.2f of a turn", bite)
		if bite <= 0 {
			holds = fmt.Sprintf("stands off by %.2f of a turn", -bite)
		}
		rows = append(rows, TruthRow{"lock " + labels[i], "", holds + "; pulls " + perTurnWords(b.real.TubeToDial(optics.FaceTarget, truth.Primary.Pull[i]))})
	}
	l := truth.Laser
	if offset, slope := math.Hypot(l.OffsetY, l.OffsetZ), 1000*math.Hypot(l.SlopeY, l.SlopeZ); offset > 0.05 || slope > 0.05 {
		rows = append(rows, TruthRow{"laser", "", fmt.Sprintf("leaves %.1f mm beside the focuser's axis, %.1f mrad at an angle to it", offset, slope)})
	}
	if off := truth.Ring.Len(); off > 0 {
		rows = append(rows, TruthRow{"ring", "in the middle", fmt.Sprintf("%.1f mm beside the middle", off)})
	}
	if deeds := b.world.Deeds(); len(deeds) > 0 {
		var words []string
		for _, d := range deeds {
			words = append(words, string(d))
		}
		rows = append(rows, TruthRow{"so far", "", strings.Join(words, "; ")})
	}
	return rows
}
