package scope

import (
	"errors"

	"spotward/optics"
)

// field is one key of a scope's file. This table is all that reading, writing
// and checking know of the keys, and their order in a file.
type field struct {
	table string   // "" for the keys above the first table
	key   string   // a length's key without its unit
	spelt []string // the keys it may stand under: for a length, one for each unit
	words string   // what it is, to a person; "" where leaving it out guesses nothing
	// at returns where the value is kept: a *Length, *Clock, *string, *bool,
	// *int, **int or *[]string.
	at   func(*Scope) any
	must bool
	// example is what a must may look like.
	example string
	low     float64 // of a length in mm, or of a count
	high    float64
	oneOf   []string
	note    string // what else there is to say where none of oneOf stands
	// list reads a list of texts; it returns the list to keep, or what was
	// expected.
	list func(value any) ([]string, error)
	// parse reads a text that is neither one of a few words nor a clock; it
	// returns the text to keep, or what was expected.
	parse func(string) (string, error)
}

// scopeFields are the keys of a scope's file, kitFields those of a kit's. Nothing
// changes them: they are set here because reading an estimate looks among them.
var scopeFields, kitFields []field

func init() {
	scopeFields = keysOfScope()
	kitFields = keysOfKit(scopeFields)
}

// keysOfScope returns the keys of a scope's file. The limits are far outside of
// what is built; they catch a slipped digit or a wrong unit.
func keysOfScope() []field {
	all := []field{
		{key: "format", at: func(s *Scope) any { return &s.Format }, must: true, example: "1", low: 1, high: FormatVersion},
		{key: "name", at: func(s *Scope) any { return &s.Name }, must: true, example: `"Heron"`, parse: parseName},
		{key: "aperture", at: func(s *Scope) any { return &s.Aperture }, must: true, example: "250", low: 50, high: 1500},
		{key: "focal_length", at: func(s *Scope) any { return &s.FocalLength }, must: true, example: "1200", low: 150, high: 15000},
		{key: "focuser_seen_at", words: "where the focuser is seen", at: func(s *Scope) any { return &s.FocuserAt }},
		{key: "use", words: "what it is used for", at: func(s *Scope) any { return &s.Use },
			oneOf: []string{UseLowPower, UseAllRound, UsePlanets}},
		{key: "corrector", at: func(s *Scope) any { return &s.Corrector }},
		{key: "kit", at: func(s *Scope) any { return &s.Kit }, parse: parseName},
		{key: "check_days", at: func(s *Scope) any { return &s.CheckDays }, low: 1, high: 3650},
		{key: "notes", at: func(s *Scope) any { return &s.Notes }},
		{key: "estimates", at: func(s *Scope) any { return &s.Estimates }, list: estimateList},

		{table: "tube", key: "inner_radius", words: "the tube's inner radius", at: func(s *Scope) any { return &s.Tube.InnerRadius }, low: 25, high: 1000},
		{table: "tube", key: "sky_end", words: "how long the tube is", at: func(s *Scope) any { return &s.Tube.SkyEnd }, low: 100, high: 15000},

		{table: "secondary", key: "from_primary", words: "how far apart the mirrors are", at: func(s *Scope) any { return &s.Secondary.FromPrimary }, low: 50, high: 15000},
		{table: "secondary", key: "minor_axis", words: "the secondary's minor axis", at: func(s *Scope) any { return &s.Secondary.MinorAxis }, low: 8, high: 400},
		{table: "secondary", key: "pivot_above", words: "where the secondary tilts", at: func(s *Scope) any { return &s.Secondary.PivotAbove }, low: 0, high: 300},
	}
	all = append(all, cellFields("secondary", 2, 100, func(s *Scope) *CellPart { return &s.Secondary.CellPart })...)
	all = append(all, cellFields("primary", 10, 700, func(s *Scope) *CellPart { return &s.Primary.CellPart })...)
	all = append(all,
		field{table: "primary", key: "locks", words: "how many locks the primary has", at: func(s *Scope) any { return &s.Primary.Locks }, low: 0, high: 4},
		field{table: "primary", key: "ring_inner_radius", words: "the centre ring's inner radius", at: func(s *Scope) any { return &s.Primary.RingInner }, low: 0, high: 50},
		field{table: "primary", key: "ring_outer_radius", words: "the centre ring's outer radius", at: func(s *Scope) any { return &s.Primary.RingOuter }, low: 0, high: 60},
	)
	all = append(all, settledFields("primary", "ring", 10, []string{ByTemplate, ByStar}, func(s *Scope) *Settled { return &s.Primary.Ring })...)
	all = append(all, laserFields()...)
	all = append(all, settledFields("laser", "hole", 5, []string{ByRolling}, func(s *Scope) *Settled { return &s.Laser.Hole })...)
	for i, f := range all {
		all[i].spelt = []string{f.key}
		if f.isLength() {
			all[i].spelt = []string{f.key + "_mm", f.key + "_in"}
		}
	}
	return all
}

// isLength reports whether the field is a length.
func (f field) isLength() bool {
	_, ok := f.at(new(Scope)).(*Length)
	return ok
}

func cellFields(table string, lowMM, highMM float64, cell func(*Scope) *CellPart) []field {
	return []field{
		{table: table, key: "screws", words: "how many screws the " + table + " has", at: func(s *Scope) any { return &cell(s).Screws }, low: 3, high: 4},
		{table: table, key: "circle_radius", words: "how far out the " + table + "'s screws stand", at: func(s *Scope) any { return &cell(s).Circle }, low: lowMM, high: highMM},
		{table: table, key: "thread", words: "the thread of the " + table + "'s screws", at: func(s *Scope) any { return &cell(s).Thread }, parse: parseThread},
		{table: table, key: "lead", words: "the thread of the " + table + "'s screws", at: func(s *Scope) any { return &cell(s).Lead }, low: 0.1, high: 3},
		{table: table, key: "kind", words: "what the " + table + "'s screws work against", at: func(s *Scope) any { return &cell(s).Kind },
			oneOf: []string{"push-pull", "sprung"}},
		{table: table, key: "clockwise_turn", words: "which way the " + table + "'s screws move it", at: func(s *Scope) any { return &cell(s).Clockwise },
			oneOf: []string{"pushes", "pulls"}},
		{table: table, key: "labels", words: "the letters of the " + table + "'s screws", at: func(s *Scope) any { return &cell(s).Labels }, list: labelList},
		{table: table, key: "first_screw_at", words: "where the " + table + "'s screws stand", at: func(s *Scope) any { return &cell(s).FirstAt }},
		{table: table, key: "labels_run", words: "which way round the " + table + "'s letters run", at: func(s *Scope) any { return &cell(s).LabelsRun },
			oneOf: []string{"clockwise", "anticlockwise"}},
	}
}

// laserFields returns the keys of [laser]. Classes over 3R are not among the
// words: such a laser is not used here.
func laserFields() []field {
	return []field{
		{table: "laser", key: "class", words: "the laser's class", at: func(s *Scope) any { return &s.Laser.Class },
			oneOf: []string{"1", "2", "3R", "I", "II", "IIIa"}, note: "; a laser of more than 5 mW is not used here"},
		{table: "laser", key: "hole_from_axis", words: "how far out the laser's target hole is", at: func(s *Scope) any { return &s.Laser.HoleFromAxis }, low: 20, high: 1500},
		{table: "laser", key: "hole_radius", words: "the target hole's radius", at: func(s *Scope) any { return &s.Laser.HoleRadius }, low: 0.2, high: 10},
		{table: "laser", key: "face_radius", words: "the target face's radius", at: func(s *Scope) any { return &s.Laser.FaceRadius }, low: 3, high: 60},
		{table: "laser", key: "ring_step", words: "how far apart the face's rings are", at: func(s *Scope) any { return &s.Laser.RingStep }, low: 0.2, high: 20},
		{table: "laser", key: "ring_count", words: "how many rings the face has", at: func(s *Scope) any { return &s.Laser.RingCount }, low: 0, high: 30},
		{table: "laser", key: "beam_width", words: "how wide the beam is", at: func(s *Scope) any { return &s.Laser.BeamWidth }, low: 0.1, high: 15},
		{table: "laser", key: "face", words: "how the target face lies", at: func(s *Scope) any { return &s.Laser.Face },
			oneOf: []string{FaceSlanted, FaceFlat}},
		{table: "laser", key: "rings", words: "how the face's rings are printed", at: func(s *Scope) any { return &s.Laser.Rings },
			oneOf: []string{RingsOnFace, RingsAlongTube}},
	}
}

func parseName(text string) (string, error) { return text, CheckName(text) }

func parseThread(text string) (string, error) {
	t, err := optics.ParseThread(text)
	if err != nil {
		return "", errors.New(`a thread such as "M5", "M5x0.5", "#8-32" or "1/4-20", or lead_mm in its place`)
	}
	return t.Name, nil
}

// Guessed returns, in words, what the scope's file leaves out and Telescope
// puts a usual figure for. Keys that share their words stand for each other; of
// the laser, a kit that is named has its say.
func (s Scope) Guessed() []string {
	fields := scopeFields
	s = s.Measured()
	said := map[string]bool{"": true}
	byKit := s.Kit != "" && !s.Laser.Given()
	for _, f := range fields {
		if f.given(&s) || byKit && f.table == "laser" {
			said[f.words] = true
		}
	}
	var out []string
	for _, f := range fields {
		if !said[f.words] {
			said[f.words] = true
			out = append(out, f.words)
		}
	}
	return out
}
