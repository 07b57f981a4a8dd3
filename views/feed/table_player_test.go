package feed_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"slices"
	"time"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/views/feed"
)

// tally is what one session cost and came to.
type tally struct {
	answers, walks, looks, moves int
	wents                        int     // ways said that a spot set off
	judged, wrong                int     // moves after a mirror's first, and those that left the spot more than 1 mm farther off
	found, left                  float64 // true axis error, of what is allowed
	outcome, end                 string  // outcome "": there was no end to it
}

// good reports whether the session ended aligned or rightly left.
func (t tally) good() bool {
	return t.outcome == session.OutcomeAligned || t.outcome == session.OutcomeLeft
}

// player is somebody at a hidden telescope who does what the feed says and
// answers what it asks. As an io.Reader it is what goes in, as an io.Writer what
// comes out.
type player struct {
	hidden   hidden
	world    *virtual.World
	watching bool
	mistypes float64 // part of the readings that are typed wrongly
	rand     *rand.Rand
	log      io.Writer
	tally
	in       []byte
	asked    said
	mannered bool
	behind   bool
	placed   bool
	turned   map[optics.Mirror]bool
	err      error
}

// tableDay is when the table is played.
var tableDay = time.Date(2026, 3, 1, 19, 0, 0, 0, time.UTC)

// endless is after how many answers there is no end to a session.
const endless = 120

func newPlayer(h hidden, watching bool) *player {
	return &player{
		hidden: h, world: virtual.NewWith(h.truth, h.setup, h.seed), watching: watching,
		rand: rand.New(rand.NewPCG(h.seed, 13)), turned: map[optics.Mirror]bool{},
	}
}

// play plays a session to its end and returns what it learnt, and what the shelf
// then knows.
func (p *player) play(learnt map[optics.Mirror]*event.Taught, known *event.Known) (map[optics.Mirror]*event.Taught, *event.Known) {
	p.found = p.error()
	s, err := session.Start(event.Event{ID: "20260301T190000Z-0000", Kit: "table", Knew: known, Scope: &p.hidden.file, Learnt: learnt}, nil)
	if err == nil {
		_, err = feed.Run(direct{s}, p, p, func() (string, error) { return "table", nil })
	}
	if err != nil && !errors.Is(err, errEndless) {
		p.err = err
	}
	p.left = p.error()
	st := s.State()
	var now event.Known
	record := st.Record()
	record.Began, record.Ended = tableDay, tableDay
	history.KnewKit(&now, record)
	history.KnewScope(&now, record)
	return map[optics.Mirror]*event.Taught{optics.Secondary: st.Learnt(optics.Secondary), optics.Primary: st.Learnt(optics.Primary)}, &now
}

func (p *player) error() float64 {
	return p.world.Truth().ErrorMM / p.hidden.truth.AllowedMM(optics.AllRound)
}

var errEndless = errors.New("no end in sight")

// Write takes a line out and makes up the answer to it.
func (p *player) Write(line []byte) (int, error) {
	if p.log != nil {
		fmt.Fprintf(p.log, "%s", line)
	}
	var o said
	if err := json.Unmarshal(line, &o); err != nil {
		return 0, err
	}
	if o.Done {
		p.outcome, p.end = o.Outcome, o.Tag
		return len(line), nil
	}
	if o.Error != "" {
		return 0, fmt.Errorf("%s at %s: %s", o.Error, p.asked.Stage, p.asked.Say)
	}
	if p.answers++; p.answers > endless {
		p.end = fmt.Sprintf("%s %s: %s", o.Stage, o.Face, o.Say)
		return 0, errEndless
	}
	p.asked = o
	reply, err := json.Marshal(p.reply(o))
	if err != nil {
		return 0, err
	}
	if p.log != nil {
		t := p.world.Truth()
		fmt.Fprintf(p.log, "  > %s   (p %.1f, t %.1f)\n", reply, t.Spots.P.Len(), t.Spots.T.Len())
	}
	p.in = append(reply, '\n')
	return len(line), nil
}

// Read hands over the answer.
func (p *player) Read(b []byte) (int, error) {
	if len(p.in) == 0 {
		return 0, io.EOF
	}
	n := copy(b, p.in)
	p.in = p.in[n:]
	return n, nil
}

// reply says first how the person works, once.
func (p *player) reply(o said) map[string]any {
	if p.watching && !p.mannered {
		p.mannered = true
		p.answers--
		return map[string]any{"manner": "watching"}
	}
	return p.answer(o)
}

// answer does what is told and answers what is asked.
func (p *player) answer(o said) map[string]any {
	if o.Want == session.WantReading {
		p.walk(o)
	}
	watched := false
	if slices.Contains(o.Do, session.DeedEaseLocks) {
		easeLocks(p.world, p.hidden.truth.Primary.Locks)
	}
	if o.Advice != nil && len(o.Advice.Moves) > 0 {
		var went map[string]any
		if watched, went = p.turn(o); went != nil {
			return map[string]any{"went": went}
		}
	}
	if slices.Contains(o.Do, session.DeedSwingBack) {
		p.world.Swing()
	}
	switch o.Want {
	case session.WantConfirm:
		return map[string]any{"confirm": true}
	case session.WantChoice:
		return map[string]any{"choice": o.Options[0]}
	}
	if slices.Contains(o.Do, session.DeedSnugPrimary) {
		p.world.Snug(optics.Primary)
	}
	if slices.Contains(o.Do, session.DeedSnugSecondary) {
		p.world.Snug(optics.Secondary)
	}
	p.looks++
	return p.look(o, watched)
}

// look reads the spot that is asked for.
func (p *player) look(o said, watched bool) map[string]any {
	switch r := p.world.Eyes(o.Face); r.Told {
	case virtual.Home:
		return inTheHole(p.hidden.truth, r)
	case virtual.InRing:
		return map[string]any{"in_ring": true}
	case virtual.Gone:
		return elsewhere(p.world, o)
	case virtual.CantSee, virtual.LaserDead:
		return map[string]any{"cant_see": true}
	default:
		at := p.typed(r.Seen)
		reading := map[string]any{"right": at.Right, "up": at.Up}
		if watched {
			reading["watched"] = true
		}
		return map[string]any{"reading": reading}
	}
}

// inTheHole says what shows round the hole.
func inTheHole(t optics.Telescope, r virtual.Reading) map[string]any {
	if !r.Uneven {
		return map[string]any{"hole": "even"}
	}
	at := t.FromDial(r.Face, optics.AtHour(r.Hour, 1))
	return map[string]any{"hole": "side", "clock": optics.Dial(at).Hour()}
}

// elsewhere names the place where the spot is, of those that the question lists,
// or says that it is on none of them.
func elsewhere(w *virtual.World, o said) map[string]any {
	for _, f := range o.Faces {
		if r := w.Eyes(f); f != o.Face && r.Told == virtual.Place {
			return map[string]any{"reading": map[string]any{"face": f, "right": r.Seen.Right, "up": r.Seen.Up}}
		}
	}
	if len(o.Faces) > 1 {
		return map[string]any{"gone": true, "all": true}
	}
	return map[string]any{"gone": true}
}

// typed is a reading as it is typed: half a dial out, left for right, or a digit
// too many or too few.
func (p *player) typed(at optics.Seen) optics.Seen {
	if p.mistypes == 0 || p.rand.Float64() >= p.mistypes {
		return at
	}
	switch p.rand.IntN(4) {
	case 0:
		return optics.Seen{Right: -at.Right, Up: -at.Up}
	case 1:
		return optics.Seen{Right: -at.Right, Up: at.Up}
	case 2:
		return optics.Seen{Right: 10 * at.Right, Up: 10 * at.Up}
	}
	return optics.Seen{Right: at.Right / 10, Up: at.Up / 10}
}

// walk counts a change of end: the slanted face is seen from behind, all else
// from the sky end.
func (p *player) walk(o said) {
	behind := o.Face == optics.FaceTarget && !p.hidden.truth.Target.Flat
	if p.placed && behind != p.behind {
		p.walks++
	}
	p.behind, p.placed = behind, true
}

// off returns how far the spot that mirror m is adjusted by truly is from where
// it is wanted.
func (p *player) off(o said, m optics.Mirror) float64 {
	spots := p.world.Truth().Spots
	at := spots.P
	if m == optics.Primary {
		at = spots.T
	}
	if o.Aim != nil && o.Face == m.SpotFace() {
		at = at.Sub(p.hidden.truth.FromSeen(o.Face, optics.Seen{Right: o.Aim.Right, Up: o.Aim.Up}))
	}
	return at.Len()
}
