package virtual

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"spotward/optics"
)

// Knob is one thing that can be set on a practice telescope.
type Knob struct {
	Name string
	Says string
	Unit string  // of an amount
	Most float64 // of an amount; 0 = it is none

	amount  func(f *Faults) *float64
	per     float64 // of the fault's own unit in one of Unit
	count   func(f *Faults) *int
	on      func(f *Faults) *bool
	mirror  func(f *Faults, m optics.Mirror) *bool
	ailment Ailment // of a screw
	hands   []named
}

// named is hands and eyes that go by a name.
type named struct {
	name  string
	hands Hands
	sight Keen
}

// Group is a number of knobs that go together, as they follow one another in the
// list, and what they are about.
type Group struct {
	About string
	Knobs []Knob
}

// groupsAt says with which knob a group begins.
var groupsAt = map[string]string{
	"spot": "where the spots stand", "stuck": "screws", "pull": "locks, and what lets go", "slope": "laser and holder",
	"unlabelled": "letters and ring", "slipped": "secondary, play, hands",
}

// Groups returns all that can be set, in its groups.
func Groups() (all []Group) {
	for _, k := range Knobs() {
		if about, begins := groupsAt[k.Name]; begins {
			all = append(all, Group{About: about})
		}
		last := &all[len(all)-1]
		last.Knobs = append(last.Knobs, k)
	}
	return all
}

// Knobs returns all that can be set, in the order in which it is listed.
func Knobs() []Knob {
	mm := func(name, says string, most float64, f func(f *Faults) *float64) Knob {
		return Knob{Name: name, Says: says, Unit: "mm", Most: most, amount: f, per: 1}
	}
	of := func(name, says, unit string, most, per float64, f func(f *Faults) *float64) Knob {
		return Knob{Name: name, Says: says, Unit: unit, Most: most, amount: f, per: per}
	}
	screw := func(name, says string, is Ailment) Knob { return Knob{Name: name, Says: says, ailment: is} }
	yes := func(name, says string, f func(f *Faults) *bool) Knob { return Knob{Name: name, Says: says, on: f} }
	return []Knob{
		mm("spot", "the spot on the primary stands off the ring", 100, func(f *Faults) *float64 { return &f.SpotMM }),
		mm("return", "the return spot stands off the hole", 60, func(f *Faults) *float64 { return &f.ReturnMM }),
		screw("stuck", "a screw does not turn at all", Seized),
		screw("sticky", "a screw holds the mirror back, then lets it jump", Grabbing),
		screw("end", "a screw meets the end of its thread half way", NearEnd),
		screw("stripped", "a screw turns without effect", Worn),
		screw("slack", "a screw's spring reaches no further than 1/8", Slack),
		of("pull", "the most that a lock pulls as it grips", "turns", 1, 1, func(f *Faults) *float64 { return &f.LockPull }),
		of("skew", "how far from its screw's line a lock pulls", "deg", 90, 1, func(f *Faults) *float64 { return &f.LockSkewDeg }),
		yes("eased", "the locks are eased to begin with", func(f *Faults) *bool { return &f.LocksEased }),
		of("loose", "a secondary screw left loose, gives in the swing", "turns", 0.5, 1, func(f *Faults) *float64 { return &f.LooseSecondaryTurns }),
		mm("rocking", "the primary moves in every swing", 20, func(f *Faults) *float64 { return &f.RockingPrimaryMM }),
		mm("unsettled", "the primary moves in the first swing only", 20, func(f *Faults) *float64 { return &f.UnsettledMM }),
		of("slope", "the beam leaves the laser at an angle", "mrad", 10, 1e-3, func(f *Faults) *float64 { return &f.LaserSlopeRad }),
		mm("offset", "the beam leaves beside the laser's axis", 3, func(f *Faults) *float64 { return &f.LaserOffsetMM }),
		of("holder", "the holder stands at an angle in the focuser", "mrad", 10, 1e-3, func(f *Faults) *float64 { return &f.HolderSlopeRad }),
		mm("seat", "the laser seats differently each time it is put in", 10, func(f *Faults) *float64 { return &f.SeatSpreadMM }),
		yes("weak", "the laser is weak", func(f *Faults) *bool { return &f.WeakLaser }),
		{Name: "dead", Says: "the laser's battery is flat after this many steps", Unit: "acts", Most: 1000, count: func(f *Faults) *int { return &f.DeadAfter }},
		yes("unlabelled", "no letters at the screws", func(f *Faults) *bool { return &f.Unlabelled }),
		{Name: "reversed", Says: "a mirror's letters run the other way round", mirror: reversedOf},
		mm("ring", "the ring is stuck on beside the primary's centre", 10, func(f *Faults) *float64 { return &f.RingOffMM }),
		yes("swallows", "the ring swallows the light", func(f *Faults) *bool { return &f.RingSwallows }),
		mm("slipped", "the secondary has slipped along its stalk", 10, func(f *Faults) *float64 { return &f.SecondarySlipMM }),
		of("turned", "the holder stands turned about the tube", "deg", 10, 1, func(f *Faults) *float64 { return &f.SecondaryTurnedDeg }),
		of("twist", "the holder twists, for each turn of a screw", "deg", 3, 1, func(f *Faults) *float64 { return &f.TwistDeg }),
		of("play", "turns lost when a screw is turned back", "turns", 0.2, 1, func(f *Faults) *float64 { return &f.PlayTurns }),
		{Name: "hands", Says: "whose hands turn: careful, trained or first", hands: handsByName},
	}
}

func reversedOf(f *Faults, m optics.Mirror) *bool {
	if m == optics.Primary {
		return &f.PrimaryReversed
	}
	return &f.SecondaryReversed
}

var mirrors = []optics.Mirror{optics.Primary, optics.Secondary}

var handsByName = []named{
	{"careful", carefulHands, carefulEyes},
	{"trained", trainedHands, trainedEyes},
	{"first", firstTimeHands, firstTimeEyes},
}

func knobNamed(name string) (Knob, bool) {
	for _, k := range Knobs() {
		if k.Name == name {
			return k, true
		}
	}
	return Knob{}, false
}

// Takes says what is typed after the knob's name: "" is nothing.
func (k Knob) Takes() string {
	switch {
	case k.Most > 0:
		return k.Unit
	case k.ailment != "":
		return "primary B"
	case k.mirror != nil:
		return "primary"
	case k.hands != nil:
		return "trained"
	}
	return ""
}

// spell checks what a knob is set to and spells it the one way it is written.
func (k Knob) spell(t optics.Telescope, value string) (string, error) {
	switch {
	case k.Most > 0:
		v, err := strconv.ParseFloat(strings.Replace(value, ",", ".", 1), 64)
		if err != nil || !(v >= 0 && v <= k.Most) || k.count != nil && v != math.Trunc(v) {
			return "", fmt.Errorf("%s is a number from 0 to %g (%s), as in: %s %g", k.Name, k.Most, k.Unit, k.Name, k.Most/4)
		}
		return strconv.FormatFloat(v, 'g', -1, 64), nil
	case k.ailment != "":
		return k.spellScrew(t, value)
	case k.mirror != nil:
		if value != string(optics.Primary) && value != string(optics.Secondary) {
			return "", fmt.Errorf("say which mirror's, as in: %s primary", k.Name)
		}
		return value, nil
	case k.hands != nil:
		for _, h := range k.hands {
			if value == h.name {
				return value, nil
			}
		}
		return "", fmt.Errorf("%s are careful, trained or first, as in: hands first", k.Name)
	}
	if value != "" && value != "on" {
		return "", fmt.Errorf("%s is said alone; %s off leaves it to the level", k.Name, k.Name)
	}
	return "on", nil
}

// spellScrew understands "primary B", "secondary.2" and the like.
func (k Knob) spellScrew(t optics.Telescope, value string) (string, error) {
	mirror, label, _ := strings.Cut(strings.Replace(value, ".", " ", 1), " ")
	for _, m := range mirrors {
		if mirror != string(m) {
			continue
		}
		if i, ok := screwIndex(t.Cell(m), label); ok {
			return fmt.Sprintf("%s.%s", m, spelledLabel(t.Cell(m), i)), nil
		}
	}
	return "", fmt.Errorf("say the mirror and its screw, as in: %s primary B, or %s secondary A", k.Name, k.Name)
}

// screwIndex finds a screw by its label, or by its number.
func screwIndex(c optics.Cell, label string) (int, bool) {
	for i, l := range c.Labels {
		if strings.EqualFold(l, label) {
			return i, true
		}
	}
	n, err := strconv.Atoi(label)
	return n - 1, err == nil && n >= 1 && n <= c.Screws
}

// spelledLabel is a screw's label, or its number where the label would not
// stand between commas.
func spelledLabel(c optics.Cell, i int) string {
	if i < len(c.Labels) && c.Labels[i] != "" && !strings.ContainsAny(c.Labels[i], ",=. \t\r\n") {
		return c.Labels[i]
	}
	return strconv.Itoa(i + 1)
}

// apply sets a knob to a value that was spelled.
func (k Knob) apply(s *Setup, t optics.Telescope, value string) {
	v, _ := strconv.ParseFloat(value, 64)
	switch {
	case k.amount != nil:
		*k.amount(&s.Faults) = v * k.per
	case k.count != nil:
		*k.count(&s.Faults) = int(v)
	case k.on != nil:
		*k.on(&s.Faults) = true
	case k.mirror != nil:
		*k.mirror(&s.Faults, optics.Mirror(value)) = true
	case k.ailment != "":
		mirror, label, _ := strings.Cut(value, ".")
		m := optics.Mirror(mirror)
		if i, ok := screwIndex(t.Cell(m), label); ok {
			s.Faults.Screws = append(s.Faults.Screws, ScrewFault{m, i, k.ailment})
		}
	}
	for _, h := range k.hands {
		if h.name == value {
			s.Hands, s.Sight = h.hands, h.sight
		}
	}
}

// Now says what a knob stands at in a setup: "14 mm", "yes", "primary B"; ""
// is nothing.
func (k Knob) Now(s Setup, t optics.Telescope) string {
	switch {
	case k.amount != nil:
		if v := *k.amount(&s.Faults) / k.per; v > 0 {
			return fmt.Sprintf("%.3g %s", v, k.Unit)
		}
	case k.count != nil:
		if n := *k.count(&s.Faults); n > 0 {
			return fmt.Sprintf("%d %s", n, k.Unit)
		}
	case k.on != nil:
		if *k.on(&s.Faults) {
			return "yes"
		}
	}
	var words []string
	for _, m := range mirrors {
		if k.mirror != nil && *k.mirror(&s.Faults, m) {
			words = append(words, string(m))
		}
	}
	last := map[string]Ailment{} // of two ailments the later holds
	for _, f := range s.Faults.Screws {
		last[fmt.Sprint(f.Mirror, f.Screw)] = f.Is
	}
	for _, f := range s.Faults.Screws {
		if k.ailment == f.Is && last[fmt.Sprint(f.Mirror, f.Screw)] == f.Is {
			words = append(words, string(f.Mirror)+" "+spelledLabel(t.Cell(f.Mirror), f.Screw))
		}
	}
	for _, h := range k.hands {
		if h.hands == s.Hands {
			words = append(words, h.name)
		}
	}
	return strings.Join(words, ", ")
}

// AilmentWord is how an ailment is called where it is set up.
func AilmentWord(is Ailment) string {
	for _, k := range Knobs() {
		if k.ailment == is {
			return k.Name
		}
	}
	return string(is)
}
