package history

import (
	"spotward/session"
	"spotward/session/event"
)

// KnewKit adds to what is known of a kit what a session with it found.
func KnewKit(k *event.Known, r session.Record) {
	if r.CircleMM != nil {
		k.Circle = &event.KnownCircle{At: r.Ended, RadiusMM: *r.CircleMM, SeatMM: r.SeatMM}
	}
	if r.Glow != "" {
		k.Glow = r.Glow
	}
}

// KnewScope adds to what is known of a scope what a session on it found.
func KnewScope(k *event.Known, r session.Record) {
	k.Sessions++
	if len(r.Labels) > 0 {
		k.Labels = r.Labels
	}
	if r.Locks != "" {
		k.Locks = r.Locks
	}
	if r.SwingMM != nil {
		k.Swing = &event.KnownSwing{At: r.Ended, MovedMM: *r.SwingMM}
	}
	if look := lookOf(r.Found); look != nil {
		look.At, k.Found = r.Began, look
	}
	if look := lookOf(r.Leaves()); look != nil {
		look.At, k.Left = r.Ended, look
	}
}

func lookOf(m session.Moment) *event.KnownLook {
	if m.P == nil && m.T == nil {
		return nil
	}
	look := &event.KnownLook{P: knownSpot(m.P), T: knownSpot(m.T)}
	if m.Claimed {
		look.AxisErrorMM, look.AxisErrorMaxMM = m.AxisErrorMM, m.AxisErrorMaxMM
	}
	return look
}

func knownSpot(m *session.Mark) *event.KnownSpot {
	if m == nil {
		return nil
	}
	return &event.KnownSpot{Saw: m.Saw, KnownPlace: event.KnownPlace{Right: m.Right, Up: m.Up, SigmaMM: m.Sigma}}
}
