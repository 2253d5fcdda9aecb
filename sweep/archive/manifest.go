package archive

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"path/filepath"

	"finduel/model"
	"finduel/sweep"
)

// Identity is what a run is. Runs of one identity have the same rows.
type Identity struct {
	Version string `json:"version"` // of finduel
	Study   string `json:"study"`   // its name
	Hash    string `json:"study_hash"`
	Seed    uint64 `json:"seed"`
	Points  int    `json:"points"`       // of the plan, excluded ones included
	Chunk   int    `json:"chunk_points"` // points of a chunk
}

// IdentityOf returns the identity of a run of a plan.
func IdentityOf(plan *sweep.Plan, seed uint64, version string) Identity {
	return Identity{
		Study: plan.Study.Name, Hash: plan.Study.Hash, Seed: seed, Version: version,
		Points: plan.Points(), Chunk: plan.ChunkPoints(),
	}
}

// Manifest says what a chunk is. A chunk is there only if its manifest is, the
// manifest is of this run, and length and checksum of the data are those that the
// manifest names. It depends on the rows alone: no clock, no host.
type Manifest struct {
	Version string `json:"version"`
	Study   string `json:"study"`
	Hash    string `json:"study_hash"`
	Seed    uint64 `json:"seed"`
	Points  int    `json:"points"`       // of the plan
	Size    int    `json:"chunk_points"` // points of a chunk of the plan

	Chunk  int    `json:"chunk"`  // its number, from 0
	First  int    `json:"first"`  // its first point
	Rows   int    `json:"rows"`   // points that are not left out
	Failed int    `json:"failed"` // of them those without a value
	Bytes  int64  `json:"bytes"`  // length of the data
	SHA256 string `json:"sha256"` // of the data, in hex
	Probe  string `json:"probe"`  // SHA-256, in hex, of a few of its rows: what the model must still say
}

// identity returns the identity of the run that the chunk belongs to.
func (m *Manifest) identity() Identity {
	return Identity{Study: m.Study, Hash: m.Hash, Seed: m.Seed, Version: m.Version, Points: m.Points, Chunk: m.Size}
}

// Where things are in the folder of a run. The manifests have a folder of their own
// so that whatever reads a folder of Parquet files finds nothing else.
const (
	pointsFolder    = "points"
	manifestsFolder = "manifests"
	identityName    = "identity.json" // in the folder of the manifests: of the run that began last
)

func dataPath(folder string, chunk int) string {
	return filepath.Join(folder, pointsFolder, fmt.Sprintf("%06d.parquet", chunk))
}

func manifestPath(folder string, chunk int) string {
	return filepath.Join(folder, manifestsFolder, fmt.Sprintf("%06d.json", chunk))
}

// writeChunk writes the data of a chunk and then its manifest.
func writeChunk(disk FileSystem, folder string, m *Manifest, data []byte) error {
	if err := writeFile(disk, dataPath(folder, m.Chunk), func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}); err != nil {
		return err
	}
	return writeFile(disk, manifestPath(folder, m.Chunk), func(w io.Writer) error { return writeJSON(w, m) })
}

// errDamaged says that a chunk is there and not what its manifest says.
var errDamaged = errors.New("damaged")

// errLength says that the columns of a chunk are not equally long.
var errLength = errors.New("its columns are not equally long")

// readManifest reads a manifest; errDamaged if it is none.
func readManifest(disk FileSystem, folder string, chunk int) (*Manifest, error) {
	data, err := readFile(disk, manifestPath(folder, chunk))
	if err != nil {
		return nil, err
	}
	m := new(Manifest)
	if json.Unmarshal(data, m) != nil || m.Chunk != chunk {
		return nil, fmt.Errorf("%s: %w", manifestPath(folder, chunk), errDamaged)
	}
	return m, nil
}

// readData returns the data of a chunk; errDamaged if they are not those that the
// manifest names.
func readData(disk FileSystem, folder string, m *Manifest) ([]byte, error) {
	path := dataPath(folder, m.Chunk)
	data, err := readFile(disk, path)
	if err != nil {
		return nil, err
	}
	if int64(len(data)) != m.Bytes || checksum(data) != m.SHA256 {
		return nil, fmt.Errorf("%s: %w", path, errDamaged)
	}
	return data, nil
}

func checksum(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// probes is how many points of a chunk are asked again before it is used again, each
// alone, and walked how many from its first on, one after another as a run asks them: a
// walk begins anew where there is no value, and takes some points to be in its stride.
const (
	probes = 8
	walked = 32
)

// start returns the points of a chunk that are asked again one after another.
func start(span sweep.Span) sweep.Span {
	return sweep.Span{From: span.From, To: min(span.From+walked, span.To)}
}

// probe returns the checksum of the first rows of a chunk, and of what the model says of a
// few of its points, spread evenly, each asked alone. Taken when the chunk is kept and
// again when it is to be used, it tells chunks that the program of today would not make:
// one that was changed and not its version, or on a machine that rounds otherwise.
func (s *Store) probe(span sweep.Span, first []sweep.Row) string {
	sum := sha256.New()
	add := func(rows []sweep.Row) {
		for i := range rows {
			r := &rows[i]
			numbers := []float64{r.Reference}
			for i := range model.Outputs {
				numbers = append(numbers, model.Outputs[i].Get(&r.State))
			}
			for _, v := range numbers {
				sum.Write(binary.LittleEndian.AppendUint64(nil, math.Float64bits(v)))
			}
			fmt.Fprintf(sum, "%d %s\n", r.State.Warnings, r.Failure)
		}
	}
	add(first)
	for i := range probes {
		k := span.From + i*(span.To-1-span.From)/(probes-1)
		add(sweep.Stretch(s.plan, s.model, sweep.Span{From: k, To: k + 1}))
	}
	return hex.EncodeToString(sum.Sum(nil))
}

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}
