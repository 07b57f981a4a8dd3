package past

import (
	"fmt"
	"strconv"
	"time"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// recordNote is what a session came to, in a few words.
func recordNote(r session.Record) string {
	if r.Outcome == "" {
		return "unfinished"
	}
	return history.OutcomeWords(r) + "; tag: " + words.Tag(r.Tag)
}

// shortPlace says where a spot was in as few words as there are.
func shortPlace(tel optics.Telescope, f optics.Face, m *session.Mark) string {
	if m == nil {
		return "not read"
	}
	at := tel.ToDial(f, optics.Seen{Right: m.Right, Up: m.Up})
	return sawWords(event.Event{Saw: m.Saw, Picture: m.Picture}, at)
}

// wayParts are the moves and looks in their order.
func wayParts(r session.Record, looks []desk.Look, after []optics.Turn) []frame.Part {
	var out []frame.Part
	turned := func(turns []optics.Turn) {
		if len(turns) > 0 {
			out = append(out, frame.Part{Mark: "turn", Role: theme.Head, Text: words.TurnedWords(turns)})
		}
	}
	for _, l := range looks {
		turned(l.Turned)
		at := l.State.Tel.ToDial(l.Event.Face, optics.Seen{Right: l.Event.Right, Up: l.Event.Up})
		look := frame.Part{Mark: frame.Pad(strconv.Itoa(l.N), 4), Role: theme.Label, Text: words.Face(l.Event.Face) + ": " + sawWords(l.Event, at)}
		if mm, _, ok := l.State.AxisError(); ok {
			bar := align.AxisBar(mm, r.AllowedMM)
			bar.Full = 6 * r.AllowedMM
			look.Bar, look.Text = &bar, fmt.Sprintf("%.1f mm  %s", mm, look.Text)
		}
		out = append(out, look)
	}
	turned(after)
	return out
}

// partsOf makes parts of rows.
func partsOf(rows []history.Row) []frame.Part {
	const wide = 18
	var out []frame.Part
	for _, r := range rows {
		out = append(out, frame.Part{Mark: frame.Pad(r.Name, wide), Role: theme.Label, Text: r.Text})
	}
	return out
}

// cameTo is what a session came to: its tag and why, found and left.
func cameTo(r session.Record) []frame.Part {
	rows := history.PickRows(history.RecordRows(r, history.RowsOf{}),
		history.RowTag, history.RowFound, history.RowBeforeSw, history.RowLeft, history.RowAllowed)
	return append([]frame.Part{{Head: words.Outcome(r.Outcome)}}, partsOf(rows)...)
}

// restOf is the rest of a record: who and when, with what, what was turned, left
// out and noted.
func restOf(r session.Record) []frame.Part {
	rows := history.PickRows(history.RecordRows(r, history.RowsOf{Zone: time.Local}),
		history.RowSession, history.RowScope, history.RowWhen, history.RowWho, history.RowWhere, history.RowKit, history.RowCircle, history.RowSeat,
		history.RowLetters, history.RowWork, history.RowTurns, history.RowLeftOut, history.RowFiner, history.RowNoted)
	return append([]frame.Part{{Head: "who, when and what else"}}, partsOf(rows)...)
}

// sawWords says what was seen at a look.
func sawWords(ev event.Event, at optics.Dial) string {
	switch ev.Saw {
	case event.SawHome:
		return "home"
	case event.SawGone:
		return "not there"
	case event.SawCantSee:
		return "not in sight"
	case event.SawWithin, event.SawInRing:
		return "inside"
	}
	if ev.Picture != nil {
		return words.ClockText(at) + ", " + words.MmText(at.Len()) + " mm, picture"
	}
	if ev.Saw == event.SawComputed {
		return words.ClockText(at) + ", " + words.EyesMmText(at.Len()) + " mm, computed"
	}
	return words.ClockText(at) + ", " + words.EyesMmText(at.Len()) + " mm"
}
