package chart

import (
	"path"
	"testing"

	"finduel/testdata/reports"
)

// Whoever removes the charts of a run goes by their names.
func TestNamesAreThoseOfAllCharts(t *testing.T) {
	met := map[string]bool{}
	for _, c := range reports.Cases() {
		for _, chart := range charts(c.Report()) {
			named := 0
			for _, name := range Names {
				if ok, err := path.Match(name, chart.name); ok {
					met[name] = true
					named++
				} else if err != nil {
					t.Fatal(err)
				}
			}
			if named != 1 {
				t.Errorf("%s is named %d times", chart.name, named)
			}
		}
	}
	if len(met) < len(Names)-2 {
		t.Errorf("only %v were met", met)
	}
}
