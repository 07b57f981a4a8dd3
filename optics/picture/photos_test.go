package picture

import (
	"encoding/json"
	"flag"
	"image"
	_ "image/jpeg"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
)

// photos names directories with pictures and their truths, as
// testdata/photos/make.py makes them: -photos 'DIR/*' prints how these are read.
var photos = flag.String("photos", "", "directories of pictures with truths, as a pattern")

// truth is what a picture shows, mm; the camera's roll is not in it.
type truth struct {
	File        string
	Face        optics.Face
	Right, Up   float64
	ApertureMM  float64 `json:"aperture_mm"`
	RingInnerMM float64 `json:"ring_inner_mm"`
	RingOuterMM float64 `json:"ring_outer_mm"`
	HoleMM      float64 `json:"hole_radius_mm"`
	FaceMM      float64 `json:"face_radius_mm"`
	RollDeg     float64 `json:"roll_deg"` // anticlockwise
	InSight     bool    `json:"in_sight"`
}

func (tr truth) len() float64 { return math.Hypot(tr.Right, tr.Up) }

func truths(t *testing.T, dir string) []truth {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, "truth.json"))
	require.NoError(t, err)
	var all []truth
	require.NoError(t, json.Unmarshal(data, &all))
	require.NotEmpty(t, all)
	return all
}

// read returns what is seen in a picture.
func (tr truth) read(t *testing.T, dir string) Sight {
	t.Helper()
	f, err := os.Open(filepath.Join(dir, tr.File))
	require.NoError(t, err)
	defer f.Close()
	m, _, err := image.Decode(f)
	require.NoError(t, err)
	tel := optics.Telescope{
		ApertureMM: tr.ApertureMM, RingInnerMM: tr.RingInnerMM, RingOuterMM: tr.RingOuterMM,
		Target: optics.Target{HoleRadiusMM: tr.HoleMM, FaceRadiusMM: tr.FaceMM, RingStepMM: 2},
	}
	if tr.Face == optics.FaceTarget {
		return FindShadow(m, tel, 0)
	}
	return FindSpot(m, tel, 0)
}

// off returns how far a sight is from the truth, mm, the camera's roll taken out.
func (tr truth) off(s Sight) optics.Dial {
	sin, cos := math.Sincos(tr.RollDeg * math.Pi / 180)
	return optics.Dial{Right: s.At.Right*cos + s.At.Up*sin - tr.Right, Up: s.At.Up*cos - s.At.Right*sin - tr.Up}
}

const kept = "../../testdata/photos"

// What is in sight in the kept pictures is found, and within these limits; what
// is not, is not found.
func TestKeptPhotos(t *testing.T) {
	for _, tr := range truths(t, kept) {
		t.Run(tr.File, func(t *testing.T) {
			sampled(t)
			s := tr.read(t, kept)
			require.Equal(t, tr.InSight, s.Found(), "missing: %q", s.Missing)
			if !tr.InSight {
				assert.Equal(t, Spot, s.Missing)
				return
			}
			assert.Equal(t, tr.Face, s.Face)
			off := tr.off(s)
			most := math.Max(0.05, 0.003*tr.len())
			assert.Less(t, off.Len(), most)
			assert.Less(t, off.Len(), 4*s.SigmaMM)
			assert.Less(t, s.Inner.Radius, s.Outer.Radius)
		})
	}
}

// TestPhotosNamed says how the pictures of -photos are read.
func TestPhotosNamed(t *testing.T) {
	dirs, err := filepath.Glob(*photos)
	require.NoError(t, err)
	if len(dirs) == 0 {
		t.Skip("no -photos")
	}
	for _, face := range []optics.Face{optics.FacePrimary, optics.FaceTarget} {
		var tally tally
		for _, dir := range dirs {
			for _, tr := range truths(t, dir) {
				if tr.Face == face {
					if odd := tally.add(tr, tr.read(t, dir)); odd != "" {
						t.Logf("%s/%s: %s", filepath.Base(dir), tr.File, odd)
					}
				}
			}
		}
		tally.log(t, face)
	}
}

// tally is how many pictures were read, and how well.
type tally struct {
	inSight, found, ghosts, axes, within int
	off, part, beyond                    []float64 // mm; of 0.15 mm or 1 %; of 0.5 mm or 3 %
	z                                    float64
}

// add returns what is odd about a reading.
func (a *tally) add(tr truth, s Sight) string {
	switch {
	case tr.InSight && !s.Found():
		a.inSight++
		return "in sight, missing: " + string(s.Missing)
	case !tr.InSight && !s.Found():
		return ""
	case !tr.InSight:
		a.ghosts++
	default:
		a.inSight++
		a.found++
	}
	off := tr.off(s)
	a.off = append(a.off, off.Len())
	a.part = append(a.part, off.Len()/math.Max(0.15, 0.01*tr.len()))
	a.beyond = append(a.beyond, off.Len()/math.Max(0.5, 0.03*tr.len()))
	for _, v := range [2]float64{off.Right, off.Up} {
		a.axes++
		a.z += v * v / (s.SigmaMM * s.SigmaMM)
		if math.Abs(v) < s.SigmaMM {
			a.within++
		}
	}
	switch {
	case !tr.InSight:
		return "found, and not in sight"
	case a.beyond[len(a.beyond)-1] > 1:
		return "wrong"
	}
	return ""
}

func (a *tally) log(t *testing.T, face optics.Face) {
	if len(a.off) == 0 {
		return
	}
	wrong := 0
	for _, b := range a.beyond {
		if b > 1 {
			wrong++
		}
	}
	slices.Sort(a.off)
	slices.Sort(a.part)
	slices.Sort(a.beyond)
	half, most := len(a.off)/2, len(a.off)*95/100
	t.Logf("%s: %d in sight, %d found, %d wrong, %d found that are not in sight", face, a.inSight, a.found, wrong, a.ghosts)
	t.Logf("  off: median %.3f mm, 95 %% %.3f; median %.2f of 0.15 mm or 1 %%; 95 %% %.2f of 0.5 mm or 3 %%", a.off[half], a.off[most], a.part[half], a.beyond[most])
	t.Logf("  within 1 sigma: %.0f %% of %d; rms of z %.2f", 100*float64(a.within)/float64(a.axes), a.axes, math.Sqrt(a.z/float64(a.axes)))
}
