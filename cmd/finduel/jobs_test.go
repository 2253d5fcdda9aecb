//go:build linux

package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"
)

// shell runs a command as a task of a job array would, with variables of its own.
func shell(t *testing.T, dir string, environment []string, command ...string) {
	t.Helper()
	c := exec.Command(command[0], command[1:]...)
	c.Dir, c.Env = dir, append(os.Environ(), environment...)
	if output, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v: %v: %s", command, err, output)
	}
}

// The example for Slurm, its tasks as plain processes in disorder and one of them
// twice, ends in the points of one run.
func TestSlurmExample(t *testing.T) {
	study, dir := studyOf(t, 6), t.TempDir()
	script, err := filepath.Abs("../../configs/jobs/slurm-array.sh")
	if err != nil {
		t.Fatal(err)
	}
	environment := []string{"STUDY=" + study, "OUT=out"}
	for _, task := range []string{"3", "1", "3", "2"} {
		shell(t, dir, append(environment, "SLURM_ARRAY_TASK_ID="+task, "SLURM_ARRAY_TASK_COUNT=3", "SLURM_ARRAY_TASK_MIN=1", "SLURM_ARRAY_TASK_STEP=1"), script)
	}
	shell(t, dir, environment, script)
	equalPoints(t, filepath.Join(dir, "out"), uninterrupted(t, study))
}

// The example for Kubernetes, its pods as plain processes.
func TestKubernetesExample(t *testing.T) {
	data, err := os.ReadFile("../../configs/jobs/kubernetes-indexed-job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var job struct {
		Kind string
		Spec struct {
			CompletionMode string `yaml:"completionMode"`
			Completions    int
			Template       struct {
				Spec struct {
					Containers []struct {
						Env           []struct{ Name, Value string }
						Command, Args []string
					}
				}
			}
		}
	}
	if err := yaml.Unmarshal(data, &job); err != nil {
		t.Fatal(err)
	}
	if job.Kind != "Job" || job.Spec.CompletionMode != "Indexed" || len(job.Spec.Template.Spec.Containers) != 1 {
		t.Fatalf("it is no Indexed Job of one container: %+v", job)
	}
	container, n := job.Spec.Template.Spec.Containers[0], job.Spec.Completions
	if n < 2 || container.Env[0].Name != shardsVariable || container.Env[0].Value != strconv.Itoa(n) {
		t.Fatalf("%d completions, but %+v", n, container.Env)
	}
	dir := t.TempDir()
	study := studyOf(t, 6)
	source, err := os.ReadFile(study)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "bench.yaml"), source, 0o644); err != nil {
		t.Fatal(err)
	}
	command := append(slices.Clone(container.Command), strings.ReplaceAll(container.Args[0], "/work/", dir+"/"))
	for index := range n {
		shell(t, dir, []string{shardsVariable + "=" + container.Env[0].Value, "JOB_COMPLETION_INDEX=" + strconv.Itoa(index)}, command...)
	}
	if !bytes.Contains(data, []byte("finduel merge /work/out/shard-*-of-"+strconv.Itoa(n)+" --out /work/out/bench\n")) {
		t.Error("the merge that the example names is another one")
	}
	shell(t, dir, nil, "sh", "-c", "finduel merge "+dir+"/out/shard-*-of-"+strconv.Itoa(n)+" --quiet --out "+dir+"/out/bench")
	equalPoints(t, filepath.Join(dir, "out", "bench"), uninterrupted(t, study))
}

// equalPoints checks that the points in a folder are those of a run.
func equalPoints(t *testing.T, dir string, want []string) {
	t.Helper()
	got, err := sums(dir)
	if err != nil {
		t.Fatal(err)
	}
	points := func(list []string) []string {
		return slices.DeleteFunc(slices.Clone(list), func(line string) bool {
			return !strings.Contains(line, "  points/") && !strings.Contains(line, "  manifests/")
		})
	}
	if len(points(want)) != 2*6+1 || !slices.Equal(points(got), points(want)) {
		t.Errorf("the points in %s are not those of one run: %d and %d files", dir, len(points(got)), len(points(want)))
	}
}
