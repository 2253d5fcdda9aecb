// Package finduel_test holds what is true of the whole house.
package finduel_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// owners names, for each library that must have one owner, who that is.
var owners = map[string]string{
	"github.com/spf13/viper":           "sweep/study",
	"github.com/parquet-go/parquet-go": "sweep/archive",
	"golang.org/x/sync":                "sweep",
	"gonum.org/v1/plot":                "render/chart",
	"github.com/xuri/excelize/v2":      "render/workbook",
	"github.com/spf13/cobra":           "cmd",
	"github.com/spf13/pflag":           "cmd",
	"gonum.org/v1/gonum":               "sweep/doubt",
}

// floors lists the storeys of the house from the ground up: a package may import
// its own storey and those below.
var floors = []string{"model", "sweep", "render", "cmd"}

// TestImportsGoOneWay walks every Go file of the house, tests left out, and
// checks who imports whom.
func TestImportsGoOneWay(t *testing.T) {
	seen := map[string]bool{}
	imports := 0
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || strings.HasPrefix(path, "testdata") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		place := filepath.ToSlash(filepath.Dir(path))
		seen[strings.SplitN(place, "/", 2)[0]] = true
		for _, spec := range f.Imports {
			imported, _ := strconv.Unquote(spec.Path.Value)
			imports++
			if why := forbidden(place, imported); why != "" {
				t.Errorf("%s imports %s: %s", path, imported, why)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, floor := range floors {
		if !seen[floor] {
			t.Errorf("no package of %s was looked at", floor)
		}
	}
	if imports < 100 {
		t.Errorf("only %d imports were looked at", imports)
	}
}

// forbidden says why place may not import a package, or nothing if it may.
func forbidden(place, imported string) string {
	if floorOf(place) == 0 && imported != "math" && imported != "errors" && !strings.HasPrefix(imported, "finduel/model/") {
		return "the model needs nothing but math and errors"
	}
	if imported == "unsafe" {
		return "nothing here needs it"
	}
	for library, owner := range owners {
		if (imported == library || strings.HasPrefix(imported, library+"/")) && place != owner && !strings.HasPrefix(place, owner+"/") {
			return library + " belongs to " + owner
		}
	}
	if ours, ok := strings.CutPrefix(imported, "finduel/"); ok && floorOf(ours) > floorOf(place) {
		return "imports go one way: cmd, render, sweep, model"
	}
	return ""
}

func floorOf(place string) int {
	for i, floor := range floors {
		if place == floor || strings.HasPrefix(place, floor+"/") {
			return i
		}
	}
	return len(floors)
}

// TestForbidden shows that the check above can fail.
func TestForbidden(t *testing.T) {
	for _, c := range []struct {
		place, imported string
		allowed         bool
	}{
		{"model", "finduel/model/air", true},
		{"model/air", "fmt", false},
		{"model", "finduel/sweep", false},
		{"sweep", "finduel/model", true},
		{"sweep/archive", "unsafe", false},
		{"sweep", "finduel/render", false},
		{"sweep/study", "github.com/spf13/viper", true},
		{"sweep", "github.com/spf13/viper", false},
		{"sweep/breakeven", "golang.org/x/sync/errgroup", true},
		{"sweep/archive", "github.com/parquet-go/parquet-go/encoding", true},
		{"sweep", "github.com/parquet-go/parquet-go", false},
		{"render/sheet", "golang.org/x/sync/errgroup", false},
		{"render/chart", "gonum.org/v1/plot/vg", true},
		{"render/workbook", "gonum.org/v1/plot", false},
		{"cmd/finduel", "finduel/render/chart", true},
		{"render", "finduel/cmd/finduel", false},
	} {
		if why := forbidden(c.place, c.imported); (why == "") != c.allowed {
			t.Errorf("%s importing %s: allowed is %v, got %q", c.place, c.imported, c.allowed, why)
		}
	}
}
