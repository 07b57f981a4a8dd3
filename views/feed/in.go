package feed

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"

	"spotward/optics"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/reading"
)

// in is one line in: exactly one of its answers is given.
type in struct {
	Confirm *bool          `json:"confirm"`
	Reading *wireReading   `json:"reading"`
	Photo   *string        `json:"photo"` // the path of a picture that is the reading
	Within  *bool          `json:"within"`
	InRing  *bool          `json:"in_ring"`
	Home    *bool          `json:"home"`
	Gone    *bool          `json:"gone"`
	All     *bool          `json:"all"`   // gone: on none of the faces
	Hole    *string        `json:"hole"`  // even, side, cant_tell
	Clock   *float64       `json:"clock"` // of the brighter side
	CantSee *bool          `json:"cant_see"`
	Choice  *string        `json:"choice"`
	Cued    *bool          `json:"cued"` // it stands at the last cue
	Went    *wireWent      `json:"went"`
	Manner  *event.Manner  `json:"manner"`
	Screw   *string        `json:"screw"`
	Is      *event.Says    `json:"is"` // of Screw
	Laser   *string        `json:"laser"`
	Turned  *[]optics.Turn `json:"turned"`
	Skip    *string        `json:"skip"`
	Back    *bool          `json:"back"`
	Undo    *bool          `json:"undo"`
	Redo    *bool          `json:"redo"`
	Finer   *bool          `json:"finer"`
	Stop    *bool          `json:"stop"`
	GoOn    *bool          `json:"go_on"` // without a record
	Quit    *bool          `json:"quit"`
}

// reading is a place: right and up, or a clock position and a distance.
type wireReading struct {
	Face    *optics.Face `json:"face"` // another of those that the question names
	Right   *float64     `json:"right"`
	Up      *float64     `json:"up"`
	Clock   *float64     `json:"clock"`
	MM      *float64     `json:"mm"`
	SigmaMM *float64     `json:"sigma_mm"`
	Watched *bool        `json:"watched"` // the last move was stopped by eye
}

// parse understands one line in where s stands. photo reads the picture at a path.
func parse(line []byte, s session.State, photo func(path string) (event.Event, error)) (event.Event, error) {
	var l in
	d := json.NewDecoder(bytes.NewReader(line))
	d.DisallowUnknownFields()
	if err := d.Decode(&l); err != nil {
		return event.Event{}, fmt.Errorf("not a line of the feed (%s): say one answer, as in {\"confirm\":true}", plain(err))
	}
	if _, err := d.Token(); err != io.EOF {
		return event.Event{}, errors.New("more than one object on the line: one answer a line")
	}
	answers := l.answers(s)
	if l.Photo != nil {
		answers = append(answers, func() (event.Event, error) { return photo(*l.Photo) })
	}
	if len(answers) != 1 {
		return event.Event{}, fmt.Errorf("%d answers on the line: say one, as in {\"confirm\":true}", len(answers))
	}
	return answers[0]()
}

type reply func() (event.Event, error)

func (l in) answers(s session.State) []reply {
	var as []reply
	add := func(a reply) { as = append(as, a) }
	face := s.Ask().Face
	flag := func(given *bool, name string, ev event.Event) {
		if given == nil {
			return
		}
		add(func() (event.Event, error) {
			if !*given {
				return ev, fmt.Errorf("%q takes true; leave it out otherwise", name)
			}
			return ev, nil
		})
	}
	flag(l.Confirm, "confirm", event.Event{Kind: event.KindConfirm})
	flag(l.Within, "within", event.Event{Kind: event.KindReading, Face: face, Saw: event.SawWithin})
	flag(l.InRing, "in_ring", event.Event{Kind: event.KindReading, Face: face, Saw: event.SawInRing})
	flag(l.Home, "home", event.Event{Kind: event.KindReading, Face: face, Saw: event.SawHome})
	flag(l.Gone, "gone", event.Event{Kind: event.KindReading, Face: face, Saw: event.SawGone, All: l.All != nil && *l.All})
	flag(l.CantSee, "cant_see", event.Event{Kind: event.KindReading, Face: face, Saw: event.SawCantSee})
	flag(l.Back, "back", event.Event{Kind: event.KindBack})
	flag(l.Undo, "undo", event.Event{Kind: event.KindUndo})
	flag(l.Redo, "redo", event.Event{Kind: event.KindRedo})
	flag(l.Finer, "finer", event.Event{Kind: event.KindFiner})
	flag(l.Stop, "stop", event.Event{Kind: event.KindStop})
	flag(l.GoOn, "go_on", event.Event{Kind: event.KindGoOn})
	flag(l.Quit, "quit", event.Event{Kind: event.KindQuit})
	if l.Reading != nil {
		add(func() (event.Event, error) {
			if told := s.Told(); l.Reading.Watched != nil && (told == nil || !told.Watch) {
				return event.Event{}, errNotWatched
			}
			return l.Reading.event(s)
		})
	}
	if l.Hole != nil {
		add(func() (event.Event, error) { return l.hole(s) })
	}
	if l.All != nil && l.Gone == nil || l.Clock != nil && l.Hole == nil {
		add(func() (event.Event, error) {
			return event.Event{}, errors.New(`"all" goes with "gone", and "clock" with "hole" or inside a reading`)
		})
	}
	if l.Cued != nil {
		add(func() (event.Event, error) { return cued(*l.Cued, s) })
	}
	if l.Went != nil {
		add(l.Went.event)
	}
	if l.Manner != nil {
		add(func() (event.Event, error) { return manner(*l.Manner) })
	}
	if l.Choice != nil {
		add(func() (event.Event, error) {
			return event.Event{Kind: event.KindChoice, Choice: *l.Choice}, nil
		})
	}
	if l.Screw != nil || l.Is != nil {
		add(l.screw)
	}
	if l.Laser != nil {
		add(func() (event.Event, error) {
			switch *l.Laser {
			case "dead":
				return event.Event{Kind: event.KindLaser}, nil
			case string(event.SaysWeak), string(event.SaysFresh):
				return event.Event{Kind: event.KindLaser, Is: event.Says(*l.Laser)}, nil
			}
			return event.Event{}, errors.New(`"laser" takes "dead", "weak" or "fresh"`)
		})
	}
	if l.Turned != nil {
		add(func() (event.Event, error) {
			return event.Event{Kind: event.KindTurned, Turned: *l.Turned}, nil
		})
	}
	if l.Skip != nil {
		add(func() (event.Event, error) { return event.Event{Kind: event.KindSkip, Why: *l.Skip}, nil })
	}
	return as
}

func (l in) screw() (event.Event, error) {
	if l.Screw == nil || l.Is == nil {
		return event.Event{}, errors.New(`"screw" and "is" go together, as in {"screw":"B","is":"stuck"}`)
	}
	return event.Event{Kind: event.KindScrew, Screw: *l.Screw, Is: *l.Is}, nil
}

// hole is what shows round the hole as the spot goes down it.
func (l in) hole(s session.State) (event.Event, error) {
	ask := s.Ask()
	ev := event.Event{Kind: event.KindReading, Face: ask.Face, Saw: event.SawHome}
	switch *l.Hole {
	case "even":
		ev.Glow = event.GlowEven
	case "side":
		if l.Clock == nil || !(*l.Clock >= 0 && *l.Clock <= 12.99) {
			return ev, errors.New(`brighter at which hour? {"hole":"side","clock":4}`)
		}
		at := optics.AtHour(*l.Clock, 1)
		ev.Glow, ev.Right, ev.Up = event.GlowSide, at.Right, at.Up
	case "cant_tell":
	default:
		return ev, errors.New(`"hole" takes "even", "side" or "cant_tell"`)
	}
	if ev.Glow != event.GlowSide && l.Clock != nil {
		return ev, errors.New(`"clock" goes with "hole":"side"`)
	}
	return ev, nil
}

// faceOf returns the face that is read: the one asked for, or another that the
// question names.
func (r wireReading) faceOf(ask session.Ask) (optics.Face, error) {
	if r.Face == nil || *r.Face == ask.Face || ask.Want != session.WantReading {
		return ask.Face, nil
	}
	if !slices.Contains(ask.Faces, *r.Face) {
		return "", fmt.Errorf("%q is not seen from here, or was looked at: \"face\" is one of \"faces\"", *r.Face)
	}
	return *r.Face, nil
}

func (r wireReading) event(s session.State) (event.Event, error) {
	ask := s.Ask()
	face, err := r.faceOf(ask)
	ev := event.Event{Kind: event.KindReading, Face: face, Saw: event.SawPlace}
	hourAlone := (ask.Step == session.StepOn || ask.Step == session.StepRed) && r.Clock != nil && r.MM == nil
	switch {
	case err != nil:
		return ev, err
	case r.Right != nil && r.Up != nil && r.Clock == nil && r.MM == nil:
		ev.Right, ev.Up = *r.Right, *r.Up
	case r.Clock != nil && (r.MM != nil || hourAlone) && r.Right == nil && r.Up == nil:
		mm := 0.0
		if r.MM != nil {
			mm = *r.MM
		}
		if !(*r.Clock >= 0 && *r.Clock <= 12.99) || !(mm >= 0) {
			return ev, errors.New(`"clock" is in hours, 0 to 12.99, and "mm" not negative`)
		}
		if hourAlone {
			return answer.RedAtHour(s, s.Tel.ToDial(face, optics.Seen(optics.AtHour(*r.Clock, 1)))), nil
		}
		at := optics.AtHour(*r.Clock, mm) // 12 toward the focuser here, not straight up
		ev.Right, ev.Up = at.Right, at.Up
	default:
		return ev, errors.New(`a reading is {"right":mm,"up":mm} or {"clock":hours,"mm":mm}, with "sigma_mm" if known`)
	}
	if r.Watched != nil {
		if !*r.Watched {
			return ev, errors.New(`"watched" takes true; leave it out otherwise`)
		}
		ev.Watched = true
	}
	mm := math.Hypot(ev.Right, ev.Up)
	sigma := reading.SigmaOf(mm)
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
