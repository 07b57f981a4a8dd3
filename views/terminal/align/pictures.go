package align

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// screwPlate draws beside a move where its screw is: all screws of that mirror as
// the hand meets them. Where it is not known where they stand nothing is drawn.
func screwPlate(p *frame.Page, st session.State, told *event.Told) {
	r, m := p.Sizes.Plate, told.Moves[0].Mirror
	if r.W == 0 {
		return
	}
	if _, known := ScrewHour(st, told.Moves[0]); !known {
		p.Paragraph(r, theme.Label, fitsOr(r, "where its screws stand is not known yet", "screws: not known"))
		return
	}
	if r.W >= titledPlate {
		from := "behind"
		if m == optics.Secondary {
			from = "the sky end"
		}
		p.TextMax(r.X+1, r.Y, r.W, theme.Label, "screws from "+from)
	}
	spec := plateOf(st, m, told, r)
	if r.W < titledPlate { // the words are beside it
		spec = onlyFirst(spec, told.Moves[0])
		spec.LockWord, spec.FocuserWord = "", ""
		if spec.BoltWord != "" {
			spec.BoltWord = " "
		}
	}
	p.Plate(p.PlateP, spec)
}

// onlyFirst marks the one to turn alone, where there is no room for two letters
// side by side: of a lock the screw beside it has none.
func onlyFirst(spec schematic.PlateSpec, m event.ToldMove) schematic.PlateSpec {
	for i := range spec.Screws {
		screw := &spec.Screws[i]
		if m.Lock == "" {
			continue
		}
		if screw.Lock && screw.Label != m.Lock {
			screw.Turns = 0
		}
		if !screw.Lock && screw.Label == m.Lock {
			screw.Label = ""
		}
	}
	return spec
}

// titledPlate is the width from which on a plate has its words around it.
const titledPlate = 24

// sidePictures draws what there is room for on a wide terminal: the way of the
// beam, and the looks.
func (s *Screen) sidePictures(p *frame.Page, st session.State) {
	spec := PathOf(st)
	times := p.LightPath(schematic.Rect{X: p.Path.X, Y: p.Path.Y + 1, W: p.Path.W, H: p.Path.H - 1}, spec)
	words := "the light path"
	if times > 1 && spec.Out != nil {
		words = missWords(times)
	}
	p.TextRight(p.Path.X+p.Path.W, p.Path.Y, theme.Label, words)
	if !s.arrived() { // the place to agree to stands there then
		lookTable(p, st)
	}
}

// missWords say how much larger than it is the beam's miss is drawn.
func missWords(times float64) string { return fmt.Sprintf("offsets enlarged %.0f times", times) }

// plateOf is a mirror's screws and locks as one faces them, those to be turned
// now marked.
func plateOf(st session.State, m optics.Mirror, told *event.Told, within schematic.Rect) schematic.PlateSpec {
	cell := st.Tel.Cell(m)
	spec := schematic.PlateSpec{
		FocuserHour: st.Tel.FocuserDial(optics.ScrewStation(m)).Hour(), FocuserWord: "focuser", Within: within,
	}
	if m == optics.Secondary {
		spec.Hub, spec.BoltWord = true, "bolt: never"
	}
	turn := map[string]float64{}
	if told != nil { // the one to turn now, not what comes after it; locks go round together
		first := told.Moves[0]
		turn[first.Screw+"/"+first.Lock] = first.Turns
		for _, t := range told.Moves[1:] {
			if first.Lock != "" && t.Lock != "" {
				turn["/"+t.Lock] = t.Turns
			}
		}
	}
	for i, label := range cell.Labels {
		hour := st.Tel.ScrewDial(m, i).Hour()
		spec.Screws = append(spec.Screws, schematic.Screw{Label: label, Hour: hour, Turns: turn[label+"/"]})
		if i < cell.Locks {
			lock := schematic.Screw{Label: label, Hour: math.Mod(hour+1.2, 12), Lock: true, Turns: turn["/"+label]}
			spec.Screws = append(spec.Screws, lock)
			spec.LockWord = "lock"
		}
	}
	return spec
}

// PathOf is the telescope in section, and the light path as far as it is
// known: where the return spot has not been seen, none.
func PathOf(st session.State) schematic.PathSpec {
	t := st.Tel
	spec := schematic.PathSpec{
		TubeMM: t.MouthMM(), SkyEndMM: t.OpenEndMM(), MirrorMM: t.ApertureMM / 2, SecondaryMM: t.MinorAxisMM / 2,
		FoldMM: t.FromPrimaryMM, HoleMM: t.HoleFromAxisMM,
		LaserWord: "laser", SkyWord: "sky end", PrimaryWord: "primary",
	}
	on, back := st.OnPrimary(), st.OnTarget()
	if st.Ask().Header.Beam != header.BeamOn || !st.Laser.On || !on.Known {
		return spec
	}
	var ret *optics.Tube
	if back.Known {
		ret = &back.At.At
	}
	spots, err := t.LookBeam(on.At.At, ret)
	if err != nil || len(spots.Beam) < 3 {
		return spec
	}
	spec.Out, spec.Back = BeamWays(t, spots)
	if ret == nil {
		spec.Back = nil
	}
	return spec
}

// BeamWays are the ways of the beam to the primary and back, against those of an
// aligned telescope.
func BeamWays(t optics.Telescope, spots optics.Spots) (out, back []schematic.Vertex) {
	ideal := []schematic.SectionPoint{{AlongMM: t.FromPrimaryMM, UpMM: t.HoleFromAxisMM}, {AlongMM: t.FromPrimaryMM}, {}}
	vertex := func(at r3.Vec, right schematic.SectionPoint) schematic.Vertex {
		return schematic.Vertex{Right: right, Miss: schematic.SectionPoint{AlongMM: at.Z - right.AlongMM, UpMM: at.X - right.UpMM}}
	}
	for i, right := range ideal {
		out = append(out, vertex(spots.Beam[i], right))
	}
	back = []schematic.Vertex{out[2]}
	if spots.Leaves {
		end := schematic.SectionPoint{AlongMM: t.OpenEndMM()}
		return out, append(back, vertex(spots.Beam[len(spots.Beam)-1], end))
	}
	for i, at := range spots.Beam[3:] {
		if 1-i < 0 {
			break
		}
		back = append(back, vertex(at, ideal[1-i]))
	}
	return out, back
}

// lookTable lists the last looks on the face that is asked for.
func lookTable(p *frame.Page, st session.State) {
	face := st.Ask().Face
	marks := readings(st, face)
	p.TextMax(p.Looks.X, p.Looks.Y, p.Looks.W, theme.Label, "look  where")
	marks = marks[max(0, len(marks)-(p.Looks.H-1)):]
	for i, m := range marks {
		role := theme.Label
		if i == len(marks)-1 {
			role = theme.Ink
		}
		p.TextMax(p.Looks.X, p.Looks.Y+1+i, 6, theme.Label, m.Word)
		p.TextMax(p.Looks.X+6, p.Looks.Y+1+i, 29, role, placeText(face, m.At))
	}
	if mm, bound, ok := st.AxisError(); ok {
		x := p.Looks.X + 36
		p.TextRight(p.Looks.X+p.Looks.W, p.Looks.Y, theme.Label, fmt.Sprintf("axis error, %.1f mm allowed", st.AllowedMM()))
		p.Bar(x, p.Looks.Y+1, p.Looks.W-36, AxisBar(mm, st.AllowedMM()))
		p.TextRight(p.Looks.X+p.Looks.W, p.Looks.Y+2, theme.Ink, fmt.Sprintf("%.1f mm, at most %.1f", mm, bound))
	}
}

// scene draws where one is, for a question that has no face: the tube's end one
// stands at, or the whole telescope from beside it.
func (s *Screen) scene(p *frame.Page, st session.State) {
	h := st.Ask().Header
	switch h.Stand {
	case header.StandSky:
		spec := SeenFrom(st.Tel, optics.FaceCard, p.Sizes)
		spec.Object, spec.RimMM = OpenEnd(st, h), st.Tel.MouthMM()
		spec.Now = s.RedOnCard(st, h)
		Measured(&spec, st.Tel, optics.FaceCard, p.Sizes)
		s.lie(&spec)
		p.Face(p.Sizes.Face, spec)
	case header.StandBehind:
		spec := plateOf(st, optics.Primary, st.Told(), p.FaceWords)
		spec.Standing, spec.GroundWord = Standing(optics.Behind, p.Sizes), GroundWord(p.Sizes)
		p.Plate(p.Sizes.Face, spec)
	default:
		words := []string{"standing beside", "the focuser"}
		if p.Narrow() {
			words = []string{"stand beside", "the focuser"}
		}
		for i, w := range words {
			p.TextMax(1, p.FaceWords.Y+i, p.FaceWords.W, theme.Ink, w)
		}
		r := p.FaceWords
		r.X, r.Y, r.W, r.H = r.X+1, r.Y+3, r.W-3, r.H-5
		spec := PathOf(st)
		if times := p.LightPath(r, spec); times > 1 && spec.Out != nil {
			p.TextMax(r.X, r.Y+r.H, r.W+2, theme.Label, missWords(times))
		}
	}
}

// OpenEnd is the open end with its card: over all of it as long as nobody can
// know where red shows, then over the half where it does.
func OpenEnd(st session.State, h header.Header) schematic.OpenEnd {
	o := schematic.OpenEnd{TubeMM: st.Tel.MouthMM(), SecondaryMM: st.Tel.MinorAxisMM / 2}
	switch h.Card {
	case header.CardHalf:
		if red, known := st.RedAt(); known {
			o.Card, o.CoverHour, o.LookWord = schematic.CoverHalf, red.Hour(), "look in"
			break
		}
		o.Card = schematic.CoverWhole
	case header.CardWhole:
		o.Card = schematic.CoverWhole
	}
	return o
}

// RedOnCard is the red that shows on the card of the practice telescope as one
// walks up to it; nil where there is none to be seen.
func (s *Screen) RedOnCard(st session.State, h header.Header) *schematic.Mark {
	view, ok := s.Work.Look(optics.FaceCard)
	if !ok || !view.Visible || h.Card == header.CardNone {
		return nil
	}
	return &schematic.Mark{At: st.Tel.ToDial(optics.FaceCard, view.Seen), Word: "red"}
}
