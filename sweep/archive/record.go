package archive

import (
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
)

// RecordFile is the name of the record in the folder of a run. It is written last: a
// folder without it is not complete.
const RecordFile = "run.json"

// program is the name of the program in a record.
const program = "finduel"

// Record is the record of a run. Readers should ignore fields they do not know.
type Record struct {
	Program string `json:"program"` // "finduel"; WriteRecord sets it
	Version string `json:"version"` // of finduel
	Study   string `json:"study"`   // name of the study
	Hash    string `json:"study_hash"`
	Seed    uint64 `json:"seed"`
	Shard   string `json:"shard,omitempty"` // e.g. "3/8"; empty: the whole run

	Points   int `json:"points"`   // in the plan
	Excluded int `json:"excluded"` // left out by the study
	Computed int `json:"computed"` // with a value
	Failed   int `json:"failed"`   // without a value; their reasons are in the rows
	Chunks   int `json:"chunks"`   // in points/

	Files []string `json:"files"` // written, relative to the folder of this file; points/ and manifests/ apart
}

// WriteRecord writes the record as JSON.
func WriteRecord(w io.Writer, r Record) error {
	r.Program = program
	return writeJSON(w, r)
}

// ReadRecord reads the record in the folder of a run. The error is fs.ErrNotExist if
// there is none.
func ReadRecord(disk FileSystem, folder string) (Record, error) {
	var r Record
	path := filepath.Join(folder, RecordFile)
	data, err := readFile(disk, path)
	if err != nil {
		return r, err
	}
	if err := json.Unmarshal(data, &r); err != nil {
		return r, fmt.Errorf("%s: %w", path, errDamaged)
	}
	return r, nil
}
