package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"finduel/model"
	"finduel/sweep/study"
)

// inputsTopic is a topic of help: everything that an axis may vary and --set may set.
func inputsTopic() *cobra.Command {
	var b strings.Builder
	b.WriteString(`The inputs: the keys that an axis or a tolerance of a study may name, and that
finduel point --set changes, with the unit in which finduel shows each.

`)
	for _, in := range model.Inputs {
		unit := in.Shown.Symbol
		if unit == "" {
			unit = "a number"
		}
		fmt.Fprintf(&b, "  %s, %s: %s\n", in.Key, unit, in.Label)
	}
	b.WriteString("\nThe choices: keys that take a word. finduel point --set changes them; a sweep\ntakes a second setup for each word. A word that is none has all of them named.\n\n")
	for _, key := range study.Choices {
		b.WriteString("  " + key + "\n")
	}
	return &cobra.Command{Use: "inputs", Short: "all that an axis may vary and point --set may set", Long: strings.TrimRight(b.String(), "\n")}
}
