package archive

import (
	"bytes"
	"context"
	"encoding/binary"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/parquet-go/parquet-go"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/sweep"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

// planOf returns the plan of an invented study with a number of points, some of them
// left out.
func planOf(t testing.TB, points int) *sweep.Plan {
	t.Helper()
	s := reports.TwoSetups()
	s.Hash = strings.Repeat("ab", 32)
	axis := func(key string, low, high float64, n int) {
		in, ok := model.InputOf(key)
		if !ok {
			t.Fatalf("no input %s", key)
		}
		a := study.Axis{Input: in}
		for i := range n {
			a.Values = append(a.Values, low+(high-low)*float64(i)/float64(max(n-1, 1)))
		}
		s.Axes = append(s.Axes, a)
	}
	axis("fin_density", 400, 900, points/50)
	axis("fan_speed", 5, 300, 50) // the slowest boil
	density := s.Axes[0]
	s.Exclusions = []study.Exclusion{{
		{Input: density.Input, Above: 800, Below: -1},
		{Input: s.Axes[1].Input, Above: 250, Below: -1},
	}}
	return sweep.Lay(s)
}

// rowsOf evaluates a stretch of a plan.
func rowsOf(t testing.TB, p *sweep.Plan, span sweep.Span) []sweep.Row {
	t.Helper()
	var kept []sweep.Row
	if err := sweep.Run(context.Background(), p, sweep.Options{Workers: 1}, []sweep.Span{span}, func(_ sweep.Span, rows []sweep.Row) error {
		kept = append(kept, rows...)
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	return kept
}

// Every number of a State has a column of its own: what is not kept cannot be drawn.
func TestEveryNumberOfAStateIsKept(t *testing.T) {
	var s model.State
	kept := map[*float64]string{}
	for i := range model.Outputs {
		o := &model.Outputs[i]
		at := o.At(&s)
		if other, twice := kept[at]; twice {
			t.Errorf("%s and %s are the same number", o.Key, other)
		}
		kept[at] = o.Key
	}
	numbers := 0
	var walk func(v reflect.Value, name string)
	walk = func(v reflect.Value, name string) {
		for i := range v.NumField() {
			f, name := v.Field(i), name+"."+v.Type().Field(i).Name
			switch {
			case f.Kind() == reflect.Float64:
				numbers++
				if kept[f.Addr().Interface().(*float64)] == "" {
					t.Errorf("%s is no output, so no column keeps it: add it to model.Outputs", name)
				}
			case f.Kind() == reflect.Struct:
				walk(f, name)
			case f.Type() != reflect.TypeFor[model.Warnings]():
				t.Errorf("%s is a %s, which no column keeps", name, f.Type())
			}
		}
	}
	walk(reflect.ValueOf(&s).Elem(), "State")
	if numbers != len(kept) || numbers < 40 {
		t.Errorf("%d numbers in a State, %d kept", numbers, len(kept))
	}
}

// A chunk comes back as it was, to the last bit, with values, failures and points left
// out.
func TestChunksComeBackExactly(t *testing.T) {
	p := planOf(t, 3000)
	table := tableOf(p, IdentityOf(p, 1, "v"))
	failed, warned, leftOut := 0, 0, 0
	for i := range p.Chunks() {
		span := p.Chunk(i)
		rows := rowsOf(t, p, span)
		leftOut += span.To - span.From - len(rows)
		for _, row := range rows {
			if row.Failure != "" {
				failed++
			} else if row.State.Warnings != 0 {
				warned++
			}
		}
		data, err := new(encoder).encode(table, rows)
		if err != nil {
			t.Fatal(err)
		}
		got, err := table.decode(data, nil)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(got, rows) {
			t.Fatalf("chunk %d comes back otherwise", i)
		}
		again, err := new(encoder).encode(table, got)
		if err != nil || !bytes.Equal(data, again) {
			t.Errorf("chunk %d is written otherwise the second time (%v)", i, err)
		}
	}
	if failed == 0 || warned == 0 || leftOut == 0 {
		t.Errorf("the chunks hold %d failures, %d rows with warnings and lack %d rows: each kind is wanted", failed, warned, leftOut)
	}
	for _, rows := range [][]sweep.Row{{}, {{Point: 7, Failure: "alone"}}, {{Point: 8, Reference: 1}, {Point: 9, State: model.State{Warnings: model.StallRegion}}}} {
		data, err := new(encoder).encode(table, rows)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := table.decode(data, []sweep.Row{}); err != nil || !reflect.DeepEqual(got, rows) {
			t.Errorf("%v comes back as %v (%v)", rows, got, err)
		}
	}
}

// The file says what its columns are: quantities in SI units, in the order of the
// model's lists, and which run they belong to.
func TestAChunkSaysWhatItHolds(t *testing.T) {
	p := planOf(t, 1000)
	id := IdentityOf(p, 7, "1.2.3")
	data, err := new(encoder).encode(tableOf(p, id), rowsOf(t, p, p.Chunk(0)))
	if err != nil {
		t.Fatal(err)
	}
	f, err := parquet.OpenFile(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var want, got []string
	want = append(want, "point", "fin_density", "fan_speed")
	for _, o := range model.Outputs {
		want = append(want, o.Key)
	}
	want = append(want, "reference_over_air", "difference", "warnings", "reason")
	for _, path := range f.Schema().Columns() {
		got = append(got, path[0])
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("columns\n%v\nwant\n%v", got, want)
	}
	for key, value := range map[string]string{
		"finduel.study_hash": p.Study.Hash, "finduel.seed": "7", "finduel.version": "1.2.3", "finduel.study": "two",
		"unit.coolant_over_air": "K", "unit.fan_speed": "rev/s", "unit.fin_density": "1/m", "label.fan_speed": "fan speed",
	} {
		if said, _ := f.Lookup(key); said != value {
			t.Errorf("%s is %q, want %q", key, said, value)
		}
	}
	for _, in := range model.Inputs {
		checkUnit(t, in.Quantity)
	}
	for _, o := range model.Outputs {
		checkUnit(t, o.Quantity)
	}
}

// The file says between which values each column lies and how many rows have none:
// readers leave out files by it.
func TestAChunkSaysItsBounds(t *testing.T) {
	p := planOf(t, 1000)
	table := tableOf(p, IdentityOf(p, 1, "v"))
	rows := rowsOf(t, p, p.Chunk(0))
	data, err := new(encoder).encode(table, rows)
	if err != nil {
		t.Fatal(err)
	}
	f, err := parquet.OpenFile(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	bounded, empty := 0, 0
	for i, chunk := range f.Metadata().RowGroups[0].Columns {
		c, said := &table.columns[i], chunk.MetaData.Statistics
		low, high, none := math.Inf(1), math.Inf(-1), int64(0)
		for j := range rows {
			v := math.NaN()
			switch row := &rows[j]; {
			case c.whole != nil:
				v = float64(c.whole(row))
			case c.output != nil && row.Failure == "":
				v = c.output.Get(&row.State)
			case c.number != nil:
				v = c.number(row)
			case c.word != nil:
				if _, ok := c.word(row); ok {
					v = 0
				}
			}
			if math.IsNaN(v) {
				none++
				continue
			}
			low, high = min(low, v), max(high, v)
		}
		if said.NullCount != none {
			t.Errorf("%s: %d rows have no value, it says %d", c.name, none, said.NullCount)
		}
		switch {
		case c.word != nil:
		case low > high:
			if empty++; said.MinValue != nil || said.MaxValue != nil {
				t.Errorf("%s has no values, but bounds", c.name)
			}
		default:
			bounded++
			least, most := binary.LittleEndian.Uint64(said.MinValue), binary.LittleEndian.Uint64(said.MaxValue)
			if c.whole != nil && (least != uint64(low) || most != uint64(high)) ||
				c.whole == nil && (math.Float64frombits(least) != low || math.Float64frombits(most) != high) {
				t.Errorf("%s lies between %g and %g; it says %x and %x", c.name, low, high, said.MinValue, said.MaxValue)
			}
			if c.whole == nil && low == 0 && !math.Signbit(math.Float64frombits(least)) {
				t.Errorf("%s: a bound of zero must have the sign of the end that it is", c.name)
			}
		}
	}
	if bounded < 50 || empty == 0 {
		t.Errorf("%d columns with values, %d without", bounded, empty)
	}
}

// checkUnit checks that a quantity has an SI unit to be written in.
func checkUnit(t *testing.T, q quantity.Quantity) {
	t.Helper()
	if unit := siUnit(q.Kind); unit == "" && q.Kind != quantity.Ratio && q.Kind != quantity.Count {
		t.Errorf("%s, %v, has no SI unit", q.Key, q.Kind)
	}
}

// No damage is taken for data: bytes are flipped and cut off all over a chunk.
func TestDamageIsFound(t *testing.T) {
	p := planOf(t, 1000)
	id := IdentityOf(p, 1, "v")
	disk := newMemory()
	s, err := Open(context.Background(), disk, "run", p, id, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Keep(p.Chunk(0), rowsOf(t, p, p.Chunk(0))); err != nil {
		t.Fatal(err)
	}
	open := func() (*Store, error) { return Open(context.Background(), disk, "run", p, id, nil) }
	if s, err := open(); err != nil || s.Found.Chunks != 1 {
		t.Fatalf("the chunk is not found again (%v)", err)
	}
	random := rand.New(rand.NewPCG(1, 2))
	found := 0
	damage := func(path string, how func([]byte) []byte) {
		t.Helper()
		before := disk.bytes(path)
		disk.put(path, how(bytes.Clone(before)))
		if bytes.Equal(before, disk.bytes(path)) {
			t.Fatalf("%s was not damaged", path)
		}
		s, err := open()
		switch {
		case err != nil: // a changed manifest may be that of another run
			if _, refused := err.(*Refusal); !refused {
				t.Errorf("%s: %v", path, err)
			}
		case s.Found.Chunks != 0 || len(s.Found.Damaged) != 1 || len(s.Missing(Shard{})) != 1:
			t.Errorf("%s: found %+v", path, s.Found)
		case !strings.Contains(s.Found.Damaged[0], "000000"):
			t.Errorf("%s: %q does not name the chunk", path, s.Found.Damaged[0])
		}
		found++
		disk.put(path, before)
	}
	data := dataPath("run", 0)
	n := len(disk.bytes(data))
	for range 200 {
		at := random.IntN(n)
		damage(data, func(b []byte) []byte { b[at] ^= 1 << random.IntN(8); return b })
	}
	for _, at := range []int{0, 1, 4, n / 2, n - 8, n - 1} {
		damage(data, func(b []byte) []byte { return b[:at] })
		damage(data, func(b []byte) []byte { b[at] ^= 0x10; return b })
	}
	damage(data, func(b []byte) []byte { return append(b, 0) })
	manifest := manifestPath("run", 0)
	for at := range len(disk.bytes(manifest)) - 1 { // the last byte ends the line and says nothing
		damage(manifest, func(b []byte) []byte { return b[:at] })
	}
	if found < 400 {
		t.Errorf("only %d damages were tried", found)
	}
	disk.Remove(data)
	if s, err := open(); err != nil || len(s.Found.Damaged) != 1 {
		t.Errorf("a manifest without data is not found (%v)", err)
	}
}

// A chunk of a program that answers otherwise under the same version is computed
// again.
func TestAnswersOfAnotherModelAreNotUsed(t *testing.T) {
	p := planOf(t, 3000)
	id, disk := IdentityOf(p, 1, "v"), newMemory()
	s, err := Open(context.Background(), disk, "run", p, id, sweep.Physics)
	if err != nil {
		t.Fatal(err)
	}
	if err := sweep.Run(context.Background(), p, sweep.Options{}, s.Missing(Shard{}), s.Keep); err != nil {
		t.Fatal(err)
	}
	if s, err = Open(context.Background(), disk, "run", p, id, sweep.Physics); err != nil || s.Found.Chunks != p.Chunks() {
		t.Fatalf("%d of %d chunks are used again (%v)", s.Found.Chunks, p.Chunks(), err)
	}
	other := func(r model.Rig) (sweep.AtSpeed, error) {
		r.Core.FinConductivity *= 1 + 1e-12
		return sweep.Physics(r)
	}
	if s, err = Open(context.Background(), disk, "run", p, id, other); err != nil || s.Found.Chunks != 0 || len(s.Found.Damaged) != p.Chunks() {
		t.Errorf("of another model %d chunks are used (%v)", s.Found.Chunks, err)
	}
}

// So is a chunk whose points a run walks to otherwise under the same version, by as little
// as the last bit of one number, though each point alone is the same.
func TestPointsThatAreWalkedToOtherwiseAreNotUsed(t *testing.T) {
	p := planOf(t, 3000)
	id := IdentityOf(p, 1, "v")
	used := func(change func(rows []sweep.Row)) int {
		disk := newMemory()
		s, err := Open(context.Background(), disk, "run", p, id, sweep.Physics)
		if err != nil {
			t.Fatal(err)
		}
		if err := sweep.Run(context.Background(), p, sweep.Options{Workers: 1}, s.Missing(Shard{}), func(span sweep.Span, rows []sweep.Row) error {
			change(rows)
			return s.Keep(span, rows)
		}); err != nil {
			t.Fatal(err)
		}
		if s, err = Open(context.Background(), disk, "run", p, id, sweep.Physics); err != nil {
			t.Fatal(err)
		}
		return s.Found.Chunks
	}
	if n := used(func([]sweep.Row) {}); n != p.Chunks() {
		t.Fatalf("%d of %d chunks are used again", n, p.Chunks())
	}
	changed := 0
	n := used(func(rows []sweep.Row) {
		for i := range rows[:walked] {
			if rows[i].Failure == "" && i > 0 && rows[i-1].Failure == "" { // not the first of a walk
				at := &rows[i].State.CoolantOverAir
				*at = math.Nextafter(*at, math.Inf(1))
				changed++
				return
			}
		}
	})
	if changed != p.Chunks() || n != 0 {
		t.Errorf("%d chunks of %d are changed, and %d used again", changed, p.Chunks(), n)
	}
}

// A shard is a pure share: every chunk belongs to exactly one.
func TestShardsShareOut(t *testing.T) {
	for n := 1; n < 20; n++ {
		for chunk := range 40 {
			has := 0
			for k := 1; k <= n; k++ {
				if (Shard{k, n}).Has(chunk) {
					has++
				}
			}
			if has != 1 {
				t.Errorf("chunk %d is in %d of %d shards", chunk, has, n)
			}
		}
	}
	for _, c := range []struct {
		text, wrong string
		want        Shard
	}{
		{"3/8", "", Shard{3, 8}}, {"1/1", "", Shard{1, 1}}, {"8/8", "", Shard{8, 8}},
		{"0/8", "shards count from 1", Shard{}}, {"9/8", "the last 8/8", Shard{}}, {"-1/8", "the first is 1/8", Shard{}},
		{"1/0", "at least one", Shard{}}, {"3", "no shard", Shard{}}, {"a/b", "no shard", Shard{}}, {"1/2/3", "no shard", Shard{}}, {"", "no shard", Shard{}},
	} {
		got, err := ParseShard(c.text)
		if got != c.want || (err == nil) != (c.wrong == "") || err != nil && !strings.Contains(err.Error(), c.wrong) {
			t.Errorf("%q is %v (%v)", c.text, got, err)
		}
		if err == nil && got.String() != c.text {
			t.Errorf("%q is written as %q", c.text, got)
		}
	}
}
