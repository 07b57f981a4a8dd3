package session_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/picture"
	"spotward/session/photo"
	"spotward/session/sessiontest"
)

// kept is a picture of testdata/photos: a spot up and left on the ring.
func kept(t testing.TB) ([]byte, optics.Telescope) {
	t.Helper()
	data, err := os.ReadFile("../testdata/photos/primary-05.jpg")
	require.NoError(t, err)
	return data, optics.Telescope{ApertureMM: 200, RingInnerMM: 3.2, RingOuterMM: 6.5}
}

// tags is a block of TIFF tags with an orientation, and one before it.
func tags(order binary.AppendByteOrder, head string, orientation uint16) []byte {
	b := order.AppendUint32([]byte(head), 8)
	b = order.AppendUint16(b, 2)
	for _, e := range [2][2]uint16{{0x0100, 77}, {0x0112, orientation}} {
		b = order.AppendUint16(b, e[0])
		b = order.AppendUint16(b, 3)
		b = order.AppendUint32(b, 1)
		b = order.AppendUint16(b, e[1])
		b = order.AppendUint16(b, 0)
	}
	return order.AppendUint32(b, 0)
}

// tagged returns a JPEG with the tags, after a segment of another kind.
func tagged(data, tiff []byte) []byte {
	exif := append([]byte("Exif\x00\x00"), tiff...)
	out := append([]byte{}, data[:2]...)
	out = append(out, 0xff, 0xe1, 0, 6, 'h', 't', 't', 'p')
	out = append(out, 0xff, 0xff, 0xe1)
	out = binary.BigEndian.AppendUint16(out, uint16(len(exif)+2))
	out = append(out, exif...)
	return append(out, data[2:]...)
}

func chunk(kind string, data []byte) []byte {
	body := append([]byte(kind), data...)
	out := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	return binary.BigEndian.AppendUint32(append(out, body...), crc32.ChecksumIEEE(body))
}

func TestOrientationIsObeyed(t *testing.T) {
	sessiontest.Whole(t)
	data, tel := kept(t)
	as, err := photo.Look(data, optics.FacePrimary, tel, 0)
	require.NoError(t, err)
	require.True(t, as.Found())
	plain := small(t, asPNG)
	little, big := tags(binary.LittleEndian, "II*\x00", 6), tags(binary.BigEndian, "MM\x00*", 6)
	with := func(tiff []byte) []byte {
		at := 8 + 25 // the signature and IHDR
		return append(append(append([]byte{}, plain[:at]...), chunk("eXIf", tiff)...), plain[at:]...)
	}
	for name, file := range map[string][]byte{
		"JPEG": tagged(data, little), "JPEG, the other byte order": tagged(data, big),
		"PNG": with(little), "PNG, the other byte order": with(big),
	} {
		got, err := photo.Decode(file)
		require.NoError(t, err, name)
		assert.Equal(t, 6, got.Orientation, name)
	}
	got, err := photo.Look(tagged(data, little), optics.FacePrimary, tel, 0)
	require.NoError(t, err)
	require.True(t, got.Found())
	assert.InDelta(t, as.At.Up, got.At.Right, 0.03) // turned a quarter clockwise
	assert.InDelta(t, -as.At.Right, got.At.Up, 0.03)
	upright, err := photo.Decode(data)
	require.NoError(t, err)
	for name, tiff := range map[string][]byte{
		"no tags": {}, "no order": []byte("XX*\x00\x08\x00\x00\x00"), "a tag of no such value": tags(binary.BigEndian, "MM\x00*", 9),
		"cut off": little[:20], "tags far away": append([]byte("II*\x00"), 0xff, 0xff, 0xff, 0xff),
	} {
		got, err := photo.Decode(tagged(data, tiff))
		require.NoError(t, err, name)
		assert.Equal(t, upright, got, name)
	}
}

func TestTheFaceThatIsAskedFor(t *testing.T) {
	sessiontest.Whole(t)
	data, err := os.ReadFile("../testdata/photos/shadow-02.jpg")
	require.NoError(t, err)
	tel := optics.Telescope{RingInnerMM: 4.5, RingOuterMM: 8, Target: optics.Target{HoleRadiusMM: 2.5, FaceRadiusMM: 12, RingStepMM: 2}}
	shadow, err := photo.Look(data, optics.FaceTarget, tel, 0)
	require.NoError(t, err)
	assert.True(t, shadow.Found())
	assert.InDelta(t, -0.79, shadow.At.Right, 0.1)
	spot, err := photo.Look(data, optics.FacePrimary, tel, 0)
	require.NoError(t, err)
	assert.False(t, spot.Found())
}

func small(t testing.TB, encode func(*bytes.Buffer, image.Image) error) []byte {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, 128, 112))
	for y := range 112 {
		for x := range 128 {
			v := uint8(40 + 30*math.Sin(float64(x)/9) + 5*float64(y%2)) // a file of few bytes
			m.Set(x, y, color.RGBA{v, v, v / 2, 255})
		}
	}
	var b bytes.Buffer
	require.NoError(t, encode(&b, m))
	return b.Bytes()
}

func asPNG(b *bytes.Buffer, m image.Image) error  { return png.Encode(b, m) }
func asJPEG(b *bytes.Buffer, m image.Image) error { return jpeg.Encode(b, m, nil) }
func asGIF(b *bytes.Buffer, m image.Image) error  { return gif.Encode(b, m, nil) }

// hugePNG says that it has w by h pixels, and has none.
func hugePNG(w, h uint32) []byte {
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, w), h)
	return append([]byte("\x89PNG\r\n\x1a\n"), chunk("IHDR", append(head, 8, 2, 0, 0, 0))...)
}

func box(brand string) []byte { return []byte("\x00\x00\x00\x18ftyp" + brand + "\x00\x00\x00\x00") }

func TestWhatIsNoPicture(t *testing.T) {
	jpg, pic := small(t, asJPEG), small(t, asPNG)
	scans := append([]byte{}, jpg[:len(jpg)-2]...)
	scans = append(scans, bytes.Repeat([]byte{0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0}, 500)...)
	huge := append([]byte{}, jpg...)
	at := bytes.Index(huge, []byte{0xff, 0xc0})
	binary.BigEndian.PutUint16(huge[at+5:], 9000)
	binary.BigEndian.PutUint16(huge[at+7:], 9000)
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"empty":                 {nil, "empty"},
		"text":                  {[]byte("up 5 left 3\n"), "no picture"},
		"one byte":              {[]byte{0xff}, "no picture"},
		"GIF":                   {small(t, asGIF), "GIF"},
		"HEIC":                  {box("heic"), "HEIC"},
		"HEIC by another name":  {box("mif1"), "HEIC"},
		"AVIF":                  {box("avif"), "AVIF"},
		"WebP":                  {[]byte("RIFF\x10\x00\x00\x00WEBPVP8 "), "WebP"},
		"TIFF":                  {[]byte("II*\x00\x08\x00\x00\x00"), "TIFF"},
		"PDF":                   {[]byte("%PDF-1.7"), "PDF"},
		"MP4":                   {box("isom"), "video"},
		"MOV":                   {box("qt  "), "video"},
		"WebM":                  {[]byte("\x1a\x45\xdf\xa3\x01\x00"), "video"},
		"AVI":                   {[]byte("RIFF\x10\x00\x00\x00AVI LIST"), "video"},
		"JPEG cut off":          {jpg[:len(jpg)/2], "cut off"},
		"JPEG, its head alone":  {jpg[:20], "cut off"},
		"PNG cut off":           {pic[:len(pic)/2], "cut off"},
		"PNG, its head alone":   {pic[:8], "cut off"},
		"JPEG damaged":          {append(append([]byte{}, jpg[:3]...), jpg[40:]...), "damaged"},
		"PNG damaged":           {append(append([]byte{}, pic[:50]...), pic[60:]...), "damaged"},
		"PNG, huge":             {hugePNG(100_000, 100_000), "50 million"},
		"PNG, a line":           {hugePNG(2_000_000_000, 1), "50 million"},
		"JPEG, huge":            {huge, "50 million"},
		"JPEG, drawn 500 times": {scans, "times over"},
		"too many bytes":        {make([]byte, photo.MostBytes+1), "40"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := photo.Look(c.data, optics.FacePrimary, optics.Telescope{}, 0)
			require.ErrorContains(t, err, c.want)
			oneLine(t, err)
			assert.Contains(t, err.Error(), ":", "and what to do")
		})
	}
}

func oneLine(t testing.TB, err error) {
	t.Helper()
	assert.NotContains(t, err.Error(), "\n")
	assert.Less(t, len(err.Error()), 160)
}

// A picture cut anywhere is read, or refused in one line.
func TestPictureCutAtEveryByte(t *testing.T) {
	step := sessiontest.Of(31, 5, 1)
	for _, whole := range [][]byte{small(t, asJPEG), small(t, asPNG)} {
		for n := 0; n < len(whole); n += step {
			if _, err := photo.Decode(whole[:n]); err != nil {
				oneLine(t, err)
			}
		}
		_, err := photo.Decode(whole)
		require.NoError(t, err)
	}
}

// Help says what to do for all that can be missing, and no more.
func TestHelpForWhatIsMissing(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range []picture.Missing{picture.Ring, picture.Spot, picture.Which, picture.Hole, picture.Shadow} {
		help := photo.Help(m)
		assert.False(t, seen[help] || help == "", "%s", m)
		seen[help] = true
		for _, sentence := range strings.Split(help, ". ") {
			assert.LessOrEqual(t, len(strings.Fields(sentence)), 20, sentence)
		}
	}
	assert.Empty(t, photo.Help(picture.Nothing))
}

// fuzzPixels bounds what one input may cost.
const fuzzPixels = 300_000

func FuzzLook(f *testing.F) {
	jpg, pic := small(f, asJPEG), small(f, asPNG)
	for _, seed := range [][]byte{
		nil, jpg, pic, tagged(jpg, tags(binary.LittleEndian, "II*\x00", 5)), jpg[:len(jpg)/2], pic[:len(pic)/2],
		box("heic"), hugePNG(90_000, 90_000), small(f, asGIF), fmt.Appendf(nil, "\xff\xd8\xff\xe1\x00\x0aExif\x00\x00II"),
	} {
		f.Add(seed)
	}
	tel := optics.Telescope{ApertureMM: 200, RingInnerMM: 4.5, RingOuterMM: 8, Target: optics.Target{HoleRadiusMM: 3, FaceRadiusMM: 13, RingStepMM: 2}}
	f.Fuzz(func(t *testing.T, data []byte) {
		if c, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil && c.Width*c.Height > fuzzPixels && c.Width*c.Height <= photo.MostPixels {
			return
		}
		for _, face := range []optics.Face{optics.FacePrimary, optics.FaceTarget} {
			s, err := photo.Look(data, face, tel, 0)
			if err != nil {
				oneLine(t, err)
				continue
			}
			if s.Found() {
				assert.Positive(t, s.SigmaMM)
				assert.False(t, math.IsNaN(s.At.Right+s.At.Up+s.AlongMM+s.AcrossMM))
			} else {
				assert.NotEmpty(t, photo.Help(s.Missing))
			}
		}
	})
}
