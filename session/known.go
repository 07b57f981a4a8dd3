package session

import (
	"spotward/session/event"
	"spotward/session/words"
)

// KnewKit adds to what is known of a kit what a session with it found.
func KnewKit(k *event.Known, r Record) {
	if r.CircleMM != nil {
		k.Circle = &event.KnownCircle{At: r.Ended, RadiusMM: *r.CircleMM, SeatMM: r.SeatMM}
	}
	if r.Glow != "" {
		k.Glow = r.Glow
	}
}

// KnewScope adds to what is known of a scope what a session on it found.
func KnewScope(k *event.Known, r Record) {
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

func lookOf(m Moment) *event.KnownLook {
	if m.P == nil && m.T == nil {
		return nil
	}
	look := &event.KnownLook{P: spotOf(m.P), T: spotOf(m.T)}
	if m.Claimed {
		look.AxisErrorMM, look.AxisErrorMaxMM = m.AxisErrorMM, m.AxisErrorMaxMM
	}
	return look
}

func spotOf(m *Mark) *event.KnownSpot {
	if m == nil {
		return nil
	}
	return &event.KnownSpot{Saw: m.Saw, KnownPlace: event.KnownPlace{Right: m.Right, Up: m.Up, SigmaMM: m.Sigma}}
}

// swingMM returns by how much the swing moved the return spot, mm; nil where it
// was not seen before and after.
func (s State) swingMM() *float64 {
	if !s.BeforeSw.T.Known || !s.Left.T.Known {
		return nil
	}
	mm := words.Round(s.Left.T.At.At.Sub(s.BeforeSw.T.At.At).Len(), 2)
	return &mm
}
