package session

import (
	"slices"
	"time"
)

// Pick says which records are wanted. What is zero picks nothing out.
type Pick struct {
	Scope string
	Who   string
	Since time.Time // begun then or later
	Until time.Time // begun before then
}

// Of returns those of the records that are wanted, in their order.
func (p Pick) Of(records []Record) []Record {
	return slices.DeleteFunc(slices.Clone(records), func(r Record) bool { return !p.takes(r) })
}

func (p Pick) takes(r Record) bool {
	switch {
	case p.Scope != "" && !SameName(p.Scope, r.Scope),
		p.Who != "" && !SameName(p.Who, r.Who),
		!p.Since.IsZero() && r.Began.Before(p.Since),
		!p.Until.IsZero() && !r.Began.Before(p.Until):
		return false
	}
	return true
}
