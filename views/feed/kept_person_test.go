package feed_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"slices"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/views/feed"
)

// person stands at a virtual telescope with a habit, and says what goes into a
// kept session.
type person struct {
	habit  habit
	rand   *rand.Rand
	stand  *stand
	begins []string // the orders with which sessions begin that are still to come
	at     answerer

	asked   said     // the question that still stands
	turned  int      // the line out whose moves were made
	refused int      // answers to this question
	coming  []string // that is said whatever comes out
	lines   int
	ups     int // times it was taken up again
	stopped bool
}

// Bounds within which a session comes to its end, whatever is answered.
const (
	mostLines   = 60 // then it is stopped
	mostToAStop = 80 // then the lines are lost
	mostUps     = 4
	mostRefused = 3 // then the question is answered
)

func (p *person) chance(of float64) bool { return of > 0 && p.rand.Float64() < of }

// in returns a line in with one answer.
func in(key string, answer any) string { return lineIn(map[string]any{key: answer}) }

func lineIn(answer map[string]any) string {
	b, err := json.Marshal(answer)
	if err != nil {
		panic(err)
	}
	return markIn + string(b)
}

// next says what comes after the line that came out last.
func (p *person) next(last string) (string, bool) {
	if len(p.coming) > 0 {
		line := p.coming[0]
		p.coming = p.coming[1:]
		return line, true
	}
	var o said
	if json.Unmarshal([]byte(last), &o) != nil || o.Done { // nothing was asked yet, or nothing is any more
		return p.begin()
	}
	p.lines++
	if o.Error != "" {
		p.refused++
		o = p.asked
	} else {
		p.asked, p.refused = o, 0
	}
	switch {
	case p.lines > mostToAStop:
		return markOrder + orderLost, true
	case p.lines > mostLines && !p.stopped:
		p.stopped = true
		return in("stop", true), true
	case !p.stopped && p.refused < mostRefused:
		if line := p.aside(o); line != "" {
			return line, true
		}
	}
	line := lineIn(p.answer(o))
	if p.chance(p.habit.full) {
		p.coming = []string{line, line} // refused for want of room, and said again
		return markOrder + orderFull, true
	}
	return line, true
}

// begin begins a session, or goes on with one that was left.
func (p *person) begin() (string, bool) {
	if s := p.stand.session; s != nil && !s.State().Over {
		if p.ups == mostUps || p.lines > mostToAStop {
			return "", false
		}
		p.ups++
		return markOrder + orderUp, true
	}
	if len(p.begins) == 0 {
		return "", false
	}
	order := p.begins[0]
	p.begins, p.lines, p.ups, p.stopped = p.begins[1:], 0, 0, false
	return markOrder + order, true
}

// turn makes moves on the telescope, and returns what was felt in the last of
// them that did not go well, and of which screw.
func (p *person) turn(moves []feed.Move) (felt virtual.Felt, of string) {
	for _, m := range moves {
		turns := m.Turns
		if m.Sense == "anticlockwise" {
			turns = -turns
		}
		for i, l := range p.at.tel.Cell(m.Mirror).Labels {
			did := virtual.Turned{}
			switch l {
			case m.Lock:
				did = p.at.world.TurnLock(i, turns)
			case m.Screw:
				did = p.at.world.Turn(m.Mirror, i, turns)
			}
			if did.Felt != "" {
				felt, of = did.Felt, l
			}
		}
	}
	return felt, of
}

// answer answers what is asked, and makes the moves that were told before.
func (p *person) answer(o said) map[string]any {
	if slices.Contains(o.Do, session.DeedEaseLocks) && p.turned != o.N {
		easeLocks(p.at.world, p.at.tel.Primary.Locks)
		if o.Advice == nil {
			p.turned = o.N
		}
	}
	if o.Advice != nil {
		if p.turned != o.N {
			p.turned = o.N
			felt, of := p.turn(o.Advice.Moves)
			is := map[virtual.Felt]event.Says{
				virtual.Free: event.SaysFree, virtual.Stuck: event.SaysStuck, virtual.AtEnd: event.SaysEnd, virtual.Sticky: event.SaysSticky,
				virtual.Binds: event.SaysStuck, virtual.Slipped: event.SaysSlipped, virtual.Stripped: event.SaysStripped,
			}[felt]
			if is != "" && p.refused == 0 && p.chance(p.habit.feels) {
				return map[string]any{"screw": of, "is": is}
			}
		}
		o.Advice = &feed.Advice{} // made
	}
	if o.Want == session.WantChoice && p.chance(p.habit.other) || p.stand.State().Ask().Step == "moved" {
		choice := o.Options[p.rand.IntN(len(o.Options))]
		if choice == "yes" && o.Stage != session.StageReady {
			p.at.world.Reseat()
		}
		return map[string]any{"choice": choice}
	}
	o.Do = slices.DeleteFunc(slices.Clone(o.Do), func(d session.Deed) bool { return d == session.DeedEaseLocks })
	steps := finerScript{answerer: p.at, state: p.stand.State, asked: true, seen: map[session.StepID]bool{}}
	return p.say(o, steps.reply(o))
}

// say puts a reading as the habit has it.
func (p *person) say(o said, answer map[string]any) map[string]any {
	if _, hole := answer["hole"]; hole && p.chance(0.2+p.habit.short) {
		return map[string]any{"home": true}
	}
	if len(o.Faces) > 1 && p.chance(0.1) { // looked in at too steep a slant
		return map[string]any{"gone": true, "all": true}
	}
	r, ok := answer["reading"].(map[string]any)
	if _, elsewhere := r["face"]; !ok || elsewhere {
		return answer
	}
	right, up := r["right"].(float64), r["up"].(float64)
	if p.chance(p.habit.swap) && (!o.Again || p.chance(0.5)) {
		right = -right
	}
	mm := math.Hypot(right, up)
	if p.chance(p.habit.short) {
		switch {
		case o.InsideMM != nil && mm <= *o.InsideMM:
			return map[string]any{"within": true}
		case o.Face == optics.FacePrimary && mm < p.at.tel.RingInnerMM:
			return map[string]any{"in_ring": true}
		}
	}
	said := map[string]any{}
	if p.chance(p.habit.forms) {
		hour := math.Mod(6/math.Pi*math.Atan2(right, up)+12, 12)
		said["clock"], said["mm"] = hundredths(hour), hundredths(mm)
		if p.chance(0.3) {
			said["sigma_mm"] = hundredths(0.2 + p.rand.Float64())
		}
	} else {
		said["right"], said["up"] = hundredths(right), hundredths(up)
	}
	if sigma, ok := r["sigma_mm"]; ok {
		said["sigma_mm"] = sigma
	}
	return map[string]any{"reading": said}
}

// hundredths rounds mm and hours, so that not every digit is kept.
func hundredths(v float64) float64 { return math.Round(100*v)/100 + 0 }
