// Package reports makes up finished reports for the tests of the renderers, and
// the two setups that the tests of the sweep compute with.
//
// Every number in the reports is invented: smooth curves of the right shape and
// rough size, from no model and no measurement. They prove nothing about cooling;
// they let a renderer be tested on every kind of answer without a model.
package reports
