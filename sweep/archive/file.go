package archive

import (
	"bufio"
	"fmt"
	"io"
	"path/filepath"
)

// WriteFile makes the file at path hold what write writes, all of it or nothing:
// if write or the disk fails, what was there before stays as it was. Folders are
// made as needed.
func WriteFile(path string, write func(io.Writer) error) error {
	return writeFile(Disk{}, path, write)
}

// writeFile writes under a temporary name in the same folder, flushes the file,
// renames it and flushes the folder.
func writeFile(disk FileSystem, path string, write func(io.Writer) error) (err error) {
	folder := filepath.Dir(path)
	if err := disk.MakeFolder(folder); err != nil {
		return fmt.Errorf("cannot make the folder: %w", err)
	}
	f, err := disk.Create(folder, "."+filepath.Base(path)+".*.part")
	if err != nil {
		return fmt.Errorf("cannot write: %w", err)
	}
	closed := false
	defer func() {
		if err != nil {
			if !closed {
				f.Close()
			}
			disk.Remove(f.Name())
			err = fmt.Errorf("cannot write %s: %w", path, err)
		}
	}()
	buffered := bufio.NewWriterSize(f, 1<<16)
	if err := write(buffered); err != nil {
		return err
	}
	if err := buffered.Flush(); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	closed = true
	if err := f.Close(); err != nil {
		return err
	}
	if err := disk.Rename(f.Name(), path); err != nil {
		return err
	}
	return disk.SyncFolder(folder)
}
