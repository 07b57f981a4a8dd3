package shelf

import (
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
)

// Knew returns what the sessions on a scope, and with its kit, say of them, for
// the next one's begin line. It is nil where there was none. Practice says
// nothing.
func (l *Shelf) Knew(sc scope.Scope) *event.Known {
	records, _ := l.Records()
	var k event.Known
	for _, r := range records {
		if r.Practice || !Teaches(r) {
			continue
		}
		sameScope := scope.SameName(r.Scope, sc.Name)
		if r.CircleMM != nil && (r.Kit != "" && scope.SameName(r.Kit, sc.Kit) || r.Kit == "" && sc.Kit == "" && sameScope) {
			k.Circle = &event.KnownCircle{At: r.Ended, RadiusMM: *r.CircleMM, SeatMM: r.SeatMM}
		}
		if !sameScope {
			continue
		}
		k.Sessions++
		if len(r.Labels) > 0 {
			k.Labels = r.Labels
		}
		if look := lookOf(r.Found); look != nil {
			look.At, k.Found = r.Began, look
		}
		if look := lookOf(r.Leaves()); look != nil {
			look.At, k.Left = r.Ended, look
		}
	}
	if k.Sessions == 0 && k.Circle == nil {
		return nil
	}
	return &k
}

// Teaches reports whether a record says anything of its scope to the sessions
// after it. What is only told by another directory, and a session that was
// dropped unfinished, are there to be read alone.
func Teaches(r session.Record) bool { return !r.Told && r.Outcome != session.OutcomeDropped }

func lookOf(m session.Moment) *event.KnownLook {
	if m.P == nil && m.T == nil {
		return nil
	}
	look := &event.KnownLook{P: spotOf(m.P), T: spotOf(m.T)}
	if m.Claimed {
		look.AxisErrorMM, look.AxisErrorMaxMM = m.AxisErrorMM, m.AxisErrorMaxMM
	}
	return look
}

func spotOf(m *session.Mark) *event.KnownSpot {
	if m == nil {
		return nil
	}
	return &event.KnownSpot{Saw: m.Saw, KnownPlace: event.KnownPlace{Right: m.Right, Up: m.Up, SigmaMM: m.Sigma}}
}
