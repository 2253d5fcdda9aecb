package archive

import (
	"fmt"
	"reflect"
	"unsafe"

	"finduel/model"
)

// cell is one number of a State as a column keeps it.
type cell struct {
	model.Output
	offset uintptr // of the number in a State
}

// cells lists the numbers of a State in the order of model.Outputs. It panics if an
// output is not one of them: a value that is not kept cannot be drawn again.
var cells = func() []cell {
	var list []cell
	for _, o := range model.Outputs {
		offset, ok := offsetOf(o)
		if !ok {
			panic(fmt.Sprintf("archive: the output %s is not one number of a State", o.Key))
		}
		list = append(list, cell{o, offset})
	}
	return list
}()

// set puts the cell's number into a State. The number is found by its offset: this
// is done for every number of every row that is read, and asking reflect each time
// takes longer than all else about reading.
func (c *cell) set(s *model.State, v float64) {
	*(*float64)(unsafe.Add(unsafe.Pointer(s), c.offset)) = v
}

// offsetOf finds the number of a State that an output reads: the one that it follows,
// all others being what they are.
func offsetOf(o model.Output) (uintptr, bool) {
	found, offset := 0, uintptr(0)
	numbers := numbersOf(reflect.TypeFor[model.State](), 0)
	var s model.State
	for _, at := range numbers {
		(&cell{offset: at}).set(&s, 2) // not zero: that may mean that something is not known
	}
	for _, at := range numbers {
		changed, c := s, cell{offset: at}
		if c.set(&changed, 3); o.Get(&s) == 2 && o.Get(&changed) == 3 {
			found, offset = found+1, at
		}
	}
	return offset, found == 1
}

// numbersOf returns the offsets of all numbers in a struct and those within it.
func numbersOf(t reflect.Type, at uintptr) []uintptr {
	var list []uintptr
	for i := range t.NumField() {
		switch f := t.Field(i); f.Type.Kind() {
		case reflect.Float64:
			list = append(list, at+f.Offset)
		case reflect.Struct:
			list = append(list, numbersOf(f.Type, at+f.Offset)...)
		}
	}
	return list
}
