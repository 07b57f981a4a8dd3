package history_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/journal"
	"spotward/session/sessiontest"
)

// a season is one scope over the years: something happens to it, somebody
// comes and looks, and mostly aligns it again.
type season struct {
	tel     optics.Telescope
	rnd     *rand.Rand
	name    string
	kit     string
	who     string
	pose    optics.Pose
	ring    optics.Tube // the ring's middle, off the mirror's
	when    time.Time
	days    int // between looks
	records []session.Record
	work    []history.Job
}

func newSeason(t testing.TB, seed uint64) *season {
	t.Helper()
	return &season{
		tel: sessiontest.ReadScope(t, "heron").Telescope(), rnd: rand.New(rand.NewPCG(seed, 7)), name: "Heron", kit: "Loan 1",
		when: time.Date(2026, 3, 1, 19, 0, 0, 0, time.UTC), days: 20 + int(seed%40),
	}
}

// read is a spot as practised eyes read it: 12 % and half a mm either way.
func (s *season) read(f optics.Face, at optics.Tube) *session.Mark {
	if f == optics.FaceTarget && at.Len() > s.tel.Target.FaceRadiusMM {
		return &session.Mark{Saw: event.SawGone}
	}
	sigma := 0.5 + 0.12*at.Len()
	at = at.Add(optics.Tube{X: s.rnd.NormFloat64(), Y: s.rnd.NormFloat64()}.Scale(sigma))
	seen := s.tel.ToSeen(f, at)
	return &session.Mark{Saw: event.SawPlace, Right: seen.Right, Up: seen.Up, Sigma: sigma}
}

func (s *season) moment() session.Moment {
	spots := s.tel.FirstOrder(s.pose)
	m := session.Moment{P: s.read(optics.FacePrimary, spots.P.Sub(s.ring)), T: s.read(optics.FaceTarget, spots.T)}
	if m.T.Saw == event.SawPlace {
		m.Claimed, m.AxisErrorMM, m.AxisErrorMaxMM = true, s.tel.AxisError(spots.P, spots.T).Len(), s.tel.AxisError(spots.P, spots.T).Len()+1
	}
	return m
}

// visit is a look some weeks later; with work the scope is aligned again.
func (s *season) visit(work bool) {
	s.when = s.when.AddDate(0, 0, s.days)
	r := session.Record{
		V: 1, ID: journal.NewID(s.when, uint16(len(s.records))), Scope: s.name, Kit: s.kit, Who: s.who,
		Began: s.when, Ended: s.when.Add(30 * time.Minute), AllowedMM: s.tel.AllowedMM(""),
		Outcome: session.OutcomeLeft, Found: s.moment(),
	}
	r.Left = r.Found
	if work {
		before := s.pose
		laser := optics.Pose{Laser: s.pose.Laser}
		off := s.tel.FirstOrder(laser)
		s.pose = s.tel.PoseFor(s.near(0.5).Add(s.ring).Sub(off.P), s.near(0.5).Sub(off.T))
		s.pose.Laser = laser.Laser
		byPrimary := optics.Tilt{Grad: s.pose.Primary.Grad.Sub(before.Primary.Grad)}
		bySecondary := optics.Tilt{Grad: s.pose.Secondary.Grad.Sub(before.Secondary.Grad)}
		s.turned(&r, optics.Primary, s.tel.FirstOrder(optics.Pose{Primary: byPrimary}).T)
		s.turned(&r, optics.Secondary, s.tel.FirstOrder(optics.Pose{Secondary: bySecondary}).P)
		r.Moves, r.Outcome = 4, session.OutcomeAligned
		r.BeforeSw = s.moment()
		r.Left = s.moment()
	}
	s.records = append(s.records, r)
}

// ways are where a turn of each of a mirror's screws moves its spot, mm.
func ways() []optics.Tube { return []optics.Tube{{X: 14}, {X: -7, Y: 12}, {X: -7, Y: -12}} }

// turned notes the turns of two of a mirror's screws that move its spot by so
// much, as hands that miss by 8 % make them and as they have taught.
func (s *season) turned(r *session.Record, m optics.Mirror, by optics.Tube) {
	if r.NetTurns == nil {
		r.NetTurns, r.Learnt = map[string]float64{}, map[optics.Mirror]*event.Taught{}
	}
	a, b := ways()[0], ways()[1]
	r.Learnt[m] = &event.Taught{Mirror: m, PerTurn: ways()}
	onB := by.Y / b.Y
	onA := (by.X - onB*b.X) / a.X
	miss := func() float64 { return 1 + 0.08*s.rnd.NormFloat64() }
	r.NetTurns[string(m)+" A"], r.NetTurns[string(m)+" B"] = onA*miss(), onB*miss()
}

// near is a point some mm from the middle.
func (s *season) near(mm float64) optics.Tube {
	return optics.Tube{X: s.rnd.NormFloat64(), Y: s.rnd.NormFloat64()}.Scale(mm)
}

// some is a point lowMM to highMM from the middle, in any direction.
func (s *season) some(lowMM, highMM float64) optics.Tube {
	r, a := lowMM+(highMM-lowMM)*s.rnd.Float64(), 2*math.Pi*s.rnd.Float64()
	return optics.Tube{X: r * math.Cos(a), Y: r * math.Sin(a)}
}

// secondaryMoves moves the spot on the primary by p, by the secondary alone.
func (s *season) secondaryMoves(p optics.Tube) {
	pose := s.tel.PoseFor(p, optics.Tube{})
	s.pose.Secondary = s.pose.Secondary.Add(pose.Secondary)
}

// primaryMoves moves the return spot by t, by the primary alone.
func (s *season) primaryMoves(t optics.Tube) {
	s.pose.Primary = s.pose.Primary.Add(s.tel.PoseFor(optics.Tube{}, t).Primary)
}

// laserAt has the laser point p off on the primary.
func (s *season) laserAt(p optics.Tube) {
	n := s.tel.PathMM()
	s.pose.Laser = optics.Laser{SlopeZ: p.X / n, SlopeY: p.Y / n}
}

func (s *season) drift() history.Drift {
	return history.DriftOf(s.records, func(session.Record) optics.Telescope { return s.tel }, s.work)
}

// visits is a scope that is aligned, and then has something happen to it before
// each of so many looks; work says after which of them it is aligned again.
func visits(looks int, work func(look int) bool, happens func(s *season)) func(s *season) {
	return func(s *season) {
		s.visit(true)
		for n := range looks {
			happens(s)
			s.visit(work(n))
		}
	}
}

func always(int) bool { return true }

func never(int) bool { return false }

func every2nd(n int) bool { return n%2 == 0 }

// stories are what can happen to a scope, what its records are to point to, and
// in how many of 100 they do: the rest is not enough to say anything.
var stories = map[string]struct {
	happens func(s *season)
	want    []history.HintID // "" is nothing; any of them
	least   int
}{
	"the secondary works loose": {
		visits(8, always, func(s *season) { s.secondaryMoves(s.some(6, 14)) }), []history.HintID{history.HintSecondary}, 80,
	},
	"the secondary turns on its stalk": {
		visits(8, always, func(s *season) { s.secondaryMoves(optics.Tube{Y: -6 - 6*s.rnd.Float64()}) }), []history.HintID{history.HintStalk}, 80,
	},
	"the springs give": {
		visits(8, every2nd, func(s *season) { s.primaryMoves(s.some(4, 10)) }), []history.HintID{history.HintSprings, history.HintPrimary}, 90,
	},
	"the primary moves, always worked on": {
		visits(8, always, func(s *season) { s.primaryMoves(s.some(4, 10)) }), []history.HintID{history.HintPrimary}, 90,
	},
	"the locks pull after work": {
		func(s *season) {
			for range 2 {
				s.visit(true)
				s.primaryMoves(s.some(5, 9))
				s.visit(false)
				s.visit(false)
				s.visit(false)
			}
		}, []history.HintID{history.HintLocks, history.HintPrimary}, 80,
	},
	"the laser sits otherwise each time": {
		visits(8, always, func(s *season) { s.laserAt(s.some(6, 12)) }), []history.HintID{history.HintSeat}, 60,
	},
	"something gives in the swing": {
		func(s *season) {
			for range 5 {
				s.visit(true)
				s.secondaryMoves(s.some(7, 12))
				s.records[len(s.records)-1].Left = s.moment()
			}
		}, []history.HintID{history.HintSlips}, 95,
	},
	"it holds and is left alone": {
		visits(5, never, func(s *season) { s.primaryMoves(s.near(0.1)) }), []history.HintID{history.HintSettled}, 70,
	},
	"it holds and is worked on all the same": {
		visits(8, always, func(s *season) { s.secondaryMoves(s.near(0.2)) }), []history.HintID{"", history.HintSettled}, 95,
	},
	"both mirrors move": {
		visits(8, always, func(s *season) { s.secondaryMoves(s.some(6, 12)); s.primaryMoves(s.some(6, 12)) }), []history.HintID{history.HintAim}, 80,
	},
}

// What a scope's records point to, over many seasons of each kind: mostly what
// it was, hardly ever anything else.
func TestHintsOfSimulatedSeasons(t *testing.T) {
	const runs = 200
	for name, story := range stories {
		t.Run(name, func(t *testing.T) {
			said := map[history.HintID]int{}
			for seed := range uint64(runs) {
				s := newSeason(t, seed)
				story.happens(s)
				first := history.HintID("")
				if d := s.drift(); len(d.Hints) > 0 {
					first = d.Hints[0].ID
					require.LessOrEqual(t, d.Hints[0].N, d.Hints[0].Of)
					require.GreaterOrEqual(t, d.Hints[0].Of, 3)
				}
				said[first]++
			}
			t.Log(said)
			right, wrong := 0, 0
			for id, n := range said {
				switch {
				case slices.Contains(story.want, id):
					right += n
				case id != "" && id != history.HintAim:
					wrong += n
				}
			}
			assert.GreaterOrEqual(t, right*100, runs*story.least)
			assert.LessOrEqual(t, wrong, runs/25, "something else is said")
		})
	}
}

// One interval read without an error worth the name.
func TestCauseOfAnInterval(t *testing.T) {
	tel := sessiontest.ReadScope(t, "heron").Telescope()
	fold := (2 - tel.FromPrimaryMM/tel.FocalLengthMM) * tel.PathMM() / tel.FromPrimaryMM // first order
	require.InDelta(t, 1.5, fold, 0.15)
	for name, c := range map[string]struct {
		p, back optics.Tube
		want    history.Cause
	}{
		"neither":             {optics.Tube{X: 2, Y: 1}, optics.Tube{Y: 1.5}, history.CauseHeld},
		"the secondary":       {optics.Tube{X: 3, Y: -6}, optics.Tube{X: 3 * fold, Y: -6 * fold}, history.CauseSecondary},
		"the secondary, less": {optics.Tube{X: 4}, optics.Tube{X: 4 * fold}, history.CauseSecondary},
		"the primary":         {optics.Tube{X: 1}, optics.Tube{Y: 6}, history.CausePrimary},
		"the laser":           {optics.Tube{X: -5, Y: 6}, optics.Tube{X: -5, Y: 6}, history.CauseSeat},
		"between":             {optics.Tube{X: 4}, optics.Tube{X: 5}, history.CauseOpen},
		"the other way":       {optics.Tube{X: 6}, optics.Tube{X: -6}, history.CauseBoth},
		"on the primary only": {optics.Tube{X: 6}, optics.Tube{}, history.CauseRing},
		"a little of both":    {optics.Tube{X: 2}, optics.Tube{X: 3}, history.CauseOpen},
	} {
		mark := func(f optics.Face, at optics.Tube) *session.Mark {
			seen := tel.ToSeen(f, at)
			return &session.Mark{Saw: event.SawPlace, Right: seen.Right, Up: seen.Up, Sigma: 0.1}
		}
		moment := func(p, back optics.Tube) session.Moment {
			return session.Moment{P: mark(optics.FacePrimary, p), T: mark(optics.FaceTarget, back)}
		}
		left := moment(optics.Tube{X: 0.5}, optics.Tube{Y: -0.5})
		records := []session.Record{
			{ID: sessiontest.NthID(1), Began: time.Unix(1, 0), Moves: 3, Left: left},
			{ID: sessiontest.NthID(3), Began: time.Unix(3, 0), Found: moment(c.p.Add(optics.Tube{X: 0.5}), c.back.Add(optics.Tube{Y: -0.5}))},
			{ID: sessiontest.NthID(2), Began: time.Unix(2, 0), Practice: true, Found: moment(optics.Tube{X: 50}, optics.Tube{})},
		}
		in := history.Intervals(records, func(session.Record) optics.Telescope { return tel })
		require.Len(t, in, 1, name)
		assert.Equal(t, c.want, in[0].Cause, name)
		assert.InDelta(t, c.p.X, in[0].P.At.X, 1e-9)
		assert.True(t, in[0].AfterWork)
	}
}

func TestNothingIsSaidOfTwoIntervals(t *testing.T) {
	for name, story := range stories {
		for seed := range uint64(20) {
			s := newSeason(t, seed)
			story.happens(s)
			s.records = s.records[:3]
			for _, h := range s.drift().Hints {
				require.GreaterOrEqual(t, h.Of, 3, name) // swings, one a session
			}
		}
	}
}

// What was read before the last screw turned says nothing of how a scope was
// left.
func TestIntervalAfterAStop(t *testing.T) {
	s := newSeason(t, 1)
	s.visit(true)
	s.visit(true)
	s.records[0].Outcome = session.OutcomeStopped
	d := s.drift()
	require.Len(t, d.Intervals, 1)
	assert.Equal(t, history.CauseUnseen, d.Intervals[0].Cause)
	assert.Zero(t, d.Of)
}

// Springs give whenever a scope is carried, locks once after work. M: the
// return spot had moved, h: it had not; capitals after work.
func TestSpringsOrLocks(t *testing.T) {
	for story, want := range map[string]history.HintID{
		"Mhhh":   history.HintLocks,
		"MhhMhh": history.HintLocks,
		"Mhh":    "",
		"Hhhm":   "",
		"MhhhHH": "",
		"Mmmh":   history.HintSprings,
		"Mhhhmm": history.HintPrimary,
		"MMM":    history.HintPrimary,
		"MMHH":   "",
		"mmm":    history.HintSprings,
	} {
		mark := func(mm float64) *session.Mark {
			return &session.Mark{Saw: event.SawPlace, Right: mm, Sigma: 0.5}
		}
		at := 0.0
		records := []session.Record{{ID: sessiontest.NthID(0)}}
		for n, c := range story {
			last := &records[n]
			if unicode.IsUpper(c) {
				last.Moves, at = 2, 0
			}
			last.Left = session.Moment{P: mark(0), T: mark(at)}
			if unicode.ToLower(c) == 'm' {
				at += 6
			}
			records = append(records, session.Record{ID: sessiontest.NthID(n + 1), Began: time.Unix(int64(n+1), 0), Found: session.Moment{P: mark(0), T: mark(at)}})
		}
		d := history.DriftOf(records, func(session.Record) optics.Telescope { return sessiontest.ReadScope(t, "heron").Telescope() }, nil)
		got := history.HintID("")
		if len(d.Hints) > 0 {
			got = d.Hints[0].ID
		}
		assert.Equal(t, want, got, story)
	}
}
