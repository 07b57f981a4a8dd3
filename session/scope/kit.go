package scope

import "slices"

// Kit is a laser with its holder, as its file describes it.
type Kit struct {
	Name string
	Laser
	CheckDays int // it is turned round again so many days after the last time; 0 = left out
	Notes     string
}

// DecodeKit reads a kit's file: the keys of a scope's [laser], in that table or
// above it. fallback is the kit's name where the file says none.
func DecodeKit(data []byte, fallback string) (Kit, error) {
	keys, err := parseTOML(data)
	if err != nil {
		return Kit{}, err
	}
	fields := kitFields
	if _, inTable := keys["laser"]; !inTable {
		keys = gather(keys, fields)
	}
	if err := unknownKey(keys, fields); err != nil {
		return Kit{}, err
	}
	var s Scope
	for _, f := range fields {
		if err := f.read(keys, &s); err != nil {
			return Kit{}, err
		}
	}
	if err := s.Laser.check(); err != nil {
		return Kit{}, err
	}
	s.Name = textOr(s.Name, fallback)
	return KitOf(s), nil
}

// EncodeKit returns the kit's file. DecodeKit of it is k again.
func EncodeKit(k Kit) []byte {
	return encode(k.Scope(), kitFields)
}

// Scope returns a scope of which only what a kit says is given.
func (k Kit) Scope() Scope {
	return Scope{Format: FormatVersion, Name: k.Name, Laser: k.Laser, CheckDays: k.CheckDays, Notes: k.Notes}
}

// KitOf returns the kit that a scope's keys of a kit describe.
func KitOf(s Scope) Kit {
	return Kit{Name: s.Name, Laser: s.Laser, CheckDays: s.CheckDays, Notes: s.Notes}
}

// keysOfKit returns the keys of a kit's file. Neither format nor name must be
// there: the keys of a [laser] are enough.
func keysOfKit(all []field) []field {
	var out []field
	for _, f := range all {
		if f.table == "laser" || slices.Contains([]string{"format", "name", "check_days", "notes"}, f.key) {
			f.must = false
			out = append(out, f)
		}
	}
	return out
}

// gather moves the keys of a laser into their table.
func gather(keys tree, fields []field) tree {
	out, laser := tree{}, tree{}
	for key, value := range keys {
		if knows(fields, "laser", key) {
			laser[key] = value
		} else {
			out[key] = value
		}
	}
	if len(laser) > 0 {
		out["laser"] = laser
	}
	return out
}
