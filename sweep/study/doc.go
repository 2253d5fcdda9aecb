// Package study reads a study file: what is compared, under which conditions, and
// what is swept.
//
// A file is YAML, JSON or TOML and takes these steps:
//
//  1. A reader of its format turns the text into a tree in which every key and
//     every value knows its line and column (yaml.go, json.go, toml.go).
//  2. The tree is held against the document that a study is (document.go):
//     unknown, missing and misplaced keys are found (shape.go).
//  3. viper takes what is left and fills the document (codec.go). Values stay
//     text with a place until the next step.
//  4. Text becomes numbers in SI units and words become what they stand for
//     (number.go, word.go); what is not given gets its default (defaults.go);
//     rooms, cores, fans and setups become rigs (rigs.go), the sweep becomes axes
//     (axes.go, exclusions.go).
//  5. What depends on several values is checked (check.go).
//  6. The study gets its hash (hash.go).
//
// All steps report every fault they find, each with its place, what is wrong and
// what would be right (fault.go); there is a Study only if there is no fault.
//
// Reading is strict. A key that means nothing is a fault, not ignored; a number
// with a dimension carries its unit; nothing is converted from one type to
// another, rounded or pulled into a range. YAML's anchors, aliases and tags, and
// several documents in one file, are refused: a study says everything once, in one
// place, and reads the same in all three formats.
//
// The package does not judge whether a study makes sense as physics: a setup that
// would boil is a result, not a fault.
package study
