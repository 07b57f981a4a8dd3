package lex

import "strings"

// Class is what a word stands for in loose talk, whatever its ending.
type Class string

// Classes gives the class of each word that loose talk knows; where a word stands
// twice the first counts. A word that is in none of them and no filler is not
// understood.
var Classes = lexicon(`
not: not no nobody noone without isnt wasnt arent never nor neither dont doesnt dosent dosnt nope nah aint
cant: cant cannot canot couldnt wont wouldnt unable impossible refuses
hasnt: hasnt havent havnt hadnt didnt
nothing: nothing none nowhere nought nowt nil zilch
nearly: nearly almost hardly close near barely partly partially mostly practically short
home: home
hole: hole
ring: ring rings donut doughnut annulus line circle
face: face target plate screen
card: card cardboard
paper: paper
mirror: mirror primary glass
secondary: secondary
mouth: mouth drawtube focuser
edge: edge edges rim lip border margin perimeter brim
wall: wall walls
tube: tube
centre: centre center centred centered centrally central bullseye
middle: middle mid
in: in inside within into
on: on upon onto
touching: touching touches straddling straddles overlapping overlaps grazing clipping
out: out outside beyond
off: off beside
past: past over overshot overshoot
through: through
vanished: vanished vanishes vanish disappeared disappears disappear swallowed swallows gobbled sank winked blinked
went: gone went goes go going dropped drops fell falls dives popped shot flew raced ran headed travelled traveled
lost: lost lose losing
see: see seen sees saw visible find tell make makeout notice spotted
sign: sign trace dot spot spots dots red light beam thing reflection return
any: any anything anywhere either more else all
bright: bright brighter brightest glare dazzling dazzles glaring sun sunny sunlight strong blinding blinded dazzled harsh
dim: dim faint fainter dark
glow: glow glows glowing halo lit
rays: ray rays
even: even evenly
same: same unchanged identical alike
stay: stay stays stayed staying remains remained
move: move moves moved moving movement slid pulled drifted shift shifted shifts budge budged change changed changes crept wandered wanders drifts hopped settled
turn: turn turned turns turning rotate rotated rotates
other: other wrong opposite reverse
way: way direction
backwards: backwards backward reversed
instead: instead
or: or either
mistake: mistake accident error accidentally mistakenly oops whoops sorry
done: done did finished complete completed made finish
yet: yet
forgot: forgot forgotten skipped
better: better closer nearer worse further farther improved away
bit: bit hair slightly gnat smidgeon tad little slightly tiny smidge smidgen fraction somewhat slight whisker touch few nudge
half: half halfway
just: just only barely merely
too: too
far: far much
stuck: stuck locked jammed jamming jams seized siezed frozen blocked solid rusted rusty immovable wedged fast glued welded
stiff: stiff stiffly tight hard tough
sticky: sticky jerky jerks jumps jumping jerkily grabs grabbing
free: free freely loose loosely slack spins spinning spin wobbly floppy wobbles rattles
resistance: resistance grip tension bite catch catching
end: end stop limit bottomed maxed
slipped: slipped slips slipping
stripped: stripped rounded damaged mangled chewed worn ruined mashed burred
thread: thread threads
key: key keys wrench driver screwdriver hex allen spanner tool tools allenkey hexkey
lock: lock locks locking lockscrew lockscrews locknut locknuts
screw: screw screws bolt bolts
head: head slot socket hexagon
reach: reach
missing: missing lost mislaid misplaced bar
cap: cap torch tape cell battery laser holder
heavy: heavy
room: room space
swing: swing swung tilt
cue: cue mark
missed: missed misses miss
said: said say told predicted expected foretold asked promised
yes: yes yeah yep yup jep yess ok okay okey k aye sure fine y
no: n
jumped: jumped jump jumpy
wait: wait hang sec second hold moment
know: know idea clue sure certain dunno unsure
two: many several double
which: which what where how why who when should
alone: alone
`)

// Fillers are words that say nothing, wherever they stand. A word of a class may
// be among them: it counts where a rule asks for it, and is passed over elsewhere.
var Fillers = WordSet(`
a an the this that these thats theres they them theyre theyve youre weve its it is are was were be been being am im i id ill ive we my me you
of to for at by as with and then but so again already still back right all there here thing
can do does will would has have had got look looks seem seems like appears feel feels felt make makes could
about around approx approximately roughly circa maybe perhaps probably possibly think guess reckon pls plz thx ta mate dear hello oh ah
now currently longer anymore well um uh er hmm please thanks very pretty quite really actually sort kind
completely totally somewhere because since cos exact precise altogether entirely absolutely utterly fully exactly precisely directly straight due sits sit sitting lies lying stands standing stopped keeps keep bang smack slap outer inner ish scope telescope
`)

// PlaceFillers are words beside a place that change nothing of it.
var PlaceFillers = WordSet(`
stay stays stayed staying remains remained overshot overshoot
spot dot point light red beam return returning reflection one two dim dimmer dimmest bright brighter brightest
found see sits sit sitting lies lying stands standing located position somewhere
moved moves went goes gone come comes came returns returned coming landed ended
yes yeah yep ok okay done closer nearer better worse further still just there here
side hand corner area region clock out away off far distance total only across hits hit hitting strikes lands landing dist hour direction sorry oops mean meant correction rather spotted lit faint fainter blob patch smudge blurry fuzzy big small round fat
show shows shown say said read reads reading measured primary mirror
`)

// ChoiceFillers are words beside an answer that change nothing of it.
var ChoiceFillers = WordSet(`
a an the this that these its it is was were are been be i id ill we my me you him her they he she them someone somebody people who
of for about to and in out on at by from with up over down off into round way some part as too again now back then so well any thing things anything much dokey
do did does doing make get got have has had take took taken want would like should could will can let lets us put give given add attach
work align fix need needs go goes going came come stand stands look
please pls plz thanks yes yeah ok okay think say said really very actually simply just only here there
answer option number choice one image mirror mirrors scope telescope tube spot dot circle loop tag job
last time anyone everyone anybody start starting begin lets week month night year first new old quick short bit lend place site field club show shows seem seems um uh
`)

func lexicon(text string) map[string]Class {
	all := map[string]Class{}
	for _, line := range strings.Split(strings.TrimSpace(text), "\n") {
		name, list, _ := strings.Cut(line, ": ")
		for _, w := range strings.Fields(list) {
			if _, ok := all[w]; !ok {
				all[w] = Class(name)
			}
		}
	}
	return all
}

func WordSet(text string) map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields(text) {
		all[w] = true
	}
	return all
}
