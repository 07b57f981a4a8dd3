package virtual

import (
	"math"

	"spotward/optics"
)

// How taut a bolt is left, how taut it can be made by hand, and from where a
// screw counts as free; in turns of one screw.
const (
	snugTurns = 0.09
	bindTurns = 0.24
	freeTurns = 0.25
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
	givesMM float64 // how far a swing may move the plate, at the screws' circle
	set     optics.Tube
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
	case felt == Stuck:
	case blocked:
		felt = why
	case felt == "" && i < len(m.locks) && m.bite(i) > lockDrags:
		felt = Sticky
	case felt == "" && m.bolted && by < 0 && m.offMM(m.tips(), i) > freeTurns*m.leadMM[i]:
		felt = Free
	case felt == "" && !m.bolted && s.reach() > s.grip+s.loose+freeTurns:
		felt = Free
	}
	return did, felt
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
	for i := range m.screws {
		s := &m.screws[i]
		take := s.loose
		if m.bolted {
			take = m.offMM(m.tips(), i) / m.leadMM[i]
		}
		if take > 1e-9 {
			s.turn(take + s.lost())
		}
	}
	m.seat(m.tips())
	if !m.bolted {
		return
	}
	tips := m.tips()
	for i := range m.screws {
		press := m.share()*snugTurns*m.leadMM[i] - m.overMM(tips, i)
		if press > 0 {
			m.screws[i].turn(press/m.leadMM[i] + m.screws[i].lost())
		}
	}
	m.seat(m.tips())
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
