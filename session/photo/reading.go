package photo

import (
	"crypto/sha256"
	"encoding/hex"
	"math"
	"strings"
	"unicode/utf8"

	"spotward/optics"
	"spotward/optics/picture"
	"spotward/session/event"
	"spotward/session/words"
)

// leastSigmaMM is the least error of a reading from a picture, 1σ an axis: what a
// core that is burnt white hides of where the beam's middle is. This program's own.
const leastSigmaMM = 0.05

// Of tells a picture by its file's name, without the folder it lies in, and by
// what it holds.
func Of(name string, data []byte) event.Picture {
	sum := sha256.Sum256(data)
	return event.Picture{Name: plain(name), Bytes: int64(len(data)), SHA256: hex.EncodeToString(sum[:])}
}

// plain returns a file's name as any terminal can show it.
func plain(name string) string {
	const longest = 255
	name = name[strings.LastIndexAny(name, `/\`)+1:]
	name = words.OneLine(strings.ToValidUTF8(name, "_"))
	for len(name) > longest {
		_, n := utf8.DecodeLastRuneInString(name)
		name = name[:len(name)-n]
	}
	if strings.TrimSpace(name) == "" {
		return "picture"
	}
	return name
}

// Reading returns the reading that a sight found in a picture comes to on t, whose
// focuser is where the picture shows it.
func Reading(s picture.Sight, t optics.Telescope, of event.Picture) event.Event {
	seen := t.FromDial(s.Face, s.At)
	cov := optics.Polar(t.FromSeen(s.Face, seen), math.Max(s.AlongMM, leastSigmaMM), math.Max(s.AcrossMM, leastSigmaMM))
	c := t.CovToSeen(s.Face, cov)
	return event.Event{
		Kind: event.KindReading, Face: s.Face, Saw: event.SawPlace, Right: seen.Right, Up: seen.Up,
		Cov: &[3]float64{c.XX, c.XY, c.YY}, Text: "photo " + of.Name, Picture: &of,
	}
}
