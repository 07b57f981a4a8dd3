package command

import (
	"encoding/json"
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"spotward/optics"
	"spotward/optics/picture"
	"spotward/session/photo"
	"spotward/session/words"
	"spotward/views/desk"
)

func (c *cli) pictureCommand() *cobra.Command {
	var shadow, asJSON bool
	cmd := &cobra.Command{
		Use: "picture FILE SCOPE", Short: "What a photograph shows, without a session", Args: cobra.ExactArgs(2),
		Long: `Where the laser's spot on the primary is in a photograph, from the centre ring.
With --shadow it is the ring's shadow on the laser's face, from its hole. FILE is a
JPEG or PNG; it is only read. Up is up in the picture: tube level, back camera,
the phone held straight.

The exit code is 0 when the place was found, 1 when not.`,
		Example: `  spotward picture IMG_2041.jpg heron
  spotward picture face.jpg heron --shadow --json`,
		ValidArgsFunction: func(cmd *cobra.Command, args []string, part string) ([]string, cobra.ShellCompDirective) {
			if len(args) == 1 {
				return c.completeScopes(cmd, args, part)
			}
			return nil, cobra.ShellCompDirectiveDefault
		},
		RunE: func(_ *cobra.Command, args []string) error {
			face := optics.FacePrimary
			if shadow {
				face = optics.FaceTarget
			}
			return failed(c.picture(args[0], args[1], face, asJSON))
		},
	}
	cmd.Flags().BoolVar(&shadow, "shadow", false, "the ring's shadow on the laser's face")
	cmd.Flags().BoolVar(&asJSON, "json", false, "one JSON object")
	return cmd
}

func (c *cli) picture(path, name string, face optics.Face, asJSON bool) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	scope, err := c.scope(d, name)
	if err != nil {
		return err
	}
	if d.Library != nil {
		full, err := d.Library.WithKit(scope)
		if err == nil {
			scope = full
		} else if face == optics.FaceTarget { // the kit has the hole's size
			return err
		}
	}
	data, err := desk.ReadPicture(path)
	if err != nil {
		return err
	}
	seen, err := photo.Look(data, face, scope.Telescope(), scope.RulerPart(face))
	if err != nil {
		return err
	}
	if !seen.Found() {
		c.exit = ExitFailed
	}
	if asJSON {
		return json.NewEncoder(c.streams.Out).Encode(pictureOf(seen))
	}
	fmt.Fprintln(c.streams.Out, pictureText(seen))
	if scope.RulerPart(face) > 0 && seen.Found() {
		fmt.Fprintf(c.streams.Out, "The size of the %s is a guess. Measure it: spotward scopes edit %q\n", rulerWords(face), words.OneLine(scope.Name))
	}
	return nil
}

// pictureLine is what a picture shows, for programs. Lengths are mm across the
// beam, right and up as one stands there; sigma_mm is the error of either, 1σ,
// but for the camera's roll; ring_px the radii of the ring, or of its shadow.
type pictureLine struct {
	V       int         `json:"v"`
	Face    optics.Face `json:"face,omitempty"`
	Found   bool        `json:"found"`
	Right   *float64    `json:"right,omitempty"`
	Up      *float64    `json:"up,omitempty"`
	SigmaMM float64     `json:"sigma_mm,omitempty"`
	RingPX  []int       `json:"ring_px,omitempty"`
	Missing string      `json:"missing,omitempty"`
}

func pictureOf(s picture.Sight) pictureLine {
	if !s.Found() {
		return pictureLine{V: 1, Missing: string(s.Missing)}
	}
	right, up := hundredths(s.At.Right), hundredths(s.At.Up)
	return pictureLine{V: 1, Face: s.Face, Found: true, Right: &right, Up: &up,
		SigmaMM: math.Max(0.001, math.Round(1000*s.SigmaMM)/1000),
		RingPX:  []int{int(math.Round(s.Inner.Radius)), int(math.Round(s.Outer.Radius))}}
}

func hundredths(mm float64) float64 { return math.Round(100*mm)/100 + 0 }

func rulerWords(face optics.Face) string {
	if face == optics.FaceTarget {
		return "hole and the face"
	}
	return "centre ring"
}

// pictureText says what a picture shows, or what it lacks and what helps.
func pictureText(s picture.Sight) string {
	if !s.Found() {
		return photo.Help(s.Missing)
	}
	from := "the ring's centre"
	if s.Face == optics.FaceTarget {
		from = "the hole to the shadow's middle"
	}
	return fmt.Sprintf("%s, %.1f mm from %s. The error is %s mm along that line and %s mm across it.",
		words.ClockText(s.At), s.At.Len(), from, tenth(s.AlongMM), tenth(s.AcrossMM))
}

// tenth returns an error to a tenth of a mm, and never as none.
func tenth(mm float64) string { return fmt.Sprintf("%.1f", math.Max(0.1, mm)) }
