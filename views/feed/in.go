package feed

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"

	"spotward/optics"
	"spotward/session"
)

// in is one line in: exactly one of its answers is given.
type in struct {
	Confirm *bool           `json:"confirm"`
	Reading *reading        `json:"reading"`
	Within  *bool           `json:"within"`
	InRing  *bool           `json:"in_ring"`
	Home    *bool           `json:"home"`
	Gone    *bool           `json:"gone"`
	CantSee *bool           `json:"cant_see"`
	Choice  *string         `json:"choice"`
	Screw   *string         `json:"screw"`
	Is      *session.Says   `json:"is"` // of Screw
	Laser   *string         `json:"laser"`
	Turned  *[]session.Turn `json:"turned"`
	Skip    *string         `json:"skip"`
	Back    *bool           `json:"back"`
	Undo    *bool           `json:"undo"`
	Redo    *bool           `json:"redo"`
	Finer   *bool           `json:"finer"`
	Stop    *bool           `json:"stop"`
	GoOn    *bool           `json:"go_on"` // without a record
	Quit    *bool           `json:"quit"`
}

// reading is a place: right and up, or a clock position and a distance.
type reading struct {
	Right   *float64 `json:"right"`
	Up      *float64 `json:"up"`
	Clock   *float64 `json:"clock"`
	MM      *float64 `json:"mm"`
	SigmaMM *float64 `json:"sigma_mm"`
}

// parse understands one line in where s stands.
func parse(line []byte, s session.State) (session.Event, error) {
	var l in
	d := json.NewDecoder(bytes.NewReader(line))
	d.DisallowUnknownFields()
	if err := d.Decode(&l); err != nil {
		return session.Event{}, fmt.Errorf("not a line of the feed (%s): say one answer, as in {\"confirm\":true}", plain(err))
	}
	if _, err := d.Token(); err != io.EOF {
		return session.Event{}, errors.New("more than one object on the line: one answer a line")
	}
	answers := l.answers(s)
	if len(answers) != 1 {
		return session.Event{}, fmt.Errorf("%d answers on the line: say one, as in {\"confirm\":true}", len(answers))
	}
	return answers[0]()
}

type answer func() (session.Event, error)

func (l in) answers(s session.State) []answer {
	var as []answer
	add := func(a answer) { as = append(as, a) }
	face := s.Ask().Face
	flag := func(given *bool, name string, ev session.Event) {
		if given == nil {
			return
		}
		add(func() (session.Event, error) {
			if !*given {
				return ev, fmt.Errorf("%q takes true; leave it out otherwise", name)
			}
			return ev, nil
		})
	}
	flag(l.Confirm, "confirm", session.Event{Kind: session.KindConfirm})
	flag(l.Within, "within", session.Event{Kind: session.KindReading, Face: face, Saw: session.SawWithin})
	flag(l.InRing, "in_ring", session.Event{Kind: session.KindReading, Face: face, Saw: session.SawInRing})
	flag(l.Home, "home", session.Event{Kind: session.KindReading, Face: face, Saw: session.SawHome})
	flag(l.Gone, "gone", session.Event{Kind: session.KindReading, Face: face, Saw: session.SawGone})
	flag(l.CantSee, "cant_see", session.Event{Kind: session.KindReading, Face: face, Saw: session.SawCantSee})
	flag(l.Back, "back", session.Event{Kind: session.KindBack})
	flag(l.Undo, "undo", session.Event{Kind: session.KindUndo})
	flag(l.Redo, "redo", session.Event{Kind: session.KindRedo})
	flag(l.Finer, "finer", session.Event{Kind: session.KindFiner})
	flag(l.Stop, "stop", session.Event{Kind: session.KindStop})
	flag(l.GoOn, "go_on", session.Event{Kind: session.KindGoOn})
	flag(l.Quit, "quit", session.Event{Kind: session.KindQuit})
	if l.Reading != nil {
		add(func() (session.Event, error) { return l.Reading.event(face) })
	}
	if l.Choice != nil {
		add(func() (session.Event, error) {
			return session.Event{Kind: session.KindChoice, Choice: *l.Choice}, nil
		})
	}
	if l.Screw != nil || l.Is != nil {
		add(l.screw)
	}
	if l.Laser != nil {
		add(func() (session.Event, error) {
			switch *l.Laser {
			case "dead":
				return session.Event{Kind: session.KindLaser}, nil
			case string(session.SaysWeak), string(session.SaysFresh):
				return session.Event{Kind: session.KindLaser, Is: session.Says(*l.Laser)}, nil
			}
			return session.Event{}, errors.New(`"laser" takes "dead", "weak" or "fresh"`)
		})
	}
	if l.Turned != nil {
		add(func() (session.Event, error) {
			return session.Event{Kind: session.KindTurned, Turned: *l.Turned}, nil
		})
	}
	if l.Skip != nil {
		add(func() (session.Event, error) { return session.Event{Kind: session.KindSkip, Why: *l.Skip}, nil })
	}
	return as
}

func (l in) screw() (session.Event, error) {
	if l.Screw == nil || l.Is == nil {
		return session.Event{}, errors.New(`"screw" and "is" go together, as in {"screw":"B","is":"stuck"}`)
	}
	return session.Event{Kind: session.KindScrew, Screw: *l.Screw, Is: *l.Is}, nil
}

func (r reading) event(face optics.Face) (session.Event, error) {
	ev := session.Event{Kind: session.KindReading, Face: face, Saw: session.SawPlace}
	switch {
	case r.Right != nil && r.Up != nil && r.Clock == nil && r.MM == nil:
		ev.Right, ev.Up = *r.Right, *r.Up
	case r.Clock != nil && r.MM != nil && r.Right == nil && r.Up == nil:
		if !(*r.Clock >= 0 && *r.Clock <= 12.99) || !(*r.MM >= 0) {
			return ev, errors.New(`"clock" is in hours, 0 to 12.99, and "mm" not negative`)
		}
		at := optics.AtHour(*r.Clock, *r.MM) // 12 toward the focuser here, not straight up
		ev.Right, ev.Up = at.Right, at.Up
	default:
		return ev, errors.New(`a reading is {"right":mm,"up":mm} or {"clock":hours,"mm":mm}, with "sigma_mm" if known`)
	}
	mm := math.Hypot(ev.Right, ev.Up)
	sigma := session.SigmaOf(mm)
	if r.SigmaMM != nil {
		if sigma = *r.SigmaMM; !(sigma > 0 && sigma < 1000) {
			return ev, errors.New(`"sigma_mm" is more than 0 and less than 1000`)
		}
	}
	ev.Cov = &[3]float64{sigma * sigma, 0, sigma * sigma}
	return ev, nil
}

// plain takes what names the program's insides out of a decoder's message.
func plain(err error) string {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax):
		return fmt.Sprintf("bad JSON at byte %d", syntax.Offset)
	case errors.As(err, &kind):
		return fmt.Sprintf("%q cannot be a %s", kind.Field, kind.Value)
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return "the line ends too early"
	}
	if field, ok := bytes.CutPrefix([]byte(err.Error()), []byte("json: unknown field ")); ok {
		return "unknown key " + string(field)
	}
	return err.Error()
}
