package study

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"unicode/utf8"

	"github.com/go-viper/mapstructure/v2"
	"github.com/spf13/viper"
)

// keyDelimiter separates keys in viper's paths: the ASCII unit separator, which no
// key of the document holds.
const keyDelimiter = "\x1f"

// errUnreadable stops viper where there is nothing to take; the faults say why.
var errUnreadable = errors.New("the study cannot be read")

// codec decodes study files for viper, with places. It is viper's registry of
// decoders as well as the decoder.
type codec struct {
	shaper
	read func([]byte, *findings) *node
}

// readers holds the reader of each format, by the name that viper knows it by.
var readers = map[string]func([]byte, *findings) *node{
	"yaml": readYAML, "json": readJSON, "toml": readTOML,
}

// Decoder returns the decoder of a format.
func (c *codec) Decoder(format string) (viper.Decoder, error) {
	read, ok := readers[format]
	if !ok {
		return nil, fmt.Errorf("%q is no format of a study", format)
	}
	c.read = read
	return c, nil
}

// Decode fills v with the sections, lists and leaves of a study that fit the
// document, and reports what does not.
func (c *codec) Decode(data []byte, v map[string]any) error {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !c.text(data) {
		return errUnreadable
	}
	root := c.read(data, c.f)
	if root == nil {
		return errUnreadable
	}
	if root.kind == nought || root.kind == mapping && len(root.keys) == 0 {
		c.f.add(place{1, 1}, "", "", "has nothing in it", "finduel new FILE writes a study to start from")
		return errUnreadable
	}
	for key, value := range c.section(root, reflect.TypeFor[document](), "", "study: booth") {
		v[key] = value
	}
	return nil
}

// text reports whether the data is text, and small enough.
func (c *codec) text(data []byte) bool {
	if len(data) > maxBytes {
		c.f.add(place{1, 1}, "", "", fmt.Sprintf("is larger than %d MiB", maxBytes>>20), "write long axes as from, to and steps")
		return false
	}
	for i := 0; i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			c.f.add(indexLines(data).place(i), "", "", "is not text in UTF-8", "save the file as UTF-8")
			return false
		case r < ' ' && r != '\t' && r != '\n' && r != '\r' || r == 0x7f || r == '\ufffe' || r == '\uffff':
			c.f.add(indexLines(data).place(i), "", "", fmt.Sprintf("holds the control character %U", r), "remove it")
			return false
		}
		i += size
	}
	return true
}

// decode reads data in a format into a document. It returns the places of
// everything in it, and false if there is no document at all.
func decode(data []byte, format string, f *findings) (document, map[string]place, bool, error) {
	c := &codec{shaper: shaper{f: f, places: map[string]place{}, listed: map[reflect.Type]bool{}}}
	v := viper.NewWithOptions(viper.KeyDelimiter(keyDelimiter), viper.WithDecoderRegistry(c))
	v.SetConfigType(format)
	var d document
	if err := v.ReadConfig(bytes.NewReader(data)); err != nil {
		if errors.Is(err, errUnreadable) {
			err = nil
		}
		return d, nil, false, err
	}
	err := v.UnmarshalExact(&d, func(c *mapstructure.DecoderConfig) {
		c.WeaklyTypedInput = false
		c.DecodeHook = nil
		c.MatchName = func(key, field string) bool { return key == field }
	})
	return d, c.places, err == nil, err
}
