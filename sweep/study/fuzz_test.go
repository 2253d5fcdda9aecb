package study

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"finduel/model"
)

// FuzzLoad reads anything: there is either a study in which every number is one
// that its input allows, or faults that say where they are.
func FuzzLoad(f *testing.F) {
	seeds := 0
	for _, pattern := range []string{"../../testdata/studies/*/*", "../../configs/*"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			f.Fatalf("no seeds in %s: %v", pattern, err)
		}
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data, strings.TrimPrefix(filepath.Ext(file), "."))
			seeds++
		}
	}
	if seeds < 60 {
		f.Fatalf("only %d seeds", seeds)
	}
	f.Fuzz(func(t *testing.T, data []byte, format string) {
		if _, ok := readers[format]; !ok {
			format = "yaml"
		}
		s, err := Read("fuzz", data, format)
		if err != nil {
			var faults Faults
			if !errors.As(err, &faults) {
				t.Fatalf("not faults, but %v", err)
			}
			for _, fault := range faults {
				if fault.Line < 1 || fault.Column < 0 || strings.ContainsAny(fault.Error(), "\n\r") || fault.Rule == "" {
					t.Errorf("no fault as it should be: %+v", fault)
				}
			}
			return
		}
		inOrder(t, s)
	})
}

// inOrder checks what must hold of every study.
func inOrder(t *testing.T, s *Study) {
	t.Helper()
	derived := map[string]bool{"face_area": true, "overall_thickness": true}
	for _, setup := range s.Setups {
		for _, in := range model.Inputs {
			v := in.Get(&setup.Rig)
			estimated := in.Key == "rotor_diameter" && v == 0 || in.Unused(&setup.Rig)
			if math.IsNaN(v) || math.IsInf(v, 0) || in.Check(v) != nil && !derived[in.Key] && !estimated {
				t.Errorf("setup %s has the %s %v", setup.Name, in.Key, v)
			}
		}
		if _, err := model.Prepare(setup.Rig); err != nil {
			t.Errorf("setup %s cannot be: %v", setup.Name, err)
		}
	}
	if len(s.Setups) < 2 || s.Challenger == s.Reference || s.Name == "" || s.Hash == "" || len(s.Axes) == 0 {
		t.Errorf("the study is not whole: %+v", s)
	}
	for _, a := range s.Axes {
		if len(a.Values) == 0 {
			t.Errorf("axis %s is empty", a.Input.Key)
		}
		for _, v := range a.Values {
			if err := a.Input.Check(v); err != nil {
				t.Errorf("axis %s has the value %v: %v", a.Input.Key, v, err)
			}
		}
	}
	for _, e := range s.Exclusions {
		for _, c := range e {
			if math.IsNaN(c.Above) || math.IsNaN(c.Below) || math.IsInf(c.Above, 0) == math.IsInf(c.Below, 0) {
				t.Errorf("the condition %+v says nothing", c)
			}
		}
	}
}
