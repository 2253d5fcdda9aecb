package chart

import (
	"strings"
	"testing"

	"finduel/model/pump"
	"finduel/testdata/reports"
)

// A flow of 0 is the pump's, and is not drawn as none.
func TestConditionsTellThePump(t *testing.T) {
	rep := reports.Booth()
	if got := conditions(rep, nil); !strings.Contains(got, "L/min of water") {
		t.Errorf("given: %s", got)
	}
	c := &rep.Study.Setups[rep.Study.Reference].Rig.Coolant
	c.Flow, c.Loop = 0, pump.TypicalLoop()
	c.Pump = pump.Pump{ShutOffPressure: 40e3, FreeFlow: 500 / 3.6e6, CurveExponent: pump.TypicalExponent}
	want := "water by a pump of 40 kPa shut-off pressure, 500 L/h free flow, plate and hoses taking 12 kPa, at 4 L/min,"
	if got := strings.ReplaceAll(conditions(rep, nil), "\u00a0", " "); !strings.Contains(got, want) {
		t.Errorf("pumped: %s, want %s", got, want)
	}
}
