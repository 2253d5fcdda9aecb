package archive

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing/fstest"
)

// memory is a file system in memory that forgets, when the power fails, what was not
// flushed: contents that were not synced and names whose folder was not. A fault may
// be put into every operation.
type memory struct {
	mu    sync.Mutex
	names map[string]*content // as running programs see them
	kept  map[string]*content // as they would be found after a power failure
	parts int

	operations []string                           // all that were asked for
	fault      func(operation, path string) error // before each; nil: none
	deafSync   bool                               // Sync does nothing, and says it did
	deafFolder bool                               // SyncFolder likewise
}

type content struct{ data, synced []byte }

func newMemory() *memory {
	return &memory{names: map[string]*content{}, kept: map[string]*content{}}
}

// begin counts an operation and asks for its fault.
func (m *memory) begin(operation, path string) error {
	m.operations = append(m.operations, operation+" "+path)
	if m.fault == nil {
		return nil
	}
	if err := m.fault(operation, path); err != nil {
		return &fs.PathError{Op: operation, Path: path, Err: err}
	}
	return nil
}

func (m *memory) MakeFolder(path string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.begin("mkdir", path)
}

func (m *memory) Create(folder, pattern string) (File, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.parts++
	path := filepath.Join(folder, strings.Replace(pattern, "*", fmt.Sprint(m.parts), 1))
	if err := m.begin("create", path); err != nil {
		return nil, err
	}
	m.names[path] = new(content)
	return &memoryFile{m, path, m.names[path]}, nil
}

func (m *memory) Open(path string) (io.ReadCloser, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if err := m.begin("open", path); err != nil {
		return nil, err
	}
	c, ok := m.names[path]
	if !ok {
		return nil, &fs.PathError{Op: "open", Path: path, Err: fs.ErrNotExist}
	}
	return io.NopCloser(bytes.NewReader(bytes.Clone(c.data))), nil
}

func (m *memory) List(folder string) ([]fs.DirEntry, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if err := m.begin("list", folder); err != nil {
		return nil, err
	}
	flat := fstest.MapFS{}
	for path := range m.names {
		if filepath.Dir(path) == folder {
			flat[filepath.Base(path)] = &fstest.MapFile{}
		}
	}
	return flat.ReadDir(".")
}

func (m *memory) Rename(from, to string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if err := m.begin("rename", to); err != nil {
		return err
	}
	c, ok := m.names[from]
	if !ok {
		return &fs.PathError{Op: "rename", Path: from, Err: fs.ErrNotExist}
	}
	m.names[to] = c
	delete(m.names, from)
	return nil
}

func (m *memory) Remove(path string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if err := m.begin("remove", path); err != nil {
		return err
	}
	if _, ok := m.names[path]; !ok {
		return &fs.PathError{Op: "remove", Path: path, Err: fs.ErrNotExist}
	}
	delete(m.names, path)
	return nil
}

func (m *memory) SyncFolder(folder string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if err := m.begin("syncfolder", folder); err != nil || m.deafFolder {
		return err
	}
	for path := range m.kept {
		if filepath.Dir(path) == folder && m.names[path] == nil {
			delete(m.kept, path)
		}
	}
	for path, c := range m.names {
		if filepath.Dir(path) == folder {
			m.kept[path] = c
		}
	}
	return nil
}

type memoryFile struct {
	m    *memory
	path string
	c    *content
}

func (f *memoryFile) Name() string { return f.path }

// Write takes half of what it is given if it fails, as a full disk may.
func (f *memoryFile) Write(p []byte) (int, error) {
	f.m.mu.Lock()
	defer f.m.mu.Unlock()
	if err := f.m.begin("write", f.path); err != nil {
		f.c.data = append(f.c.data, p[:len(p)/2]...)
		return len(p) / 2, err
	}
	f.c.data = append(f.c.data, p...)
	return len(p), nil
}

func (f *memoryFile) Sync() error {
	f.m.mu.Lock()
	defer f.m.mu.Unlock()
	if err := f.m.begin("sync", f.path); err != nil || f.m.deafSync {
		return err
	}
	f.c.synced = bytes.Clone(f.c.data)
	return nil
}

func (f *memoryFile) Close() error {
	f.m.mu.Lock()
	defer f.m.mu.Unlock()
	return f.m.begin("close", f.path)
}

// bytes returns what a file holds; nil if it is not there.
func (m *memory) bytes(path string) []byte {
	m.mu.Lock()
	defer m.mu.Unlock()
	if c := m.names[path]; c != nil {
		return c.data
	}
	return nil
}

// put makes a file hold data.
func (m *memory) put(path string, data []byte) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.names[path] = &content{data: data}
}

// afterPowerFailure returns what a disk may hold after the power has failed: all that
// was flushed and, at random, some of what was not.
func (m *memory) afterPowerFailure(random *rand.Rand) *memory {
	after := newMemory()
	settle := func(c *content) *content {
		data := bytes.Clone(c.synced)
		if len(c.data) > len(data) && random.IntN(2) == 0 {
			data = append(data, c.data[len(data):len(data)+random.IntN(len(c.data)-len(data)+1)]...)
			if n := len(data) - len(c.synced); n > 0 && random.IntN(2) == 0 {
				clear(data[len(c.synced)+random.IntN(n):]) // room that was given and not yet written to
			}
		}
		return &content{data: data, synced: data}
	}
	paths := slices.Sorted(maps.Keys(m.names))
	for path := range m.kept {
		if m.names[path] == nil {
			paths = append(paths, path)
		}
	}
	slices.Sort(paths)
	for _, path := range paths {
		c := m.kept[path]
		if now := m.names[path]; now != c && random.IntN(2) == 0 {
			c = now // the name reached the disk by itself
		}
		if c != nil {
			after.names[path] = settle(c)
			after.kept[path] = after.names[path]
		}
	}
	return after
}

// contents returns all files that are not unfinished, by name.
func (m *memory) contents() map[string]string {
	all := map[string]string{}
	for path, c := range m.names {
		if !partName.MatchString(filepath.Base(path)) {
			all[path] = string(c.data)
		}
	}
	return all
}
