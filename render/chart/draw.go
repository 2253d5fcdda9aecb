package chart

import (
	"errors"
	"runtime"
	"sync"

	"finduel/render"
)

// Set is what Draw answers.
type Set struct {
	Pictures []Picture // in a fixed order
	Skipped  []Skip    // the charts that are not among them
}

// Picture is one chart.
type Picture struct {
	Name    string // of its file, e.g. "coolant-over-air.png"
	Caption string // what it shows, in full sentences, for whoever cannot see it
	PNG     []byte // 1920 by 1200 pixels
}

// Skip says why a chart was not drawn.
type Skip struct {
	Name string // of the file that is not there
	Why  string // a clause without capital and full stop
}

// chart is a picture by the name of its file. It draws itself, or says why it cannot
// apply.
type chart struct {
	name string
	draw func(*render.Report) (f *figure, caption, why string)
}

// charts lists every chart of a report, one map for every pair of axes.
func charts(rep *render.Report) []chart {
	list := []chart{{"coolant-over-air.png", coolantOverAir}}
	list = append(list, maps(rep)...)
	return append(list,
		chart{"parity.png", parity},
		chart{"against-sound.png", againstSound},
		chart{"temperature-budget.png", temperatureBudget},
		chart{"fan-curve.png", fanCurve},
	)
}

// Names are the names of all files that there may be a chart in, as path.Match reads
// them.
var Names = []string{
	"coolant-over-air.png", "breakeven-map.png", "breakeven-map-[0-9].png", "breakeven-map-[0-9][0-9].png",
	"parity.png", "against-sound.png", "temperature-budget.png", "fan-curve.png",
}

// Draw draws every chart of a report that applies to it. It returns an error if
// the report lacks its study or its results, or if a picture cannot be encoded.
func Draw(rep *render.Report) (Set, error) {
	if rep == nil || rep.Study == nil || rep.Results == nil || rep.Results.Plan == nil {
		return Set{}, errors.New("a report without a study and results cannot be drawn")
	}
	list := charts(rep)
	var set Set
	pictures, failures := make([]*Picture, len(list)), make([]error, len(list))
	var packing sync.WaitGroup // of one picture while the next one is drawn
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i, c := range list {
		f, caption, why := c.draw(rep)
		if why != "" {
			set.Skipped = append(set.Skipped, Skip{Name: c.name, Why: why})
			continue
		}
		pictures[i] = &Picture{Name: c.name, Caption: caption}
		free <- struct{}{}
		packing.Go(func() {
			pictures[i].PNG, failures[i] = f.png()
			<-free
		})
	}
	packing.Wait()
	if err := errors.Join(failures...); err != nil {
		return Set{}, err
	}
	for _, p := range pictures {
		if p != nil {
			set.Pictures = append(set.Pictures, *p)
		}
	}
	return set, nil
}
