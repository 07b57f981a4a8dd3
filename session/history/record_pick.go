package history

import (
	"slices"
	"time"

	"spotward/session"
	"spotward/session/scope"
)

// Pick says which records are wanted. What is zero picks nothing out.
type Pick struct {
	Scope string
	Who   string
	Where string
	Kit   string
	Tag   string
	Since time.Time // begun then or later
	Until time.Time // begun before then
}

// Of returns those of the records that are wanted, in their order.
func (p Pick) Of(records []session.Record) []session.Record {
	return slices.DeleteFunc(slices.Clone(records), func(r session.Record) bool { return !p.takes(r) })
}

func (p Pick) takes(r session.Record) bool {
	switch {
	case p.Scope != "" && !scope.SameName(p.Scope, r.Scope),
		p.Who != "" && !scope.SameName(p.Who, r.Who),
		p.Where != "" && !scope.SameName(p.Where, r.Where),
		p.Kit != "" && !scope.SameName(p.Kit, r.Kit),
		p.Tag != "" && p.Tag != r.Tag,
		!p.Since.IsZero() && r.Began.Before(p.Since),
		!p.Until.IsZero() && !r.Began.Before(p.Until):
		return false
	}
	return true
}

// Pick returns the fleet with the scopes whose last record is wanted, and the
// kits that these records name. A scope without a record goes by its name alone.
func (f Fleet) Pick(p Pick) Fleet {
	if p == (Pick{}) {
		return f
	}
	out := Fleet{Hands: f.Hands}
	kits := map[string]bool{}
	for _, row := range f.Scopes {
		last := row.last
		last.Scope = row.Scope
		if p.takes(last) {
			out.Scopes = append(out.Scopes, row)
			kits[nameKey(last.Kit)] = true
		}
	}
	for _, k := range f.Kits {
		if kits[nameKey(k.Kit)] || p.Kit != "" && scope.SameName(p.Kit, k.Kit) || p.Tag != "" && p.Tag == k.Tag {
			out.Kits = append(out.Kits, k)
		}
	}
	return out
}
