package session

import (
	"encoding/json"
	"errors"
	"strings"

	"spotward/optics"
)

// SpotWords returns where a spot of a record was on face f, in words, on the
// dial of somebody who stood there: "half past 4, 12 mm from the hole".
func SpotWords(tel optics.Telescope, f optics.Face, m *Mark) string {
	if m == nil {
		return "not read"
	}
	at := tel.ToDial(f, optics.Seen{Right: m.Right, Up: m.Up})
	switch m.Saw {
	case SawGone:
		return "not on this face"
	case SawCantSee:
		return "could not be seen"
	case SawHome:
		return "home, seen going down the hole"
	case SawWithin:
		return "inside what counts as there"
	case SawInRing:
		return "somewhere inside the ring"
	case SawOffGlass:
		return HourWords(at) + ", beside the mirror"
	}
	if at.Len() == 0 {
		return placeText(f, at, "0")
	}
	return PlaceWords(f, at, at.Len())
}

// LabelsWords says, of each mirror whose screws have letters, where these were
// found to stand: "primary as asked".
func (r Record) LabelsWords() []string {
	var out []string
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		if how := r.Labels[m]; how != "" {
			out = append(out, string(m)+" "+strings.ReplaceAll(how, "_", " "))
		}
	}
	return out
}

// ScopeUsed returns the scope that session r was made with: as its journal has
// it, else as it is known here, in use or retired.
func (l *Library) ScopeUsed(r Record) (Scope, error) {
	path, err := l.journalPath(r.ID)
	if err != nil {
		return Scope{}, err
	}
	var begin Event
	first := errors.New("the first line is enough")
	_, err = ScanJournal(path, func(line Line) error {
		if err := json.Unmarshal(line.Raw, &begin); err != nil {
			return err
		}
		return first
	})
	if errors.Is(err, first) && begin.Scope != nil {
		return *begin.Scope, nil
	}
	for _, dir := range []string{scopesDir, retiredDir} {
		files, _ := l.scopeFiles(dir)
		if known, ok := find(files, r.Scope); ok {
			return l.WithKit(known.value)
		}
	}
	if b := Builtin(); SameName(b.Name, r.Scope) {
		return b, nil
	}
	return Scope{}, err
}
