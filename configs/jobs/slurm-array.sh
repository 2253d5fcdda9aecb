#!/bin/sh
# One shard of a study a task, then the merge, under Slurm:
#
#   sbatch --array=1-16 --export=ALL,STUDY=bench.yaml,OUT=out/bench configs/jobs/slurm-array.sh
#   sbatch --dependency=afterok:<number of the first job> --export=ALL,STUDY=bench.yaml,OUT=out/bench configs/jobs/slurm-array.sh
#
# A task takes its shard from the variables of the array; without an array this merges.
# A task that was requeued goes on where it was. If some failed, submit the whole array
# again: shards that are complete are only verified. OUT lies on a disk that all nodes see.
#SBATCH --cpus-per-task=2
#SBATCH --mem=1G
#SBATCH --requeue
set -eu

if [ -n "${SLURM_ARRAY_TASK_ID:-}" ]; then
  exec finduel run "$STUDY" --workers "${SLURM_CPUS_PER_TASK:-2}" \
    --out "$OUT/shard-$SLURM_ARRAY_TASK_ID-of-$SLURM_ARRAY_TASK_COUNT"
fi
exec finduel merge "$OUT"/shard-*-of-* --out "$OUT"
