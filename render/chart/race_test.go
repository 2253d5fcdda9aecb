//go:build race

package chart_test

// underRace says that the race detector watches. Charts start no goroutine and it
// makes drawing thirty times slower, so that only a few pictures are drawn then.
const underRace = true
