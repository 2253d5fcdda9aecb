package archive

import (
	"bytes"
	"context"
	"encoding/gob"
	"fmt"
	"os"
	"sync"

	"golang.org/x/sync/errgroup"

	"finduel/sweep"
	"finduel/sweep/breakeven"
)

// answersInBlock is how many answers are written, and read, at a time.
const answersInBlock = 64

// answersName is what the file would be called if it lasted.
const answersName = "answers"

// Answers is the break-even answers of a plan in a file that has no name and is gone
// with the program: there may be more than memory has room for, and they are looked at
// several times while a report is made of them.
type Answers struct {
	designs int
	file    *os.File
	blocks  []place

	mu     sync.Mutex
	end    int64
	loaded int // the block that is held; -1: none
	held   []breakeven.Answer
}

// place is where a block lies in the file.
type place struct {
	at     int64
	length int
}

// KeepAnswers compares every design of a plan with the reference, as breakeven.All does,
// and keeps the answers in a folder, or where the system keeps temporary files if that is
// empty. Close gives the room back. It returns what ctx says if ctx ends first.
func KeepAnswers(ctx context.Context, folder string, p *sweep.Plan, o sweep.Options) (*Answers, error) {
	o = o.WithDefaults()
	file, err := os.CreateTemp(folder, "."+answersName+".*.part")
	if err != nil {
		return nil, fmt.Errorf("cannot keep the break-even answers: %w", err)
	}
	os.Remove(file.Name()) // where open files cannot be removed, Close does it
	a := &Answers{designs: p.Designs(), file: file, loaded: -1}
	a.blocks = make([]place, (a.designs+answersInBlock-1)/answersInBlock)
	pool, inner := errgroup.WithContext(ctx)
	pool.SetLimit(o.Workers)
	for i := range a.blocks {
		if inner.Err() != nil {
			break
		}
		pool.Go(func() error {
			from := i * answersInBlock
			block := make([]breakeven.Answer, min(answersInBlock, a.designs-from))
			if err := breakeven.Stretch(inner, p, o, from, block); err != nil {
				return err
			}
			return a.keep(i, block)
		})
	}
	err = pool.Wait()
	if err == nil {
		err = ctx.Err()
	}
	if err != nil {
		a.Close()
		return nil, err
	}
	return a, nil
}

// keep writes a block behind those that are there.
func (a *Answers) keep(i int, block []breakeven.Answer) error {
	var b bytes.Buffer
	err := gob.NewEncoder(&b).Encode(block)
	a.mu.Lock()
	defer a.mu.Unlock()
	if err == nil {
		_, err = a.file.WriteAt(b.Bytes(), a.end)
	}
	if err != nil {
		return fmt.Errorf("cannot keep the break-even answers: %w", err)
	}
	a.blocks[i] = place{a.end, b.Len()}
	a.end += int64(b.Len())
	return nil
}

// read returns a block.
func (a *Answers) read(i int) (block []breakeven.Answer, err error) {
	data := make([]byte, a.blocks[i].length)
	if _, err = a.file.ReadAt(data, a.blocks[i].at); err == nil {
		err = gob.NewDecoder(bytes.NewReader(data)).Decode(&block)
	}
	if err != nil {
		return nil, fmt.Errorf("cannot read the break-even answers back: %w", err)
	}
	return block, nil
}

// Each hands over every answer, by design, until yield returns false.
func (a *Answers) Each(yield func(*breakeven.Answer) bool) error {
	for i := range a.blocks {
		block, err := a.read(i)
		if err != nil {
			return err
		}
		for j := range block {
			if !yield(&block[j]) {
				return nil
			}
		}
	}
	return nil
}

// Of returns the answer of a design. The block it is in stays in memory until one of
// another block is asked for.
func (a *Answers) Of(design int) (*breakeven.Answer, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if i := design / answersInBlock; i != a.loaded {
		block, err := a.read(i)
		if err != nil {
			return nil, err
		}
		a.loaded, a.held = i, block
	}
	kept := a.held[design%answersInBlock]
	return &kept, nil
}

// Len returns how many answers there are.
func (a *Answers) Len() int { return a.designs }

// Close removes the file.
func (a *Answers) Close() {
	a.file.Close()
	os.Remove(a.file.Name())
}
