package study

import (
	"math"
	"os"
	"strings"
	"testing"
)

// A thermometer stands for the tolerance of a temperature that was read with it.
func TestThermometerStandsForATolerance(t *testing.T) {
	file, err := os.ReadFile("../../testdata/studies/good/tolerances.yaml")
	if err != nil {
		t.Fatal(err)
	}
	const air = "23 °C ± 0.5 K normal"
	if strings.Count(string(file), air) != 1 {
		t.Fatal("the study is another")
	}
	read := func(number string) (Tolerance, error) {
		s, err := Read("tolerances.yaml", []byte(strings.Replace(string(file), air, number, 1)), "yaml")
		if err != nil {
			return Tolerance{}, err
		}
		for _, one := range s.Doubt.Tolerances {
			if one.Input.Key == "air_temperature" {
				return one, nil
			}
		}
		return Tolerance{}, nil
	}
	for number, want := range map[string]Tolerance{
		"23 °C ± Pt100 class B":                 {Within: 0.3 + 0.005*23},
		"-20 °C ± pt100 class a normal":         {Within: 0.15 + 0.002*20, Shape: Normal},
		"23 °C ± type K class 2":                {Within: 2.5},
		"296.15 K +- digital thermometer":       {Within: 0.5},
		"73.4 °F +/- Type K class 1 triangular": {Within: 1.5, Shape: Triangular},
	} {
		got, err := read(number)
		if err != nil || got.Setup != BothSetups || got.Relative || got.Shape != want.Shape || math.Abs(got.Within-want.Within) > 1e-9 {
			t.Errorf("%s: %+v, %v", number, got, err)
		}
	}
	for number, want := range map[string]string{
		"-20 °C ± digital thermometer": `"digital thermometer" has no stated limit of error at this temperature`,
		"23 °C ± Pt1000":               `"Pt1000" is neither a number nor a thermometer`,
		"23 °C ± 10 %":                 `"10 %" is a share of a temperature, whose zero is chosen`,
		"300 °C ± Pt100 class A":       `room.air: "300 °C" is outside its range`,
	} {
		if _, err := read(number); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", number, err, want)
		}
	}
}
