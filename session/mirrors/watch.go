package mirrors

import (
	"math"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
)

// Where a spot can be watched while the screw is turned. Common practice.
const (
	leastWatchedTubeMM = 130  // of aperture: a hand fills the view of a smaller one
	mostWatchedMM      = 1600 // from the screws to the face
)

// foundReturnMM is how far off, 1σ an axis, the primary of a scope that needs
// aligning sends the return spot. This program's own: of scopes found out of
// alignment.
const foundReturnMM = 6

// mostAsideRad is how far beside the way it should go a spot is let run by
// somebody who watches it. Trainers' judgement.
const mostAsideRad = math.Pi / 6

// canWatch reports whether the spot of mirror m can be watched while its screws
// are turned, as far as place and face go.
func (s Work) canWatch(face optics.Face, m optics.Mirror) bool {
	if !s.Watching || face != m.SpotFace() || !s.roomToWatch() {
		return false
	}
	at := s.Tracker(m).Spot().At.Len()
	if m == optics.Primary {
		return !s.Tel.Target.Flat && at <= s.Tel.Target.FaceRadiusMM
	}
	return s.P.Saw != event.SawOffGlass && at <= s.Tel.ApertureMM/2 && s.classForEyes()
}

// roomToWatch reports whether tube and length leave a spot in view beside the
// hand.
func (s Work) roomToWatch() bool {
	return s.Tel.ApertureMM >= leastWatchedTubeMM && s.Tel.FromPrimaryMM <= mostWatchedMM
}

// MannerToAsk reports whether it is still to be asked if the spot can be watched:
// once a scope, and only where nothing known speaks against it.
func (s Work) MannerToAsk() bool {
	return s.Stops == event.AskManner && s.roomToWatch() && s.classForEyes()
}

// classForEyes reports whether one may look in past the card with this laser:
// beyond class 2 through a camera only.
func (s Work) classForEyes() bool {
	class := s.Laser.Class
	if class == "" {
		class = s.Scope.Laser.Class
	}
	return class != "3R" && class != ClassOver && class != ClassNone
}

// staysCovered reports whether the return beam stays off the half of the open
// end that is left open, all the way of a watched advice, to two σ of what is
// believed of the primary, of the spot and of the way it goes. To first order:
// the return passes the secondary at q, and leaves by the open end where that is
// beyond its edge.
func (s Work) staysCovered(k adviser.Tracker, a adviser.Advice) bool {
	from := k.Spot()
	red := s.Red.At.At
	if !s.Red.Known || red.Len() == 0 {
		red = from.At
	}
	if red.Len() == 0 {
		return true
	}
	red = red.Scale(1 / red.Len())
	l, path := s.Tel.FromPrimaryMM, s.Tel.PathMM()
	perP := 2 - l/s.Tel.FocalLengthMM // what a spot on the primary moves q by
	primary := 2 * foundReturnMM * l / path
	way := a.After.Sub(from.At)
	aside := math.Min(2*k.AsideRad(a.Moves), mostAsideRad)
	const parts, around = 8, 16
	for i := range parts + 1 {
		part := float64(i) / parts
		q := from.At.Add(way.Scale(part)).Scale(perP)
		off := math.Hypot(primary, perP*math.Hypot(2*from.Cov.Sigma(), part*way.Len()*math.Sin(aside)))
		for n := range around {
			sin, cos := math.Sincos(2 * math.Pi * float64(n) / around)
			at := q.Add(optics.Tube{X: off * cos, Y: off * sin})
			if at.Len() > s.Tel.MinorAxisMM/2 && at.Dot(red) < 0 {
				return false
			}
		}
	}
	return true
}

// shorter cuts a watched advice to the longest part of its way on which the
// return beam stays covered: then a look tells more. It reports whether there is
// any worth making.
func (s Work) shorter(k adviser.Tracker, a *adviser.Advice) bool {
	at := k.Spot().At
	n := len(a.Moves)
	if s.pairs(optics.Secondary) {
		n = min(n, 2)
	} else {
		n = 1
	}
	first := *a
	first.Moves, first.Then = append([]adviser.Move(nil), a.Moves[:n]...), nil
	cue := first.Moves[n-1].Stop.At
	for _, part := range []float64{1, 3. / 4, 1. / 2} {
		try := first
		try.Group = adviser.GroupPair
		if n == 1 {
			try.Group = adviser.GroupOne
		}
		try.Moves = append([]adviser.Move(nil), first.Moves...)
		for i := range try.Moves {
			turns := adviser.OnGrid(try.Moves[i].Turns * part)
			if turns == 0 {
				return false
			}
			try.Moves[i].Turns = turns
		}
		try.After = at.Add(cue.Sub(at).Scale(part))
		try.Moves[n-1].Stop = &optics.Stop{At: try.After, As: optics.StopPoint}
		if s.staysCovered(k, try) {
			*a = try
			return true
		}
	}
	return false
}

// The longest a screw is turned in one go, in turns: as pairs are turned by
// turns, and a screw of the primary. Common practice.
const (
	goSecondaryTurns = 1. / 8
	goPrimaryTurns   = 1. / 2
	goStepTurns      = 1. / 32
)

// goes puts the told moves of mirror m into equal goes, none longer than one
// goes; what cannot be parted evenly is rounded.
func goes(m optics.Mirror, moves []event.ToldMove) {
	most := goPrimaryTurns
	if m == optics.Secondary {
		most = goSecondaryTurns
	}
	for i := range moves {
		t := &moves[i]
		if t.Lock != "" {
			continue
		}
		n := math.Ceil(math.Abs(t.Turns)/most - 1e-9)
		if n < 2 {
			continue
		}
		part := math.Round(t.Turns/n/goStepTurns) * goStepTurns
		t.Goes, t.Turns = int(n), n*part
	}
}
