package workbook

import (
	"bytes"
	"io"
	"os"
)

// spool holds bytes until they are asked for: few in memory, many in a temporary file.
type spool struct {
	size   int64
	memory bytes.Buffer
	file   *os.File
}

// mostInMemory is how many bytes of a spool are held in memory.
const mostInMemory = 4 << 20

// Write adds bytes.
func (s *spool) Write(b []byte) (int, error) {
	if s.file == nil && s.memory.Len()+len(b) > mostInMemory {
		var err error
		if s.file, err = os.CreateTemp("", "finduel-*.part"); err != nil {
			return 0, err
		}
	}
	s.size += int64(len(b))
	if s.file != nil {
		return s.file.Write(b)
	}
	return s.memory.Write(b)
}

// writeTo writes all bytes to w.
func (s *spool) writeTo(w io.Writer) error {
	if _, err := w.Write(s.memory.Bytes()); err != nil || s.file == nil {
		return err
	}
	if _, err := s.file.Seek(0, io.SeekStart); err != nil {
		return err
	}
	_, err := io.Copy(w, s.file)
	return err
}

// discard removes the temporary file, if there is one.
func (s *spool) discard() {
	if s.file != nil {
		s.file.Close()
		os.Remove(s.file.Name())
	}
}
