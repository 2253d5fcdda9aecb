package render

// longestLine is how many points of a design are drawn: more than a picture has
// pixels across show nothing more.
const longestLine = 1000

// Line returns the points of a design in the order of the plan: all of them, or,
// where a line could not show them all, some that are spread evenly from the first to
// the last.
func (rep *Report) Line(design int) []int {
	first, after := rep.plan().Point(design, 0), rep.plan().Point(design+1, 0)
	n := min(after-first, longestLine)
	line := make([]int, n)
	for i := range line {
		line[i] = first
		if n > 1 {
			line[i] += i * (after - first - 1) / (n - 1)
		}
	}
	return line
}
