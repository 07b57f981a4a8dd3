package optics

// BestReturn returns where the return spot is best while the spot on the
// primary stands at p: p·S/f, where the axis error is nil.
func (t Telescope) BestReturn(p Tube) Tube {
	return p.Scale(t.PathMM() / t.FocalLengthMM)
}
