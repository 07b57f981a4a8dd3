package session

// Shelf returns what is on the shelf, and a line for each file that cannot be
// read.
func (l *Library) Shelf() (Shelf, []error) {
	scopes, errs := l.Scopes()
	kits, more := l.Kits()
	errs = append(errs, more...)
	kept, open, more := l.survey()
	s := Shelf{Scopes: scopes, Kits: kits, Records: recordsOf(kept), Unfinished: open}
	for i, sc := range s.Scopes {
		s.Scopes[i].Laser = s.laser(sc.Kit, sc.Laser)
	}
	return s, append(errs, more...)
}
