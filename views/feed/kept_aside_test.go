package feed_test

import (
	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/views/feed"
)

// aside says something else than what is asked; "" is nothing.
func (p *person) aside(o said) string {
	h := p.habit
	switch {
	case p.chance(h.wrong):
		return markIn + p.wrong()
	case p.chance(h.long):
		return markOrder + orderLong
	case p.chance(h.undo):
		if p.chance(0.4) {
			p.coming = []string{in("redo", true)}
		}
		return in("undo", true)
	case p.chance(h.back):
		return in("back", true)
	case p.chance(h.skip):
		return in("skip", "no time for it")
	case p.chance(h.quit):
		return in("quit", true)
	case p.chance(h.lost):
		return markOrder + orderLost
	case p.chance(h.finer):
		return in("finer", true)
	case p.chance(h.stop):
		p.stopped = true
		return in("stop", true)
	case p.chance(h.weak):
		return in("laser", "weak")
	case p.chance(h.fresh):
		p.at.world.Reseat()
		return in("laser", "fresh")
	case p.chance(h.dead):
		p.at.world.LaserOn(false)
		p.stopped = true
		return in("laser", "dead")
	case p.chance(h.own):
		return p.turnsOfItsOwn()
	case p.chance(h.talk):
		return p.talk(o)
	}
	return ""
}

// wrong returns a line that cannot be taken, or not here.
func (p *person) wrong() string {
	all := []string{
		``, `yes`, `[`, `{}`, `{"yes":true}`, `{"confirm":false}`, `{"confirm":"yes"}`, `{"confirm":true,"home":true}`, `{"confirm":true} {}`,
		`{"reading":{"right":1}}`, `{"reading":{"clock":13,"mm":1}}`, `{"reading":{"right":1,"up":2,"sigma_mm":-1}}`,
		`{"reading":{"right":1e9,"up":2}}`, `{"choice":"lunch"}`, `{"screw":"B"}`, `{"screw":"B","is":"sad"}`, `{"screw":"Q","is":"stuck"}`,
		`{"laser":"hot"}`, `{"turned":[{"mirror":"primary","screw":"Q","turns":1}]}`, `{"turned":[{"mirror":"primary","screw":"A","turns":99}]}`,
		`{"skip":""}`, `{"go_on":false}`, `{"stop":null}`,
	}
	return all[p.rand.IntN(len(all))]
}

// talk says something of a screw. What is said of a turn is made true where
// there was one.
func (p *person) talk(o said) string {
	if o.Advice == nil || len(o.Advice.Moves) == 0 {
		if p.chance(0.5) {
			return lineIn(map[string]any{"screw": "", "is": event.SaysUnturned})
		}
		return lineIn(map[string]any{"screw": p.label(p.mirror(o)), "is": event.SaysUnturned})
	}
	moves := o.Advice.Moves
	i := p.rand.IntN(len(moves))
	all := []event.Says{
		event.SaysStuck, event.SaysFree, event.SaysEnd, event.SaysSlipped, event.SaysSticky, event.SaysStripped,
		event.SaysOtherWay, event.SaysNotDone, event.SaysUnturned,
	}
	is := all[p.rand.IntN(len(all))]
	done := append([]feed.Move(nil), moves[:i+1]...)
	switch is {
	case event.SaysOtherWay:
		done = append(done, moves[i+1:]...)
		done[i].Turns *= -1
		p.turn(done)
	case event.SaysSlipped:
		done[i].Turns /= 2
		p.turn(done)
	}
	return lineIn(map[string]any{"screw": moves[i].Screw + moves[i].Lock, "is": is})
}

// mirror returns the one whose screws are in hand.
func (p *person) mirror(o said) optics.Mirror {
	switch o.Stage {
	case session.StageSecondary, session.StageFirstLook, session.StageLabels:
		return optics.Secondary
	}
	return optics.Primary
}

func (p *person) label(m optics.Mirror) string {
	labels := p.at.tel.Cell(m).Labels
	return labels[p.rand.IntN(len(labels))]
}

// turnsOfItsOwn turns a screw or a lock that was not told.
func (p *person) turnsOfItsOwn() string {
	m := p.mirror(p.asked)
	i := p.rand.IntN(len(p.at.tel.Cell(m).Labels))
	t := optics.Turn{Mirror: m, Turns: float64(1+p.rand.IntN(4)) / 16}
	if p.chance(0.5) {
		t.Turns = -t.Turns
	}
	if m == optics.Primary && i < p.at.tel.Primary.Locks && p.chance(0.2) {
		t.Lock = p.at.tel.Primary.Labels[i]
		p.at.world.TurnLock(i, t.Turns)
	} else {
		t.Screw = p.at.tel.Cell(m).Labels[i]
		p.at.world.Turn(m, i, t.Turns)
	}
	return in("turned", []optics.Turn{t})
}
