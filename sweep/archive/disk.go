package archive

import (
	"io"
	"io/fs"
	"os"
	"runtime"
)

// FileSystem is what the archive asks of a disk. Disk is the real one; a test puts
// another in its place to see what a fault leaves behind.
type FileSystem interface {
	MakeFolder(path string) error                // with those above it; no error if it is there
	Create(folder, pattern string) (File, error) // a new file, its name as os.CreateTemp makes it
	Open(path string) (io.ReadCloser, error)     // to read
	List(folder string) ([]fs.DirEntry, error)   // sorted by name
	Rename(from, to string) error                // replaces what is there
	Remove(path string) error                    //
	SyncFolder(path string) error                // makes the names in it last
}

// File is a file being written.
type File interface {
	io.Writer
	Name() string
	Sync() error // makes what was written last
	Close() error
}

// Disk is the file system of the machine.
type Disk struct{}

// MakeFolder makes a folder and those above it.
func (Disk) MakeFolder(path string) error { return os.MkdirAll(path, 0o777) }

// Create makes a new file in a folder, readable by all.
func (Disk) Create(folder, pattern string) (File, error) {
	f, err := os.CreateTemp(folder, pattern)
	if err != nil {
		return nil, err
	}
	if err := f.Chmod(0o644); err != nil {
		f.Close()
		os.Remove(f.Name())
		return nil, err
	}
	return f, nil
}

// Open opens a file to read.
func (Disk) Open(path string) (io.ReadCloser, error) { return os.Open(path) }

// List returns what is in a folder.
func (Disk) List(folder string) ([]fs.DirEntry, error) { return os.ReadDir(folder) }

// Rename gives a file another name.
func (Disk) Rename(from, to string) error { return os.Rename(from, to) }

// Remove removes a file.
func (Disk) Remove(path string) error { return os.Remove(path) }

// SyncFolder flushes a folder to the disk; on Windows, where folders cannot be
// flushed, the system keeps names by itself.
func (Disk) SyncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

// readFile returns what is in a file.
func readFile(disk FileSystem, path string) ([]byte, error) {
	f, err := disk.Open(path)
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(f)
	if closing := f.Close(); err == nil {
		err = closing
	}
	return data, err
}
