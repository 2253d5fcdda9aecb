package workbook

import (
	"archive/zip"
	"bytes"
	"cmp"
	"compress/flate"
	"encoding/xml"
	"errors"
	"hash/crc32"
	"io"
	"io/fs"
	"math"
	"slices"
)

// archive packs the parts of a workbook so that equal parts give equal bytes:
// sorted by name, with one fixed time, and with the list of content types, which
// must come first, sorted too. It holds the parts compressed until Close,
// large ones in temporary files.
//
// It takes the place of the library's own packing, which puts parts and content
// types in a random order.
type archive struct {
	out     io.Writer
	replace map[string][]byte // parts that the library writes but that are written here
	parts   []*part
	open    *part
}

// part is one file inside the workbook.
type part struct {
	name     string
	packed   spool
	raw      bytes.Buffer // of contentTypes only
	deflate  *flate.Writer
	checksum uint32
	size     uint64
}

// contentTypes is the name of the part that lists the types of all others.
const contentTypes = "[Content_Types].xml"

// january1980 is the first day that the zip format can write (APPNOTE.TXT 4.4.6,
// MS-DOS date).
const january1980 = 1<<5 | 1

var errPartTooLarge = errors.New("workbook: a sheet is larger than 4 GiB")

// Create begins a part; the one before it is complete.
func (a *archive) Create(name string) (io.Writer, error) {
	if err := a.finish(); err != nil {
		return nil, err
	}
	p := &part{name: name}
	if name != contentTypes {
		var err error
		if p.deflate, err = flate.NewWriter(&p.packed, flate.BestSpeed); err != nil {
			return nil, err
		}
	}
	a.parts, a.open = append(a.parts, p), p
	if content, ok := a.replace[name]; ok {
		_, err := p.Write(content)
		return io.Discard, err
	}
	return p, nil
}

// Write adds to the part. Parts beyond 4 GiB would need the Zip64 form, which not
// every spreadsheet reads; they are refused.
func (p *part) Write(b []byte) (int, error) {
	if p.size += uint64(len(b)); p.size > math.MaxUint32 {
		return 0, errPartTooLarge
	}
	if p.deflate == nil {
		return p.raw.Write(b)
	}
	p.checksum = crc32.Update(p.checksum, crc32.IEEETable, b)
	return p.deflate.Write(b)
}

// AddFS is part of what the library asks for; workbooks have no file trees.
func (a *archive) AddFS(fs.FS) error { return errors.New("workbook: no file trees in a workbook") }

func (a *archive) finish() error {
	if a.open == nil || a.open.deflate == nil {
		return nil
	}
	err := a.open.deflate.Close()
	a.open = nil
	return err
}

// Close sorts the parts and writes the archive.
func (a *archive) Close() error {
	if err := a.finish(); err != nil {
		return err
	}
	slices.SortFunc(a.parts, func(x, y *part) int {
		if first := y.name == contentTypes; first != (x.name == contentTypes) {
			if first {
				return 1
			}
			return -1
		}
		return cmp.Compare(x.name, y.name)
	})
	z := zip.NewWriter(a.out)
	for _, p := range a.parts {
		if err := p.pack(z); err != nil {
			return err
		}
	}
	return z.Close()
}

func (p *part) pack(z *zip.Writer) error {
	if p.deflate == nil {
		sorted, err := sortTypes(p.raw.Bytes())
		if err != nil {
			return err
		}
		//lint:ignore SA1019 Modified would add a field of its own to the header; the plain date is all a workbook needs
		w, err := z.CreateHeader(&zip.FileHeader{Name: p.name, Method: zip.Deflate, ModifiedDate: january1980})
		if err != nil {
			return err
		}
		_, err = w.Write(sorted)
		return err
	}
	//lint:ignore SA1019 CreateRaw writes this field as it stands and does not look at Modified
	header := zip.FileHeader{Name: p.name, Method: zip.Deflate, ModifiedDate: january1980, CRC32: p.checksum,
		CompressedSize64: uint64(p.packed.size), UncompressedSize64: p.size}
	w, err := z.CreateRaw(&header)
	if err != nil {
		return err
	}
	return p.packed.writeTo(w)
}

// discard removes what the parts left on the disk.
func (a *archive) discard() {
	for _, p := range a.parts {
		p.packed.discard()
	}
}

// types is the content of the part contentTypes (ECMA-376 part 2, 10.1.2).
type types struct {
	XMLName   xml.Name        `xml:"http://schemas.openxmlformats.org/package/2006/content-types Types"`
	Defaults  []extensionType `xml:"Default"`
	Overrides []partType      `xml:"Override"`
}

type extensionType struct {
	Extension   string `xml:"Extension,attr"`
	ContentType string `xml:"ContentType,attr"`
}

type partType struct {
	PartName    string `xml:"PartName,attr"`
	ContentType string `xml:"ContentType,attr"`
}

// sortTypes returns the list of content types in a fixed order.
func sortTypes(raw []byte) ([]byte, error) {
	var t types
	if err := xml.Unmarshal(raw, &t); err != nil {
		return nil, err
	}
	slices.SortFunc(t.Defaults, func(x, y extensionType) int { return cmp.Compare(x.Extension, y.Extension) })
	slices.SortFunc(t.Overrides, func(x, y partType) int { return cmp.Compare(x.PartName, y.PartName) })
	sorted, err := xml.Marshal(t)
	return append([]byte(xml.Header), sorted...), err
}
