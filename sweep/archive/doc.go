// Package archive keeps what a run computed: the points as a table, and the
// record of the run itself.
//
// Every file is written under a temporary name in its own folder, flushed to the
// disk and renamed: a file that is there is whole. What is written depends on the
// study, the seed and the version only; no clock, host or worker count enters.
package archive
