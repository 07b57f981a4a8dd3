package align

import (
	"strings"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/views/practice"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
)

// sight draws what one would see of the practice telescope: the thing itself,
// without hours or figures.
func (s *Screen) sight(p *frame.Page, st session.State) {
	view, ok := s.Work.Sees()
	if !ok {
		return
	}
	face := view.Face
	spec := SightOf(st.Tel, face, view, p.Sizes)
	s.lie(&spec)
	spec.Standing = SightTitle(p, st.Tel.Station(face))
	p.Face(p.Sizes.Face, spec)
}

// SightOf is what one would see on a face, bare.
func SightOf(t optics.Telescope, face optics.Face, view practice.View, sz frame.Sizes) schematic.FaceSpec {
	spec := SeenFrom(t, face, sz)
	spec.Bare = true
	spec.Object = Quiet(spec.Object)
	at := t.ToDial(face, view.Seen)
	if view.Visible {
		spec.Now = &schematic.Mark{At: at}
	}
	if face == optics.FaceSecondary {
		away := t.ToDial(face, view.Outgoing.Seen)
		spec.Object = schematic.SecondaryMirror{EdgeMM: t.MinorAxisMM / 2, Middle: optics.Dial{Right: -away.Right, Up: -away.Up}}
	}
	if face == optics.FaceTarget && view.InHole && view.Uneven() {
		glow := t.ToDial(face, view.Glow)
		spec.Trail = []schematic.Mark{{At: optics.AtHour(glow.Hour(), t.Target.HoleRadiusMM)}}
	}
	spec.RimMM = RimOf(spec, t, face)
	Measured(&spec, t, face, sz)
	return spec
}

// SightTitle says what is drawn, and where one stands to see it.
func SightTitle(p *frame.Page, from optics.Station) []string {
	switch {
	case p.Narrow() && from == optics.Behind:
		return []string{"you see,", "behind"}
	case p.Narrow():
		return []string{"you see,", "sky end"}
	}
	return []string{p.Pal.Heading("you would see"), "from " + strings.Replace(string(from), "sky", "the sky", 1)}
}

// BesideSight says what the drawing of a sight cannot show: why nothing is
// there, and how bright it is. It says nothing of where.
func BesideSight(v virtual.Sight) string {
	why := practice.UnseenWords(v.Unseen)
	switch {
	case why != "":
		return why
	case v.Face == optics.FaceTarget && v.InHole && v.Uneven():
		return "It goes down the hole; one side of the rim glows brighter."
	case v.Face == optics.FaceTarget && v.InHole:
		return "It goes down the hole; the rim glows evenly."
	case !v.Visible:
		return "No red in sight here."
	case v.Wall:
		return "Red on the tube's wall, beside the mirror."
	case v.OnRing:
		return "It lies on the ring and flares."
	case v.InRing:
		return "Inside the ring it is dim again."
	case v.Merged:
		return "One spot, not two, as far as you can tell."
	}
	return ""
}
