package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render/sheet"
	"finduel/sweep"
	"finduel/sweep/study"
)

// How far below the top speed of a fan the reach of its drive is looked for, and how far
// above it the limits that stop it.
const (
	slowest = 50
	fastest = 2
)

func pointCommand() *cobra.Command {
	var name string
	var settings []string
	var asJSON bool
	c := &cobra.Command{
		Use:        "point STUDY [--setup NAME]",
		SuggestFor: []string{"state", "single"},
		Short:      "print one setup in one state, with its temperature budget",
		Long: `point computes one setup of a study as the study gives it and prints all of its state:
temperatures, fans, sound and exposure, core, temperature budget, warnings and cautions.
--set changes an input of finduel help inputs, or a choice such as placing=pull, for
this once. It writes no file.`,
		Example: `  finduel point bench.yaml --setup small
  finduel point bench.yaml --setup small --set "fan_speed=9000 rpm" --set "fin_density=24 fpi"`,
		Args: studyArgument,
		RunE: func(c *cobra.Command, args []string) error {
			s, err := load(args[0])
			if err != nil {
				return err
			}
			setup, err := setupNamed(s, name)
			if err != nil {
				return err
			}
			if setup, err = study.Apply(setup, "--set", settings); err != nil {
				return err
			}
			state, err := model.Evaluate(setup.Rig)
			var impossible *quantity.RangeError
			if errors.As(err, &impossible) {
				return usage("this setup is impossible: "+sweep.Reason(err), "change it with --set, or in the study")
			}
			if err != nil && asJSON {
				if err := sheet.FailureJSON(c.OutOrStdout(), s.Name, version, &setup, sweep.Reason(err)); err != nil {
					return err
				}
			}
			if err != nil {
				return &failure{exitPartly, "this point has no value: " + sweep.Reason(err), "change the fan speed or another input with --set"}
			}
			drive, err := driveOf(setup.Rig)
			if err != nil {
				return err
			}
			if asJSON {
				return sheet.PointJSON(c.OutOrStdout(), s.Name, version, &setup, &state, drive)
			}
			return sheet.Point(c.OutOrStdout(), &setup, &state, drive, terminalWidth)
		},
	}
	c.Flags().StringVar(&name, "setup", "", "name of the setup (default the challenger)")
	c.Flags().StringArrayVar(&settings, "set", nil, "change an input, e.g. \"fan_speed=9000 rpm\"; may be repeated")
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}

// throttles are those at which a drive is looked at.
var throttles = []float64{0.25, 0.5, 0.75, 1}

// driveOf returns how fast the motors of a rig turn its fans; zero if they are not known.
func driveOf(rig model.Rig) (sheet.Drive, error) {
	top := rig.Fans.Fan.TopSpeed
	reached, err := model.Reach(rig, top/slowest, top)
	if errors.Is(err, model.ErrNoMotor) {
		return sheet.Drive{}, nil
	}
	if err != nil {
		return sheet.Drive{}, err
	}
	d := sheet.Drive{Reached: reached, To: fastest * top}
	for _, throttle := range throttles {
		if chain, ok, none := model.Throttled(rig, throttle, top/slowest, top); none == nil && ok {
			d.Throttled = append(d.Throttled, chain)
		}
	}
	d.Limits, err = model.Ladder(rig, top/slowest, d.To)
	return d, err
}

// setupNamed returns the setup of a study with a name, the challenger if the name
// is empty.
func setupNamed(s *study.Study, name string) (study.Setup, error) {
	if name == "" {
		return s.Setups[s.Challenger], nil
	}
	var names []string
	for _, setup := range s.Setups {
		if setup.Name == name {
			return setup, nil
		}
		names = append(names, setup.Name)
	}
	return study.Setup{}, usage(fmt.Sprintf("--setup %q: the study has no such setup", name), "it has "+quoted(names))
}
