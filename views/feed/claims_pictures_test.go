package feed_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"
	"text/tabwriter"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/optics/picture"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/photo"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/views/feed"
)

// What pictures err by, 1σ an axis: mm, and a part of the distance (twice what the
// rendered ones of testdata/photos and others of the same scenes did); and how far
// askew a phone is held.
const (
	snapMM      = 0.06
	snapPart    = 0.003
	shadowMM    = 0.08
	snapRollRad = picture.RollRad
)

// snapping is a session whose pictures are of a hidden telescope. A picture is not
// drawn: its place errs as those do that are.
type snapping struct {
	direct
	*player
	n int
}

// Photo returns what a picture says of the spot on the primary, or of the shadow.
func (s *snapping) Photo(string) (event.Event, error) {
	st := s.State()
	face, err := st.PictureFace()
	if err != nil {
		return event.Event{}, err
	}
	s.n++
	seen, along := s.world.Sight(optics.FacePrimary).Seen, snapMM
	if face == optics.FaceTarget {
		seen, along = s.world.Shadow().Seen, shadowMM
	}
	at := st.Tel.ToDial(face, seen)
	along = math.Hypot(along, snapPart*at.Len())
	r := rand.New(rand.NewPCG(s.hidden.seed<<8+uint64(s.n), 17))
	sin, cos := math.Sincos(snapRollRad * r.NormFloat64())
	at = optics.Dial{
		Right: at.Right*cos - at.Up*sin + along*r.NormFloat64(),
		Up:    at.Right*sin + at.Up*cos + along*r.NormFloat64(),
	}
	sight := picture.Sight{Face: face, At: at, AlongMM: along, AcrossMM: math.Hypot(along, snapRollRad*at.Len())}
	return answer.Picture(st, photo.Reading(sight, st.Tel, photo.Of("a.jpg", fmt.Appendf(nil, "%d", s.n)))).Events[0], nil
}

// snapper is somebody who answers by pictures where they can be an answer, and
// asks for the ring's shadow before the kit is put away.
type snapper struct {
	claimant
	pictures, shadow, asked bool
}

func (c *snapper) Write(line []byte) (int, error) {
	var o said
	if err := json.Unmarshal(line, &o); err != nil {
		return 0, err
	}
	n, err := c.claimant.Write(line)
	if err != nil || len(c.in) == 0 {
		return n, err
	}
	var in map[string]any
	if err := json.Unmarshal(c.in, &in); err != nil {
		return n, err
	}
	seen := in["reading"] != nil || in["in_ring"] != nil
	switch {
	case c.shadow && !c.asked && o.Stage == session.StagePutAway:
		c.asked, in = true, map[string]any{"finer": true}
	case o.Stage == session.StageStar && o.Want == session.WantChoice && o.Options[0] == session.FinerYes:
		in = map[string]any{"choice": session.FinerNo}
	case o.Stage == session.StageShadow && o.Want == session.WantReading && o.Face == optics.FaceTarget && o.Aim != nil && c.pictures:
		in = map[string]any{"photo": "a.jpg"}
	case o.Stage == session.StageShadow && o.Want == session.WantReading && o.Face == optics.FaceTarget && o.Aim != nil:
		r := c.world.ShadowEyes()
		in = map[string]any{"reading": map[string]any{"right": r.Seen.Right, "up": r.Seen.Up, "sigma_mm": 0.5}}
	case o.Want == session.WantReading && o.Face == optics.FacePrimary && seen && c.pictures:
		in = map[string]any{"photo": "a.jpg"}
	default:
		return n, nil
	}
	out, err := json.Marshal(in)
	c.in = append(out, '\n')
	return n, err
}

// pictureRow is a telescope, and how its spots are read.
type pictureRow struct {
	name             string
	aperture, focal  float64 // mm
	pictures, shadow bool
	settled          bool // ring by a template, laser rolled on two nails
}

func (r pictureRow) String() string {
	by := "by eye"
	if r.pictures {
		by = "by pictures"
	}
	if r.shadow {
		by += ", shadow as well"
	}
	if r.settled {
		by += ", settled"
	}
	return r.name + ", " + by
}

func (r pictureRow) play(from, n int) []claimed {
	all := make([]claimed, n)
	each(n, func(i int) {
		sc := claimScope(r.aperture, r.focal)
		if r.settled {
			sc.Primary.Ring, sc.Laser.Hole = scope.Settled{By: scope.ByTemplate}, scope.Settled{By: scope.ByRolling}
		}
		h := claimWorld(sc, "usual", uint64(from+i))
		if r.settled { // what is left of either
			h.setup.Faults.RingOffMM *= optics.TemplateRingMM / optics.RingPlacedGuessMM
			h.setup.Faults.LaserOffsetMM *= optics.RolledLaserMM / optics.LaserOffsetGuessMM
		}
		c := &snapper{claimant: claimant{player: newPlayer(h, false), says: glowing}, pictures: r.pictures, shadow: r.shadow}
		s, err := session.Start(event.Event{ID: "pictures", Scope: &c.hidden.file}, nil)
		if err == nil {
			_, err = feed.Run(&snapping{direct: direct{s}, player: c.player}, c, c, func() (string, error) { return "pictures", nil })
		}
		if err != nil && !errors.Is(err, errEndless) {
			panic(fmt.Sprintf("%s %d: %v", r, h.seed, err))
		}
		c.claimed.tally = c.player.tally
		c.trueMM, c.allowed, c.coma = c.world.Truth().ErrorMM, h.truth.AllowedMM(optics.AllRound), h.truth.ComaFreeMM()
		c.believed = s.State().Left.Claim.Within
		all[i] = c.claimed
	})
	return all
}

func pictureRows() []pictureRow {
	var rows []pictureRow
	for _, s := range []pictureRow{{name: "f/4 200 mm", aperture: 200, focal: 800}, {name: "f/4.8 250 mm", aperture: 250, focal: 1200}, {name: "f/5 300 mm", aperture: 300, focal: 1500}, {name: "f/6 200 mm", aperture: 200, focal: 1200}} {
		for _, how := range [][2]bool{{false, false}, {true, false}, {true, true}} {
			s.shadow, s.settled = how[0], how[1]
			for _, s.pictures = range []bool{false, true} {
				rows = append(rows, s)
			}
		}
	}
	return rows
}

// BenchmarkClaimsByPictures prints what BenchmarkClaims does, of sessions in which
// the spot on the primary is read on pictures, and by eye on the same telescopes;
// then with the ring's shadow looked at as well, on a picture or by eye.
func BenchmarkClaimsByPictures(b *testing.B) {
	n := 100
	if testing.Short() {
		n = 12
	}
	for b.Loop() {
		w := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', 0)
		fmt.Fprintln(w, "\n\t"+calibrationHead)
		for _, row := range pictureRows() {
			var c calibration
			c.take(row.play(0, n))
			fmt.Fprintf(w, "%s\t%s\n", row, c)
		}
		w.Flush()
	}
}

// A session by pictures comes to its end, and what it claims holds.
func TestClaimsByPictures(t *testing.T) {
	sessiontest.Whole(t)
	var c calibration
	n := sessiontest.Of(0, 3, 6)
	c.take(pictureRow{name: "f/5 300 mm", aperture: 300, focal: 1500, pictures: true, shadow: true}.play(500, n))
	assert.GreaterOrEqual(t, c.claims, n-1)
	assert.GreaterOrEqual(t, c.covered, c.claims-1)
}
