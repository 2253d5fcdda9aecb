package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// same compares the folders of two runs: every file, by its SHA-256, but those under a
// temporary name and the shards that may lie inside. It is a program for scripts.
func same() {
	a, errA := sums(os.Args[1])
	b, errB := sums(os.Args[2])
	if errA != nil || errB != nil || len(a) < 10 {
		fmt.Fprintln(os.Stderr, "cannot compare:", errA, errB, len(a), "files")
		os.Exit(2)
	}
	if slices.Equal(a, b) {
		return
	}
	fmt.Fprintf(os.Stderr, "they differ:\n%s\n\n%s\n", strings.Join(a, "\n"), strings.Join(b, "\n"))
	os.Exit(1)
}

// sums returns a line with name and SHA-256 for every file of a run.
func sums(dir string) ([]string, error) {
	var list []string
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if e.IsDir() {
			if strings.HasPrefix(e.Name(), "shard-") && path != dir {
				return fs.SkipDir
			}
			return nil
		}
		if strings.HasSuffix(e.Name(), ".part") {
			return nil
		}
		f, err := os.Open(path)
		if err != nil {
			return err
		}
		defer f.Close()
		sum := sha256.New()
		if _, err := io.Copy(sum, f); err != nil {
			return err
		}
		name, err := filepath.Rel(dir, path)
		list = append(list, fmt.Sprintf("%x  %s", sum.Sum(nil), filepath.ToSlash(name)))
		return err
	})
	return list, err
}

// refused4 runs a command that must be refused: exit code 4, nothing on stdout. It is a
// program for scripts.
func refused4() {
	c := exec.Command(os.Args[1], os.Args[2:]...)
	var stdout bytes.Buffer
	c.Stdout = &stdout
	if c.Run(); c.ProcessState.ExitCode() != exitRefused || stdout.Len() > 0 {
		fmt.Fprintf(os.Stderr, "exit code %d, stdout %q\n", c.ProcessState.ExitCode(), stdout.String())
		os.Exit(1)
	}
}
