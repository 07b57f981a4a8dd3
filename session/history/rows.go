package history

import (
	"fmt"
	"strings"
	"time"

	"spotward/optics"
	"spotward/session"
	"spotward/session/words"
)

// RowKey names what a row of a record says.
type RowKey string

// The rows of a record, in their order.
const (
	RowSession  RowKey = "session"
	RowScope    RowKey = "scope"
	RowKit      RowKey = "kit"
	RowWho      RowKey = "who"
	RowWhere    RowKey = "where"
	RowWhen     RowKey = "when"
	RowReason   RowKey = "reason"
	RowVerdict  RowKey = "verdict"
	RowOutcome  RowKey = "outcome"
	RowTag      RowKey = "tag"
	RowAllowed  RowKey = "allowed"
	RowSees     RowKey = "sees"
	RowFound    RowKey = "found"
	RowBeforeSw RowKey = "before_swing"
	RowLeft     RowKey = "left"
	RowCircle   RowKey = "circle"
	RowSeat     RowKey = "seat"
	RowLetters  RowKey = "letters"
	RowWork     RowKey = "work"
	RowTurns    RowKey = "turns"
	RowLearnt   RowKey = "learnt"
	RowLeftOut  RowKey = "left_out"
	RowFiner    RowKey = "finer"
	RowNoted    RowKey = "noted"
)

// Row is one thing that a record says.
type Row struct {
	Key  RowKey
	Name string // of the thing, in a word or two
	Text string // never empty
}

// RowsOf is what it takes beside a record to say all of it.
type RowsOf struct {
	Tel   *optics.Telescope  // nil: not known, and no spot is put into words
	Total map[string]float64 // net turns of each screw in all records; nil: not said
	Zone  *time.Location     // that times are said in
}

// RecordRows returns all that a record says, a row each. It is the one place
// where a record is put into words; a face picks the rows that it has room for.
func RecordRows(r session.Record, of RowsOf) []Row {
	var out []Row
	add := func(key RowKey, name, text string) {
		if text != "" {
			out = append(out, Row{key, name, text})
		}
	}
	add(RowSession, "session", r.ID)
	add(RowScope, "scope", ScopeOf(r))
	add(RowKit, "kit", r.Kit)
	add(RowWho, "who", r.Who)
	add(RowWhere, "where", r.Where)
	add(RowWhen, "when", whenWords(r, of.Zone))
	add(RowReason, "why", words.ID(r.Reason))
	add(RowVerdict, "verdict", words.ID(r.Verdict))
	add(RowOutcome, "outcome", words.Outcome(r.Outcome)+toldMark(r))
	if r.Upshot != nil {
		add(RowTag, "good enough?", r.Upshot.Words())
	}
	add(RowTag, "tag", tagRow(r))
	add(RowAllowed, "allowed", fmt.Sprintf("%s mm of axis error", words.MmText(r.AllowedMM)))
	add(RowSees, "the method sees", fmt.Sprintf("to %.1f mm, in 95 of 100", r.BudgetMM))
	for _, m := range []struct {
		key  RowKey
		name string
		is   session.Moment
	}{{RowFound, "found", r.Found}, {RowBeforeSw, "before the swing", r.BeforeSw}, {RowLeft, "left", r.Left}} {
		if m.is.P == nil && m.is.T == nil {
			continue
		}
		add(m.key, m.name, MomentWords(r, m.is))
		if of.Tel != nil {
			add(m.key, "  on the primary", SpotWords(*of.Tel, optics.FacePrimary, m.is.P)+give(m.is.P))
			add(m.key, "  return spot", SpotWords(*of.Tel, optics.FaceTarget, m.is.T)+give(m.is.T))
		}
	}
	if r.CircleMM != nil {
		add(RowCircle, "laser turned round", CircleWords(*r.CircleMM))
	}
	if r.SeatMM > 0 {
		add(RowSeat, "laser put back", fmt.Sprintf("%.1f mm from where it was", r.SeatMM))
	}
	add(RowLetters, "letters", strings.Join(LabelsWords(r), ", "))
	add(RowWork, "work", WorkWords(r))
	for _, screw := range NetTurnsWords(r) {
		if name := screw[:strings.LastIndexAny(screw, "+-")-1]; of.Total != nil {
			screw += " (" + signedTurns(of.Total[name]) + " in all records)"
		}
		add(RowTurns, "net turns", screw)
	}
	if of.Tel != nil {
		for _, l := range learntRows(r, *of.Tel) {
			add(RowLearnt, l[0], l[1])
		}
	}
	for _, k := range r.Skips {
		add(RowLeftOut, "left out", words.ID(string(k.Stage))+": "+k.Why)
	}
	for _, f := range r.Finer {
		add(RowFiner, words.ID(string(f.Check)), f.Words)
	}
	for _, f := range r.FoundOut {
		add(RowNoted, "found out", f.Words)
	}
	for _, s := range r.Trouble {
		add(RowNoted, "noted", s)
	}
	return out
}

// PickRows returns the rows of these keys, in the record's order.
func PickRows(rows []Row, keys ...RowKey) []Row {
	var out []Row
	for _, r := range rows {
		for _, k := range keys {
			if r.Key == k {
				out = append(out, r)
			}
		}
	}
	return out
}

// ScopeOf returns the scope's name, and that it is not there if so.
func ScopeOf(r session.Record) string {
	if r.Practice {
		return r.Scope + " (practice)"
	}
	return r.Scope
}

func whenWords(r session.Record, zone *time.Location) string {
	if r.Began.IsZero() {
		return ""
	}
	if zone == nil {
		zone = time.UTC
	}
	text := r.Began.In(zone).Format("2006-01-02 15:04")
	if !r.Ended.IsZero() {
		text += " to " + r.Ended.In(zone).Format("15:04")
	}
	return text
}

func tagRow(r session.Record) string {
	if r.Outcome == "" || r.Tag == "" {
		return ""
	}
	if r.TagWhy == "" {
		return words.Tag(r.Tag)
	}
	return words.Tag(r.Tag) + ": " + r.TagWhy
}

// MomentWords returns an axis error with its bound and in what was allowed.
func MomentWords(r session.Record, m session.Moment) string {
	if !m.Claimed {
		return "axis error not known: both spots must be seen for it"
	}
	text := fmt.Sprintf("axis error %.1f mm, at most %.1f", m.AxisErrorMM, m.AxisErrorMaxMM)
	if r.AllowedMM > 0 {
		text += fmt.Sprintf("; %.1f times what is allowed", m.AxisErrorMM/r.AllowedMM)
	}
	if m.Strehl > 0 {
		text += fmt.Sprintf("; Strehl %.2f in the middle", m.Strehl)
	}
	return text
}

// WorkWords counts the work of a session.
func WorkWords(r session.Record) string {
	return fmt.Sprintf("%d looks, %d moves, %d rounds of locks", r.Looks, r.Moves, r.Nips)
}

// CircleWords says what the spot did while the laser was turned in its holder,
// from the circle's radius in mm.
func CircleWords(radiusMM float64) string {
	if radiusMM == 0 {
		return "the spot stood still"
	}
	return fmt.Sprintf("a circle of %.1f mm in radius", radiusMM)
}

// give is the error of a reading.
func give(m *session.Mark) string {
	if m == nil || m.Sigma == 0 {
		return ""
	}
	return fmt.Sprintf(" (give or take %.1f mm)", m.Sigma)
}

// learntRows are what the screws and locks did: a name, and mm a turn.
func learntRows(r session.Record, tel optics.Telescope) [][2]string {
	var out [][2]string
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		l := r.Learnt[m]
		if l == nil {
			continue
		}
		labels := tel.Cell(m).Labels
		say := func(name string, at optics.Tube) {
			d := tel.TubeToDial(m.SpotFace(), at)
			out = append(out, [2]string{name, fmt.Sprintf("a turn moves the spot %.0f mm toward %s", at.Len(), words.HourWords(d))})
		}
		for i := range min(len(l.PerTurn), len(labels)) {
			say(string(m)+" "+labels[i], l.PerTurn[i])
		}
		for i := range min(len(l.LockPull), len(labels)) {
			say("lock "+labels[i], l.LockPull[i])
		}
	}
	return out
}
