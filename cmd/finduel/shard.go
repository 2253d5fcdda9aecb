package main

import (
	"fmt"
	"strconv"
	"strings"

	"finduel/render"
	"finduel/sweep/archive"
)

// array says how a scheduler tells a task of a job array which one it is.
type array struct {
	name        string
	index       string // variable with the number of the task
	base        int    // number of the first task, if there is no variable for it
	least, most string // variables with the numbers of the first task and the last; may be empty
	step, count string // variables with the step between them and how many there are; may be empty
	alone       bool   // whether a set index means a job array even if nothing says how many tasks it has
}

// shardsVariable says how many shards there are where the scheduler does not.
const shardsVariable = "FINDUEL_SHARDS"

// arrays lists the job arrays that are known.
var arrays = []array{
	{name: "Slurm", index: "SLURM_ARRAY_TASK_ID", least: "SLURM_ARRAY_TASK_MIN", most: "SLURM_ARRAY_TASK_MAX", step: "SLURM_ARRAY_TASK_STEP", count: "SLURM_ARRAY_TASK_COUNT", alone: true},
	{name: "Kubernetes", index: "JOB_COMPLETION_INDEX", alone: true},
	{name: "AWS Batch", index: "AWS_BATCH_JOB_ARRAY_INDEX", alone: true},
	{name: "Nomad", index: "NOMAD_ALLOC_INDEX"},
	{name: "GNU parallel", index: "PARALLEL_SEQ", base: 1},
}

// shardOf returns the shard that is asked for: by the flag, "none" meaning the whole
// run whatever the variables say, or else by the variables of a job array. Flag and
// variables that disagree are an error, as are variables that disagree.
func shardOf(flag string, environment func(string) string) (archive.Shard, error) {
	if flag == "none" {
		return archive.Shard{}, nil
	}
	var given archive.Shard
	source := ""
	if flag != "" {
		var err error
		if given, err = archive.ParseShard(flag); err != nil {
			return archive.Shard{}, usage("--shard "+err.Error(), "shards count from 1; --shard none computes everything")
		}
		source = "--shard says " + given.String()
	}
	shards, err := numberOf(environment, shardsVariable, 0)
	if err != nil {
		return archive.Shard{}, err
	}
	for _, a := range arrays {
		if environment(a.index) == "" {
			continue
		}
		shard, ok, err := a.shard(environment, shards, given)
		if err != nil {
			return archive.Shard{}, err
		}
		if !ok {
			continue
		}
		says := fmt.Sprintf("%s=%s of %s means %s", a.index, environment(a.index), a.name, shard)
		if source != "" && shard != given {
			return archive.Shard{}, usage(source+", but "+says, "give one of them only; --shard none computes everything")
		}
		given, source = shard, says
	}
	if source != "" && shards > 0 && given.Of != shards {
		return archive.Shard{}, usage(fmt.Sprintf("%s, but %s is %d", source, shardsVariable, shards), "remove "+shardsVariable)
	}
	if source == "" && shards > 0 {
		return archive.Shard{}, usage(fmt.Sprintf("%s is %d, but nothing says which of them this is", shardsVariable, shards), "give --shard K/N, or run it as a task of a job array")
	}
	return given, nil
}

// shard returns the shard that the variables of a job array mean, and false if they
// mean none. shards is how many there are if the scheduler does not say; flag is the
// shard given by the flag.
func (a array) shard(environment func(string) string, shards int, flag archive.Shard) (archive.Shard, bool, error) {
	index, err := numberOf(environment, a.index, 0)
	if err != nil {
		return archive.Shard{}, false, err
	}
	least, err := numberOf(environment, a.least, a.base)
	if err != nil {
		return archive.Shard{}, false, err
	}
	step, err := numberOf(environment, a.step, 1)
	if err != nil {
		return archive.Shard{}, false, err
	}
	step = max(step, 1)
	of, err := numberOf(environment, a.count, shards)
	if err != nil {
		return archive.Shard{}, false, err
	}
	most, err := numberOf(environment, a.most, least+(of-1)*step)
	if err != nil {
		return archive.Shard{}, false, err
	}
	partly := (most-least)/step+1 != of || of == 1 && least > 1 // as when those that failed are submitted again
	switch {
	case a.most != "" && partly && !flag.Whole():
		return archive.Shard{}, false, nil // the flag alone says which shard this is
	case a.most != "" && partly:
		return archive.Shard{}, false, usage(fmt.Sprintf("%s=%d of %s, in a job array of %s from %d to %d: these are some tasks of a larger one, and which shards they are does not follow", a.index, index, a.name, render.Counted(of, "task"), least, most),
			"submit the whole array again, shards that are complete are only verified; or say with --shard K/N which this is")
	case of == 0 && !flag.Whole():
		of = flag.Of // the flag says how many; the index must still agree
	case of == 0 && !a.alone:
		return archive.Shard{}, false, nil
	case of == 0:
		return archive.Shard{}, false, usage(fmt.Sprintf("%s is set, so this is a task of a job array of %s, but not how many there are", a.index, a.name),
			"set "+shardsVariable+" to the number of tasks; --shard none computes everything in each of them")
	case shards != 0 && of != shards:
		return archive.Shard{}, false, usage(fmt.Sprintf("%s is %d, but the job array of %s has %d tasks", shardsVariable, shards, a.name, of), "remove "+shardsVariable)
	}
	if !a.alone && shards == 0 {
		return archive.Shard{}, false, nil // set for every command, whatever it is
	}
	shard, err := archive.ParseShard(fmt.Sprintf("%d/%d", (index-least)/step+1, of))
	if err != nil {
		return archive.Shard{}, false, usage(fmt.Sprintf("%s=%d of %s: %v", a.index, index, a.name, err), fmt.Sprintf("the first task is %d; check how many there are", least))
	}
	return shard, true, nil
}

// numberOf returns the whole number in a variable; other if it is not set.
func numberOf(environment func(string) string, name string, other int) (int, error) {
	text := ""
	if name != "" {
		text = strings.TrimSpace(environment(name))
	}
	if text == "" {
		return other, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 {
		return 0, usage(fmt.Sprintf("%s is %q, not a whole number", name, text), "unset it, or correct it")
	}
	return n, nil
}
