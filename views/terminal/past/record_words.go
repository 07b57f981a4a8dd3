package past

import (
	"fmt"
	"strconv"
	"strings"

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
	return strings.ReplaceAll(r.Outcome, "_", " ") + "; tag: " + align.TagWords(r.Tag)
}

// shortPlace says where a spot was in as few words as there are.
func shortPlace(tel optics.Telescope, f optics.Face, m *session.Mark) string {
	if m == nil {
		return "not read"
	}
	at := tel.ToDial(f, optics.Seen{Right: m.Right, Up: m.Up})
	return sawWords(event.Event{Saw: m.Saw}, at)
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
		look := frame.Part{Mark: frame.Pad(strconv.Itoa(l.N), 4), Role: theme.Label, Text: align.FaceWords(l.Event.Face) + ": " + sawWords(l.Event, at)}
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

// recordRows makes parts of names with their texts, without those that say
// nothing.
func recordRows(rows [][2]string) []frame.Part {
	const wide = 12
	var out []frame.Part
	for _, r := range rows {
		if r[1] != "" {
			out = append(out, frame.Part{Mark: frame.Pad(r[0], wide), Role: theme.Label, Text: r[1]})
		}
	}
	return out
}

// cameTo is what a session came to: its tag and why, found and left.
func cameTo(r session.Record) []frame.Part {
	tag := ""
	if r.Outcome != "" {
		tag = align.TagWords(r.Tag)
		if r.TagWhy != "" {
			tag += ": " + r.TagWhy
		}
	}
	rows := [][2]string{{"tag", tag}}
	for _, m := range []struct {
		name string
		m    session.Moment
	}{{"found", r.Found}, {"before swing", r.BeforeSw}, {"left", r.Left}} {
		text := "axis error not known"
		if m.m.Claimed {
			text = fmt.Sprintf("axis error %.1f mm, at most %.1f", m.m.AxisErrorMM, m.m.AxisErrorMaxMM)
		}
		rows = append(rows, [2]string{m.name, text})
	}
	return append([]frame.Part{{Head: outcomeOf(r)}}, recordRows(append(rows, [2]string{"allowed", fmt.Sprintf("%.1f mm", r.AllowedMM)}))...)
}

// restOf is the rest of a record: who and when, with what, what was turned, left
// out and noted.
func restOf(r session.Record) []frame.Part {
	rows := [][2]string{{"record", r.ID}}
	if !r.Began.IsZero() {
		rows = append(rows, [2]string{"when", r.Began.Local().Format("2 Jan 2006 15:04") + " to " + r.Ended.Local().Format("15:04")})
	}
	practice := ""
	if r.Practice {
		practice = "on a telescope that is not there"
	}
	rows = append(rows, [][2]string{
		{"who", r.Who}, {"where", r.Where}, {"kit", r.Kit}, {"practice", practice},
		{"work", fmt.Sprintf("%d looks, %d moves, %d rounds of locks", r.Looks, r.Moves, r.Nips)},
		{"net turns", strings.Join(history.NetTurnsWords(r), ", ")},
	}...)
	for _, k := range r.Skips {
		rows = append(rows, [2]string{"left out", string(k.Stage) + ": " + k.Why})
	}
	for _, c := range r.Finer {
		rows = append(rows, [2]string{string(c.Check), c.Words})
	}
	for _, t := range r.Trouble {
		rows = append(rows, [2]string{"noted", t})
	}
	return append([]frame.Part{{Head: "who, when and what else"}}, recordRows(rows)...)
}

func outcomeOf(r session.Record) string {
	if r.Outcome == "" {
		return "unfinished: this is how it stands"
	}
	return align.OutcomeWords(r.Outcome)
}

// sawWords says what was seen at a look.
func sawWords(ev event.Event, at optics.Dial) string {
	switch ev.Saw {
	case event.SawHome:
		return "home"
	case event.SawGone:
		return "not there"
	case event.SawCantSee:
		return "not to be seen"
	case event.SawWithin, event.SawInRing:
		return "inside"
	}
	return words.ClockText(at) + ", " + align.MmText(at.Len()) + " mm"
}
