package virtual

import (
	"math"

	"spotward/optics"
)

// In turns of one screw: how taut a centre bolt is left, and how taut it can be
// made by hand.
const (
	snugTurns = 0.09
	bindTurns = 0.24
)

// How far past the place where it lets go a screw counts as free, turns. Easing
// one that works against a bolt frees it always; that is news only beyond half
// a turn.
const (
	freeOfSpring = 0.25
	freeOfBolt   = 0.5
)

// mount is a mirror on its screws and locks.
type mount struct {
	plate
	// way is +1 where a clockwise turn takes the plate along z, else −1.
	way     float64
	leadMM  []float64 // travel of a turn, each screw with its own gain
	screws  []screw
	locks   []lock
	bolted  bool
	givesMM float64     // how far a swing may move the plate, at the screws' circle
	set     optics.Tube // slope that swings have added
}

// tips returns how far each screw reaches, mm.
func (m *mount) tips() []float64 {
	t := make([]float64, len(m.screws))
	for i := range m.screws {
		t[i] = m.leadMM[i] * m.screws[i].reach()
	}
	return t
}

// turn turns screw i as far as it, the lock beside it and the bolt allow.
func (m *mount) turn(i int, by float64) (did float64, felt Felt) {
	s := &m.screws[i]
	room, why := m.room(i)
	blocked := by > 0 && by > room
	if blocked {
		by = math.Max(0, room)
	}
	did, felt = s.turn(by)
	m.seat(m.tips())
	switch {
	case blocked && felt != Stuck:
		felt = why
	case felt == "":
		felt = m.feel(i, by)
	}
	return did, felt
}

// feel returns what the hand feels at a screw that turned as far as it was
// asked to.
func (m *mount) feel(i int, by float64) Felt {
	s := m.screws[i]
	switch {
	case i < len(m.locks) && m.bite(i) > lockDrags:
		return Sticky
	case m.bolted && by < 0 && m.offMM(m.tips(), i) > freeOfBolt*m.leadMM[i]:
		return Free
	case !m.bolted && s.slackAt > s.grip+s.loose+freeOfSpring:
		return Free
	}
	return ""
}

// room returns how far screw i can still be tightened, and what stops it then.
func (m *mount) room(i int) (float64, Felt) {
	room, why := math.Inf(1), Felt("")
	if m.bolted {
		over := m.overMM(m.tips(), i) / (m.share() * m.leadMM[i])
		room, why = bindTurns-over+m.screws[i].lost(), Binds
	}
	if i < len(m.locks) {
		if r := m.locks[i].room(m.bite(i)) + m.screws[i].lost(); r < room {
			room, why = r, Stuck
		}
	}
	return room, why
}

// snug takes up every screw that stands off the plate until it just touches,
// then all of them alike until the bolt is as taut as it should be.
func (m *mount) snug() {
	m.takeUp()
	if !m.bolted {
		return
	}
	tips := m.tips()
	for i := range m.screws {
		m.press(i, m.share()*snugTurns*m.leadMM[i]-m.overMM(tips, i))
	}
	m.seat(m.tips())
	m.takeUp()
}

// takeUp turns in each screw that stands off the plate, which does not move.
func (m *mount) takeUp() {
	for i := range m.screws {
		m.press(i, math.Max(m.screws[i].loose*m.leadMM[i], m.offMM(m.tips(), i)))
	}
	m.seat(m.tips())
}

// press drives screw i in by mm, if that is more than nothing.
func (m *mount) press(i int, mm float64) {
	if s := &m.screws[i]; mm > 1e-9 {
		s.turn(mm/m.leadMM[i] + s.lost())
		s.knock()
	}
}

// swing moves the plate as far as screws, bolt and supports let it.
func (m *mount) swing(c chance) {
	kick := optics.Tube{X: c.normal(), Y: c.normal()}
	radius := m.at[0].Len()
	m.set = m.set.Add(kick.Scale(m.givesMM / radius))
	m.lean = c.sign()
	for i := range m.screws {
		if loose := m.screws[i].loose; loose > 0 {
			k := c.between(-0.7, 0.7) * loose * m.leadMM[i] / radius
			m.set = m.set.Add(m.at[i].Scale(k / radius))
		}
	}
	if gap := -m.overMM(m.tips(), 0); m.bolted && gap > 0 {
		m.tilt = m.tilt.Add(kick.Scale(3 * gap / radius))
	}
	m.seat(m.tips())
}

// pose returns how the mirror stands.
func (m *mount) pose() optics.Tilt {
	slope := m.tilt.Add(m.set).Add(m.lockSlope()).Scale(m.way)
	n := slope.Len()
	if n > 0 { // a gradient of the trace is an angle
		slope = slope.Scale(math.Atan(n) / n)
	}
	return optics.Tilt{Grad: slope, ShiftMM: m.way * m.midMM}
}
