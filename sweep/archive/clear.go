package archive

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"time"
)

// chunkName is the name of the data of a chunk, or of its manifest; partName is that of
// a file while it is written, with the name that it is to have.
var (
	chunkName = regexp.MustCompile(`^[0-9]{6,}\.(parquet|json)$`)
	partName  = regexp.MustCompile(`^\.(.+)\.[0-9]+\.part$`)
)

// found is a file of a run.
type found struct {
	path string
	name string // relative to the folder of the run, with slashes; of a part, that of the whole file
	part bool   // half-written: a run was stopped, or is writing it now
	when time.Time
}

// findFiles returns the files in the folder of a run that are of the run: chunks, manifests,
// the record and outputs, whole or half-written. outputs are names relative to the
// folder, with slashes, as path.Match reads them. Nothing else is looked at: a folder may
// have files of its owner beside those of a run.
func findFiles(disk FileSystem, folder string, outputs []string) ([]found, error) {
	ours := func(name string) bool {
		dir, base := path.Split(name)
		switch dir {
		case pointsFolder + "/", manifestsFolder + "/":
			return chunkName.MatchString(base) || name == manifestsFolder+"/"+identityName
		case "":
			if base == RecordFile || base == answersName {
				return true
			}
		}
		return slices.ContainsFunc(outputs, func(o string) bool { ok, _ := path.Match(o, name); return ok })
	}
	folders := []string{".", pointsFolder, manifestsFolder}
	for _, o := range outputs {
		if dir := path.Dir(o); !slices.Contains(folders, dir) {
			folders = append(folders, dir)
		}
	}
	var list []found
	for _, sub := range folders {
		entries, err := disk.List(filepath.Join(folder, filepath.FromSlash(sub)))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("cannot look into the folder: %w", err)
		}
		for _, e := range entries {
			f := found{path: filepath.Join(folder, filepath.FromSlash(sub), e.Name()), name: e.Name()}
			if m := partName.FindStringSubmatch(f.name); m != nil {
				f.name, f.part = m[1], true
			}
			f.name = path.Join(sub, f.name)
			if e.IsDir() || !ours(f.name) {
				continue
			}
			if info, err := e.Info(); err == nil { // else it was removed meanwhile
				f.when = info.ModTime()
				list = append(list, f)
			}
		}
	}
	return list, nil
}

// Begin marks a folder, which is made if it is not there, as that of a run, before
// anything of the run is in it. What another run has marked is marked anew.
func Begin(disk FileSystem, folder string, id Identity) error {
	return writeFile(disk, filepath.Join(folder, manifestsFolder, identityName), func(w io.Writer) error { return writeJSON(w, id) })
}

// Strangers returns the paths of the files in a folder that have names of a run's files
// though no run has begun in it, so that they are somebody's own and a run would write
// over them. outputs are as in Clear.
func Strangers(disk FileSystem, folder string, outputs []string) ([]string, error) {
	if _, err := disk.List(filepath.Join(folder, manifestsFolder)); err == nil {
		return nil, nil
	} else if !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("cannot look into the folder: %w", err)
	}
	if record, err := ReadRecord(disk, folder); err == nil && record.Program == program {
		return nil, nil
	}
	files, err := findFiles(disk, folder, outputs)
	if err != nil {
		return nil, err
	}
	var list []string
	for _, f := range files {
		if !f.part {
			list = append(list, f.path)
		}
	}
	return list, nil
}

// Clear removes from a folder what runs left there, whether they finished or not: the
// record first, the files it names, all chunks and manifests, and outputs, which are
// names relative to the folder, with slashes, as path.Match reads them. Nothing else is
// touched.
func Clear(disk FileSystem, folder string, outputs []string) error {
	record, err := ReadRecord(disk, folder)
	if err != nil && !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, errDamaged) {
		return fmt.Errorf("cannot remove what an earlier run left: %w", err)
	}
	paths := []string{filepath.Join(folder, RecordFile)}
	for _, f := range record.Files {
		if f = filepath.FromSlash(f); filepath.IsLocal(f) {
			paths = append(paths, filepath.Join(folder, f))
		}
	}
	files, err := findFiles(disk, folder, outputs)
	if err != nil {
		return err
	}
	for _, f := range files {
		paths = append(paths, f.path)
	}
	for _, p := range paths {
		if err := disk.Remove(p); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("cannot remove what an earlier run left: %w", err)
		}
	}
	return nil
}

// Tidy removes what stopped runs left half-written in a folder, outputs as in Clear, if
// it was last written before a moment: so long ago that nobody is writing it any more.
// It returns the paths of what it removed, and of what it left alone.
func Tidy(disk FileSystem, folder string, outputs []string, before time.Time) (removed, left []string, err error) {
	files, err := findFiles(disk, folder, outputs)
	if err != nil {
		return nil, nil, err
	}
	for _, f := range files {
		switch {
		case !f.part:
		case !f.when.Before(before):
			left = append(left, f.path)
		default:
			if err := disk.Remove(f.path); err != nil && !errors.Is(err, fs.ErrNotExist) {
				return removed, left, fmt.Errorf("cannot remove what an earlier run left: %w", err)
			}
			removed = append(removed, f.path)
		}
	}
	return removed, left, nil
}
