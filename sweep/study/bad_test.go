package study

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

const badFolder = "../../testdata/studies/bad"

// bad holds, for every file of the folder, all that Load must say of it, in order,
// each message followed by its hint.
var bad = map[string][]string{}

// TestBadStudies holds every bad study against what must be said of it.
func TestBadStudies(t *testing.T) {
	files, err := os.ReadDir(badFolder)
	if err != nil {
		t.Fatal(err)
	}
	if len(files) < 60 {
		t.Errorf("only %d bad studies were found", len(files))
	}
	for _, file := range files {
		t.Run(file.Name(), func(t *testing.T) {
			want, ok := bad[file.Name()]
			if !ok || len(want) == 0 {
				t.Fatal("the table does not say what is wrong with it")
			}
			s, err := Load(filepath.Join(badFolder, file.Name()))
			var faults Faults
			if !errors.As(err, &faults) || s != nil {
				t.Fatalf("Load gives the study %v and the error %v, want faults alone", s, err)
			}
			var got []string
			for _, f := range faults {
				f.File = file.Name()
				got = append(got, f.Error(), f.Hint)
			}
			if !slices.Equal(got, want) {
				t.Errorf("got\n%q\nwant\n%q", got, want)
			}
		})
	}
	for name := range bad {
		if _, err := os.Stat(filepath.Join(badFolder, name)); err != nil {
			t.Errorf("the table names a file that is not there: %v", err)
		}
	}
}
