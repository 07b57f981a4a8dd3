package virtual

import (
	"math"

	"spotward/optics"
)

// Turned is what really became of a turn.
type Turned struct {
	Mirror optics.Mirror
	Screw  int     // the one that was turned, whichever was meant
	Lock   bool    // the lock beside it, not the screw itself
	Turns  float64 // clockwise positive
	Tried  float64 // what the hands went for; Turns is less where it would not go
	Felt   Felt
	// Meant is what the hands set out to do: the amount asked for, of a turn
	// that was watched the sense alone (±1).
	Meant float64
	// Of a turn that was watched. Away: the spot never came nearer to its cue,
	// and the screw was put back. Lost: the spot went out of sight on the way.
	Away, Lost bool
}

// Turn turns a screw by turns (clockwise positive), as well as the hands can.
// A screw that is not there is not turned.
func (w *World) Turn(m optics.Mirror, screw int, turns float64) Turned {
	c := newChance(w.seed, streamHands, w.turns)
	amount, slipped := w.setup.Hands.by(turns, c)
	if c.happens(w.setup.Hands.WrongScrew) {
		screw = (screw + 1) % len(w.mount(m).screws)
	}
	t := w.TurnExactly(m, screw, amount)
	t.Meant = turns
	if slipped && t.Felt == "" {
		t.Felt = Slipped
	}
	return t
}

// by returns what becomes of an amount in these hands, and whether the key
// slipped.
func (h Hands) by(turns float64, c chance) (float64, bool) {
	amount := turns*math.Max(0.2, 1+h.Part*c.normal()) + h.Turns*c.normal()
	if amount*turns < 0 {
		amount = 0
	}
	if c.happens(h.OtherWay) {
		amount = -amount
	}
	slipped := c.happens(h.Slips)
	if slipped {
		amount /= 2
	}
	return amount, slipped
}

// TurnExactly turns a screw by turns and no more or less, as far as it goes:
// for the replay of true turns, and for tests.
func (w *World) TurnExactly(m optics.Mirror, screw int, turns float64) Turned {
	w.act()
	w.turns++
	mt := w.mount(m)
	t := Turned{Mirror: m, Screw: screw, Meant: turns, Tried: turns}
	if screw < 0 || screw >= len(mt.screws) {
		return t
	}
	t.Turns, t.Felt = mt.turn(screw, turns)
	if m == optics.Secondary {
		w.twisted += w.twistRad[screw] * t.Turns
	}
	forced := math.Abs(turns-t.Turns) > forcedTurns
	w.did(LockNotEased, forced && t.Felt == Stuck && screw < len(mt.locks) && mt.screws[screw].ill != Seized)
	w.did(BoltForced, forced && t.Felt == Binds)
	w.did(ScrewForced, forced && t.Felt == AtEnd)
	w.did(EasedTooFar, t.Felt == Free && mt.bolted)
	w.did(AllEased, turns < 0 && mt.bolted && mt.allOff())
	w.noteBeam()
	return t
}

// TurnLock turns the lock beside one of the primary's screws, as well as the
// hands can.
func (w *World) TurnLock(i int, turns float64) Turned {
	c := newChance(w.seed, streamHands, w.turns)
	amount, slipped := w.setup.Hands.by(turns, c)
	t := w.TurnLockExactly(i, amount)
	t.Meant = turns
	if slipped && t.Felt == "" {
		t.Felt = Slipped
	}
	return t
}

// TurnLockExactly turns a lock by turns and no more or less, as far as it goes.
func (w *World) TurnLockExactly(i int, turns float64) Turned {
	w.act()
	w.turns++
	t := Turned{Mirror: optics.Primary, Screw: i, Lock: true, Meant: turns, Tried: turns}
	if i < 0 || i >= len(w.primary.locks) {
		return t
	}
	t.Turns, t.Felt = w.primary.turnLock(i, turns)
	w.did(LockForced, t.Felt == AtEnd && turns-t.Turns > forcedTurns)
	w.did(LockLoose, t.Felt == Free)
	return t
}

// rocksTurns is how far each screw stands off its plate for the glass to rock on
// its bolt.
const rocksTurns = 1. / 16

// forcedTurns is how far past the place where it stops a screw or lock is forced
// by hands that were asked to: within that they have stopped where it is snug.
const forcedTurns = 1. / 8

// Snug takes up, lightly and in turn, whatever screw of mirror m stands off
// its plate. It returns by how much each was turned.
func (w *World) Snug(m optics.Mirror) []float64 {
	w.act()
	mt := w.mount(m)
	turned := make([]float64, len(mt.screws))
	for i, s := range mt.screws {
		turned[i] = -s.hand
	}
	mt.snug()
	for i, s := range mt.screws {
		turned[i] += s.hand
	}
	return turned
}

// SnugLocks turns every lock that stands off until it bites, with two fingers.
func (w *World) SnugLocks() {
	for i := range w.primary.locks {
		w.SnugLock(i)
	}
}

// LocksSnug reports whether every lock bites as two fingers have it.
func (w *World) LocksSnug() bool {
	for i := range w.primary.locks {
		if w.primary.bite(i) < lockSnug-snugNear {
			return false
		}
	}
	return true
}

// snugNear is nearer than anybody feels a lock to be snug, turns.
const snugNear = 1e-6

// SnugLock turns lock i until it bites, with two fingers; one that does is left
// as it is.
func (w *World) SnugLock(i int) Turned {
	m := &w.primary
	return w.TurnLockExactly(i, max(0, lockSnug-m.bite(i)))
}

// Knock is a knuckle on mirror m's cell: it frees what a grabbing screw holds.
func (w *World) Knock(m optics.Mirror) {
	w.act()
	mt := w.mount(m)
	for i := range mt.screws {
		mt.screws[i].knock()
	}
	mt.seat(mt.tips())
}

// TurnLaser turns the laser in its holder by deg, clockwise as one looks into
// the focuser from outside.
func (w *World) TurnLaser(deg float64) {
	w.act()
	w.laser.turnedRad += deg * math.Pi / 180
	w.noteBeam()
}

// Reseat takes the laser out and puts it back, its face where it was.
func (w *World) Reseat() {
	w.act()
	w.did(OutLit, w.lit())
	w.laser.turnedRad = 0
	w.laser.seat = newSeat(w.setup.Faults.SeatSpreadMM, w.real.PathMM(), newChance(w.seed, streamSeat, w.seats))
	w.seats++
	w.noteBeam()
}

// LaserOn switches the laser.
func (w *World) LaserOn(on bool) {
	w.did(LitNoCard, on && !w.laser.on && !w.card)
	w.laser.on = on
	w.noteBeam()
}

// SetHands puts other hands to the screws.
func (w *World) SetHands(h Hands) { w.setup.Hands = h }

// Lit reports whether the laser shines.
func (w *World) Lit() bool { return w.lit() }

// Carded reports whether the card is over the open end.
func (w *World) Carded() bool { return w.card }

// Card puts the card over the open end, or takes it off.
func (w *World) Card(on bool) {
	w.card = on
	w.noteBeam()
}

// noteBeam remembers that a beam was let out of the open end, once until it is
// caught again.
func (w *World) noteBeam() {
	s, lit := w.beam()
	out := lit && !w.card && s.Leaves
	w.did(LitUncarded, out && !w.out)
	w.out = out
}

// Swing takes the tube up to about 50° and back: whatever is loose gives.
func (w *World) Swing() {
	w.act()
	w.did(SwungLit, w.lit() && !w.card)
	w.did(SwungUnlocked, !w.primary.locksHold())
	c := newChance(w.seed, streamSwing, w.swings)
	w.secondary.swing(c)
	w.primary.swing(c)
	gives := 0.0
	if w.swings == 0 {
		gives = w.setup.Faults.UnsettledMM
	}
	if !w.primary.locksHold() {
		gives += c.between(0.3, 1.2)
	}
	w.primary.set = w.primary.set.Add(turned(gives/(2*w.real.PathMM()), c.angle()))
	w.swings++
	w.noteBeam()
}

// act counts what is done, for the battery.
func (w *World) act() { w.acts++ }

func (w *World) mount(m optics.Mirror) *mount {
	if m == optics.Primary {
		return &w.primary
	}
	return &w.secondary
}

// allOff tells whether every screw stands off its plate.
func (m *mount) allOff() bool {
	tips := m.tips()
	for i := range tips {
		if m.offMM(tips, i) < rocksTurns*m.leadMM[i] {
			return false
		}
	}
	return true
}

// Clone returns a copy that goes its own way from here.
func (w *World) Clone() *World {
	c := *w
	c.secondary, c.primary = w.secondary.clone(), w.primary.clone()
	c.deeds = w.Deeds()
	return &c
}

func (m mount) clone() mount {
	m.screws = append([]screw(nil), m.screws...)
	m.locks = append([]lock(nil), m.locks...)
	return m
}
