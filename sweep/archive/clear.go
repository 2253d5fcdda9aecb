package archive

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
)

// Clear removes from a folder what a run left there: the record first, the files it
// names, all chunks, whole or not, and their manifests. Nothing else is touched.
func Clear(disk FileSystem, folder string) error {
	remove := func(path string) error {
		if err := disk.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("cannot remove what an earlier run left: %w", err)
		}
		return nil
	}
	record, err := ReadRecord(disk, folder)
	if err != nil && !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, errDamaged) {
		return fmt.Errorf("cannot remove what an earlier run left: %w", err)
	}
	if err := remove(filepath.Join(folder, RecordFile)); err != nil {
		return err
	}
	for _, f := range record.Files {
		if f = filepath.FromSlash(f); filepath.IsLocal(f) {
			if err := remove(filepath.Join(folder, f)); err != nil {
				return err
			}
		}
	}
	for sub, pattern := range map[string]string{manifestsFolder: "*.json", pointsFolder: "*.parquet"} {
		entries, err := disk.List(filepath.Join(folder, sub))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("cannot remove what an earlier run left: %w", err)
		}
		for _, e := range entries {
			if ours, _ := filepath.Match(pattern, e.Name()); ours || unfinished(e.Name()) {
				if err := remove(filepath.Join(folder, sub, e.Name())); err != nil {
					return err
				}
			}
		}
	}
	return nil
}
