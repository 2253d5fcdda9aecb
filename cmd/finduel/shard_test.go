package main

import (
	"errors"
	"strings"
	"testing"
	"time"

	"finduel/sweep/archive"
)

// The contract of every kind of job array, its base and its mistakes.
func TestShardOfAJobArray(t *testing.T) {
	for _, c := range []struct {
		flag, environment string
		want              archive.Shard
		wrong             string
	}{
		{"", "", archive.Shard{}, ""},
		{"2/5", "", archive.Shard{Number: 2, Of: 5}, ""},
		{"none", "JOB_COMPLETION_INDEX=1 SLURM_ARRAY_TASK_ID=x", archive.Shard{}, ""},
		{"5/2", "", archive.Shard{}, "the last 2/2"},

		{"", "SLURM_ARRAY_TASK_ID=0 SLURM_ARRAY_TASK_COUNT=4 SLURM_ARRAY_TASK_MIN=0 SLURM_ARRAY_TASK_STEP=1", archive.Shard{Number: 1, Of: 4}, ""},
		{"", "SLURM_ARRAY_TASK_ID=4 SLURM_ARRAY_TASK_COUNT=4 SLURM_ARRAY_TASK_MIN=1 SLURM_ARRAY_TASK_STEP=1", archive.Shard{Number: 4, Of: 4}, ""},
		{"", "SLURM_ARRAY_TASK_ID=7 SLURM_ARRAY_TASK_COUNT=4 SLURM_ARRAY_TASK_MIN=1 SLURM_ARRAY_TASK_STEP=2", archive.Shard{Number: 4, Of: 4}, ""},
		{"4/4", "SLURM_ARRAY_TASK_ID=4 SLURM_ARRAY_TASK_COUNT=4 SLURM_ARRAY_TASK_MIN=1", archive.Shard{Number: 4, Of: 4}, ""},
		{"3/4", "SLURM_ARRAY_TASK_ID=4 SLURM_ARRAY_TASK_COUNT=4 SLURM_ARRAY_TASK_MIN=1", archive.Shard{}, "--shard says 3/4, but SLURM_ARRAY_TASK_ID=4 of Slurm means 4/4"},
		{"4/5", "SLURM_ARRAY_TASK_ID=4 SLURM_ARRAY_TASK_COUNT=4 SLURM_ARRAY_TASK_MIN=1", archive.Shard{}, "--shard says 4/5"},
		{"", "SLURM_ARRAY_TASK_ID=9 SLURM_ARRAY_TASK_COUNT=4 SLURM_ARRAY_TASK_MIN=1", archive.Shard{}, "the last 4/4"},
		{"", "SLURM_ARRAY_TASK_ID=one SLURM_ARRAY_TASK_COUNT=4", archive.Shard{}, `SLURM_ARRAY_TASK_ID is "one"`},
		{"", "SLURM_ARRAY_TASK_ID=5 SLURM_ARRAY_TASK_COUNT=3 SLURM_ARRAY_TASK_MIN=1 SLURM_ARRAY_TASK_MAX=9 SLURM_ARRAY_TASK_STEP=4", archive.Shard{Number: 2, Of: 3}, ""},
		{"", "SLURM_ARRAY_TASK_ID=1 SLURM_ARRAY_TASK_COUNT=1 SLURM_ARRAY_TASK_MIN=1 SLURM_ARRAY_TASK_MAX=1 SLURM_ARRAY_TASK_STEP=1", archive.Shard{Number: 1, Of: 1}, ""},
		{"", "SLURM_ARRAY_TASK_ID=3 SLURM_ARRAY_TASK_COUNT=2 SLURM_ARRAY_TASK_MIN=3 SLURM_ARRAY_TASK_MAX=7 SLURM_ARRAY_TASK_STEP=1", archive.Shard{}, "in a job array of 2 tasks from 3 to 7: these are some tasks of a larger one"},
		{"", "SLURM_ARRAY_TASK_ID=7 SLURM_ARRAY_TASK_COUNT=1 SLURM_ARRAY_TASK_MIN=7 SLURM_ARRAY_TASK_MAX=7 SLURM_ARRAY_TASK_STEP=1", archive.Shard{}, "in a job array of 1 task from 7 to 7: these are some tasks of a larger one"},
		{"3/16", "SLURM_ARRAY_TASK_ID=3 SLURM_ARRAY_TASK_COUNT=2 SLURM_ARRAY_TASK_MIN=3 SLURM_ARRAY_TASK_MAX=7 SLURM_ARRAY_TASK_STEP=1", archive.Shard{Number: 3, Of: 16}, ""},
		{"", "SLURM_ARRAY_TASK_ID=1 SLURM_ARRAY_TASK_COUNT=4 FINDUEL_SHARDS=5", archive.Shard{}, "FINDUEL_SHARDS is 5, but the job array of Slurm has 4"},

		{"", "JOB_COMPLETION_INDEX=0 FINDUEL_SHARDS=3", archive.Shard{Number: 1, Of: 3}, ""},
		{"", "JOB_COMPLETION_INDEX=2 FINDUEL_SHARDS=3", archive.Shard{Number: 3, Of: 3}, ""},
		{"", "JOB_COMPLETION_INDEX=3 FINDUEL_SHARDS=3", archive.Shard{}, "the last 3/3"},
		{"", "JOB_COMPLETION_INDEX=2", archive.Shard{}, "not how many there are"},
		{"3/3", "JOB_COMPLETION_INDEX=2", archive.Shard{Number: 3, Of: 3}, ""},
		{"2/3", "JOB_COMPLETION_INDEX=2", archive.Shard{}, "--shard says 2/3, but JOB_COMPLETION_INDEX=2 of Kubernetes means 3/3"},
		{"", "AWS_BATCH_JOB_ARRAY_INDEX=1 FINDUEL_SHARDS=3", archive.Shard{Number: 2, Of: 3}, ""},
		{"", "AWS_BATCH_JOB_ARRAY_INDEX=1", archive.Shard{}, "not how many there are"},
		{"", "NOMAD_ALLOC_INDEX=1 FINDUEL_SHARDS=3", archive.Shard{Number: 2, Of: 3}, ""},
		{"", "NOMAD_ALLOC_INDEX=1", archive.Shard{}, ""},
		{"", "PARALLEL_SEQ=1 FINDUEL_SHARDS=3", archive.Shard{Number: 1, Of: 3}, ""},
		{"", "PARALLEL_SEQ=3 FINDUEL_SHARDS=3", archive.Shard{Number: 3, Of: 3}, ""},
		{"", "PARALLEL_SEQ=4 FINDUEL_SHARDS=3", archive.Shard{}, "the last 3/3"},
		{"", "PARALLEL_SEQ=4", archive.Shard{}, ""},
		{"2/3", "PARALLEL_SEQ=7", archive.Shard{Number: 2, Of: 3}, ""},

		{"", "JOB_COMPLETION_INDEX=1 NOMAD_ALLOC_INDEX=1 FINDUEL_SHARDS=3", archive.Shard{Number: 2, Of: 3}, ""},
		{"", "JOB_COMPLETION_INDEX=1 PARALLEL_SEQ=1 FINDUEL_SHARDS=3", archive.Shard{}, "JOB_COMPLETION_INDEX=1 of Kubernetes means 2/3, but PARALLEL_SEQ=1 of GNU parallel means 1/3"},
		{"", "FINDUEL_SHARDS=3", archive.Shard{}, "nothing says which"},
		{"1/3", "FINDUEL_SHARDS=3", archive.Shard{Number: 1, Of: 3}, ""},
		{"1/4", "FINDUEL_SHARDS=3", archive.Shard{}, "--shard says 1/4, but FINDUEL_SHARDS is 3"},
	} {
		values := map[string]string{}
		for _, word := range strings.Fields(c.environment) {
			name, value, _ := strings.Cut(word, "=")
			values[name] = value
		}
		got, err := shardOf(c.flag, func(name string) string { return values[name] })
		if got != c.want || (err == nil) != (c.wrong == "") || err != nil && !strings.Contains(err.Error(), c.wrong) {
			t.Errorf("--shard %q with %q: %v (%v), want %v (%q)", c.flag, c.environment, got, err, c.want, c.wrong)
		}
		var f *failure
		if err != nil && (!errors.As(err, &f) || f.code != exitUsage || f.hint == "") {
			t.Errorf("--shard %q with %q: %v is no wrong use with a hint", c.flag, c.environment, err)
		}
	}
}

// Progress says the share, the rate, the time left and what has failed, and keeps within
// the width of a terminal.
func TestProgress(t *testing.T) {
	p := watch(nil, true, "points", 4_000_000, 1_000_000)
	defer p.stop()
	if got := p.say(time.Second, 0); got != "25 %, 1 000 000 of 4 000 000 points" {
		t.Errorf("at the beginning: %s", got)
	}
	p.done.Add(1_000_000)
	if got := p.say(4*time.Second, 0); got != "50 %, 2 000 000 of 4 000 000 points, 250 000 points/s, 8 s left" {
		t.Errorf("half way: %s", got)
	}
	p.failed.Add(1234)
	if got := p.say(400*time.Second, 0); got != "50 %, 2 000 000 of 4 000 000 points, 2 500 points/s, 13 min left, 1 234 failed" {
		t.Errorf("half way, slowly: %s", got)
	}
	for _, c := range []struct {
		room int
		want string
	}{
		{78, "50 %, 2 000 000 of 4 000 000 points, 2 500 points/s, 13 min left, 1 234 failed"},
		{77, "50 %, 2 500 points/s, 13 min left, 1 234 failed"},
		{45, "50 %, 13 min left, 1 234 failed"},
		{3, "50 %"},
	} {
		if got := p.say(400*time.Second, c.room); got != c.want {
			t.Errorf("in %d letters: %s", c.room, got)
		}
	}
	if got := p.say(4_000_000*time.Second, 0); got != "50 %, 2 000 000 of 4 000 000 points, 2222 h left, 1 234 failed" {
		t.Errorf("at less than one a second: %s", got)
	}
	p.done.Add(2_000_000)
	if got := p.say(400*time.Second, 0); got != "100 %, 4 000 000 of 4 000 000 points, nearly done, 1 234 failed" {
		t.Errorf("when all are counted: %s", got)
	}
}
