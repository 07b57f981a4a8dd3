package history

import (
	"fmt"
	"strings"
	"time"

	"spotward/session"
	"spotward/session/scope"
)

// Said returns what the records know of a scope and a kit that whoever is about
// to turn a screw is to be told: a line each, of the scope first. Nothing that
// needs no doing is said.
func (s Stock) Said(name, kit string, now time.Time) []string {
	return s.FleetAt(now).Said(name, kit)
}

// Suspect returns what is thought wrong with a kit, by its id; "" where nothing is.
func (f Fleet) Suspect(kit string) string {
	for _, k := range f.Kits {
		if k.Suspicion != nil && scope.SameName(k.Kit, kit) {
			return string(k.Suspicion.ID)
		}
	}
	return ""
}

// Said returns the same of a fleet that was summed up.
func (f Fleet) Said(name, kit string) []string {
	var out []string
	for _, row := range f.Scopes {
		if scope.SameName(row.Scope, name) {
			out = append(out, row.said()...)
		}
	}
	for _, k := range f.Kits {
		if say := k.Say(); say != "" && scope.SameName(k.Kit, kit) {
			out = append(out, say)
		}
	}
	return out
}

func (row FleetRow) said() []string {
	var out []string
	if h := row.Suspicion; h != nil && h.ID != HintKit {
		text := fmt.Sprintf("%s came back out in %d of its last %d looks: %s. %s", row.Scope, h.N, h.Of, h.Short, h.Do)
		switch h.ID {
		case HintSettled:
			text = fmt.Sprintf("%s was home in each of its last %d looks. A first look is enough.", row.Scope, h.N)
		case HintSlips:
			text = fmt.Sprintf("%s slipped in %d of its last %d swings. %s", row.Scope, h.N, h.Of, h.Do)
		case HintRing:
			text = fmt.Sprintf("%s: its centre ring seems to have moved. %s", row.Scope, h.Do)
		case HintHands:
			text = fmt.Sprintf("%s: %s %s", row.Scope, h.Say, h.Do)
		}
		out = append(out, text)
	}
	r := row.last
	on := r.Began.Format("2 January 2006")
	switch {
	case row.Unfinished != "":
		out = append(out, "A session of it was left in the middle: "+row.Unfinished+".")
	case r.Outcome == session.OutcomeStopped:
		out = append(out, "The last session, on "+on+", ended unfinished."+why(r))
	case r.Tag == session.TagHoldBack:
		out = append(out, "It was held back on "+on+"."+why(r))
	}
	return out
}

func why(r session.Record) string {
	text := strings.TrimRight(r.TagWhy, ". ")
	if text == "" {
		return ""
	}
	return " " + strings.ToUpper(text[:1]) + text[1:] + "."
}
