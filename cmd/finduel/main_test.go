package main

import (
	"bytes"
	"context"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write goldens and the README's sessions again")

// programs are those that scripts and tests run as processes of their own.
var programs = map[string]func(){"finduel": main, "same": same, "refused": refused4}

func TestMain(m *testing.M) {
	testscript.Main(m, programs)
}

// TestScripts runs the scripts in testdata: the specification of the command line.
func TestScripts(t *testing.T) {
	configs, err := filepath.Abs("../../configs")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("CONFIGS", configs)
			return nil
		},
	})
}

// session is a block of the README that shows a command and what it prints.
var session = regexp.MustCompile("(?s)```console\n\\$ go run ./cmd/finduel ([^\n]*)\n(.*?)```")

// TestReadmeSessions runs the commands that the README shows and compares what
// they print with what the README shows.
func TestReadmeSessions(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks := session.FindAllStringSubmatch(string(readme), -1)
	if len(blocks) == 0 {
		t.Fatal("the README shows no session")
	}
	home, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	configs := filepath.Join(home, "..", "..", "configs")
	t.Chdir(t.TempDir())
	if err := os.Symlink(configs, "configs"); err != nil {
		t.Skipf("no symbolic links here: %v", err)
	}
	text := string(readme)
	for _, block := range blocks {
		var stdout, stderr bytes.Buffer
		if code := run(context.Background(), words(block[1]), &stdout, &stderr); code != exitDone {
			t.Errorf("finduel %s: exit code %d: %s", block[1], code, stderr.String())
			continue
		}
		if got := stdout.String(); got != block[2] {
			if *update {
				text = strings.Replace(text, "$ go run ./cmd/finduel "+block[1]+"\n"+block[2]+"```", "$ go run ./cmd/finduel "+block[1]+"\n"+got+"```", 1)
				continue
			}
			t.Errorf("finduel %s prints\n%s\nthe README shows\n%s", block[1], got, block[2])
		}
	}
	if *update && text != string(readme) {
		if err := os.WriteFile(filepath.Join(home, "..", "..", "README.md"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// words splits a command line at spaces, keeping what stands in double quotes.
func words(line string) []string {
	var list []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			list = append(list, part)
			continue
		}
		list = append(list, strings.Fields(part)...)
	}
	return list
}

func BenchmarkDemo(b *testing.B) {
	dir := b.TempDir()
	for b.Loop() {
		var stdout, stderr bytes.Buffer
		if code := run(context.Background(), []string{"run", "../../configs/booth.yaml", "--out", dir}, &stdout, &stderr); code != exitDone {
			b.Fatal(stderr.String())
		}
	}
}
