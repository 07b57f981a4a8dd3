package feed

import (
	"math"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/words"
)

// Point is a place across the beam, mm, 12 toward the focuser (optics.Seen).
type Point struct {
	Right float64 `json:"right"`
	Up    float64 `json:"up"`
}

// Spot is a place and its distance from the middle.
type Spot struct {
	Right float64 `json:"right"`
	Up    float64 `json:"up"`
	MM    float64 `json:"mm"`
}

// Stop is a stop cue.
type Stop struct {
	Right float64         `json:"right"`
	Up    float64         `json:"up"`
	As    optics.StopKind `json:"as"`
}

// Move is one screw or lock to turn.
type Move struct {
	Mirror optics.Mirror `json:"mirror"`
	Screw  string        `json:"screw,omitempty"`
	Lock   string        `json:"lock,omitempty"`
	Turns  float64       `json:"turns"` // > 0
	Sense  string        `json:"sense"`
	Stop   *Stop         `json:"stop,omitempty"`
	Toward *Point        `json:"toward,omitempty"` // the way the spot on the face sets off, unit length
	Touch  bool          `json:"touch,omitempty"`  // a guess: a touch first
	Goes   int           `json:"goes,omitempty"`   // turns in so many equal goes; absent: one
}

// Advice is what is to be turned before the answer.
type Advice struct {
	Group    adviser.Group `json:"group"`
	Moves    []Move        `json:"moves"`
	Then     []Move        `json:"then,omitempty"`
	Learning bool          `json:"learning"`
	Trust    float64       `json:"trust"`
	Why      string        `json:"why"`
	Ask      string        `json:"ask,omitempty"`
	Watch    bool          `json:"watch,omitempty"` // the cue leads, the amount is a guide
}

// Out is one line out.
type Out struct {
	V        int             `json:"v"`
	N        int             `json:"n"`
	Stage    session.StageID `json:"stage"`
	Want     session.Want    `json:"want"`
	Stand    header.Stand    `json:"stand"`
	Do       []session.Deed  `json:"do,omitempty"`
	Face     optics.Face     `json:"face,omitempty"`
	Faces    []optics.Face   `json:"faces,omitempty"` // places that a reading may name, Face first
	Focus    optics.Focus    `json:"focus,omitempty"` // of a star: the side of focus
	Again    bool            `json:"again,omitempty"`
	Say      string          `json:"say"`
	Options  []string        `json:"options,omitempty"`
	InsideMM *float64        `json:"inside_mm,omitempty"`
	Aim      *Point          `json:"aim,omitempty"`
	Spot     *Spot           `json:"spot,omitempty"`
	Advice   *Advice         `json:"advice,omitempty"`
	AxisErrors
	AllowedMM float64 `json:"allowed_mm"`
}

// AxisErrors is absent while no axis error is claimed.
type AxisErrors struct {
	AxisErrorMM    *float64 `json:"axis_error_mm,omitempty"`
	AxisErrorMaxMM *float64 `json:"axis_error_max_mm,omitempty"`
}

// Wrong answers a line that cannot be taken.
type Wrong struct {
	V     int          `json:"v"`
	N     int          `json:"n"`
	Error string       `json:"error"`
	Want  session.Want `json:"want"`
}

// Done is the last line.
type Done struct {
	V       int    `json:"v"`
	N       int    `json:"n"`
	Done    bool   `json:"done"`
	Outcome string `json:"outcome"`
	Verdict string `json:"verdict,omitempty"`
	Tag     string `json:"tag"`
	AxisErrors
	AllowedMM float64 `json:"allowed_mm"`
	Moves     int     `json:"moves"`
	Nips      int     `json:"nips"`
	Looks     int     `json:"looks"`
	Record    string  `json:"record,omitempty"`
}

func out(n int, s session.State) Out {
	ask := s.Ask()
	o := Out{
		V: 1, N: n, Stage: ask.Stage.ID, Want: ask.Want, Stand: ask.Header.Stand, Do: ask.Deeds, Face: ask.Face, Faces: ask.Faces, Focus: ask.Focus, Again: ask.Again, Say: ask.Say,
		AxisErrors: axisErrors(s.AxisError()), AllowedMM: words.Round(s.AllowedMM(), 3),
	}
	for _, opt := range ask.Options {
		o.Options = append(o.Options, opt.ID)
	}
	if ask.Want == session.WantReading {
		o.Spot = spot(s, ask.Face)
		if ask.HasGoal {
			aim, inside := s.Tel.ToSeen(ask.Face, ask.Goal.At), words.Round(ask.Goal.InsideMM, 3)
			o.Aim, o.InsideMM = &Point{words.Round(aim.Right, 2), words.Round(aim.Up, 2)}, &inside
		}
	}
	if ask.Told != nil {
		moves, _ := s.EasesLocks(*ask.Told)
		o.Advice = advice(*ask.Told, moves)
	}
	return o
}

func done(n int, s session.State, record string) Done {
	d := Done{
		V: 1, N: n, Done: true, Outcome: s.Outcome, Verdict: s.Verdict, Tag: s.Tag, AllowedMM: words.Round(s.AllowedMM(), 3),
		Moves: s.Moves, Nips: s.Nips, Looks: s.Looks, Record: record,
		AxisErrors: axisErrors(s.Left.ErrMM, s.Left.ErrMaxMM, s.Left.ErrKnown),
	}
	if !s.Over { // quit: as it stands, to be taken up again
		d.Outcome, d.Tag = session.OutcomeStopped, session.TagHoldBack
		d.AxisErrors = axisErrors(s.AxisError())
	}
	return d
}

func axisErrors(mm, maxMM float64, ok bool) AxisErrors {
	if !ok {
		return AxisErrors{}
	}
	mm, maxMM = words.Round(mm, 2), words.Round(maxMM, 2)
	return AxisErrors{&mm, &maxMM}
}

func spot(s session.State, f optics.Face) *Spot {
	at, ok := s.LastOn(f)
	if !ok {
		return nil
	}
	seen := s.Tel.ToSeen(f, at.At)
	return &Spot{words.Round(seen.Right, 2), words.Round(seen.Up, 2), words.Round(seen.Len(), 2)}
}

// advice is what is told, with the moves that do does not say: nil where nothing
// else is turned.
func advice(t event.Told, rest []event.ToldMove) *Advice {
	if len(rest) == 0 && len(t.Moves) > 0 {
		return nil
	}
	return &Advice{
		Group: t.Group, Moves: moves(rest), Then: moves(t.Then),
		Learning: t.Learning, Trust: t.Trust, Why: t.Why, Ask: t.Ask, Watch: t.Watch,
	}
}

func moves(told []event.ToldMove) []Move {
	ms := make([]Move, len(told))
	for i, t := range told {
		m := Move{Mirror: t.Mirror, Screw: t.Screw, Lock: t.Lock, Turns: math.Abs(t.Turns), Sense: "clockwise"}
		if t.Turns < 0 {
			m.Sense = "anticlockwise"
		}
		m.Touch, m.Goes = t.Touch, t.Goes
		if t.Toward != nil {
			m.Toward = &Point{t.Toward.Right, t.Toward.Up}
		}
		if t.Stop != nil {
			m.Stop = &Stop{t.Stop.Right, t.Stop.Up, t.Stop.As}
		}
		ms[i] = m
	}
	return ms
}
