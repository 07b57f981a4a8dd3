package header

// Wording is how one thing is said: in full, and in a word or two where there is
// little room.
type Wording struct{ Long, Short string }

// HeaderWords is a header in words.
type HeaderWords struct{ Stand, Tool, Tube, Laser Wording }

// Words returns the header in words.
func (h Header) Words() HeaderWords {
	return HeaderWords{
		Stand: standWords[h.Stand],
		Tool:  toolWords[h.Tool],
		Tube:  attitudeWords[h.Tube],
		Laser: laserWords[laserFacts{h.Beam, h.Card, h.Seat}],
	}
}

var standWords = map[Stand]Wording{
	StandBeside:   {"beside the focuser", "beside"},
	StandSky:      {"at the sky end, to one side", "sky end"},
	StandBehind:   {"behind the scope", "behind"},
	StandAllRound: {"all round the scope", "all round"},
}

var toolWords = map[Tool]Wording{
	ToolNone:            {"none: both hands free", "no tool"},
	ToolPen:             {"tape and pen", "tape and pen"},
	ToolHolder:          {"laser holder's collar", "holder's collar"},
	ToolSecondary:       {"secondary's key, tethered", "secondary's key"},
	ToolPrimary:         {"primary's key", "primary's key"},
	ToolPrimaryNext:     {"then behind: primary's key", "primary's key"},
	ToolPrimaryAndLocks: {"primary's key, locks' key", "primary's key"},
	ToolLocks:           {"locks' key", "locks' key"},
	ToolLocksShort:      {"locks' key, by its short arm", "locks' key"},
}

var attitudeWords = map[Attitude]Wording{
	TubeLevel:  {"level, open end to a wall", "level"},
	TubeNoseUp: {"nose up, 30 to 45 degrees, held", "nose up"},
	TubeSwung:  {"up, about 50 degrees, held", "up"},
	TubeAsItIs: {"as it is until the locks are snug", "as it is"},
	TubeAtStar: {"at a star", "at a star"},
}

// laserFacts is what the words about the laser depend on.
type laserFacts struct {
	beam Beam
	card Card
	seat Seat
}

var laserWords = map[laserFacts]Wording{
	{BeamOff, CardNone, SeatIn}:       {"off", "off"},
	{BeamOff, CardNone, SeatEmpty}:    {"off, not in yet", "off"},
	{BeamOff, CardNone, SeatLeaves}:   {"off and out", "off"},
	{BeamOff, CardNone, SeatEyepiece}: {"off and out, an eyepiece in its place", "off, out"},
	{BeamOff, CardNone, SeatLensNext}: {"off, then on with its lens", "off"},
	{BeamOff, CardWhole, SeatIn}:      {"off until the card is up", "off till card"},
	{BeamEither, CardHalf, SeatIn}:    {"off, or card over half the end", "off, or half card"},
	{BeamEither, CardWhole, SeatIn}:   {"off, or card over the end", "off, or card"},
	{BeamOn, CardHalf, SeatIn}:        {"on, card over half the end", "on, half card"},
	{BeamOn, CardWhole, SeatIn}:       {"on, card over the end", "on, whole card"},
	{BeamOn, CardWhole, SeatLens}:     {"on, lens on it, card over the end", "on, whole card"},
	{BeamOn, CardWhole, SeatLeaves}:   {"card over the end; then off, out", "card; off, out"},
}
