package paper

import (
	"fmt"
	"slices"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/words"
)

// look is one look at a spot, and what was turned since the one before.
type look struct {
	N      int
	Turned string
	Face   string
	Where  string
	After  int // looks left out before this one

	face optics.Face
	at   *optics.Dial // nil: not a place
}

// caution is what a stage told to beware of.
type caution struct {
	Stage string
	Texts []string
}

// way is a session as its journal tells it.
type way struct {
	looks    []look
	cautions []caution
	counted  bool // the kit, back into its box
	settling []optics.Look
}

// walk goes through the journal's events that are in force. What cannot be
// read ends it there.
func (s Sheet) walk() way {
	var w way
	events, err := session.Events(s.Journal)
	if err != nil {
		return w
	}
	end, err := session.Fold(events)
	if err != nil {
		return w
	}
	w.settling = end.Settling()
	var turned []optics.Turn
	for _, p := range end.Past() {
		st, ev := p.Before, p.Event
		switch ev.Kind {
		case event.KindTurned:
			turned = append(turned, ev.Turned...)
		case event.KindReading:
			if p.After.Looks == st.Looks {
				break // where red shows is no look at a spot
			}
			w.looks = append(w.looks, lookAt(st, ev, len(w.looks)+1, turned))
			turned = nil
		case event.KindChoice:
			w.counted = w.counted || st.Ask().Step == session.StepTag
		}
		if ev.Kind != event.KindBegin {
			w.caution(st.Stage())
		}
	}
	return w
}

func lookAt(st session.State, ev event.Event, n int, turned []optics.Turn) look {
	m := session.Mark{Saw: ev.Saw, Right: ev.Right, Up: ev.Up, Picture: ev.Picture}
	l := look{
		N: n, Turned: words.OneLine(words.TurnedWords(turned)), Face: words.Face(ev.Face),
		Where: history.SpotWords(st.Tel, ev.Face, &m), face: ev.Face,
	}
	if ev.Saw == event.SawGone || ev.Saw == event.SawCantSee {
		return l
	}
	at := st.Tel.ToDial(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up})
	l.at = &at
	if ev.Saw == event.SawPlace && at.Len() > 0 {
		l.Where = fmt.Sprintf("%s, %.3g mm", words.ClockText(at), at.Len())
		if ev.Picture != nil {
			l.Where += ", " + words.FromPicture
		}
	}
	return l
}

// caution notes what a stage tells to beware of, once.
func (w *way) caution(st *session.Stage) {
	if len(st.Beware) == 0 || slices.ContainsFunc(w.cautions, func(c caution) bool { return c.Stage == st.Title }) {
		return
	}
	w.cautions = append(w.cautions, caution{st.Title, st.Beware})
}
