//go:build !race

package chart_test

const underRace = false
