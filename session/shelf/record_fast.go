package shelf

import (
	"bytes"
	"encoding/json"
	"strconv"
	"time"
	"unicode"
	"unicode/utf8"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
)

// decoder reads records from their lines. encoding/json takes most of a second
// for years of a large shelf; this takes a quarter of it for lines as this program
// writes them, and leaves every other line to encoding/json.
type decoder struct {
	b     []byte
	i     int
	bad   bool              // not as this program writes it
	texts map[string]string // those that come again and again
}

// record returns what stands in a line, the zero record where it is none.
func (d *decoder) record(line []byte) session.Record {
	d.b, d.i, d.bad = line, 0, false
	var r session.Record
	d.object(func(key []byte) { d.recordMember(&r, key) })
	if d.bad || d.i != len(line) {
		r = session.Record{}
		if json.Unmarshal(line, &r) != nil {
			return session.Record{}
		}
	}
	return r
}

func (d *decoder) recordMember(r *session.Record, key []byte) {
	switch string(key) {
	case "v":
		r.V = d.whole()
	case "id":
		r.ID = d.text(false)
	case "scope":
		r.Scope = d.text(true)
	case "who":
		r.Who = d.text(true)
	case "where":
		r.Where = d.text(true)
	case "kit":
		r.Kit = d.text(true)
	case "practice":
		r.Practice = d.truth()
	case "way":
		r.Way = d.whole()
	case "told":
		r.Told = d.truth()
	case "dir":
		r.Dir = d.text(true)
	case "count":
		r.Count = d.whole()
	case "began":
		r.Began = d.time()
	case "ended":
		r.Ended = d.time()
	case "reason":
		r.Reason = d.text(true)
	case "outcome":
		r.Outcome = d.text(true)
	case "verdict":
		r.Verdict = d.text(true)
	case "tag":
		r.Tag = d.text(true)
	case "tag_why":
		r.TagWhy = d.text(true)
	case "upshot":
		r.Upshot = &session.Upshot{}
		d.object(func(key []byte) {
			switch string(key) {
			case "kind":
				r.Upshot.Kind = session.UpshotKind(d.text(true))
			case "text":
				r.Upshot.Text = d.text(true)
			default:
				d.bad = true
			}
		})
	case "allowed_mm":
		r.AllowedMM = d.number()
	case "budget_mm":
		r.BudgetMM = d.number()
	case "found":
		d.moment(&r.Found)
	case "before_swing":
		d.moment(&r.BeforeSw)
	case "left":
		d.moment(&r.Left)
	case "laser_circle_mm":
		v := d.number()
		r.CircleMM = &v
	case "laser_seat_mm":
		r.SeatMM = d.number()
	case "looks":
		r.Looks = d.whole()
	case "moves":
		r.Moves = d.whole()
	case "nips":
		r.Nips = d.whole()
	case "learnt":
		r.Learnt = map[optics.Mirror]*event.Taught{}
		d.object(func(key []byte) { r.Learnt[optics.Mirror(d.kept(key))] = d.taught() })
	case "net_turns":
		d.other(&r.NetTurns)
	case "labels":
		d.other(&r.Labels)
	case "glow":
		r.Glow = d.text(true)
	case "locks":
		r.Locks = d.text(true)
	case "swing_mm":
		v := d.number()
		r.SwingMM = &v
	case "finer":
		d.other(&r.Finer)
	case "skips":
		d.other(&r.Skips)
	case "trouble":
		d.other(&r.Trouble)
	case "found_out":
		d.other(&r.FoundOut)
	default:
		d.bad = true
	}
}

func (d *decoder) moment(m *session.Moment) {
	d.object(func(key []byte) {
		switch string(key) {
		case "p":
			m.P = d.mark()
		case "t":
			m.T = d.mark()
		case "axis_error_mm":
			m.AxisErrorMM = d.number()
		case "axis_error_max_mm":
			m.AxisErrorMaxMM = d.number()
		case "within":
			m.Within = d.number()
		case "coma_free":
			m.ComaFree = d.number()
		case "strehl":
			m.Strehl = d.number()
		case "claimed":
			m.Claimed = d.truth()
		default:
			d.bad = true
		}
	})
}

func (d *decoder) mark() *session.Mark {
	var m session.Mark
	d.object(func(key []byte) {
		switch string(key) {
		case "saw":
			m.Saw = event.Sight(d.text(true))
		case "right":
			m.Right = d.number()
		case "up":
			m.Up = d.number()
		case "sigma_mm":
			m.Sigma = d.number()
		default:
			d.bad = true
		}
	})
	return &m
}

func (d *decoder) taught() *event.Taught {
	var t event.Taught
	d.object(func(key []byte) {
		switch string(key) {
		case "mirror":
			t.Mirror = optics.Mirror(d.text(true))
		case "per_turn":
			t.PerTurn = list(d, d.tube)
		case "spread":
			t.Spread = list(d, d.cov)
		case "lock_pull":
			t.LockPull = list(d, d.tube)
		case "lock_spread":
			t.LockCov = list(d, d.cov)
		case "hand":
			t.Hand = d.number()
		default:
			d.bad = true
		}
	})
	return &t
}

func (d *decoder) tube() (at optics.Tube) {
	d.object(func(key []byte) { d.put(key, numberAt{"X", &at.X}, numberAt{"Y", &at.Y}) })
	return at
}

func (d *decoder) cov() (c optics.Cov) {
	d.object(func(key []byte) { d.put(key, numberAt{"XX", &c.XX}, numberAt{"XY", &c.XY}, numberAt{"YY", &c.YY}) })
	return c
}

// numberAt is where the number of a member goes.
type numberAt struct {
	key string
	to  *float64
}

func (d *decoder) put(key []byte, members ...numberAt) {
	for _, m := range members {
		if string(key) == m.key {
			*m.to = d.number()
			return
		}
	}
	d.bad = true
}

// object reads an object; member reads the value of each key.
func (d *decoder) object(member func(key []byte)) {
	if !d.eat('{') || d.eat('}') {
		return
	}
	for !d.bad {
		key := d.quoted()
		if d.bad || !d.must(':') {
			return
		}
		member(key)
		if d.eat('}') {
			return
		}
		d.must(',')
	}
}

// list reads an array.
func list[T any](d *decoder, one func() T) []T {
	out := []T{}
	if !d.must('[') || d.eat(']') {
		return out
	}
	for !d.bad {
		out = append(out, one())
		if d.eat(']') {
			break
		}
		d.must(',')
	}
	return out
}

// other leaves a value that few lines have to encoding/json.
func (d *decoder) other(to any) {
	from, deep := d.i, 0
	for d.i < len(d.b) {
		switch d.b[d.i] {
		case '"':
			if d.quoted(); d.bad {
				return
			}
			continue
		case '{', '[':
			deep++
		case '}', ']':
			if deep--; deep == 0 {
				d.i++
				d.bad = json.Unmarshal(d.b[from:d.i], to) != nil
				return
			}
		}
		d.i++
	}
	d.bad = true
}

func (d *decoder) eat(c byte) bool {
	if d.i < len(d.b) && d.b[d.i] == c {
		d.i++
		return true
	}
	return false
}

func (d *decoder) must(c byte) bool {
	ok := d.eat(c)
	d.bad = d.bad || !ok
	return ok
}

// quoted reads a string in which nothing is escaped.
func (d *decoder) quoted() []byte {
	if !d.must('"') {
		return nil
	}
	n := bytes.IndexByte(d.b[d.i:], '"')
	if n < 0 || bytes.IndexByte(d.b[d.i:d.i+n], '\\') >= 0 {
		d.bad = true
		return nil
	}
	text := d.b[d.i : d.i+n]
	d.i += n + 1
	d.bad = d.bad || bytes.ContainsFunc(text, unicode.IsControl) || !utf8.Valid(text)
	return text
}

func (d *decoder) text(again bool) string {
	raw := d.quoted()
	if again {
		return d.kept(raw)
	}
	return string(raw)
}

// mostTexts is how many texts are kept to be used again.
const mostTexts = 4096

func (d *decoder) kept(raw []byte) string {
	if text, is := d.texts[string(raw)]; is {
		return text
	}
	text := string(raw)
	if d.texts == nil || len(d.texts) > mostTexts {
		d.texts = map[string]string{}
	}
	d.texts[text] = text
	return text
}

func (d *decoder) time() (t time.Time) {
	d.bad = d.bad || t.UnmarshalText(d.quoted()) != nil
	return t
}

// bare reads what stands up to the end of a value without quotes.
func (d *decoder) bare() []byte {
	from := d.i
	for d.i < len(d.b) && d.b[d.i] != ',' && d.b[d.i] != '}' && d.b[d.i] != ']' {
		d.i++
	}
	return d.b[from:d.i]
}

func (d *decoder) number() float64 {
	raw := d.bare()
	v, err := strconv.ParseFloat(string(raw), 64)
	d.bad = d.bad || err != nil || !plainNumber(raw)
	return v
}

func (d *decoder) whole() int {
	raw := d.bare()
	v, err := strconv.Atoi(string(raw))
	d.bad = d.bad || err != nil || !plainNumber(raw)
	return v
}

// plainNumber reports whether JSON has the number written so: strconv takes
// more than that.
func plainNumber(raw []byte) bool {
	digits := bytes.TrimPrefix(raw, []byte{'-'})
	if len(digits) == 0 || digits[0] < '0' || digits[0] > '9' || digits[0] == '0' && len(digits) > 1 && digits[1] != '.' && digits[1] != 'e' {
		return false
	}
	for i, c := range digits {
		switch {
		case c >= '0' && c <= '9', c == 'e', c == '-', c == '+':
		case c == '.' && i+1 < len(digits) && digits[i+1] >= '0' && digits[i+1] <= '9':
		default:
			return false
		}
	}
	return true
}

func (d *decoder) truth() bool {
	switch string(d.bare()) {
	case "true":
		return true
	case "false":
		return false
	}
	d.bad = true
	return false
}
