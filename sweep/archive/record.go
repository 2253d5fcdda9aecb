package archive

import (
	"encoding/json"
	"io"
)

// Record is the record of a run. Readers should ignore fields they do not know.
type Record struct {
	Program string `json:"program"` // "finduel"
	Version string `json:"version"` // of finduel
	Study   string `json:"study"`   // name of the study
	Hash    string `json:"study_hash"`
	Seed    uint64 `json:"seed"`

	Points   int `json:"points"`   // in the plan
	Excluded int `json:"excluded"` // left out by the study
	Computed int `json:"computed"` // with a value
	Failed   int `json:"failed"`   // without a value; their reasons are in points.csv

	Files []string `json:"files"` // written, relative to the folder of this file
}

// WriteRecord writes the record as JSON.
func WriteRecord(w io.Writer, r Record) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(r)
}
