package session

import (
	"encoding/json"
	"fmt"
	"time"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/mirrors"
	"spotward/session/words"
)

// Mark is a spot as a record keeps it, mm in the frame of optics.Seen.
type Mark struct {
	Saw   event.Sight `json:"saw"`
	Right float64     `json:"right"`
	Up    float64     `json:"up"`
	Sigma float64     `json:"sigma_mm,omitempty"`

	Picture *event.Picture `json:"picture,omitempty"` // it was measured on; nil: it was read by eye
}

// Moment is both spots and the axis error at one time.
type Moment struct {
	P              *Mark   `json:"p,omitempty"`
	T              *Mark   `json:"t,omitempty"`
	AxisErrorMM    float64 `json:"axis_error_mm,omitempty"`     // as likely as not within it
	AxisErrorMaxMM float64 `json:"axis_error_max_mm,omitempty"` // within it in 95 of 100
	Within         float64 `json:"within,omitempty"`            // how likely it is what is allowed
	ComaFree       float64 `json:"coma_free,omitempty"`         // how likely it is within the edge of the coma-free field
	Strehl         float64 `json:"strehl,omitempty"`            // that coma leaves in the middle, green light
	Claimed        bool    `json:"claimed"`                     // an axis error is claimed at all
}

// Record is a finished session, summed up.
type Record struct {
	V         int                             `json:"v"`
	ID        string                          `json:"id"`
	Scope     string                          `json:"scope"`
	Who       string                          `json:"who,omitempty"`
	Where     string                          `json:"where,omitempty"`
	Kit       string                          `json:"kit,omitempty"`
	Practice  bool                            `json:"practice,omitempty"`
	Way       int                             `json:"way,omitempty"`   // the table of questions it was answered by
	Told      bool                            `json:"told,omitempty"`  // as another directory's record tells it: it was not folded here
	Dir       string                          `json:"dir,omitempty"`   // the id of the data directory it was begun in
	Count     int                             `json:"count,omitempty"` // of the sessions begun there
	Began     time.Time                       `json:"began,omitzero"`
	Ended     time.Time                       `json:"ended,omitzero"`
	Reason    string                          `json:"reason,omitempty"`
	Outcome   string                          `json:"outcome"`
	Verdict   string                          `json:"verdict,omitempty"`
	Tag       string                          `json:"tag,omitempty"`
	TagWhy    string                          `json:"tag_why,omitempty"`
	Upshot    *Upshot                         `json:"upshot,omitempty"`
	AllowedMM float64                         `json:"allowed_mm"`
	BudgetMM  float64                         `json:"budget_mm"` // what this method cannot see, 95 of 100
	Found     Moment                          `json:"found"`
	BeforeSw  Moment                          `json:"before_swing"`
	Left      Moment                          `json:"left"`
	CircleMM  *float64                        `json:"laser_circle_mm,omitempty"`
	SeatMM    float64                         `json:"laser_seat_mm,omitempty"` // how far off the laser came back; 0: not tried
	Looks     int                             `json:"looks"`
	Moves     int                             `json:"moves"`
	Nips      int                             `json:"nips"`
	NetTurns  map[string]float64              `json:"net_turns,omitempty"` // "primary A" → turns
	Labels    map[optics.Mirror]string        `json:"labels,omitempty"`
	Glow      string                          `json:"glow,omitempty"`     // of the kit round the hole: shifts, stays, unknown
	Manner    event.Manner                    `json:"manner,omitempty"`   // how they know when to stop turning: watching, amount
	Locks     string                          `json:"locks,omitempty"`    // how the primary is held, as was said: sprung, push_pull, unknown
	SwingMM   *float64                        `json:"swing_mm,omitempty"` // by how much the swing moved the return spot
	Finer     []Finer                         `json:"finer,omitempty"`    // checks finer than the spots
	Skips     []Skipped                       `json:"skips,omitempty"`
	Trouble   []string                        `json:"trouble,omitempty"`
	FoundOut  []FoundOut                      `json:"found_out,omitempty"`
	Learnt    map[optics.Mirror]*event.Taught `json:"learnt,omitempty"`
}

// RecordIn returns the record that a journal's last line holds, with the times
// of both lines. It returns false where the last line is of another kind: the
// session is not over.
func RecordIn(first, last event.Line) (Record, bool, error) {
	if last.Kind != string(event.KindRecord) {
		return Record{}, false, nil
	}
	var line struct {
		Record *Record `json:"record"`
	}
	if err := json.Unmarshal(last.Raw, &line); err != nil || line.Record == nil {
		return Record{}, false, fmt.Errorf("line %d: the record in it cannot be read", last.Seq+1)
	}
	r := *line.Record
	r.Began, r.Ended = first.T, last.T
	return r, true, nil
}

// Events turns a journal's lines into events. A kind it does not know stays in
// its place, without effect.
func Events(lines []event.Line) ([]event.Event, error) {
	events := make([]event.Event, 0, len(lines))
	for _, l := range lines {
		var ev event.Event
		if err := json.Unmarshal(l.Raw, &ev); err != nil && knownKind(event.Kind(l.Kind)) {
			return nil, fmt.Errorf("line %d (%s) cannot be read: %w", l.Seq+1, l.Kind, err)
		}
		ev.Kind = event.Kind(l.Kind)
		events = append(events, ev)
	}
	return events, nil
}

func knownKind(k event.Kind) bool {
	_, ok := takers[k]
	return ok || k == event.KindUndo || k == event.KindRedo || k == event.KindRecord
}

// Record sums up the state. The times are the journal's: see Summarise.
func (s State) Record() Record {
	r := Record{
		V: 1, ID: s.ID, Scope: s.Scope.Name, Who: s.Who, Where: s.Where, Kit: s.Kit, Practice: s.World != nil,
		Way: s.Way, Dir: s.Dir, Count: s.Count,
		Reason: s.Reason, Outcome: s.Outcome, Verdict: s.Verdict, Tag: s.Tag, TagWhy: s.tagWhy(),
		AllowedMM: s.AllowedMM(), BudgetMM: words.Round(s.Tel.BudgetOf(s.Method()).WithinMM(), 2), Found: s.moment(s.Found), BeforeSw: s.moment(s.BeforeSw), Left: s.moment(s.Leaves()),
		Looks: s.Looks, Moves: s.Moves, Nips: s.Nips, NetTurns: map[string]float64{},
		Labels: s.Labels(), Glow: s.GlowOf(), Manner: s.Kept(), Locks: s.Locks.Cell, SwingMM: s.swingMM(), Finer: s.Checks.Found, Skips: s.Skips, Trouble: s.Noted(), FoundOut: s.FoundOut(), Learnt: map[optics.Mirror]*event.Taught{},
	}
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		if changed := s.ChangedScrews(m); changed != "" {
			r.Trouble = append(r.Trouble[:len(r.Trouble):len(r.Trouble)], changed)
		}
	}
	up := s.Upshot()
	r.Upshot, r.SeatMM = &up, words.Round(s.Laser.SeatMM, 1)
	if s.Laser.CircleMM >= 0 {
		c := s.Laser.CircleMM
		r.CircleMM = &c
	}
	for _, m := range []optics.Mirror{optics.Primary, optics.Secondary} {
		k := s.Tracker(m)
		for i, label := range s.Tel.Cell(m).Labels {
			if n := k.Travel(i); n != 0 {
				r.NetTurns[string(m)+" "+label] = words.Round(n, 3)
			}
		}
		if s.TurnedHere(m) {
			r.Learnt[m] = s.Learnt(m)
		}
	}
	// As they are read again.
	if len(r.NetTurns) == 0 {
		r.NetTurns = nil
	}
	if len(r.Learnt) == 0 {
		r.Learnt = nil
	}
	return r
}

func (s State) moment(g mirrors.Sighting) Moment {
	m := Moment{
		P: s.mark(optics.FacePrimary, g.P), T: s.mark(optics.FaceTarget, g.T),
		AxisErrorMM: words.Round(g.ErrMM, 2), AxisErrorMaxMM: words.Round(g.ErrMaxMM, 2), Claimed: g.ErrKnown,
	}
	if m.Claimed {
		m.Strehl = words.Round(s.Tel.Coma(g.ErrMM).Strehl, 3)
		m.Within, m.ComaFree = words.Round(g.Claim.Within, 3), words.Round(g.Claim.ComaFree, 3)
	}
	return m
}

func (s State) mark(f optics.Face, sp mirrors.Spot) *Mark {
	if sp.Gone {
		return &Mark{Saw: sp.Saw}
	}
	if !sp.Known {
		return nil
	}
	seen := s.Tel.ToSeen(f, sp.At.At)
	return &Mark{Saw: sp.Saw, Right: words.Round(seen.Right, 2), Up: words.Round(seen.Up, 2), Sigma: words.Round(sp.At.Cov.Sigma(), 2), Picture: sp.Picture}
}

// Worked reports whether screws were turned.
func (r Record) Worked() bool { return r.Moves > 0 || r.Nips > 0 }

// Leaves returns how the session left the scope, as far as it was read. What
// was read before the last screw was turned does not say.
func (r Record) Leaves() Moment {
	if r.Outcome == OutcomeStopped && r.Worked() {
		return Moment{}
	}
	return r.Left
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
