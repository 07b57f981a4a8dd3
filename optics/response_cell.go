package optics

func (t Telescope) WithCell(m Mirror, c Cell) Telescope {
	if m == Primary {
		t.Primary = c
	} else {
		t.Secondary = c
	}
	return t
}
