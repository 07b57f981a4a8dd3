package shelf

import (
	"spotward/session/history"
)

// Shelf returns what is on the shelf, and a line for each file that cannot be
// read.
func (l *Shelf) Shelf() (history.Stock, []error) {
	scopes, errs := l.Scopes()
	kits, more := l.Kits()
	errs = append(errs, more...)
	gone, more := l.RetiredKits()
	errs = append(errs, more...)
	records, open, more := l.survey()
	errs = append(errs, more...)
	s := history.Stock{Scopes: scopes, Kits: kits, Records: records, Unfinished: open}
	for _, k := range gone {
		s.Gone = append(s.Gone, k.Name)
	}
	var err error
	if s.Work, err = l.Work(); err != nil {
		errs = append(errs, err)
	}
	for i, sc := range s.Scopes {
		s.Scopes[i].Laser = s.Laser(sc.Kit, sc.Laser)
	}
	return s, errs
}
