package study

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"strconv"
	"strings"

	"finduel/model"
	"finduel/model/fan"
)

// hashFormat is the version of the canonical text. It changes with the text, so
// that hashes of different texts never meet.
const hashFormat = "finduel study 7"

// hash returns the hash of a study: SHA-256, in hex, of its canonical text.
func (s *Study) hash() string {
	sum := sha256.New()
	s.writeCanonical(sum)
	return hex.EncodeToString(sum.Sum(nil))
}

// writeCanonical writes the canonical text of a study: one line a thing, names in
// quotes, numbers in SI units with the fewest digits that tell them apart, in the
// order of the study. It covers every value of every setup in full, so that a
// changed default changes it too; every fan, since any may be tried in place of the
// challenger's; the axes with all their values; the exclusions; the doubt; and which
// setups are compared in what, to which margin. It does not cover the file's name, what the
// study is about and which maps are drawn.
func (s *Study) writeCanonical(w io.Writer) {
	fmt.Fprintf(w, "%s\nname %q\n", hashFormat, s.Name)
	for _, setup := range s.Setups {
		rig := setup.Rig
		fmt.Fprintf(w, "setup %q core %q fan %q\n", setup.Name, setup.Core, setup.Fan)
		fmt.Fprintf(w, "fluid %q surface %q arrangement %q routing %q feed %q motor %q placing %q\n",
			rig.Coolant.Liquid.Fluid, rig.Core.Surface, rig.Core.Arrangement, rig.Core.Routing, rig.Core.Feed, rig.Fans.Fan.Motor, rig.Placing)
		fmt.Fprintf(w, "field %q shroud %q blade %q case %q opening %q improvised %t running %q\n", rig.Room.Surroundings.Field, rig.Installed.Shroud,
			rig.Build.Blade, rig.Build.Shroud, rig.Build.GuardShape, rig.Build.Improvised, rig.Build.Running)
		writeFan(w, &rig.Fans.Fan)
		for _, in := range model.Inputs {
			fmt.Fprintf(w, "%s %s\n", in.Key, exact(in.Get(&rig)))
		}
	}
	for _, f := range s.Fans {
		rig := model.Rig{Fans: fan.Bank{Fan: f.Fan}}
		fmt.Fprintf(w, "fan %q motor %q\n", f.Name, f.Fan.Motor)
		writeFan(w, &f.Fan)
		for _, in := range model.Inputs {
			fmt.Fprintf(w, "%s %s\n", in.Key, exact(in.Get(&rig)))
		}
	}
	fmt.Fprintf(w, "challenger %d reference %d metric %s margin %s\n", s.Challenger, s.Reference, s.Metric, exact(s.Margin))
	for _, a := range s.Axes {
		values := make([]string, len(a.Values))
		for i, v := range a.Values {
			values[i] = exact(v)
		}
		fmt.Fprintf(w, "axis %s group %q values %s\n", a.Input.Key, a.Group, strings.Join(values, " "))
	}
	for _, e := range s.Exclusions {
		fmt.Fprintln(w, "exclude")
		for _, c := range e {
			fmt.Fprintf(w, "%s above %s below %s\n", c.Input.Key, exact(c.Above), exact(c.Below))
		}
	}
	fmt.Fprintf(w, "doubt draws %d designs %q\n", s.Doubt.Draws, s.Doubt.Designs)
	for _, t := range s.Doubt.Tolerances {
		fmt.Fprintf(w, "tolerance %s setup %d within %s relative %t shape %q error %q\n", t.Input.Key, t.Setup, exact(t.Within), t.Relative, t.Shape, t.Error)
	}
}

// writeFan writes what no input says of a fan: its measured curve, and where its sound
// comes from.
func writeFan(w io.Writer, f *fan.Fan) {
	if f.Curve != nil {
		for _, p := range f.Curve.Points() {
			fmt.Fprintf(w, "curve %s %s %s\n", exact(p.Flow), exact(p.Pressure), exact(p.Power))
		}
	}
	fmt.Fprintf(w, "sound level %s estimated %t doubt %s\n", exact(f.RatedSound), f.EstimatedSound, exact(f.SoundDoubt))
	if r := f.Readings; r != nil {
		fmt.Fprintf(w, "readings speed %s level %s exponent %s scatter %s from %s to %s\n", exact(r.Speed), exact(r.Level), exact(r.Exponent), exact(r.Scatter), exact(r.Slowest), exact(r.Fastest))
	}
}

// exact writes a number with the fewest digits that tell it from every other.
func exact(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
