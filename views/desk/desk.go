// Package desk is what every face works at: it opens the shelf, begins and
// takes up sessions, and sends what was typed. In practice a telescope that is
// not there stands beside it.
package desk

import (
	"cmp"
	"errors"
	"math/rand/v2"
	"strings"
	"time"

	"spotward/optics"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/views/practice"
)

// Desk begins sessions on one shelf.
type Desk struct {
	Library *shelf.Shelf // nil: nothing is known here, and nothing is kept
	Unkept  bool         // sessions go on without a record
	Who     string
	Where   string // the telescope stands, for the record
	Program string // the program's version, for the journal
	Now     func() time.Time
	Seeds   func() uint64 // where a new seed is from; nil: NewSeed

	Photos     string // the folder that pictures come to; "": none is looked into
	KeepPhotos bool   // a copy of each that was a reading

	Script bool // plays, not people: it says unasked how it stops turning
}

// NewSeed returns a seed for what is to be otherwise each time.
func (d *Desk) NewSeed() uint64 {
	if d.Seeds != nil {
		return d.Seeds()
	}
	return NewSeed()
}

// Work is a session in hand.
type Work struct {
	Session *session.Session
	Bench   *practice.Bench // nil: a real telescope
	Notice  string          // something to say before going on, or ""
	library *shelf.Shelf
	journal *shelf.Journal
	unkept  []event.Event // what could not be kept, until something is
	quit    bool
	shown   *session.State // practice: as it is shown while the advice is hidden; nil: it is not
	alone   bool           // it stays hidden
	// Guard, where there is one, says why what was typed is not taken.
	Guard func(s session.State, events []event.Event) error

	pictures              // where pictures come from, and which were there when it was asked
	pictured *Pictured    // what was found in one and not agreed to yet
	either   *Pictured    // one with several spots that fit, to be told apart by another
	offered  *pictureFile // one that has come since
	copied   string       // what is to be said of its copy
}

// Align begins a session on a real scope; with check it is the first look
// alone.
func (d *Desk) Align(scope scope.Scope, check bool) (*Work, error) {
	return d.begin(scope, nil, check)
}

// Practice begins a session on a telescope that is not real, made after
// scope.
func (d *Desk) Practice(scope scope.Scope, world event.World) (*Work, error) {
	return d.begin(scope, &world, false)
}

// NewSeed returns a seed for a new practice telescope: short enough to be
// typed, exact in any JSON reader.
func NewSeed() uint64 { return rand.Uint64() >> 11 }

func (d *Desk) begin(scope scope.Scope, world *event.World, check bool) (*Work, error) {
	w := &Work{library: d.Library, pictures: d.pictures()}
	begin := event.Event{Who: d.Who, Where: d.Where, Program: d.Program, World: world, Check: check, Kit: scope.Kit}
	if d.Library != nil {
		full, err := d.Library.WithKit(scope)
		if err != nil {
			return nil, err
		}
		scope = full
		if world == nil {
			stock, errs := d.Library.Shelf() // the records are read once: a large shelf has years of them
			for _, err := range errs {
				if other := (*shelf.FileError)(nil); !errors.As(err, &other) { // another scope's file is no matter here
					w.Notice = err.Error()
					break
				}
			}
			begin.Learnt = d.Library.Taught(scope, stock.Records, d.Now())
			fleet := stock.FleetAt(d.Now())
			begin.Before = fleet.Said(scope.Name, scope.Kit)
			begin.Knew = stock.Knew(scope)
			if kit := fleet.Suspect(scope.Kit); kit != "" {
				if begin.Knew == nil {
					begin.Knew = &event.Known{}
				}
				begin.Knew.Suspect = kit
			}
		}
	}
	begin.Scope = &scope
	if !d.Script {
		begin.Manner = mannerOf(begin)
	}
	now := d.Now()
	begin.ID = journal.NewID(now, uint16(rand.Uint32()))
	var keep session.Keeper
	if d.Library != nil && !d.Unkept {
		var err error
		if begin.Dir, begin.Count, err = d.Library.NextCount(); err != nil {
			return nil, err
		}
		j, err := d.Library.CreateJournal(begin.ID, d.Who, d.Now)
		if err != nil {
			return nil, err
		}
		w.journal, keep = j, j
	}
	s, err := session.Start(begin, keep)
	if err != nil {
		w.close()
		return nil, err
	}
	w.Session = s
	if w.Bench, err = benchFor(s.State()); err != nil {
		w.close()
		return nil, err
	}
	return w, nil
}

// mannerOf is how people are led to stop turning: by the spot where that is known to
// be possible, as it is on a telescope that is not real, but for a lesson's. Else it
// is asked.
func mannerOf(begin event.Event) event.Manner {
	switch {
	case begin.World != nil:
		if practice.IsLesson(begin.World.Level) {
			return event.ByAmount
		}
		return event.ByWatching
	case begin.Knew != nil && begin.Knew.Manner != "":
		return begin.Knew.Manner
	}
	return event.AskManner
}

// TakeUp goes on with an unfinished session.
func (d *Desk) TakeUp(id string) (*Work, error) {
	w := &Work{library: d.Library, pictures: d.pictures()}
	lines, keep, err := w.open(d, id)
	if err != nil {
		return nil, err
	}
	events, err := session.Events(lines)
	if err != nil {
		w.close()
		return nil, err
	}
	var noBench error
	w.Session, err = session.TakeUp(events, keep, func(p session.Past) {
		if p.Event.Kind == event.KindBegin {
			w.Bench, noBench = benchFor(p.After)
		} else if w.Bench != nil {
			w.Bench.Happened(p.Before, p.After, p.Event)
		}
	})
	if err = cmp.Or(err, noBench); err != nil {
		w.close()
		return nil, err
	}
	if begun := events[0]; begun.World != nil && begun.Program != d.Program {
		w.Notice = strings.TrimSpace(w.Notice + " This practice was begun with another version of the program: its telescope may stand a little differently now.")
	}
	if w.Bench != nil {
		w.Bench.Happened(w.State(), w.State(), event.Event{Kind: event.KindResume})
	}
	return w, nil
}

// open reads the journal of session id, and goes on writing it where a record is
// to be kept.
func (w *Work) open(d *Desk, id string) (lines []event.Line, keep session.Keeper, err error) {
	var report journal.Report
	if d.Unkept {
		lines, report, err = d.Library.ReadJournal(id)
	} else if w.journal, lines, report, err = d.Library.OpenJournal(id, d.Who, d.Now); err == nil {
		keep = w.journal
	}
	w.Notice = report.String()
	return lines, keep, err
}

func benchFor(s session.State) (*practice.Bench, error) {
	if s.World == nil {
		return nil, nil
	}
	return practice.New(s.Tel, *s.World)
}

// State returns where the session stands.
func (w *Work) State() session.State { return w.Session.State() }

// Line takes a typed line: it is understood, made true on the practice
// telescope if there is one, and sent. On an error nothing has changed and
// what was typed should stay. The echo says back what was understood.
func (w *Work) Line(text string) (echo string, err error) {
	if echo, ok, err := w.photoLine(text); ok {
		return echo, err
	}
	s := w.State()
	if w.Bench != nil {
		if echo, ok := w.hide(text); ok {
			return echo, nil
		}
		if typed, ok := w.Bench.AsTold(s, text); ok && w.Shown().Told() != nil {
			return typed.Echo, w.Send(typed.Events...)
		}
		if typed, ok := w.Bench.Act(text); ok {
			return typed.Echo, w.Send(typed.Events...)
		}
	}
	typed, err := answer.Line(s, text)
	if w.AdviceHidden() && w.Shown().Told() == nil && (leansOnAdvice(s, typed.Events) || errors.Is(err, answer.ErrEmpty)) {
		if w.alone {
			return "", errAlone
		}
		return "", errHidden
	}
	if err != nil {
		return "", err
	}
	if w.Guard != nil && len(typed.Events) > 0 {
		if err := w.Guard(s, typed.Events); err != nil {
			return "", err
		}
	}
	return typed.Echo, w.Send(typed.Events...)
}

// Send sends events; the practice telescope's hands make them true first. An
// event that cannot be kept changes nothing: it may be sent again, or
// session.KindGoOn, which takes it without a record.
func (w *Work) Send(events ...event.Event) error {
	for i, ev := range events {
		err := w.send(ev)
		var kept *session.KeepError
		switch {
		case err == nil:
			w.unkept = nil
		case !errors.As(err, &kept):
			return err
		case ev.Kind == event.KindQuit:
			w.quit = true // that somebody left is no loss, and nobody is held
		default:
			w.unkept = events[i:]
			return err
		}
	}
	return nil
}

func (w *Work) send(ev event.Event) error {
	if ev.Kind == event.KindGoOn {
		return w.goOn()
	}
	before := w.State()
	all := []event.Event{ev}
	if w.Bench != nil {
		all = append(w.Bench.Make(before, ev), ev)
	}
	if err := w.Session.Do(all...); err != nil {
		return err
	}
	if w.shown != nil {
		w.hideTold()
	}
	w.copied = w.keepPhoto(ev.Picture)
	if ev.Kind != event.KindFocuser { // the picture is still to be agreed to, or is in the same breath
		w.nextPicture(before)
	}
	if w.Bench != nil {
		w.Bench.TakeFelt()
		for _, hand := range all[:len(all)-1] {
			w.Bench.Happened(before, before, hand)
		}
		w.Bench.Happened(before, w.State(), ev)
	}
	w.quit = ev.Kind == event.KindQuit
	return nil
}

var errNothingUnkept = errors.New("all is saved: answer what is asked")

// goOn takes what could not be kept, and keeps nothing from there on.
func (w *Work) goOn() error {
	if w.unkept == nil {
		return errNothingUnkept
	}
	events := w.unkept
	w.Session.WithoutRecord()
	return w.Send(events...)
}

// Over reports whether the session is over, or was left by quitting.
func (w *Work) Over() bool { return w.State().Over || w.quit }

// Felt returns what the hand felt in the turns since the last answer, on the
// practice telescope, in words; "" is nothing out of the ordinary.
func (w *Work) Felt() string {
	if w.Bench == nil {
		return ""
	}
	return w.Bench.Felt()
}

// Close ends the work: the journal is closed, and a session that is over gets
// its record. It returns the record's id, or "" where there is none.
func (w *Work) Close() (id string, err error) {
	w.close()
	if !w.Session.Kept() || !w.State().Over {
		return "", nil
	}
	r, err := w.library.Record(w.State().ID)
	return r.ID, err
}

func (w *Work) close() {
	if w.journal != nil {
		w.journal.Close() // every event is synced already
	}
}

// See says what is to be seen for the question that is asked, on the practice
// telescope, in words; "" is nothing.
func (w *Work) See() string {
	if w.Bench == nil {
		return ""
	}
	return w.Bench.See(w.State())
}

// Look returns what the practice telescope shows on a face, and false for a real
// one.
func (w *Work) Look(f optics.Face) (practice.View, bool) {
	if w.Bench == nil || f == "" {
		return practice.View{}, false
	}
	return w.Bench.Look(f), true
}

// Sees returns what the practice telescope shows of what is asked for, and false
// for a real one.
func (w *Work) Sees() (practice.View, bool) {
	ask := w.State().Ask()
	if w.Bench == nil || ask.Face == "" {
		return practice.View{}, false
	}
	return w.Bench.LookFor(ask), true
}
