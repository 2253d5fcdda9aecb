package doubt

import (
	"fmt"
	"strconv"
	"strings"

	"finduel/model"
	"finduel/model/quantity"
)

// limitText says a half-width in words: "±5 %", "±1 fpi".
func limitText(in model.Input, within float64, relative bool) string {
	if relative {
		return fmt.Sprintf("±%s %%", strconv.FormatFloat(100*within, 'g', 3, 64))
	}
	shown := within * in.Shown.Over / in.Shown.Times // a difference: the unit's zero does not matter
	text := "±" + strconv.FormatFloat(shown, 'g', 3, 64)
	switch {
	case in.Kind == quantity.Temperature:
		return text + " K"
	case in.Kind == quantity.SoundLevel:
		return text + " dB"
	case in.Shown.Symbol == "":
		return text
	}
	return text + " " + in.Shown.Symbol
}

// actions says what to do about an input in doubt; %s is the setup's name.
var actions = map[string]string{
	"fan_speed":              "read the fan speed of %s with a tachometer",
	"free_air_flow":          "measure the free-air flow of %s's fan",
	"shut_off_pressure":      "measure the shut-off pressure of %s's fan",
	"rated_power":            "measure the power of %s's fan",
	"fin_density":            "count the fins of %s's core over 100 mm",
	"fin_depth":              "measure the fin depth of %s's core",
	"coolant_flow":           "measure the coolant flow",
	"heat_load":              "measure the heat load",
	"air_density_correction": "read a barometer",
}

// actionFor says what to do about an input in doubt, of a setup with a name.
func actionFor(v *variable, name string) string {
	text, ok := actions[v.Key]
	switch {
	case !ok && v.Of == Both:
		return "measure the " + v.Label
	case !ok:
		return "measure the " + v.Label + " of " + name
	case v.Of == Both || !strings.Contains(text, "%s"):
		return strings.ReplaceAll(strings.ReplaceAll(text, "of %s's", "of the"), " of %s", "")
	}
	return fmt.Sprintf(text, name)
}
