package hazard_test

import (
	"testing"

	"finduel/model/hazard"
)

func BenchmarkCautions(b *testing.B) {
	f := turning(133)
	f.Sound, f.NIOSHDose, f.Current, f.Voltage, f.Shroud = 100, 4, 20, 12, 330
	f.Build = hazard.Build{Blade: hazard.Polycarbonate, Shroud: hazard.PrintedPLA, WireGauge: 16, WireLength: 0.5, GuardOpening: 0.01}
	held := 0
	for b.Loop() {
		found := hazard.Cautions(&f)
		if found[hazard.TipSpeed].Holds {
			held++
		}
	}
	if held == 0 {
		b.Fatal("no caution")
	}
}
