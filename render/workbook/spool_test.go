package workbook

import (
	"bytes"
	"os"
	"testing"
)

// A spool gives back what it took, few bytes or many, and leaves no file behind.
func TestSpool(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	files := func() int {
		list, err := os.ReadDir(os.TempDir())
		if err != nil {
			t.Fatal(err)
		}
		return len(list)
	}
	spooled := 0
	for _, size := range []int{0, 1, mostInMemory, mostInMemory + 1, 3*mostInMemory + 5} {
		var want bytes.Buffer
		var s spool
		for piece := 1; want.Len() < size; piece = piece*3 + 1 {
			b := bytes.Repeat([]byte{byte(piece)}, min(piece, size-want.Len()))
			want.Write(b)
			if _, err := s.Write(b); err != nil {
				t.Fatal(err)
			}
		}
		var got bytes.Buffer
		if err := s.writeTo(&got); err != nil || !bytes.Equal(got.Bytes(), want.Bytes()) || s.size != int64(size) {
			t.Errorf("%d bytes come back as %d, counted %d (%v)", size, got.Len(), s.size, err)
		}
		if files() > 0 {
			spooled++
		}
		if s.discard(); files() != 0 {
			t.Errorf("%d bytes leave a file behind", size)
		}
	}
	if spooled != 2 {
		t.Errorf("%d spools were on the disk, want 2", spooled)
	}
}
