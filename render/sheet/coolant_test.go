package sheet

import (
	"encoding/json"
	"strings"
	"testing"

	"finduel/model/pump"
	"finduel/testdata/reports"
)

// A flow of 0 is the pump's, and is not told as none.
func TestPumpIsToldInsteadOfTheFlow(t *testing.T) {
	s := &reports.Study().Setups[0]
	if got := conditions(&s.Rig); !strings.Contains(got, "; water 3.2 L/min;") {
		t.Errorf("given: %s", got)
	}
	s.Rig.Coolant.Flow = 0
	s.Rig.Coolant.Pump = pump.Pump{ShutOffPressure: 40e3, FreeFlow: 1100 / 3.6e6, CurveExponent: pump.TypicalExponent}
	s.Rig.Coolant.Loop = pump.TypicalLoop()
	want := "; water by a pump of 40 kPa shut-off pressure and 1 100 L/h free flow, plate and hoses taking 12 kPa at 4 L/min;"
	if got := strings.ReplaceAll(conditions(&s.Rig), "\u00a0", " "); !strings.Contains(strings.ReplaceAll(got, "\u202f", " "), want) {
		t.Errorf("pumped: %s, want %s", got, want)
	}
	text, err := json.Marshal(setupOf(s))
	if err != nil || strings.Contains(string(text), "coolant_flow") || !strings.Contains(string(text), `"pump_head_kPa":40`) {
		t.Errorf("%v: %s", err, text)
	}
}
