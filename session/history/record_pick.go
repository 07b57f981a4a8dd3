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
		!p.Since.IsZero() && r.Began.Before(p.Since),
		!p.Until.IsZero() && !r.Began.Before(p.Until):
		return false
	}
	return true
}
